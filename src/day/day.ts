/**
 * The Day: every instant of the plan placed, and the chain of terms behind each.
 *
 * Built by `computeDay` (pure). Nothing here is a judgement but the refusals: what contradicts an instant fixed earlier is
 * `missed` and said once, in `findings`, with its chain.
 */
import type { Finding, PlanPath, ReasonTerm } from "../findings/finding.ts";
import type { Leg } from "../legs/leg.ts";
import type { Hit, Id, Plan, Ride, SpanKind, Stop, Task } from "../plan/plan.ts";
import type { Instant, Interval, Minutes } from "../time/units.ts";

/** A solved day: every instant of people, vehicles, hits and tasks. */
export interface Day {
  readonly plan: Plan;
  /** One for each of `crew`, in plan order; a person with nothing to do has no duty. */
  readonly people: readonly PersonDay[];
  /** In time order, then plan order. */
  readonly stops: readonly StopTimes[];
  readonly moves: readonly Move[];
  readonly activities: readonly ActivityTimes[];
  readonly rides: readonly RideTimes[];
  /** What is wrong with the day itself: conflicts, what is missed, what nothing fixes. */
  readonly findings: readonly Finding[];
  /** The ids of instants that `--why` knows: `wren.call`, `wagon.1.leave`, `dawn.inPosition` … */
  readonly instants: ReadonlyMap<string, Instant>;
  /** The chain that leads to one of `instants`: terms that tile the time from or to what fixes it; null for an unknown id. */
  why(id: string): Why | null;
  readonly span: Interval;
  /** The day as the plan before the edit has it, what has begun before `now` as it stands; null where nothing is edited. */
  readonly unedited: { readonly day: Day; readonly now: Instant } | null;
  /** The day as it would be if nothing were out of service and no one away; null where that is so. */
  readonly intact: Day | null;
  /** The same day with other chores in its people's time; vehicles, hits and tasks stay as they are. */
  withChores(chores: readonly Chore[], before?: DayBefore): Day;
}

/** What the day before leaves: beds and releases, as they went where that is known. */
export interface DayBefore {
  readonly beds: ReadonlyMap<Id, Id>;
  readonly releases: ReadonlyMap<Id, Instant>;
  /** Where someone's spans of the day before end after their release, with a chore in the evening. */
  readonly evenings: ReadonlyMap<Id, Instant>;
  /** The place where each vehicle stands. */
  readonly vehicles: ReadonlyMap<Id, Id>;
}

/** Short work for the gear that the plan does not state itself, such as swapping packs. */
export interface Chore extends Interval {
  readonly who: Id;
  /** Where it is done: a place, or a vehicle on the road. */
  readonly place: Id | null;
  readonly vehicle: Id | null;
}

/** `apart` is one that lies in no duty: it parts a rest, and is not a call. */
export interface ChoreTimes extends Chore {
  readonly apart: boolean;
}

/** Terms in time order; they tile [first.from, last.to). `fixedBy` is what the chain starts or ends at, and by what that stands. */
export interface Why {
  readonly id: string;
  readonly at: Instant;
  readonly fixedBy: {
    readonly id: string;
    readonly at: Instant;
    readonly where: PlanPath | null;
    readonly by: "plan" | "log" | "planned before";
  };
  readonly terms: readonly DayTerm[];
}

/** A term with the place or vehicle it happens in. */
export interface DayTerm extends ReasonTerm {
  readonly place: Id | null;
  readonly vehicle: Id | null;
  readonly activity: Id | null;
}

/** One duty of a person, from a call to a release. */
export interface DutyTimes {
  readonly call: Instant;
  readonly release: Instant;
  readonly callPlace: Id;
  readonly releasePlace: Id;
}

/** A person's day: calls and releases, with the reasons of each. */
export interface PersonDay {
  readonly id: Id;
  /** First call and last release; null for a person with nothing to do. */
  readonly call: Instant | null;
  readonly release: Instant | null;
  readonly slept: Id | null;
  readonly sleeps: Id | null;
  readonly duties: readonly DutyTimes[];
  /**
   * Tile [previous release, release); where the previous release is not known, [call, release). A chore apart before them or
   * after the release adds its span and the time off between; one that makes the previous release later is before that.
   */
  readonly spans: readonly PersonSpan[];
  /** Tile [call, release). */
  readonly terms: readonly DayTerm[];
  /** In time order. */
  readonly chores: readonly ChoreTimes[];
  /** Null where none is stated, and where what is stated cannot be: see `lateRelease`. */
  readonly previousRelease: Instant | null;
  /** The end of what is stated of before the day, where it does not lie before the call: then no rest is known. */
  readonly lateRelease: Instant | null;
}

