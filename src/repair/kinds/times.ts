/** Edits that move work in the day: a stop's own time taken back, another order, another time, a shorter stay, a meal. */
import type { ActivityTimes, Day, PersonSpan } from "../../day/day.ts";
import type { Fact, Finding, PlanPath } from "../../findings/finding.ts";
import type { Edit } from "../../plan/edit/splice.ts";
import type { Id, Plan, Stop, Task } from "../../plan/plan.ts";
import { after, type Instant, instant } from "../../time/index.ts";
import type { Candidate, RepairProblem } from "../outcome.ts";
import { collapsed, doEdits, isOwn, listValue, timeValue } from "../writing.ts";

/** The most times that one task is tried at. */
const MOST_TIMES = 6;
/** Nothing is shortened below this. */
const LEAST_MINUTES = 10;
/** What a fill-up takes (common practice, no source). */
export const FUEL_MINUTES = 15;

/** `leave` and `arriveBy` of a stop taken back, so that the day may place it. */
export function leaveCandidates({ now: { day }, text }: RepairProblem): readonly Candidate[] {
  return stopsOf(day.plan).flatMap((stop): readonly Candidate[] => {
    const stated = [...(stop.leave === null ? [] : ["leave"]), ...(stop.arriveBy === null ? [] : ["arriveBy"])];
    return stated
      .map((key) => [...stop.path, key])
      .filter((path) => isOwn(day.plan, text, path))
      .map((path) => ({ edits: [{ path, value: null }] }));
  });
}

const stopsOf = (plan: Plan): readonly Stop[] => [...plan.runs.values()].flatMap(({ stops }) => stops);

/** Two neighbours of one visit in the other order, at every vehicle that makes it. */
export function orderCandidates({ now: { day }, text }: RepairProblem): readonly Candidate[] {
  const byId = new Map(stopsOf(day.plan).map((stop) => [stop.id, stop]));
  const seen = new Set<string>();
  return day.stops.flatMap(({ stop }): readonly Candidate[] => {
    const ids = collapsed(day.plan, visitOf(day, stop));
    return ids.slice(1).flatMap((second, at): readonly Candidate[] => {
      const first = ids[at] ?? "";
      // Two hits go by time.
      const [one, other] = [first, second].map((id) => startOf(day.plan, id));
      if (one !== undefined && other !== undefined && one <= other) return [];
      const together = togetherAt(day, [first, second]).flatMap((id) => byId.get(id) ?? []);
      const lists = together
        .filter((one) => isOwn(day.plan, text, one.path))
        .flatMap((one): readonly (readonly [Stop, readonly Id[]])[] => {
          const own = collapsed(day.plan, visitOf(day, one));
          const index = own.indexOf(first);
          if (index < 0 || own[index + 1] !== second) return [];
          return [[one, own.with(index, second).with(index + 1, first)]];
        });
      const edits = doEdits(day, text, new Map(lists)) ?? [];
      const key = JSON.stringify(edits);
      if (edits.length === 0 || seen.has(key)) return [];
      seen.add(key);
      return [{ edits }];
    });
  });
}

/** When a hit begins, a series with its first; undefined for a task. */
const startOf = ({ hits, groups }: Plan, id: Id): Instant | undefined =>
  (hits.get(id) ?? hits.get(groups.get(id)?.[0] ?? ""))?.at;

/** What is done at a stop, in the order of `do`, else of the day. */
function visitOf(day: Day, stop: Stop): readonly Id[] {
  if (stop.do !== null) return stop.do;
  return day.stops.find((one) => one.stop.id === stop.id)?.activities ?? [];
}

/** The stops of the vehicles that take part in any of these. */
const togetherAt = (day: Day, ids: readonly Id[]): readonly Id[] => {
  const members = ids.flatMap((id) => day.plan.groups.get(id) ?? [id]);
  return [...new Set(day.activities.filter(({ id }) => members.includes(id)).flatMap(({ stops }) => stops))];
};

/** A task at another time: where a limit that a finding names, or a wait, ends; the nearest first. */
export function taskTimeCandidates({ now: { day }, text, targets }: RepairProblem): readonly Candidate[] {
  return ownTasks(day, text).flatMap(({ task, times }): readonly Candidate[] => {
    const { start, length } = plannedOf(task, times);
    if (start === null || length === null) return [];
    const moments = momentsFor(day, times, targets, length);
    const room = roomFor(day, times);
    const near = [...new Set(moments)]
      .filter((at) => at !== start && at >= room.from && at + length <= room.to)
      .sort((a, b) => Math.abs(a - start) - Math.abs(b - start) || a - b)
      .slice(0, MOST_TIMES);
    return near.map((at) => ({ edits: [windowEdit(day.plan, task, at, length)] }));
  });
}

/** When a task begins and how long it lasts; one that is missed as its window says. */
function plannedOf({ window, forMinutes }: Task, { start, end }: ActivityTimes) {
  if (start !== null && end !== null) return { start, length: end - start };
  return { start: window?.from ?? null, length: forMinutes };
}

