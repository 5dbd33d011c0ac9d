/** The JSON of `drives`. */

import { noSignal } from "./noSignal.ts";
import {
  anything,
  flag,
  id,
  instant,
  list,
  number,
  object,
  orNull,
  type Shape,
  share,
  text,
  whole,
  word,
} from "./shape.ts";

const leg = object({
  vehicle: id,
  from: id,
  to: id,
  km: orNull(number),
  likelyMinutes: whole,
  badMinutes: whole,
  basis: word("stated", "routed", "estimated"),
  leaveBy: orNull(instant),
  slackMinutes: orNull(whole),
  chance: orNull(share),
  chanceIndependent: orNull(share),
  chanceSameLuck: orNull(share),
  id,
  hit: orNull(id),
  chanceIndependentHigh: orNull(share),
  leaveByChance: orNull(instant),
  leave: instant,
  arrive: instant,
  plannedMinutes: whole,
  plannedAt: word("bad", "drive"),
  range: orNull(object({ lowMinutes: whole, highMinutes: whole })),
  noSignal: flag,
});

const gap = object({
  vehicle: id,
  from: id,
  to: id,
  place: id,
  stayMinutes: orNull(whole),
  turnBack: orNull(instant),
  basis: orNull(text),
  outMinutes: orNull(whole),
  backMinutes: orNull(whole),
  km: orNull(number),
  farthest: flag,
});

const fuel = object({
  vehicle: id,
  rangeKm: number,
  reserveKm: number,
  startKm: number,
  endKm: number,
  leastKm: number,
  drivenKm: number,
  idleMinutes: whole,
  idleKm: number,
  estimated: flag,
  fuelBy: orNull(object({ stop: id, place: id, withinKm: number })),
  steps: list(object({ to: id, at: instant, leftKm: number })),
});

const relief = object({
  status: word("exact", "best-found", "impossible", "no-choice"),
  legs: list(
    object({
      id,
      vehicle: id,
      from: id,
      to: id,
      driver: id,
      wheel: list(object({ from: instant, to: instant, driver: id })),
      asleep: list(id),
    }),
  ),
  changes: whole,
  leftMinutes: orNull(whole),
  boundMinutes: orNull(whole),
  breachMinutes: whole,
  breaches: list(object({ who: id, limit: text, clause: orNull(text), minutes: whole })),
  edits: list(object({ path: text, value: anything })),
});

export const data: Shape = object({
  legs: list(leg),
  gaps: list(gap),
  hits: list(
    object({
      id,
      chance: share,
      chanceIndependent: share,
      chanceIndependentHigh: share,
      chanceSameLuck: share,
      lowerBound: flag,
      chanceAtMost: orNull(share),
    }),
  ),
  waits: list(
    object({
      place: id,
      from: instant,
      to: instant,
      minutes: whole,
      who: list(id),
      sheltered: flag,
      laterMinutes: orNull(whole),
    }),
  ),
  noSignal,
  fuel: list(fuel),
  relief: orNull(relief),
});
