/**
 * The power model: what a rotation of packs is judged on, and nothing else. Built from a Day (`day/`), solved by the
 * search, replayed by the simulator, printed as it is so that anybody's own program can judge it.
 *
 * Energies Wh, powers W, instants whole minutes. Ids of bays, chargers and loads are distinct. Meaning: a bay's id is its
 * shelf. A touch is the instant at which the hands are done; it is the only time at which a pack changes place.
 */
import type { Id } from "../plan/plan.ts";
import { type Instant, type Interval, instant } from "../time/units.ts";

/** Packs, chargers and loads over the time of a day, in steps between touches. */
export interface Model {
  readonly from: Instant;
  readonly to: Instant;
  /** Vehicles and lodgings. */
  readonly bays: readonly Id[];
  /** Margins are compared to this many Wh. */
  readonly grainWh: number;
  /** Margin beyond which more is not sought. */
  readonly enoughWh: number;
  /** Minutes that one move takes; 0 where hands take no time. */
  readonly swapMinutes: number;
  /** In time order; those at one instant in the Day's order, one after the other. */
  readonly touches: readonly Touch[];
  readonly packs: readonly ModelPack[];
  readonly chargers: readonly ModelCharger[];
  readonly loads: readonly ModelLoad[];
  readonly demands: readonly Demand[];
}

/** A moment at which hands reach some bays. */
export interface Touch {
  readonly id: Id;
  readonly at: Instant;
  /** Bays in reach. */
  readonly reach: readonly Id[];
  /** When the hands are free, with `at` inside; without it they are free for as long as they need, before `at`. */
  readonly free?: Interval;
  /** What enters a charger at this touch was frozen and is warm from then on; without it it is warm. */
  readonly warm?: Instant;
  /** Moves that a search counts on at this touch when it reckons what leaves or enters a charger; 1 without it. */
  readonly moves?: number;
  /** How unwelcome it is to those who would do it: 0 on duty and waiting; more where rest or gear comes first. */
  readonly burden?: number;
}

/** The time that moves at a touch take: until `at` where there is time before it, else on after it as far as there is time. */
export function workSpan({ at, free }: Touch, minutes: number): Interval {
  const from = instant(Math.max(free?.from ?? Number.NEGATIVE_INFINITY, at - minutes));
  return { from, to: instant(Math.max(at, Math.min(from + minutes, free?.to ?? at))) };
}

/** A pack: Wh, mount, where it is at first. */
export interface ModelPack {
  readonly id: Id;
  readonly mount: string;
  /** Rated Wh times health. */
  readonly wh: number;
  readonly startWh: number;
  readonly reserveWh: number;
  /** The place it starts at: a bay (its shelf), a charger or a load. */
  readonly at: Id;
  /** What it was found to hold, in time order: its account goes on from there. At each of them there is a touch without reach. */
  readonly found?: readonly { readonly at: Instant; readonly wh: number }[];
  /** Where it was seen other than its rotation has it, in time order: it lies there from then on. */
  readonly seen?: readonly { readonly at: Instant; readonly place: Id }[];
  /** When it is out of service: it neither powers nor charges. */
  readonly broken?: readonly Interval[];
}

/** A charger: watts a slot, where it is. */
export interface ModelCharger {
  readonly id: Id;
  readonly mount: string;
  readonly bay: Id;
  readonly slots: number;
  /** To each pack, at most. */
  readonly watts: number;
  /** Share of a full charge up to which the power is constant, 0 to 1. */
  readonly taper: number;
  /** What all packs in it share; null where nothing is shared. */
  readonly totalWatts: number | null;
  /** When it charges, in time order, not overlapping. */
  readonly on: readonly Interval[];
}

/** Something that draws from packs: watts, mount, where it is. */
export interface ModelLoad {
  readonly id: Id;
  readonly mount: string;
  /** The bay it rides in from each instant on, in time order; the first holds from the start. */
  readonly bay: readonly { readonly from: Instant; readonly bay: Id }[];
}

/** How firmly power is asked for. */
export type DemandKind = "firm" | "hit" | "standby";

/** A stretch in which a load must have power. */
export interface Demand {
  readonly id: Id;
  readonly kind: DemandKind;
  readonly from: Instant;
  readonly to: Instant;
  /** Load to watts, the cold already in them. */
  readonly watts: ReadonlyMap<Id, number>;
}

/** A pack moved at a touch from one bay to another. */
export interface PackMove {
  readonly touch: Id;
  readonly pack: Id;
  readonly from: Id;
  readonly to: Id;
}

/** The moves of one touch as a piece of work. What leaves a charger charges until it begins, what enters one from its end on. */
export interface TouchWork {
  readonly touch: Id;
  readonly begins: Instant;
  readonly ends: Instant;
  /** Empty where no one is named. */
  readonly who: readonly Id[];
}

/** The moves of all packs and what they cover. */
export interface Rotation {
  /** Ids of the demands covered, in the order of goal 1. */
  readonly covered: readonly Id[];
  /** In the order of touches, then as hands can do them: what leaves a charger or a load before what enters one. */
  readonly moves: readonly PackMove[];
  /** One for each touch with moves, in the order of touches; a touch without one takes no time. */
  readonly chores: readonly TouchWork[];
}

const RANK: Readonly<Record<DemandKind, number>> = { firm: 0, hit: 1, standby: 2 };

/** Compares text by UTF-16 units: the same on every machine. */
const compareText = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

/** Demands in the order of goal 1: firm, other hits, standby, each by start, then id. */
export function demandsInOrder(demands: readonly Demand[]): Demand[] {
  return [...demands].sort((a, b) => RANK[a.kind] - RANK[b.kind] || a.from - b.from || compareText(a.id, b.id));
}

/** The bay a load rides in at an instant; the first stated one before all of them. */
export function bayAt(load: ModelLoad, at: number): Id {
  let bay = load.bay[0]?.bay ?? load.id;
  for (const stage of load.bay) if (stage.from <= at) bay = stage.bay;
  return bay;
}
