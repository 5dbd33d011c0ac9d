/** What `drives` says of each leg, gap, hit, wait and tank: every key with its column. */
import type { Wait } from "../../cautions/waits.ts";
import { aboardOf, type Move } from "../../day/day.ts";
import type { Wording } from "../../findings/finding.ts";
import type { Id } from "../../plan/plan.ts";
import { LOW_CHANCE, type RoadsResult } from "../../roads/assess.ts";
import { leaveByFor, type TargetChance } from "../../roads/chance/chance.ts";
import { cutShare, percentRange } from "../../roads/chance/percent.ts";
import type { FuelState } from "../../roads/fuel.ts";
import type { GapPlace } from "../../roads/gaps.ts";
import type { ReliefProposal } from "../../roads/relief/propose.ts";
import { type Instant, lengthText } from "../../time/index.ts";
import { crewCell, DASH, flagCell } from "../shared/cells.ts";
import { clockColumn, column, columns, kept, object, shown } from "../shared/columns.ts";
import type { DayView, TopicInput } from "../shared/dayView.ts";
import {
  flagKind,
  idKind,
  idsKind,
  instantKind,
  type Kind,
  keyKind,
  km,
  listKind,
  minutesKind,
  moment,
  orNull,
  said,
  shareKind,
  slackKind,
  textKind,
  wholeKind,
  wordKind,
} from "../shared/kinds.ts";
import { SILENCES, silences } from "../shared/reach.ts";
import type { Cell } from "../shared/view.ts";
import { answerOf, RELIEF } from "./relief.ts";

/** What else `drives` shows: gaps, drivers proposed. */
export interface DrivesInput extends TopicInput<RoadsResult> {
  /** From `gapsOf`. */
  readonly gaps: readonly GapPlace[];
  /** Null where `--relief` is not given; `no-choice` where no one can relieve anybody. */
  readonly relief: ReliefProposal | "no-choice" | null;
  /** A chance of 0 to 1 to say the departure for; null where none is wanted. */
  readonly wanted: number | null;
}

/** What one person's view, or everyone's, consists of. */
export type DrivesRows = ReturnType<typeof rowsFor>;

/** What concerns one person: the legs they ride, the gaps and fuel of those vehicles, the hits they attend, their waits. */
export function rowsFor(input: DrivesInput) {
  const { day, result, person, gaps, relief } = input;
  const moves = day.moves.filter((move) => person === null || aboardOf(move).includes(person));
  const legs = moves.map((move) => legOf(input, move));
  if (person === null) {
    const { hits, waits, fuel } = result;
    return { legs, gaps, hits, waits, silences: silences(day), fuel, relief };
  }
  const vehicles = new Set(moves.map((move) => move.vehicle));
  const attended = new Set(day.activities.filter(({ who }) => who.includes(person)).map(({ id }) => id));
  return {
    legs,
    gaps: gaps.filter((gap) => vehicles.has(gap.vehicle)),
    hits: result.hits.filter((hit) => attended.has(hit.target.hit)),
    waits: result.waits.filter((wait) => wait.who.includes(person)),
    silences: silences(day).filter((silence) => silence.who.includes(person)),
    fuel: result.fuel.filter((state) => vehicles.has(state.vehicle)),
    relief,
  };
}

/** A leg with what the roads say of it. */
export type DriveLeg = ReturnType<typeof legOf>;

/**
 * `onward` is null where no later hit depends on it; `dark` says whether the chance counts it as driven in the dark;
 * `leaveByChance` is null where no chance is wanted or leaving earlier does not help.
 */
function legOf({ result, wanted }: DrivesInput, move: Move) {
  const onward = result.onward.get(move.id) ?? null;
  const dark = result.chain.departures.some((departure) => departure.dark && departure.move.id === move.id);
  return { move, onward, dark, leaveByChance: wanted === null ? null : leaveBy(result, move.id, wanted) };
}

function leaveBy({ onward, chain, passes }: RoadsResult, id: Id, wanted: number): Instant | null {
  const aim = onward.get(id);
  const departure = chain.departures.findIndex(({ move }) => move.id === id);
  return aim === undefined
    ? null
    : leaveByFor(chain, passes, departure, { target: aim.target, gate: aim.chance.gate }, wanted);
}

/** A chance, never rounded up. */
const chance: Kind<number, unknown> = {
  ...shareKind,
  json: (value) => cutShare(value, 4),
  cell: (value) => chanceCell(value),
};

/** A chance between two bounds, which are mostly one; programs get the lower one. */
const chanceCell = (least: number, most: number | null = least): Cell => ({
  text: percentRange(least, most),
  raw: cutShare(least, 3),
  tone: (most ?? least) < LOW_CHANCE ? "warn" : "plain",
});

