/** Builds the power model of one Day: bays, touches, packs as they are at last night's release, chargers, loads, demands. */
import type { Day } from "../../day/day.ts";
import { isFirstDays } from "../../plan/firstDay.ts";
import type { Charger, Id, OpenInterval, Pack, Plan } from "../../plan/plan.ts";
import type { SkyResult } from "../../sky/index.ts";
import { type Instant, type Interval, instant } from "../../time/units.ts";
import { bayAt, type Model, type ModelLoad, type ModelPack, type Touch, workSpan } from "../model.ts";
import { COLD_CELSIUS } from "../physics.ts";
import { chargerOf, type Overload, warmFrom } from "./chargers.ts";
import { burdenOf } from "./crewing.ts";
import { type DayDemand, demandsOf, type Gear, type LoadPiece, loadsOf, minus } from "./demands.ts";
import { type Mounted, mountedOutside, warmOff } from "./mounted.ts";
import { type RestBounds, type Rests, restsOf } from "./rests.ts";
import { type Surroundings, surroundingsOf } from "./surroundings.ts";
import { type HandBay, type HandMoment, touchesOf } from "./touches.ts";

/** Share of a full charge, and the place a pack stands at. */
export type PacksLeft = ReadonlyMap<Id, { readonly share: number; readonly at: Id }>;

/** What the day before left. */
export interface CarriedPacks {
  /** From when on nothing is used or moved any more that day: this day's account begins no earlier; null where there is none. */
  readonly settled: Instant | null;
  /** The packs at a moment from then on. */
  packsAt(at: Instant): PacksLeft;
}

/** No day before: packs are as the plan states them. */
export const NO_CARRIED_PACKS: CarriedPacks = { settled: null, packsAt: () => new Map() };

/** A day as the search for rotations sees it. */
export interface DayModel {
  readonly model: Model;
  readonly around: Surroundings;
  readonly handBays: readonly HandBay[];
  readonly touches: readonly HandMoment[];
  readonly loads: readonly LoadPiece[];
  readonly demands: readonly DayDemand[];
  readonly overloads: readonly Overload[];
  /** Packs whose charge nothing states; they count as empty. */
  readonly unstated: readonly Id[];
  /** Packs whose charge the day's own file states otherwise than the day before leaves it, with what it leaves. */
  readonly restated: ReadonlyMap<Id, number>;
  readonly rests: Rests;
  /** Nothing is asked of anyone at a moment that is past; null where all of the day lies ahead. */
  readonly now: Instant | null;
  /** Moments that would take somebody's rest below what binds it: no touches, but what a shortage may ask for. */
  readonly restful: readonly HandMoment[];
  /** The model of the same day with another plan: what an edit of vehicles or chargers would give. */
  again(plan: Plan): Model;
  /** The same day as it was known at a moment: without what was found or seen of packs after it. */
  knownAt(moment: Instant): DayModel;
}

/** Charges that differ by no more are the same. */
const SAME_SHARE = 0.01;

/** Margins are compared to one Wh. */
const GRAIN_WH = 1;

/** What is known of a day besides itself. */
export interface KnownPower {
  /** Which hits are dark; all where it is null. */
  readonly sky: SkyResult | null;
  readonly carried: CarriedPacks;
  readonly bounds: RestBounds;
  /** Where the gear is; null where its own plan is believed. */
  readonly gear: Gear | null;
  /** What was found or seen of packs after this moment is left out; nothing where it is null. */
  readonly until?: Instant | null;
}

