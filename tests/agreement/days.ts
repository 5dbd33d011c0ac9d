/** Days that are compared with each other: what of a day may not differ, and a day in its facts. */
import { computeChain } from "../../src/day/chain.ts";
import type { Day } from "../../src/day/day.ts";
import { NOT_UNDER_WAY, type UnderWay } from "../../src/day/index.ts";
import { legsOf } from "../../src/legs/legs.ts";
import { readChain } from "../../src/plan/index.ts";
import type { Actual, ActualActivity, ActualStop, Id, Plan } from "../../src/plan/plan.ts";
import type { Instant } from "../../src/time/index.ts";
import { happened, stopped } from "../day/parts.ts";
import type { Entries } from "./randomPlan.ts";

/** A chain of plans and the legs of each, oldest first. */
export interface Links {
  readonly plans: readonly Plan[];
  readonly legs: readonly Awaited<ReturnType<typeof legsOf>>[];
}

export async function linksOf(plans: readonly Plan[]): Promise<Links> {
  return { plans, legs: await Promise.all(plans.map((plan) => legsOf(plan))) };
}

/** The last day of a chain; throws what is mistaken. */
export function lastDay({ plans, legs }: Links, last: Plan = lastOf(plans), underWay: UnderWay = NOT_UNDER_WAY): Day {
  const links = plans.map((plan, index) => ({
    plan: index === plans.length - 1 ? last : plan,
    legs: legs[index] ?? new Map(),
  }));
  const { days, findings } = computeChain(links, underWay);
  const day = days.at(-1);
  if (day === undefined || days.length < plans.length)
    throw new Error(findings.map(({ code, facts }) => `${code} ${JSON.stringify(facts)}`).join("; "));
  return day;
}

export function lastOf<T>(all: readonly T[]): T {
  const last = all.at(-1);
  if (last === undefined) throw new Error("none");
  return last;
}

/** A plan with its day, and the day of another plan over the same legs. */
export interface Solved {
  readonly plan: Plan;
  readonly legs: Awaited<ReturnType<typeof legsOf>>;
  readonly day: Day;
  again(plan: Plan, underWay?: UnderWay): Day;
}

/** A day with the entries and the seed that it was made of. */
export interface Dated extends Solved {
  readonly entries: Entries;
  readonly seed: number;
  /** The same plan on another date. */
  on(date: string): Entries;
}

/** The day of a plan's entries; null where it has mistakes. `files` are those that it uses. */
export async function solved(entries: Entries, files: Readonly<Record<string, Entries>> = {}): Promise<Solved | null> {
  const read = (path: string) => {
    const found = Object.entries(files).find(([name]) => path.endsWith(name));
    if (found === undefined) return { kind: "missing", near: [] } as const;
    return { kind: "text", text: JSON.stringify(found[1]) } as const;
  };
  const { plan } = await readChain(JSON.stringify(entries), { file: "day.yaml", files: { read } });
  if (plan === null) return null;
  const legs = await legsOf(plan);
  const again = (other: Plan, underWay: UnderWay = NOT_UNDER_WAY): Day =>
    lastDay({ plans: [other], legs: [legs] }, other, underWay);
  const [day] = computeChain([{ plan, legs }]).days;
  return day === undefined ? null : { plan, legs, day, again };
}

/** Throws the first places where two values differ, as JSON. */
export function same(actual: unknown, expected: unknown, what: string): void {
  const [a, b] = [JSON.stringify(actual), JSON.stringify(expected)];
  if (a === b) return;
  const found = differences(JSON.parse(a ?? "null"), JSON.parse(b ?? "null"), "").slice(0, 6);
  if (found.length > 0) throw new Error(`${what}: ${found.join("; ")}`);
}

function differences(a: unknown, b: unknown, path: string): readonly string[] {
  if (JSON.stringify(a) === JSON.stringify(b)) return [];
  if (typeof a !== "object" || typeof b !== "object" || a === null || b === null)
    return [`${path} is ${JSON.stringify(a)}, not ${JSON.stringify(b)}`];
  const [left, right] = [new Map<string, unknown>(Object.entries(a)), new Map<string, unknown>(Object.entries(b))];
  return [...new Set([...left.keys(), ...right.keys()])].flatMap((key) =>
    differences(left.get(key), right.get(key), `${path}.${key}`),
  );
}

/** Everything that a day says in figures: instants, slacks, spans, calls, and what is wrong with it. */
export function figures(day: Day) {
  return {
    instants: Object.fromEntries([...day.instants].toSorted(([a], [b]) => (a < b ? -1 : 1))),
    moves: day.moves.map(({ id, leave, arrive, leaveBy, slackMinutes, wheel }) => ({
      ...{ id, leave, arrive, leaveBy, slackMinutes },
      wheel: wheel.map((one) => ({ ...one })),
    })),
    activities: day.activities.map(({ id, state, lineCheck, inPosition, start, end, clearEnd, slackMinutes }) => ({
      ...{ id, state, lineCheck, inPosition, start, end, clearEnd, slackMinutes },
    })),
    people: day.people.map(({ id, call, release, duties, spans, terms }) => ({
      ...{ id, call, release, duties: duties.map((one) => ({ ...one })) },
      spans: spans.map((one) => ({ ...one })),
      terms: terms.map(({ name, from, to }) => ({ name, from, to })),
    })),
    findings: day.findings
      .filter(({ code }) => code !== "logged-otherwise")
      .map(({ code, who, at, shortMinutes }) => ({ code, who, at, shortMinutes })),
  };
}

const HAPPENED = happened({});
const atStop = (arrived: Instant | null, left: Instant | null, driver: Id | null = null): ActualStop =>
  stopped({ arrived, left, driver });

type Logged = Pick<Actual, "activities" | "stops">;

/** Everything that a day plans of activities and vehicles, as if it had been logged to the minute. */
export function everythingLogged(day: Day): Logged {
  const activities = new Map<string, ActualActivity>();
  for (const { id, start, end, activity } of day.activities) {
    if (start !== null && end !== null)
      activities.set(id, { ...HAPPENED, at: start, end, signalPath: activity.signalPath });
  }
  const drivers = new Map(day.moves.map(({ id, driver }) => [id, driver]));
  const stops = new Map(
    day.stops.map(({ stop, arrive, leave }) => [stop.id, atStop(arrive, leave, drivers.get(stop.id) ?? null)]),
  );
  return { activities, stops };
}

/** The same, one fact at a time. */
export function* oneByOne(day: Day): Generator<Logged> {
  const { activities, stops } = everythingLogged(day);
  for (const [id, { at, end, signalPath }] of activities) {
    for (const one of [{ at }, { end }, { at, end }, { signalPath }, {}].map((went) => ({ ...HAPPENED, ...went })))
      yield { activities: new Map([[id, one]]), stops: new Map() };
  }
  for (const [id, { arrived, left, driver }] of stops) {
    for (const one of [atStop(arrived, null), atStop(null, left), atStop(arrived, left), atStop(null, null, driver)])
      yield { activities: new Map(), stops: new Map([[id, one]]) };
  }
}

/** The plan with what was logged besides what it states. */
export const logging = (plan: Plan, logged: Logged): Plan => ({
  ...plan,
  actual: {
    ...plan.actual,
    activities: new Map([...logged.activities, ...plan.actual.activities]),
    stops: new Map([...logged.stops, ...plan.actual.stops]),
  },
});
