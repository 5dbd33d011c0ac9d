/**
 * An edit of a day that is under way: what has begun before now stands as the plan before the edit has it, to its end, and
 * only what has not begun follows the edit.
 */
import type { Finding } from "../../findings/finding.ts";
import type { Hit, Id, Plan, Ride, Run, Stop, Task } from "../../plan/plan.ts";
import { manningOf } from "../../plan/sense/manning.ts";
import type { Instant } from "../../time/units.ts";
import type { Day } from "../day.ts";
import { editOfPast } from "../findings/findingsFacts.ts";
import type { Pin } from "./pins.ts";

/** What the log and `--now` say of the past: the plan as it went and the instants that stand. */
export interface LoggedPast {
  /** The edited plan with everything that has begun as it was before the edit. */
  readonly plan: Plan;
  /** By the name of the instant. */
  readonly pins: ReadonlyMap<string, Pin>;
  readonly findings: readonly Finding[];
}

/** `day` is that of `old`, the plan before the edit with the facts that are known now. */
export function pastOf(day: Day, old: Plan, edited: Plan, now: Instant): LoggedPast {
  const findings: Finding[] = [];
  const edit = (what: Id, path: Finding["path"]): void => {
    findings.push(editOfPast.raise({ what }, { path: path ?? [what] }));
  };
  const began = (...names: readonly string[]): boolean => names.some((name) => (day.instants.get(name) ?? now) < now);
  const isPast = (id: Id): boolean => began(`${id}.lineCheck`, `${id}.inPosition`, `${id}.start`);
  const hits = restored<Hit>(old.hits, edited.hits, { isPast, time: (hit) => hit.at, now, edit });
  const tasks = restored<Task>(old.tasks, edited.tasks, { isPast, time: endOf, now, edit });
  const isRidden = (id: Id): boolean => began(`${id}.lead`, `${id}.leave`);
  const rides = restored<Ride>(old.rides, edited.rides, { isPast: isRidden, time: (ride) => ride.leave, now, edit });
  const runs = new Map(edited.runs);
  for (const run of old.runs.values()) {
    const reached = run.stops.findLastIndex(({ id }, index) =>
      began(`${id}.arrive`, `${id}.walkAround`, `${id}.loading`, `${run.stops[index - 1]?.id ?? ""}.leave`),
    );
    if (reached < 0) continue;
    runs.set(run.vehicle, restoredRun(old, edited, run, { reached, isPast, edit }));
  }
  const plan = { ...edited, hits, tasks, rides, runs };
  return { plan, pins: begunBefore(day, now), findings };
}

const endOf = ({ window, by }: Task): Instant | null => window?.to ?? by;

interface Restoring<T> {
  readonly isPast: (id: Id) => boolean;
  /** The stated time by which an entry is over or has begun; null where none is stated. */
  readonly time: (entry: T) => Instant | null;
  readonly now: Instant;
  readonly edit: (what: Id, path: Finding["path"]) => void;
}

/** What has begun is as it was; an entry that an edit puts into the past is left out. */
function restored<T extends { readonly id: Id; readonly path: NonNullable<Finding["path"]> }>(
  old: ReadonlyMap<Id, T>,
  edited: ReadonlyMap<Id, T>,
  { isPast, time, now, edit }: Restoring<T>,
): ReadonlyMap<Id, T> {
  const result = new Map<Id, T>();
  for (const [id, entry] of edited) {
    const before = old.get(id);
    const isChanged = before !== undefined && !isSame(before, entry);
    if (before !== undefined && isPast(id)) {
      if (isChanged) edit(id, entry.path);
      result.set(id, before);
    } else if ((before === undefined || isChanged) && (time(entry) ?? now) < now) {
      edit(id, entry.path);
      if (before !== undefined) result.set(id, before);
    } else result.set(id, entry);
  }
  for (const [id, entry] of old) {
    if (edited.has(id) || !isPast(id)) continue;
    edit(id, entry.path);
    result.set(id, entry);
  }
  return result;
}

const isSame = (a: unknown, b: unknown): boolean => JSON.stringify(a, plain) === JSON.stringify(b, plain);

/** Where an entry stands in its file is no part of what it says. */
function plain(key: string, value: unknown): unknown {
  if (key === "path") return null;
  return value instanceof Map || value instanceof Set ? [...value] : value;
}