/** The model of `day`. */
export function buildModel(stated: Day, known: KnownPower): DayModel {
  const { sky, carried, bounds, gear, until = null } = known;
  const day = withoutSharedCharges(stated, carried);
  const { plan } = day;
  const around = surroundingsOf(day);
  const during = duringOf(around, carried);
  const seen: Interval = { from: during.from, to: instant(Math.min(during.to, until ?? during.to)) };
  const left = carried.packsAt(during.from);
  const loads = loadsOf(around, gear);
  const demands = demandsOf(around, loads, sky);
  const handBays = handBaysOf(around, loads, seen);
  const made = [...plan.chargers.values()].map((charger) => chargerOf(around, charger, bayOfCharger(charger), during));
  const chargers = made.map(({ charger }) => {
    const broken = plan.chargers.get(charger.id)?.broken ?? null;
    if (broken === null) return charger;
    return { ...charger, on: charger.on.flatMap((on) => minus(on, brokenDuring(broken, during))) };
  });
  const marks = demands.flatMap(({ demand }) => [demand.from, demand.to]);
  const rests = restsOf(day, bounds);
  const { welcome, restful } = sifted(rests, handBays, around, touchesWithin(around, handBays, during));
  const facts = foundOf(plan, seen);
  const touches = withFacts(thinned(welcome, marks), facts).map((touch, n) => ({ ...touch, id: `touch.${n + 1}` }));
  const cold = demands.some(({ coldest }) => coldest !== null && coldest < COLD_CELSIUS);
  const outside = mountedOutside(demands).map((own) => ({
    own,
    load: loads.find(({ load }) => load.id === own.load)?.load,
  }));
  const reserve = cold ? plan.rules.reserveCold : plan.rules.reserve;
  const taken = new Map<Id, number>();
  const room = new Map<Id, number>([
    ...chargers.map((one): [Id, number] => [one.id, one.slots]),
    ...loads.map(({ load }): [Id, number] => [load.id, 1]),
  ]);
  const packs = [...plan.packs.values()].map((pack) =>
    packOf(pack, reserve, startAt(pack, left, chargers, loads, taken, room), { left, facts, during }),
  );
  const model: Model = {
    ...during,
    bays: handBays.map((bay) => bay.id),
    grainWh: GRAIN_WH,
    enoughWh: plan.rules.enough,
    swapMinutes: plan.rules.swap,
    touches: touches.map((touch) => warmed(around, handBays, outside, modelTouch(rests, touch, plan.rules.swap))),
    packs,
    chargers,
    loads: loads.map(({ load }) => load),
    demands: demands.map(({ demand }) => demand),
  };
  const unstated = [...plan.packs.values()]
    .filter((pack) => pack.charge === null && !left.has(pack.id))
    .map((pack) => pack.id);
  return {
    model,
    around,
    handBays,
    touches,
    loads,
    demands,
    overloads: made.flatMap((one) => one.overloads),
    unstated,
    restated: new Map(
      [...plan.packs.values()].flatMap(({ id, charge }): [Id, number][] => {
        const share = left.get(id)?.share;
        return charge === null || share === undefined || Math.abs(share - charge) <= SAME_SHARE ? [] : [[id, share]];
      }),
    ),
    rests,
    now: null,
    restful,
    again: (other) => buildModel({ ...stated, plan: other }, known).model,
    knownAt: (moment) => buildModel(stated, { ...known, until: moment }),
  };
}

/** A touch as the search sees it: with the stretch of the one who minds it least. */
export function modelTouch(rests: Rests, { id, at, reach, hands }: HandMoment, swap: number): Touch {
  const ranked = hands
    .map((hand) => ({ hand, burden: burdenOf(rests, hand, workSpan({ id, at, reach, free: hand }, swap)) }))
    .toSorted((a, b) => a.burden - b.burden || b.hand.to - b.hand.from - (a.hand.to - a.hand.from));
  const [best] = ranked;
  if (best === undefined) return { id, at, reach };
  return { id, at, reach, free: { from: best.hand.from, to: best.hand.to }, burden: best.burden };
}

/** A load with one of its stays outside. */
interface Outside {
  readonly own: Mounted;
  readonly load: ModelLoad | undefined;
}

/** With the moment from which what enters a charger there is warm, where a bay or a load in reach was in the frost. */
function warmed(around: Surroundings, bays: readonly HandBay[], outside: readonly Outside[], touch: Touch): Touch {
  if (!around.day.plan.weather.some(({ celsius }) => celsius !== null && celsius < COLD_CELSIUS)) return touch;
  const within = touch.reach.map((id) => bays.find((bay) => bay.id === id)?.within ?? id);
  const off = outside.flatMap(({ own, load }) => {
    const bay = load === undefined ? null : bayAt(load, touch.at);
    return bay !== null && own.from < touch.at && touch.reach.includes(bay)
      ? [warmOff(around, own, bay, touch.at)]
      : [];
  });
  const lain = [...new Set(within)].map((bay) => warmFrom(around, bay, touch.at));
  const warm = instant(Math.max(touch.at, ...lain, ...off));
  return warm > touch.at ? { ...touch, warm } : touch;
}

