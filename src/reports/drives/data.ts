/** `data` of `drives`: legs, gaps, hits and what else the roads say, every documented key in its documented order. */
import type { Move } from "../../day/day.ts";
import type { Id, Plan } from "../../plan/plan.ts";
import { dotted } from "../../plan/text/pathtext.ts";
import type { Onward } from "../../roads/assess.ts";
import type { TargetChance } from "../../roads/chance/chance.ts";
import { cutShare } from "../../roads/chance/percent.ts";
import type { FuelState } from "../../roads/fuel.ts";
import type { GapPlace } from "../../roads/gaps.ts";
import type { ReliefEdit, ReliefProposal } from "../../roads/relief/propose.ts";
import type { Wait } from "../../roads/waits.ts";
import type { Instant } from "../../time/index.ts";
import type { Silence } from "../shared/reach.ts";
import { silenceJson } from "../shared/reachView.ts";
import { isoAt } from "../shared/stamps.ts";
import type { Json } from "../shared/view.ts";

/** A leg with what the roads say of it. */
export interface DriveLeg {
  readonly move: Move;
  /** Null where no later hit depends on it. */
  readonly onward: Onward | null;
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

export const drivesData = (plan: Plan, rows: DrivesRows): Json => ({
  legs: rows.legs.map((leg) => legJson(plan, leg)),
  gaps: rows.gaps.map((gap) => gapJson(plan, gap)),
  hits: rows.hits.map((hit) => hitJson(hit)),
  waits: rows.waits.map((wait) => waitJson(plan, wait)),
  noSignal: rows.silences.map((silence) => silenceJson(plan, silence)),
  fuel: rows.fuel.map((state) => fuelJson(plan, state)),
  relief: rows.relief === null ? null : reliefJson(plan, rows.relief),
});

const tenth = (km: number): number => Math.round(km * 10) / 10;

const share = (chance: number): number => cutShare(chance, 4);

function legJson(plan: Plan, { move, onward, leaveByChance }: DriveLeg): Json {
  const { leg } = move;
  return {
    vehicle: move.vehicle,
    from: move.from,
    to: move.to,
    km: leg.km === null ? null : tenth(leg.km),
    likelyMinutes: move.likelyMinutes,
    badMinutes: move.badMinutes,
    basis: leg.basis,
    leaveBy: isoAt(plan, move.leaveBy, move.from),
    slackMinutes: move.slackMinutes,
    chance: onward === null ? null : share(onward.chance.printed),
    chanceIndependent: onward === null ? null : share(onward.chance.low),
    chanceSameLuck: onward === null ? null : share(onward.chance.sameLuck),
    id: move.id,
    hit: onward === null ? null : onward.target.hit,
    chanceIndependentHigh: onward === null ? null : share(onward.chance.high),
    leaveByChance: isoAt(plan, leaveByChance, move.from),
    leave: isoAt(plan, move.leave, move.from),
    arrive: isoAt(plan, move.arrive, move.to),
    plannedMinutes: move.plannedMinutes,
    plannedAt: move.plannedAt,
    range:
      leg.range === null
        ? null
        : { lowMinutes: Math.floor(leg.range.lowMinutes), highMinutes: Math.ceil(leg.range.highMinutes) },
    noSignal: leg.noSignal,
  };
}

const gapJson = (plan: Plan, gap: GapPlace): Json => ({
  vehicle: gap.vehicle,
  from: gap.from,
  to: gap.to,
  place: gap.place,
  stayMinutes: gap.stayMinutes,
  turnBack: isoAt(plan, gap.turnBack, gap.place),
  basis: gap.basis,
  outMinutes: gap.outMinutes,
  backMinutes: gap.backMinutes,
  km: gap.km === null ? null : tenth(gap.km),
  farthest: gap.farthest,
});

const hitJson = (hit: TargetChance): Json => ({
  id: hit.target.hit,
  chance: share(hit.printed),
  chanceIndependent: share(hit.low),
  chanceIndependentHigh: share(hit.high),
  chanceSameLuck: share(hit.sameLuck),
  lowerBound: hit.lowerBound,
  chanceAtMost: hit.atMost === null ? null : share(hit.atMost),
});

const waitJson = (plan: Plan, wait: Wait): Json => ({
  place: wait.place,
  from: isoAt(plan, wait.from, wait.place),
  to: isoAt(plan, wait.to, wait.place),
  minutes: wait.minutes,
  who: wait.who,
  sheltered: wait.sheltered,
  laterMinutes: wait.laterMinutes,
});

const fuelJson = (plan: Plan, state: FuelState): Json => ({
  vehicle: state.vehicle,
  rangeKm: tenth(state.rangeKm),
  reserveKm: tenth(state.reserveKm),
  startKm: tenth(state.startKm),
  endKm: tenth(state.endKm),
  leastKm: tenth(state.leastKm),
  drivenKm: tenth(state.drivenKm),
  idleMinutes: state.idleMinutes,
  idleKm: tenth(state.idleKm),
  estimated: state.estimated,
  fuelBy:
    state.fuelBy === null
      ? null
      : { stop: state.fuelBy.stop, place: state.fuelBy.place, withinKm: tenth(state.fuelBy.withinKm) },
  steps: state.steps.map((step) => ({
    to: step.to,
    at: isoAt(plan, step.at, step.to),
    leftKm: tenth(step.leftKm),
  })),
});

const NO_CHOICE = {
  status: "no-choice",
  legs: [],
  changes: 0,
  leftMinutes: null,
  boundMinutes: null,
  breachMinutes: 0,
  breaches: [],
  edits: [],
} as const;

function reliefJson(plan: Plan, relief: ReliefProposal | "no-choice"): Json {
  if (relief === "no-choice") return NO_CHOICE;
  const wheelJson = (move: Move, stretch: Move["wheel"][number]): Json => ({
    from: isoAt(plan, stretch.from, move.from),
    to: isoAt(plan, stretch.to, clockPlace(move, stretch.to)),
    driver: stretch.driver,
  });
  return {
    status: relief.status,
    legs: relief.legs.map(({ move, wheel, asleep }) => ({
      id: move.id,
      vehicle: move.vehicle,
      from: move.from,
      to: move.to,
      driver: move.driver,
      wheel: wheel.map((stretch) => wheelJson(move, stretch)),
      asleep,
    })),
    changes: relief.changes,
    leftMinutes: relief.leftMinutes,
    boundMinutes: relief.boundMinutes,
    breachMinutes: relief.breachMinutes,
    breaches: relief.breaches.map(({ who, limit, clause, minutes }) => ({ who, limit, clause, minutes })),
    edits: relief.edits.map(editJson),
  };
}

const editJson = ({ path, value }: ReliefEdit): Json => ({
  path: dotted(path),
  value:
    typeof value === "string"
      ? value
      : value.map((one): Json => (typeof one === "string" ? one : { after: one.after, driver: one.driver })),
});

/** The place whose clock tells an instant of a leg: the origin's until one is there. */
export const clockPlace = (move: Move, at: Instant): Id => (at < move.arrive ? move.from : move.to);

/** Whether a leg carries someone. */
export const carries = (move: Move, who: Id): boolean => move.driver === who || move.riders.includes(who);