interface RunPast {
  /** Index of the last stop that the vehicle has reached or is on the way to: it has not left that one. */
  readonly reached: number;
  /** Whether a hit or task has begun. */
  readonly isPast: (id: Id) => boolean;
  readonly edit: (what: Id, path: Finding["path"]) => void;
}

function restoredRun(old: Plan, edited: Plan, run: Run, { reached, isPast, edit }: RunPast): Run {
  const now = edited.runs.get(run.vehicle);
  if (now === undefined) {
    edit(run.vehicle, run.path);
    return run;
  }
  const before = manned(old, run);
  const after = manned(edited, now);
  const stops = before.slice(0, reached).map((stop, index): Stop => {
    const other = after[index];
    // What was not done at a stop that was left may go from its list.
    const listed = stop.do?.filter((id) => isPast(id) || other?.do?.includes(id) === true) ?? null;
    const left = { ...stop, do: listed };
    if (other !== undefined && isSame(left, other)) return left;
    edit(stop.id, other?.path ?? stop.path);
    return stop;
  });
  const here = before[reached];
  const there = after[reached];
  if (here === undefined) return { ...now, stops };
  if (there === undefined || there.place !== here.place) {
    edit(here.id, there?.path ?? here.path);
    return { ...now, stops: [...stops, here, ...after.slice(reached + 1)] };
  }
  const doing = there.do === null ? null : withBegun(here.do ?? [], there.do, isPast);
  return { ...now, stops: [...stops, { ...there, do: doing }, ...after.slice(reached + 1)] };
}

/** What is done at a stop after an edit, with what has begun there in its old order, before what has not if that is no longer so. */
function withBegun(before: readonly Id[], edited: readonly Id[], isPast: (id: Id) => boolean): readonly Id[] {
  const begun = before.filter(isPast);
  const kept = edited.filter((id) => begun.includes(id));
  const isAsBefore = kept.length === begun.length && kept.every((id, at) => id === begun[at]);
  return isAsBefore ? edited : [...begun, ...edited.filter((id) => !begun.includes(id))];
}

/** The stops of a run with who rides, drives and sleeps stated at each. */
function manned(plan: Plan, run: Run): readonly Stop[] {
  const mannings = manningOf(plan, run);
  return run.stops.map((stop, index): Stop => {
    const manning = mannings?.[index];
    // No one drives on from the last.
    if (manning === undefined || index === run.stops.length - 1) return stop;
    const { aboard, asleep, relieve, saidDriver } = manning;
    return { ...stop, aboard, asleep, relieve, driver: saidDriver?.who ?? null };
  });
}

/** Named lengths that are gone through to their end once they have begun. */
const TERMS: readonly (readonly [from: string, to: string])[] = [
  ["lineCheck", "inPosition"],
  ["start", "end"],
  ["end", "clear"],
  ["walkAround", "loading"],
  ["loading", "leave"],
  ["arrive", "parked"],
  ["parked", "setUp"],
  ["setUp", "ready"],
  ["unload", "unloaded"],
  ["unloaded", "checked"],
];

/** What had begun before a moment, to its end. */
export function begunBefore(
  { instants, moves }: Pick<Day, "instants" | "moves">,
  now: Instant,
): ReadonlyMap<string, Pin> {
  const pins = new Map<string, Pin>();
  const pin = (name: string, at: Instant | undefined): void => {
    if (at !== undefined) pins.set(name, { at, how: "as planned", fact: null });
  };
  for (const [name, at] of instants) {
    if (at >= now) continue;
    pin(name, at);
    const dot = name.lastIndexOf(".");
    for (const [from, to] of TERMS) {
      if (from !== name.slice(dot + 1)) continue;
      const end = `${name.slice(0, dot)}.${to}`;
      pin(end, instants.get(end));
    }
  }
  for (const move of moves) {
    if (move.leave >= now) continue;
    const arrival = `${nextStop(move.id)}.arrive`;
    if (instants.has(arrival)) pin(arrival, move.arrive);
  }
  return pins;
}

/** `wagon.2` after `wagon.1`. */
function nextStop(stop: Id): Id {
  const dot = stop.lastIndexOf(".");
  return `${stop.slice(0, dot)}.${Number(stop.slice(dot + 1)) + 1}`;
}