/** Leaves to each moment those whose rest one move would not cut, and what they reach; a moment without any is `restful`. */
function sifted(
  rests: Rests,
  bays: readonly HandBay[],
  around: Surroundings,
  moments: readonly HandMoment[],
): { welcome: HandMoment[]; restful: HandMoment[] } {
  const { swap } = around.day.plan.rules;
  const welcome: HandMoment[] = [];
  const restful: HandMoment[] = [];
  for (const moment of moments) {
    const hands = moment.hands.filter((hand) => {
      const work = workSpan({ ...moment, free: hand }, swap);
      const rest = rests.restAt(hand.who, work);
      return rest === null || rests.kept(rest, [work]) >= rests.needed(hand.who, rest);
    });
    const reach = moment.reach.filter((id) => {
      const allowed = bays.find((bay) => bay.id === id)?.hands ?? null;
      return hands.some(({ who }) => allowed?.includes(who) ?? true);
    });
    if (hands.length > 0) welcome.push(hands.length === moment.hands.length ? moment : { ...moment, hands, reach });
    if (hands.length < moment.hands.length) restful.push(moment);
  }
  return { welcome, restful };
}

/** A charge in a file that is shared with the day before is the first day's: now the pack holds what that day left in it. */
function withoutSharedCharges(day: Day, { settled, packsAt }: CarriedPacks): Day {
  const { plan } = day;
  if (settled === null) return day;
  const left = packsAt(settled);
  const isShared = ({ id, path }: Pack): boolean => {
    const own = [...path, "own", id, "charge"];
    return isFirstDays(plan, plan.source.locate(own) === null ? [...path, "charge"] : own);
  };
  const packs = new Map(
    [...plan.packs].map(([id, pack]): [Id, Pack] => [
      id,
      left.has(id) && isShared(pack) ? { ...pack, charge: null, chargeAt: null } : pack,
    ]),
  );
  return { ...day, plan: { ...plan, packs } };
}

/** The touches of a model as it would be with these bays. */
export const touchesFor = ({ around, rests, model }: DayModel, bays: readonly HandBay[]): Touch[] =>
  sifted(rests, bays, around, touchesWithin(around, bays, model)).welcome.map((touch) =>
    modelTouch(rests, touch, model.swapMinutes),
  );

/** The touches of the model's time. */
const touchesWithin = (around: Surroundings, bays: readonly HandBay[], { from, to }: Interval): HandMoment[] =>
  touchesOf(around, bays).filter((touch) => from <= touch.at && touch.at <= to);

/** From where the day before ended, else last night's release (later where a charge is stated for a later moment), to the last release. */
function duringOf(around: Surroundings, carried: CarriedPacks): Interval {
  const { day } = around;
  const nights = day.people.flatMap(({ call, previousRelease }) => (call === null ? [] : (previousRelease ?? call)));
  const from = nights.length === 0 ? day.span.from : Math.min(...nights);
  const to = instant(Math.max(day.span.to, ...day.people.flatMap((person) => person.release ?? [])));
  const packs = [...day.plan.packs.values()];
  // Charges that the day's own file states are those of last night's release, whatever the day before left.
  const settled = packs.every(({ charge }) => charge !== null) ? from : (carried.settled ?? from);
  const stated = packs.flatMap((pack) => (pack.charge === null ? [] : (pack.chargeAt ?? [])));
  return { from: instant(Math.min(to, Math.max(from, settled, ...stated))), to };
}

/** A charger that only some may touch stands in a bay of its own, which only their touches reach. */
export const bayOfCharger = (charger: Charger): Id => (charger.hands === null ? charger.in : `${charger.id}.bay`);

function handBaysOf(around: Surroundings, loads: readonly LoadPiece[], seen: Interval): HandBay[] {
  const { plan } = around.day;
  const used = new Set<Id>([
    ...[...plan.packs.values()].map((pack) => pack.in),
    ...[...plan.actual.packs.values()].flatMap(({ at, in: holder }) =>
      at === null || holder === null || at < seen.from || at > seen.to ? [] : [holder],
    ),
    ...[...plan.chargers.values()].map((charger) => charger.in),
    ...loads.flatMap(({ load }) => load.bay.map((stage) => stage.bay)),
  ]);
  const own = [...plan.chargers.values()].filter((charger) => charger.hands !== null);
  return [
    ...[...plan.vehicles.keys(), ...plan.places.keys()]
      .filter((id) => used.has(id))
      .map((id) => ({ id, within: id, hands: null })),
    ...own.map((charger) => ({ id: bayOfCharger(charger), within: charger.in, hands: charger.hands })),
  ];
}