/** What an estimate rests on is said with it. */
function likelyCell({ leg, likelyMinutes }: Move): Cell {
  const length = lengthText(likelyMinutes);
  if (leg.basis !== "estimated")
    return { text: `${length}${leg.basis === "routed" ? ", routed" : ""}`, raw: likelyMinutes };
  const { range } = leg;
  const ends =
    range === null
      ? ""
      : ` (${lengthText(Math.floor(range.lowMinutes))} to ${lengthText(Math.ceil(range.highMinutes))})`;
  return { text: `${length}, estimated${ends}`, raw: likelyMinutes };
}

const range = object<NonNullable<Move["leg"]["range"]>, unknown>()({
  lowMinutes: kept(wholeKind, (own) => Math.floor(own.lowMinutes)),
  highMinutes: kept(wholeKind, (own) => Math.ceil(own.highMinutes)),
});

/** A row for each drive. */
export const LEGS = columns<DriveLeg>()({
  vehicle: column("Vehicle", idKind, ({ move }) => move.vehicle, { tone: "strong" }),
  from: column("From", idKind, ({ move }) => move.from),
  to: column("To", idKind, ({ move }) => move.to),
  km: column("Distance", orNull(km), ({ move }) => move.leg.km, { spare: 4 }),
  likelyMinutes: column("Likely", minutesKind, ({ move }) => move.likelyMinutes, {
    cell: ({ move }) => likelyCell(move),
    spare: 2,
  }),
  badMinutes: column("Bad", minutesKind, ({ move }) => move.badMinutes, { spare: 2 }),
  basis: kept(wordKind("stated", "routed", "estimated"), ({ move }) => move.leg.basis),
  leaveBy: column("Leave by", orNull(instantKind), ({ move }) => moment(move.leaveBy, move.from), { spare: 1 }),
  slackMinutes: column("Slack", slackKind, ({ move }) => move.slackMinutes, { spare: 3 }),
  chance: column("Chance", orNull(chance), ({ onward }) => onward?.chance.printed ?? null),
  chanceIndependent: kept(orNull(chance), ({ onward }) => onward?.chance.low ?? null),
  chanceSameLuck: kept(orNull(chance), ({ onward }) => onward?.chance.sameLuck ?? null),
  id: kept(keyKind, ({ move }) => move.id),
  hit: column("For hit", orNull(keyKind), ({ onward }) => onward?.target.hit ?? null, { spare: 3 }),
  chanceIndependentHigh: kept(orNull(chance), ({ onward }) => onward?.chance.high ?? null),
  leaveByChance: column("", orNull(instantKind), ({ leaveByChance, move }) => moment(leaveByChance, move.from)),
  leave: clockColumn("Leave", ({ move }) => ({ at: move.leave, place: move.from }), { kind: instantKind }),
  arrive: column("Arrive", instantKind, ({ move }) => ({ at: move.arrive, place: move.to }), { spare: 1 }),
  plannedMinutes: column("Planned", minutesKind, ({ move }) => move.plannedMinutes),
  plannedAt: kept(wordKind("bad", "drive"), ({ move }) => move.plannedAt),
  range: kept(orNull(range), ({ move }) => move.leg.range),
  noSignal: kept(flagKind, ({ move }) => move.leg.noSignal),
  dark: flagKind,
  ferry: kept(said(flagKind, "carried by a ferry: no one drives"), ({ move }) => move.leg.ferry !== undefined),
});

/** A row for each place that could be visited in a gap. */
export const GAPS = columns<GapPlace>()({
  vehicle: column("Vehicle", idKind, { spare: 1 }),
  from: column("After", keyKind),
  to: column("Before", keyKind),
  place: column("Place", idKind, { tone: "strong" }),
  stayMinutes: column("Stay up to", orNull(minutesKind)),
  turnBack: clockColumn("Turn back", (gap) => moment(gap.turnBack, gap.place), { kind: orNull(instantKind) }),
  basis: column("Basis", orNull(textKind), { spare: 3 }),
  outMinutes: column("Out", orNull(minutesKind), { spare: 2 }),
  backMinutes: column("Back", orNull(minutesKind), { spare: 2 }),
  km: orNull(km),
  farthest: column("Farthest of all", flagKind, {
    cell: (gap) => flagCell(gap.farthest, gap.farthest ? "yes" : "–"),
    spare: 1,
  }),
  planned: listKind(keyKind),
  plannedMinutes: column("Planned in it", minutesKind, { spare: 3 }),
});