/** A fact of someone's time. Rule sets map it; it is not yet on or off duty in any law's sense. */
export interface PersonSpan extends Interval {
  readonly is: SpanKind;
  /** On a ferry: a berth of one's own. */
  readonly bunk?: boolean;
  /** The vehicle they sit in or drive, else null. */
  readonly vehicle: Id | null;
  readonly activity: Id | null;
  /** The place they are at; null on the road. */
  readonly place: Id | null;
  /** What they do, as in the terms: `loading`, `drive`, `set-up`, `wait` … */
  readonly doing: string;
}

/** A stop with its instants: arrival, departure, what is done there. */
export interface StopTimes {
  readonly stop: Stop;
  readonly vehicle: Id;
  readonly place: Id;
  /** Null at the first stop of a run. */
  readonly arrive: Instant | null;
  /** Null where nothing is done at the stop. */
  readonly parked: Instant | null;
  /** Null at the last stop of a run. */
  readonly leave: Instant | null;
  /** Ids of the activities of this visit, in order, missed ones left out. */
  readonly activities: readonly Id[];
  /** Stretches named at this stop: walk-around, loading, park, set-up, dish-up, strike, unload, post-trip, wait. */
  readonly terms: readonly DayTerm[];
}

/** A drive from one stop to the next: who drives, who rides, when, how long. */
export interface Move {
  /** The id of the stop it leaves from: `wagon.1`. */
  readonly id: Id;
  readonly vehicle: Id;
  readonly from: Id;
  readonly to: Id;
  readonly leave: Instant;
  readonly arrive: Instant;
  readonly driver: Id;
  /** Everyone aboard but the driver at departure. */
  readonly riders: readonly Id[];
  /** Who is meant to sleep. */
  readonly asleep: readonly Id[];
  /** Who is at the wheel when; tiles the driving part of the leg. Empty on a ferry. */
  readonly wheel: readonly (Interval & { readonly driver: Id })[];
  /** Stops on the road (fuel, hits on the road) that lengthen the leg. */
  readonly halts: readonly (Interval & { readonly activity: Id })[];
  readonly leg: Leg;
  readonly plannedMinutes: Minutes;
  readonly plannedAt: "bad" | "drive";
  /** With `slower` and weather, rounded up. */
  readonly likelyMinutes: Minutes;
  readonly badMinutes: Minutes;
  /** The latest departure with every fixed instant kept; null where nothing bounds it. */
  readonly leaveBy: Instant | null;
  readonly slackMinutes: Minutes | null;
  /** Planned minus likely. */
  readonly overLikelyMinutes: Minutes;
}

/** Everyone in the vehicle, the driver first. */
export const aboardOf = ({ driver, riders }: Pick<Move, "driver" | "riders">): readonly Id[] => [driver, ...riders];

/** How a hit or task stands in the day. */
export type ActivityState = "fixed" | "late" | "early" | "missed";

/** A hit or task with its instants and the people at it. */
export interface ActivityTimes {
  readonly activity: Hit | Task;
  readonly id: Id;
  readonly who: readonly Id[];
  /** The stops (ids) of the vehicles that make this visit; empty on the road or aboard. */
  readonly stops: readonly Id[];
  readonly place: Id | null;
  readonly vehicle: Id | null;
  /** `fixed` at a stated time, `late` placed as late as possible, `early` as early as possible; `missed` has no instants. */
  readonly state: ActivityState;
  /** Before a visit's first hit, and before its first on another path; null for every other, and for tasks. */
  readonly lineCheck: Interval | null;
  readonly inPosition: Instant | null;
  readonly start: Instant | null;
  readonly end: Instant | null;
  /** Until the desk lets go; equals `end` where nothing is stated. */
  readonly clearEnd: Instant | null;
  /** By how much what comes before it may be later; null where nothing bounds that, and for a hit that follows another. */
  readonly slackMinutes: Minutes | null;
  /** For a hit or task on the road: the share of the leg driven before it, 0 to 1. */
  readonly roadShare: number | null;
}

/** A ride by others with who is on it. */
export interface RideTimes {
  readonly ride: Ride;
  readonly who: readonly Id[];
}