/** Between the hits that its vehicles make before it and after it: `do` and the order of the stops stay as they are. */
function roomFor(day: Day, { stops, id }: ActivityTimes): { readonly from: number; readonly to: number } {
  const room = { from: Number.NEGATIVE_INFINITY, to: Number.POSITIVE_INFINITY };
  for (const run of day.plan.runs.values()) {
    const here = run.stops.findIndex((stop) => stops.includes(stop.id));
    const own = run.stops[here]?.do ?? null;
    for (const hit of here < 0 ? [] : day.activities) {
      if (!day.plan.hits.has(hit.id) || hit.start === null || hit.end === null) continue;
      const at = run.stops.findIndex((stop) => hit.stops.includes(stop.id));
      const order =
        at === here && own !== null ? placeIn(day.plan, own, hit.id) - placeIn(day.plan, own, id) : at - here;
      if (at < 0 || order === 0) continue;
      if (order < 0) room.from = Math.max(room.from, hit.end);
      else room.to = Math.min(room.to, hit.start);
    }
  }
  return room;
}

const placeIn = (plan: Plan, own: readonly Id[], id: Id): number =>
  own.findIndex((one) => one === id || plan.groups.get(one)?.includes(id) === true);

const windowEdit = (plan: Plan, { path }: Task, at: Instant, length: number) => ({
  path: [...path, "window"],
  value: `[${timeValue(plan, at)}, ${timeValue(plan, after(at, length))}]`,
});

interface OwnTask {
  readonly task: Task;
  readonly times: ActivityTimes;
}

const ownTasks = (day: Day, text: string): readonly OwnTask[] =>
  day.activities.flatMap((times) => {
    const task = day.plan.tasks.get(times.id);
    return task !== undefined && isOwn(day.plan, text, task.path) ? [{ task, times }] : [];
  });

/** Beginnings that touch the end of a wait or of what a finding measures. */
function momentsFor(day: Day, { who }: ActivityTimes, targets: readonly Finding[], length: number): readonly Instant[] {
  const waits = day.people
    .filter(({ id }) => who.includes(id))
    .flatMap(({ spans }) => spans.filter(({ doing }) => doing === "wait"));
  const limits = targets
    .filter((finding) => finding.who === null || who.includes(finding.who))
    .flatMap(({ facts, at }) => [...Object.values(facts).flatMap(instantsInFact), ...(at === null ? [] : [at])]);
  return [
    ...waits.flatMap(({ from, to }) => [from, instant(to - length)]),
    ...limits.flatMap((at) => [at, instant(at - length)]),
  ];
}

/** The instants inside a fact. */
const instantsInFact = (fact: Fact): readonly Instant[] =>
  typeof fact === "object" && fact !== null && "at" in fact && typeof fact.at === "number" ? [fact.at] : [];

/** A task, or a stay of a stop, shorter by what is missing; a meal never below what the house asks of one, nor a fill-up below what one takes. */
export function stayCandidates({ now: { day }, text, targets }: RepairProblem): readonly Candidate[] {
  const missing = [...new Set(targets.flatMap((one) => one.shortMinutes ?? one.facts["short"] ?? []))].filter(
    (minutes): minutes is number => typeof minutes === "number" && minutes > 0,
  );
  const tasks = [...day.plan.tasks.values()].filter((task) => isOwn(day.plan, text, [...task.path, "for"]));
  const shorter = tasks.flatMap(({ kind, path, forMinutes }) => {
    if (forMinutes === null || kind === "rest" || kind === "standdown") return [];
    const least = kind === "meal" ? day.plan.rules.mealFor : kind === "fuel" ? FUEL_MINUTES : LEAST_MINUTES;
    return shortened([...path, "for"], forMinutes, lengthsBelow(forMinutes, least, missing));
  });
  const stays = stopsOf(day.plan).flatMap(({ path, stayMinutes }) => {
    if (stayMinutes === null || !isOwn(day.plan, text, path)) return [];
    return shortened([...path, "stay"], stayMinutes, lengthsBelow(stayMinutes, 0, missing));
  });
  return [...shorter, ...stays, ...shorterStandDowns(day, text, missing)];
}

/** A stand-down that ends earlier or begins later by what is missing: it fills its window. */
function shorterStandDowns({ plan }: Day, text: string, missing: readonly number[]): readonly Candidate[] {
  return [...plan.tasks.values()].flatMap((task) => {
    const { kind, window, path } = task;
    if (kind !== "standdown" || window === null || !isOwn(plan, text, [...path, "window"])) return [];
    const length = window.to - window.from;
    return lengthsBelow(length, LEAST_MINUTES, missing).flatMap((minutes) => [
      { edits: [windowEdit(plan, task, window.from, minutes)] },
      { edits: [windowEdit(plan, task, after(window.from, length - minutes), minutes)] },
    ]);
  });
}

const shortened = (path: PlanPath, was: number, lengths: readonly number[]): readonly Candidate[] =>
  lengths.map((minutes) => ({ edits: [{ path, value: `${minutes} min` }], length: { was, minutes } }));

