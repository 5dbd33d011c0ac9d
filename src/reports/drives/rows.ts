/** What `drives` says of each leg, gap, hit, wait and tank: every key with its column. */

import type { Wait } from "../../cautions/waits.ts";
import type { Move } from "../../day/day.ts";
import { LOW_CHANCE, type Onward } from "../../roads/assess.ts";
import type { TargetChance } from "../../roads/chance/chance.ts";
import { cutShare, percentRange } from "../../roads/chance/percent.ts";
import type { FuelState } from "../../roads/fuel.ts";
import type { GapPlace } from "../../roads/gaps.ts";
import type { ReliefProposal } from "../../roads/relief/propose.ts";
import { type Instant, lengthText } from "../../time/index.ts";
import { crewCell, DASH, flagCell } from "../shared/cells.ts";
import { clockColumn, column, columns, kept, object, shown } from "../shared/columns.ts";
import type { DayView } from "../shared/dayView.ts";
import {
  flag,
  id,
  ids,
  instant,
  type Kind,
  key,
  list,
  minutes,
  moment,
  orNull,
  share,
  text,
  whole,
  word,
} from "../shared/kinds.ts";
import type { Silence } from "../shared/reach.ts";
import { SILENCES } from "../shared/reachView.ts";
import type { Cell } from "../shared/view.ts";
import { FUEL } from "./fuelRows.ts";
import { km } from "./km.ts";
import { RELIEF } from "./relief.ts";

/** A leg with what the roads say of it. */
export interface DriveLeg {
  readonly move: Move;
  /** Null where no later hit depends on it. */
  readonly onward: Onward | null;
  /** Whether the chance counts it as driven in the dark. */
  readonly dark: boolean;
  /** When to leave for the wanted chance; null where none is wanted or leaving earlier does not help. */
  readonly leaveByChance: Instant | null;
}

/** What one person's view, or everyone's, consists of. */
export interface DrivesRows {
  readonly legs: readonly DriveLeg[];
  readonly gaps: readonly GapPlace[];
  readonly hits: readonly TargetChance[];
  readonly waits: readonly Wait[];
  readonly silences: readonly Silence[];
  readonly fuel: readonly FuelState[];
  /** Null where it was not asked for. */
  readonly relief: ReliefProposal | "no-choice" | null;
}

/** A chance, never rounded up. */
const chance: Kind<number, unknown> = {
  ...share,
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
  const ends = range === null ? "" : ` (${Math.floor(range.lowMinutes)} to ${Math.ceil(range.highMinutes)} min)`;
  return { text: `${length}, estimated${ends}`, raw: likelyMinutes };
}

const range = object<NonNullable<Move["leg"]["range"]>, unknown>({
  lowMinutes: kept(whole, (own) => Math.floor(own.lowMinutes)),
  highMinutes: kept(whole, (own) => Math.ceil(own.highMinutes)),
});

export const LEGS = columns<DriveLeg>()({
  vehicle: column({ label: "Vehicle", kind: id, value: ({ move }) => move.vehicle, tone: "strong" }),
  from: column({ label: "From", kind: id, value: ({ move }) => move.from }),
  to: column({ label: "To", kind: id, value: ({ move }) => move.to }),
  km: column({ label: "Road", kind: orNull(km), value: ({ move }) => move.leg.km, spare: 4 }),
  likelyMinutes: column({
    label: "Likely",
    kind: minutes,
    value: ({ move }) => move.likelyMinutes,
    cell: ({ move }) => likelyCell(move),
    spare: 2,
  }),
  badMinutes: column({ label: "Bad", kind: minutes, value: ({ move }) => move.badMinutes, spare: 2 }),
  basis: kept(word("stated", "routed", "estimated"), ({ move }) => move.leg.basis),
  leaveBy: column({
    label: "Leave by",
    kind: orNull(instant),
    value: ({ move }) => moment(move.leaveBy, move.from),
    spare: 1,
  }),
  slackMinutes: column({ label: "Slack", kind: orNull(minutes), value: ({ move }) => move.slackMinutes, spare: 3 }),
  chance: column({ label: "Chance", kind: orNull(chance), value: ({ onward }) => onward?.chance.printed ?? null }),
  chanceIndependent: kept(orNull(chance), ({ onward }) => onward?.chance.low ?? null),
  chanceSameLuck: kept(orNull(chance), ({ onward }) => onward?.chance.sameLuck ?? null),
  id: kept(key, ({ move }) => move.id),
  hit: column({ label: "For hit", kind: orNull(key), value: ({ onward }) => onward?.target.hit ?? null, spare: 3 }),
  chanceIndependentHigh: kept(orNull(chance), ({ onward }) => onward?.chance.high ?? null),
  leaveByChance: column({
    label: "",
    kind: orNull(instant),
    value: ({ leaveByChance, move }) => moment(leaveByChance, move.from),
  }),
  leave: clockColumn({ label: "Leave", kind: instant, value: ({ move }) => ({ at: move.leave, place: move.from }) }),
  arrive: column({
    label: "Arrive",
    kind: instant,
    value: ({ move }) => ({ at: move.arrive, place: move.to }),
    spare: 1,
  }),
  plannedMinutes: column({ label: "Planned", kind: minutes, value: ({ move }) => move.plannedMinutes }),
  plannedAt: kept(word("bad", "drive"), ({ move }) => move.plannedAt),
  range: kept(orNull(range), ({ move }) => move.leg.range),
  noSignal: kept(flag, ({ move }) => move.leg.noSignal),
  dark: kept(flag, (leg) => leg.dark),
});