/** A row for each hit and its chance. */
export const HIT_CHANCES = columns<TargetChance, DayView>()({
  id: kept(keyKind, (hit) => hit.target.hit),
  hit: shown("Hit", (hit) => ({ text: hit.target.hit, tone: "strong" })),
  inPosition: clockColumn("In position", ({ target }, { day }) => ({
    at: target.deadline,
    place: day.activities.find((own) => own.id === target.hit)?.place ?? null,
  })),
  chance: column("Chance", chance, (hit) => hit.printed, { cell: (hit) => chanceCell(hit.printed, hit.atMost) }),
  chanceIndependent: column("Each drive by itself", chance, (hit) => hit.low, {
    cell: (hit) => chanceCell(hit.low, hit.lowerBound ? null : hit.low),
    spare: 1,
  }),
  chanceIndependentHigh: kept(chance, (hit) => hit.high),
  chanceSameLuck: column("One luck for all", chance, (hit) => hit.sameLuck, { spare: 2 }),
  lowerBound: flagKind,
  chanceAtMost: kept(orNull(chance), (hit) => hit.atMost),
});

/** A row for each wait. */
export const WAITS = columns<Wait, DayView>()({
  place: column("Place", idKind, { tone: "strong" }),
  from: clockColumn("From", ({ from, place }) => ({ at: from, place }), { kind: instantKind }),
  to: column("To", instantKind, ({ to, place }) => ({ at: to, place })),
  minutes: column("Wait", minutesKind),
  who: column("Who", idsKind, {
    cell: ({ who }, { say, day }) => crewCell(say, who, day.plan.crew.size),
    spare: 2,
  }),
  sheltered: column("Shelter", flagKind, {
    cell: (wait) => (wait.sheltered ? flagCell(true, "yes") : flagCell(false, "no", "warn")),
  }),
  laterMinutes: column("Leave later by", orNull(minutesKind), {
    cell: ({ laterMinutes: later }) => (later === 0 ? { ...DASH, raw: 0 } : orNull(minutesKind).cell(later, null)),
    spare: 1,
  }),
});

const fuelBy = object<NonNullable<FuelState["fuelBy"]>>()({
  stop: keyKind,
  place: keyKind,
  withinKm: km,
});

const fuelStep = object<FuelState["steps"][number]>()({
  to: keyKind,
  at: kept(instantKind, (step) => ({ at: step.at, place: step.to })),
  leftKm: km,
});

/** Where to fill up; if no level is stated, how full the tank must be at the start. */
function fuelByCell(say: Pick<Wording, "name">, { fuelBy: by, onRoad, assumedFull, neededShare }: FuelState): Cell {
  if (by !== null) {
    const within = Math.floor(by.withinKm);
    const road = within === 0 ? "" : `, or within ${within} km of it`;
    return { text: `${say.name(by.place)}${road}`, raw: by.place, tone: "bad" };
  }
  const [stop] = onRoad;
  if (stop !== undefined) {
    const text = `${Math.ceil(stop.fromKm)} to ${Math.floor(stop.toKm)} km from ${say.name(stop.from)}`;
    return { text, raw: null, tone: stop.plannedKm === null ? "plain" : "warn" };
  }
  if (assumedFull) return { text: `needs ${Math.ceil(neededShare * 100)} % at the start`, raw: null, tone: "warn" };
  return { text: "not needed", raw: null };
}

/** A row for each vehicle's fuel. */
export const FUEL = columns<FuelState>()({
  vehicle: column("Vehicle", idKind, { tone: "strong" }),
  rangeKm: km,
  reserveKm: column("Reserve", km, { spare: 2 }),
  startKm: column("Starts", km, {
    cell: ({ assumedFull, startKm }) =>
      assumedFull ? { text: "not stated", raw: startKm, tone: "warn" } : km.cell(startKm, null),
  }),
  endKm: km,
  leastKm: column("Lowest", km, {
    cell: ({ leastKm, reserveKm }) => ({ ...km.cell(leastKm, null), tone: leastKm < reserveKm ? "bad" : "plain" }),
  }),
  drivenKm: column("Driven", km, { spare: 1 }),
  idleMinutes: wholeKind,
  idleKm: column("Idling", km, { spare: 2 }),
  estimated: flagKind,
  assumedFull: flagKind,
  fuelBy: column("Fill up by", orNull(fuelBy), {
    cell: (state, { say }) => fuelByCell(say, state),
  }),
  steps: listKind(fuelStep),
});

/** `data` of `drives`. */
export const DRIVES_DATA = object<DrivesRows, DayView>()({
  legs: listKind(LEGS),
  gaps: listKind(GAPS),
  hits: listKind(HIT_CHANCES),
  waits: listKind(WAITS),
  noSignal: kept(listKind(SILENCES), (rows) => rows.silences),
  fuel: listKind(FUEL),
  relief: kept(orNull(RELIEF), (rows) => answerOf(rows.relief)),
});