/** Shorter by each of what is missing, and as short as it may be. */
const lengthsBelow = (length: number, least: number, missing: readonly number[]): readonly number[] =>
  [...new Set([...missing.map((minutes) => length - minutes), least])]
    .filter((minutes) => minutes >= least && minutes < length)
    .sort((a, b) => b - a)
    .slice(0, 3);

/** A meal in a wait of those who get none in time, as early and as late as is enough, else at either end of the wait. */
export function mealCandidates({ now: { day }, text, targets }: RepairProblem): readonly Candidate[] {
  const hungry = targets.filter(({ code, who }) => code === "meal-late" && who !== null);
  const length = day.plan.rules.mealFor;
  // Meals of other people or at another place have names of their own, so that they can be made together.
  const names = new Map<string, Id>();
  return hungry.flatMap((finding) => {
    const told = instantsOf(finding, "wait", "waitTo");
    const waits = day.people
      .filter(({ id }) => id === finding.who)
      .flatMap(({ spans }) => spans.filter(({ doing, from, to }) => doing === "wait" && to - from >= length))
      .flatMap(({ from, to }) => [from, instant(to - length)]);
    const both = instantsOf(finding, "meal", "nextMeal");
    const asked = [...new Set([...told, ...waits])].map((at) => [at]);
    return [...asked, ...(both.length === 0 ? [] : [both])].flatMap((moments) => {
      const edits = mealsAt(day, text, finding, moments, (party) => {
        const name = names.get(party) ?? freshId(day.plan, "meal", [...names.values()]);
        names.set(party, name);
        return name;
      });
      return edits === null ? [] : [{ edits }];
    });
  });
}

/** The instants that a finding states under some names, where it does. */
export const instantsOf = ({ facts }: Finding, ...keys: readonly string[]): readonly Instant[] =>
  keys.flatMap((key) => instantsInFact(facts[key] ?? null));

/**
 * A meal at each of some moments for everyone who waits with whom it is about; null where their stop cannot be edited here.
 * `nameOf` gives the task's id for the people who eat at a place, and which of their meals it is.
 */
export function mealsAt(
  day: Day,
  text: string,
  finding: Finding,
  moments: readonly Instant[],
  nameOf: (party: string) => Id,
): readonly Edit[] | null {
  const length = day.plan.rules.mealFor;
  const starts = new Map(day.activities.map(({ id, start }) => [id, start]));
  const lists = new Map<Stop, readonly Id[]>();
  const meals: Edit[] = [];
  for (const [index, at] of moments.entries()) {
    const own = day.people.find(({ id }) => id === finding.who)?.spans.find((span) => isWait(span, at, length));
    const place = own?.place ?? null;
    if (place === null) return null;
    const ids = day.people
      .filter(({ spans }) => spans.some((span) => isWait(span, at, length) && span.place === place))
      .map((person) => person.id);
    const id = nameOf([place, ...ids, ...(index === 0 ? [] : [index])].join(" "));
    starts.set(id, at);
    for (const { stop, arrive, leave, activities } of day.stops)
      if (stop.place === place && (arrive ?? at) <= at && at < (leave ?? Number.MAX_SAFE_INTEGER))
        lists.set(stop, putIn(starts, lists.get(stop) ?? stop.do ?? activities, id, at));
    const window = `[${timeValue(day.plan, at)}, ${timeValue(day.plan, after(at, length))}]`;
    const people = ids.length === day.plan.crew.size ? "all" : listValue(ids);
    const value = `{ kind: meal, place: ${place}, for: ${length} min, who: ${people}, window: ${window} }`;
    meals.push({ path: ["tasks", id], value });
  }
  const listed = doEdits(day, text, lists);
  return listed === null ? null : [...meals, ...listed];
}

const isWait = ({ doing, from, to }: PersonSpan, at: Instant, length: number): boolean =>
  doing === "wait" && from <= at && at + length <= to;

/** The `do` of a stop with a new task behind what begins before it. */
function putIn(starts: ReadonlyMap<Id, Instant | null>, own: readonly Id[], id: Id, at: Instant): readonly Id[] {
  const index = own.findIndex((one) => (starts.get(one) ?? at) > at);
  return index < 0 ? [...own, id] : own.toSpliced(index, 0, id);
}

/** As `putIn`, for what the day has a time for; what has none comes last. */
export function placedAt(day: Day, own: readonly Id[], id: Id): readonly Id[] {
  const starts = new Map(day.activities.map((one) => [one.id, one.start]));
  const start = starts.get(id) ?? null;
  return start === null ? [...own, id] : putIn(starts, own, id, start);
}

/** An id that the plan does not have yet, nor `others`: `meal`, `meal2` … */
export function freshId(plan: Plan, word: string, others: readonly Id[] = []): Id {
  const taken = (id: Id): boolean =>
    others.includes(id) ||
    [
      plan.crew,
      plan.vehicles,
      plan.places,
      plan.hits,
      plan.tasks,
      plan.rides,
      plan.kit,
      plan.packs,
      plan.chargers,
      plan.paths,
      plan.lines,
      plan.groups,
    ].some((section) => section.has(id));
  if (!taken(word)) return word;
  for (let n = 2; ; n++) if (!taken(`${word}${n}`)) return `${word}${n}`;
}
