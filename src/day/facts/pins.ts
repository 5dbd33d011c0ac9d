/** Instants that stand whatever the plan says: those that were logged and, behind an edit, those that are past. */
import type { PlanPath } from "../../findings/finding.ts";
import type { Id, Plan } from "../../plan/plan.ts";
import { type Instant, instant } from "../../time/units.ts";
import { activityOf } from "../order/order.ts";
import { lengthOfActivity, liveOf } from "../order/visits.ts";

type Times = { readonly at: Instant | null; readonly end: Instant | null; readonly done: boolean };

/** An instant that stands, and why. */
export interface Pin {
  readonly at: Instant;
  readonly how: "as it went" | "as planned";
  /** The logged instant that it is, with the words in which it is logged; null for what follows from one or is only planned. */
  readonly fact: LoggedFact | null;
}

/** Something that was logged, and the moment it is of. */
export interface LoggedFact {
  readonly what: string;
  readonly at: Instant;
  readonly place: Id | null;
  readonly path: PlanPath;
}

/** All instants that stand, by the name of their node. */
export interface Pins {
  /** By the name of the instant. */
  readonly at: ReadonlyMap<string, Pin>;
  /** Every other instant is not before this one; null for a day without an edit of something under way. */
  readonly now: Instant | null;
  /** Departures that have not happened by an instant because the vehicle is stated to stand there still; by stop id. */
  readonly standing: ReadonlyMap<Id, Instant>;
  /** Activities that were done, whatever the plan says of their length and window. */
  readonly done: ReadonlySet<Id>;
}

/** Nothing was logged. */
export const NO_PINS: Pins = { at: new Map(), now: null, standing: new Map(), done: new Set() };

/** Whether anything stands: a day of which nothing does is the day as planned. */
export const hasPast = ({ at, done, now, standing }: Pins): boolean =>
  at.size > 0 || done.size > 0 || now !== null || standing.size > 0;

/** Keys of `actual` that read badly in a sentence. */
const WORDS: ReadonlyMap<string, string> = new Map([
  ["at", "began"],
  ["end", "ended"],
]);

/** A logged instant in the words in which it is logged; null where it is not. */
export function factOf(id: Id, key: string, at: Instant | null | undefined, place: Id | null): LoggedFact | null {
  if (at == null) return null;
  return { what: `\`${id} ${WORDS.get(key) ?? key}\``, at, place, path: ["actual", id, key] };
}

/** Where a hit or task is; null on the road. */
export function placeOfActivity(plan: Plan, id: Id): Id | null {
  const location = (plan.hits.get(id) ?? plan.tasks.get(id))?.location;
  return location?.kind === "place" ? location.place : null;
}

/** From when to when an activity went: what is not logged of it follows from its fixed time or its length. */
function stretchOf(plan: Plan, id: Id, { at, end, done }: Times): readonly [Instant | null, Instant | null] {
  const activity = activityOf(plan, id);
  if (activity === undefined) return [null, null];
  const window = activity.kind === "standdown" ? activity.window : null;
  const fixed = liveOf(plan, id) ?? window;
  // What has a fixed time and was done went as planned.
  if (at === null && end === null && (fixed === null || !done)) return [null, null];
  const length = lengthOfActivity(plan, activity);
  const start = at ?? fixed?.from ?? (end ?? 0) - length;
  return [instant(start), instant(end ?? fixed?.to ?? start + length)];
}

/** The instants that `actual` states. `assumed` are names of those that were filled in as the plan has them. */
export function pinsOf(plan: Plan, assumed: ReadonlySet<string>): Pins {
  const at = new Map<string, Pin>();
  const pin = (name: string, when: Instant | null, fact: LoggedFact | null): void => {
    if (when === null) return;
    const isAssumed = assumed.has(name);
    at.set(name, { at: when, how: isAssumed ? "as planned" : "as it went", fact: isAssumed ? null : fact });
  };
  const done = new Set<Id>();
  for (const [id, went] of plan.actual.activities) {
    const place = placeOfActivity(plan, id);
    const [began, ended] = [factOf(id, "at", went.at, place), factOf(id, "end", went.end, place)];
    // What fell through keeps its place in the plan: people went there for it.
    if (went.done || began !== null || ended !== null) done.add(id);
    const [start, end] = stretchOf(plan, id, went);
    pin(`${id}.start`, start, began);
    pin(`${id}.end`, end, ended);
  }
  for (const run of plan.runs.values()) {
    for (const { id, place } of run.stops) {
      const went = plan.actual.stops.get(id);
      pin(`${id}.arrive`, went?.arrived ?? null, factOf(id, "arrived", went?.arrived, place));
      pin(`${id}.leave`, went?.left ?? null, factOf(id, "left", went?.left, place));
    }
  }
  return { ...NO_PINS, at, done };
}
