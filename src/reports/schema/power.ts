/** The JSON of `power`: the model that was solved, the rotation, the steps and the proof. */
import { flag, id, instant, list, mapOf, number, object, orNull, type Shape, text, whole, word } from "./shape.ts";

const model = object({
  from: instant,
  to: instant,
  bays: list(text),
  grainWh: number,
  enoughWh: number,
  touches: list(object({ id: text, at: instant, reach: list(text) })),
  packs: list(object({ id, mount: text, wh: number, startWh: number, reserveWh: number, at: text })),
  chargers: list(
    object({
      id,
      mount: text,
      bay: text,
      slots: whole,
      watts: number,
      taper: number,
      totalWatts: orNull(number),
      on: list(list(instant)),
    }),
  ),
  loads: list(object({ id, mount: text, bay: { anyOf: [text, list(list(text))] } })),
  demands: list(object({ id: text, kind: text, from: instant, to: instant, watts: mapOf(number) })),
});

const pack = object({
  id,
  steps: list(object({ from: instant, to: instant, at: text, doing: text, chargeBefore: number, chargeAfter: number })),
});

const proved = word("exhausted", "simulated", "impossible");

const rotation = object({
  model,
  rotation: object({
    covered: list(text),
    moves: list(object({ touch: text, pack: id, from: text, to: text })),
  }),
  packs: list(pack),
  hands: list(
    object({
      from: instant,
      to: instant,
      where: id,
      who: list(id),
      others: list(id),
      moves: list(object({ pack: id, from: text, fromSlot: orNull(whole), to: text, toSlot: orNull(whole) })),
    }),
  ),
  covered: list(object({ activity: text, load: id, packs: list(id), marginWh: orNull(number), ok: flag })),
  leastMarginWh: orNull(number),
  moveCount: whole,
  proof: object({
    coverage: orNull(proved),
    margin: orNull(proved),
    moves: orNull(proved),
    marginBoundWh: orNull(number),
    movesBound: orNull(number),
  }),
  missing: orNull(
    object({
      first: orNull(text),
      packsNeeded: orNull(whole),
      packsThere: orNull(whole),
      missingWh: orNull(number),
      slots: orNull(whole),
      chargeMinutes: orNull(whole),
      moments: whole,
      blocking: list(text),
      cures: list(object({ what: text, edits: list(text) })),
    }),
  ),
});

/** `power --fly`. */
const fly = object({
  people: list(id),
  packs: list(
    object({
      id,
      count: whole,
      wh: number,
      how: text,
      allowed: whole,
      perPerson: orNull(whole),
      rule: text,
    }),
  ),
  powerBanks: object({ perPerson: orNull(whole), since: orNull(text), rule: text }),
});

export const data: Shape = { anyOf: [rotation, fly] };