/** Two touches close together with the same reach and no use beginning or ending between are one. */
function thinned(touches: readonly HandMoment[], marks: readonly Instant[]): HandMoment[] {
  const kept: HandMoment[] = [];
  for (const touch of touches) {
    const reach = touch.reach.join(" ");
    const twin = kept.findLast((one) => one.reach.join(" ") === reach);
    const close =
      twin !== undefined &&
      touch.at - twin.at < CLOSE_MINUTES &&
      !marks.some((mark) => twin.at < mark && mark <= touch.at);
    if (!close) kept.push(touch);
  }
  return kept;
}

const CLOSE_MINUTES = 10;

/** Where it was left where that still is and has room, else its own bay's shelf. */
function startAt(
  pack: Pack,
  carried: PacksLeft,
  chargers: Model["chargers"],
  loads: readonly LoadPiece[],
  taken: Map<Id, number>,
  room: ReadonlyMap<Id, number>,
): Id {
  const left = carried.get(pack.id)?.at;
  const mount = [...chargers, ...loads.map(({ load }) => load)].find((one) => one.id === left)?.mount;
  if (left === undefined || mount !== pack.mount) return pack.in;
  const heads = (taken.get(left) ?? 0) + 1;
  if (heads > (room.get(left) ?? 0)) return pack.in;
  taken.set(left, heads);
  return left;
}

/** What is known of packs besides the plan. */
interface Known {
  readonly left: PacksLeft;
  readonly facts: ReadonlyMap<Id, readonly Found[]>;
  readonly during: Interval;
}

interface Found {
  readonly at: Instant;
  readonly share: number;
}

/** Charges found within a stretch of the model's time, by pack; one found before it is what the pack starts with. */
function foundOf({ actual }: Plan, { from, to }: Interval): ReadonlyMap<Id, readonly Found[]> {
  return new Map(
    [...actual.packs].flatMap(([id, { charge, at }]): [Id, readonly Found[]][] => {
      if (charge === null || at === null) return [];
      const found = { at: instant(Math.max(at, from)), share: charge };
      return found.at > to ? [] : [[id, [found]]];
    }),
  );
}

/** A moment without reach at each fact, so that the account is cut there. */
function withFacts(touches: readonly HandMoment[], facts: ReadonlyMap<Id, readonly Found[]>): readonly HandMoment[] {
  const moments = new Set([...facts.values()].flatMap((found) => found.map(({ at }) => at)));
  const given = [...moments].map((at): HandMoment => ({ id: "", at, reach: [], where: "", hands: [] }));
  return [...touches, ...given].sort((a, b) => a.at - b.at || a.reach.length - b.reach.length);
}

function packOf(pack: Pack, reserve: number, at: Id, { left, facts, during }: Known): ModelPack {
  const wh = digits(pack.wh * pack.health);
  const share = pack.charge ?? left.get(pack.id)?.share ?? 0;
  const found = (facts.get(pack.id) ?? []).map((one) => ({ at: one.at, wh: digits(wh * one.share) }));
  const broken = pack.broken === null ? [] : brokenDuring(pack.broken, during);
  return {
    ...{ id: pack.id, mount: pack.mount, wh, startWh: digits(wh * share), reserveWh: digits(wh * reserve), at },
    ...(found.length === 0 ? {} : { found }),
    ...(broken.length === 0 ? {} : { broken }),
  };
}

/** The part of the model's time in which something is broken. */
export function brokenDuring(broken: OpenInterval, { from, to }: Interval): Interval[] {
  const start = instant(Math.max(from, broken.from));
  const end = instant(Math.min(to, broken.to ?? to));
  return start < end ? [{ from: start, to: end }] : [];
}

/** The model holds what is printed: six digits. */
const digits = (value: number): number => Math.round(value * 1e6) / 1e6;