export const GAPS = columns<GapPlace>()({
  vehicle: column({ label: "Vehicle", kind: id, value: (gap) => gap.vehicle, spare: 1 }),
  from: column({ label: "After", kind: key, value: (gap) => gap.from }),
  to: column({ label: "Before", kind: key, value: (gap) => gap.to }),
  place: column({ label: "Place", kind: id, value: (gap) => gap.place, tone: "strong" }),
  stayMinutes: column({ label: "Stay up to", kind: orNull(minutes), value: (gap) => gap.stayMinutes }),
  turnBack: clockColumn({
    label: "Turn back",
    kind: orNull(instant),
    value: (gap) => moment(gap.turnBack, gap.place),
  }),
  basis: column({ label: "Basis", kind: orNull(text), value: (gap) => gap.basis, spare: 3 }),
  outMinutes: column({ label: "Out", kind: orNull(minutes), value: (gap) => gap.outMinutes, spare: 2 }),
  backMinutes: column({ label: "Back", kind: orNull(minutes), value: (gap) => gap.backMinutes, spare: 2 }),
  km: kept(orNull(km), (gap) => gap.km),
  farthest: column({
    label: "Farthest",
    kind: flag,
    value: (gap) => gap.farthest,
    cell: (gap) => flagCell(gap.farthest, gap.farthest ? "yes" : "–"),
    spare: 1,
  }),
  planned: kept(list(key), (gap) => gap.planned),
  plannedMinutes: column({ label: "Planned in it", kind: minutes, value: (gap) => gap.plannedMinutes, spare: 3 }),
});

export const HIT_CHANCES = columns<TargetChance, DayView>()({
  id: kept(key, (hit) => hit.target.hit),
  hit: shown({ label: "Hit", cell: (hit) => ({ text: hit.target.hit, tone: "strong" }) }),
  inPosition: clockColumn({
    label: "In position",
    value: ({ target }, { day }) => ({
      at: target.deadline,
      place: day.activities.find((own) => own.id === target.hit)?.place ?? null,
    }),
  }),
  chance: column({
    label: "Chance",
    kind: chance,
    value: (hit) => hit.printed,
    cell: (hit) => chanceCell(hit.printed, hit.atMost),
  }),
  chanceIndependent: column({
    label: "Each drive by itself",
    kind: chance,
    value: (hit) => hit.low,
    cell: (hit) => chanceCell(hit.low, hit.lowerBound ? null : hit.low),
    spare: 1,
  }),
  chanceIndependentHigh: kept(chance, (hit) => hit.high),
  chanceSameLuck: column({ label: "One luck for all", kind: chance, value: (hit) => hit.sameLuck, spare: 2 }),
  lowerBound: kept(flag, (hit) => hit.lowerBound),
  chanceAtMost: kept(orNull(chance), (hit) => hit.atMost),
});

export const WAITS = columns<Wait, DayView>()({
  place: column({ label: "Place", kind: id, value: (wait) => wait.place, tone: "strong" }),
  from: clockColumn({ label: "From", kind: instant, value: ({ from, place }) => ({ at: from, place }) }),
  to: column({ label: "To", kind: instant, value: ({ to, place }) => ({ at: to, place }) }),
  minutes: column({ label: "Wait", kind: minutes, value: (wait) => wait.minutes }),
  who: column({
    label: "Who",
    kind: ids,
    value: (wait) => wait.who,
    cell: ({ who }, { say, day }) => crewCell(say, who, day.plan.crew.size),
    spare: 2,
  }),
  sheltered: column({
    label: "Shelter",
    kind: flag,
    value: (wait) => wait.sheltered,
    cell: (wait) => (wait.sheltered ? flagCell(true, "yes") : flagCell(false, "no", "warn")),
  }),
  laterMinutes: column({
    label: "Leave later by",
    kind: orNull(minutes),
    value: (wait) => wait.laterMinutes,
    cell: ({ laterMinutes: later }) => (later === 0 ? { ...DASH, raw: 0 } : orNull(minutes).cell(later, null)),
    spare: 1,
  }),
});

/** `data` of `drives`. */
export const DRIVES_DATA = object<DrivesRows, DayView>({
  legs: kept(list(LEGS), (rows) => rows.legs),
  gaps: kept(list(GAPS), (rows) => rows.gaps),
  hits: kept(list(HIT_CHANCES), (rows) => rows.hits),
  waits: kept(list(WAITS), (rows) => rows.waits),
  noSignal: kept(list(SILENCES), (rows) => rows.silences),
  fuel: kept(list(FUEL), (rows) => rows.fuel),
  relief: kept(orNull(RELIEF), (rows) => rows.relief),
});
