/**
 * What is true of every day, as laws that one random day each is held to: what may change nothing changes nothing, and
 * nobody is in two places. A law throws what contradicts it.
 */
import type { Day, PersonDay } from "../../src/day/day.ts";
import type { ActualActivity, ActualPerson, ActualStop, Id, Plan } from "../../src/plan/plan.ts";
import { type Instant, instant } from "../../src/time/units.ts";
import { happened, stopped } from "../day/parts.ts";
import { random } from "../day/random.ts";
import { type Dated, everythingLogged, figures, logging, oneByOne, type Solved, same, solved } from "./days.ts";
import { DATE, type Entries } from "./randomPlan.ts";

export interface Law {
  readonly name: string;
  check(one: Dated): void | Promise<void>;
}

/** One day in so many is asked about at every minute of it. */
const EVERY_MINUTE = 1000;
const WEEK = 7 * 1440;
/** Minutes since the epoch are far above any length or slack of a day. */
const INSTANT = 10_000_000;

const byId = <T extends { readonly id: string }>(all: readonly T[]): readonly T[] =>
  all.toSorted((a, b) => (a.id < b.id ? -1 : 1));

/** The figures of a day whatever the order of its rows. */
const unordered = (day: Day) => {
  const { moves, activities, people, findings, ...others } = figures(day);
  const said = findings.map((one) => JSON.stringify(one)).toSorted();
  return { ...others, moves: byId(moves), activities: byId(activities), people: byId(people), said };
};

const NOT_LOGGED: ActualPerson = { call: null, released: null, asleepMinutes: null, inBed: [], up: null, note: null };

/** What everybody does when, without the words for it. */
const lived = ({ people }: Day) =>
  people.map(({ id, call, release, duties, spans }) => ({
    ...{ id, call, release, duties },
    spans: spans.map(({ from, to, is, place, vehicle }) => ({ from, to, is, place, vehicle })),
  }));

/** The entries of every map in another order. */
export function shuffled<T>(value: T, dice: (below: number) => number): T;
export function shuffled(value: unknown, dice: (below: number) => number): unknown {
  if (Array.isArray(value)) return value.map((one) => shuffled(one, dice));
  if (typeof value !== "object" || value === null) return value;
  const entries = Object.entries(value).map(([key, one]): [string, unknown] => [key, shuffled(one, dice)]);
  for (let at = entries.length - 1; at > 0; at--) {
    const other = dice(at + 1);
    const [a, b] = [entries[at], entries[other]];
    if (a !== undefined && b !== undefined) [entries[at], entries[other]] = [b, a];
  }
  return Object.fromEntries(entries);
}

async function plain(entries: Entries, files: Readonly<Record<string, Entries>> = {}): Promise<Solved> {
  const other = await solved(entries, files);
  if (other === null) throw new Error("the other plan is refused");
  return other;
}

/** Every instant in `value` so many minutes later. */
const shifted = <T>(value: T, minutes: number): T =>
  JSON.parse(JSON.stringify(value), (_, one) => (typeof one === "number" && one > INSTANT ? one + minutes : one));

export const LAWS: readonly Law[] = [
  {
    name: "have nobody in two places, nor asleep and busy",
    check: ({ day }) => {
      for (const person of day.people) {
        same(
          person.spans.slice(1).map(({ from }) => from),
          person.spans.slice(0, -1).map(({ to }) => to),
          person.id,
        );
        for (const move of day.moves) inItsVehicle(person, move);
        for (const one of day.activities) atItsPlace(day, person, one);
      }
    },
  },
  {
    name: "take nobody from one place to another but by a ride",
    check: ({ day }) => {
      for (const { id, spans } of day.people)
        for (const [n, { place, from }] of spans.entries()) {
          const before = spans[n - 1]?.place ?? null;
          if (place !== null && before !== null && place !== before)
            throw new Error(`${id} is at ${before} and then at ${place}, at ${from}`);
        }
    },
  },
  {
    name: "are the same with what they plan logged, all together and one by one",
    check: ({ plan, day, again, seed }) => {
      const expected = figures(day);
      same(figures(again(logging(plan, everythingLogged(day)))), expected, "all logged");
      const all = [...oneByOne(day)];
      const dice = random(seed);
      for (const one of [all[dice(all.length)], all[dice(all.length)]]) {
        if (one === undefined) continue;
        const what = JSON.stringify([...one.activities, ...one.stops]);
        same(figures(again(logging(plan, one))), expected, what);
      }
    },
  },
  {
    name: "have the same calls, releases and spans with one of them logged as it is printed",
    check: ({ plan, day, again, seed }) => {
      const dice = random(seed);
      const called = day.people.filter(({ duties }) => duties.length > 0);
      const one = called[dice(called.length)];
      const duty = one?.duties[dice(one.duties.length)];
      if (one === undefined || duty === undefined) return;
      const { call, release } = duty;
      for (const went of [{ call }, { released: release }, { call, released: release }]) {
        const people = new Map([...plan.actual.people, [one.id, { ...NOT_LOGGED, ...went }] as const]);
        const other = again({ ...plan, actual: { ...plan.actual, people } });
        same(lived(other), lived(day), `${one.id} ${JSON.stringify(went)}`);
      }
    },
  },
  {
    name: "with a hit that went out late have the calls and departures before it as planned",
    check: ({ plan, day, again, seed }) => {
      const hits = day.activities.filter(({ activity, start }) => activity.kind === "hit" && start !== null);
      const hit = hits[random(seed)(hits.length)];
      if (hit?.start == null) return;
      const { start } = hit;
      const late = { ...happened({}), at: instant(start + 4) };
      const other = again(logging(plan, { activities: new Map([[hit.id, late]]), stops: new Map() }));
      const before = ({ moves, people }: Day) => [
        moves.filter(({ leave }) => leave < start).map(({ id, leave }) => [id, leave]),
        people.flatMap(({ id, call }) => (call !== null && call < start ? [[id, call]] : [])),
      ];
      same(before(other), before(day), `${hit.id} at ${start + 4}`);
    },
  },
  {
    name: "with something that went later than planned have all before it as it was known",
    check: ({ plan, day, again, seed }) => {
      const dice = random(seed);
      let known = day;
      let logged: readonly Late[] = [];
      for (let count = 1 + dice(2); count > 0; count--) {
        const all = lateFacts(known, logged, dice);
        const fact = all[dice(all.length)];
        if (fact === undefined) return;
        logged = [...logged, fact];
        const next = again(withLate(plan, logged));
        same(changedBefore(known, next, fact), [], JSON.stringify(logged));
        known = next;
      }
    },
  },
  {
    name: "can be computed with any one thing that went much later than planned",
    check: ({ plan, day, again, seed }) => {
      const dice = random(seed ^ 0x1a7e);
      const none = { activities: new Map(), stops: new Map() };
      const later = (at: Instant): Instant => instant(at + 20 + dice(240));
      const logs = [
        ...day.activities.flatMap(({ id, start }) =>
          start === null ? [] : [{ ...none, activities: new Map([[id, happened({ at: later(start), done: true })]]) }],
        ),
        ...day.stops.flatMap(({ stop: { id }, arrive }) =>
          arrive === null ? [] : [{ ...none, stops: new Map([[id, stopped({ arrived: later(arrive) })]]) }],
        ),
      ];
      for (const log of [logs[dice(logs.length)], logs[dice(logs.length)]])
        if (log !== undefined) again(logging(plan, log));
    },
  },
  {
    name: "with vehicles logged as arriving early make every hit that they make as planned, or one that they did not",
    check: ({ plan, day, again, seed }) => {
      const dice = random(seed);
      const all = earlyArrivals(day, dice);
      const only = dice(2) === 0 ? dice(all.length) : null;
      const logged = all.filter((_, index) => (only === null ? dice(2) === 0 : index === only));
      const other = again(logging(plan, { activities: new Map(), stops: new Map(logged) }));
      const made = ({ activities }: Day) =>
        activities.flatMap(({ id, state, activity }) => (activity.kind === "hit" && state === "fixed" ? [id] : []));
      const kept = made(other);
      // Who is there in time for a hit that was out of reach may be late for the next.
      if (kept.some((id) => !made(day).includes(id))) return;
      same(
        made(day).filter((id) => !kept.includes(id)),
        [],
        JSON.stringify(logged.map(([id, { arrived }]) => [id, arrived])),
      );
    },
  },
  {
    name: "are the same at any minute of them, also where an edit changes nothing",
    check: ({ plan, legs, day, again, seed }) => {
      const expected = figures(day);
      const dice = random(seed);
      for (const [index, now] of momentsOf(day, seed, dice).entries()) {
        const edited = figures(again(plan, { now: instant(now), unedited: { plan, legs } }));
        same(edited, expected, `edited at ${now}`);
        if (index === 0) same(figures(again(plan, { now: instant(now), unedited: null })), expected, `now ${now}`);
      }
    },
  },
  {
    name: "with the entries of every map in another order are the same, or a note says what the order decided",
    check: async ({ day, entries, seed }) => {
      const other = await plain(shuffled(entries, random(seed)));
      const isOpen = (one: Day): boolean => one.findings.some(({ code }) => code === "order-unstated");
      if (!isOpen(day) && !isOpen(other.day)) same(unordered(other.day), unordered(day), "in another order");
    },
  },
  {
    name: "a week later are the same a week later",
    check: async ({ day, on }) => {
      if (DATE !== "2027-05-10") throw new Error("no week between");
      const later = await plain(on("2027-05-17"));
      same(shifted(figures(later.day), -WEEK), figures(day), "a week later");
    },
  },
  {
    name: "with other ids in the same order are the same",
    check: async ({ day, entries }) => {
      const renamed: Entries = JSON.parse(JSON.stringify(entries).replace(/"([pvsht])(\d+)"/g, '"x$1$2"'));
      const other = await plain(renamed);
      const back = JSON.parse(JSON.stringify(figures(other.day)).replace(/"x([pvsht])(\d+)/g, '"$1$2'));
      same(sortedInstants(back), sortedInstants(figures(day)), "renamed");
    },
  },
  {
    name: "with somebody who has nothing to do are the same for all others",
    check: async ({ day, entries }) => {
      const crew = { ...Object(entries["crew"]), z9: { slept: "s0", sleeps: "s0" } };
      const { people, findings, ...others } = figures((await plain({ ...entries, crew })).day);
      const isSaid = ({ code }: { readonly code: string }): boolean => code !== "nothing-to-do";
      const expected = figures(day);
      same(
        { ...others, people: people.filter(({ id }) => id !== "z9"), findings: findings.filter(isSaid) },
        { ...expected, findings: expected.findings.filter(isSaid) },
        "with z9",
      );
    },
  },
  {
    name: "with a shared file are the same as in one file",
    check: async ({ day, entries }) => {
      const { crew = {}, vehicles = {}, places = {}, roads = [], ...own } = entries;
      const shared: Entries = { crew, vehicles, places, roads };
      const other = await plain({ ...own, uses: ["shared.yaml"] }, { "shared.yaml": shared });
      same(figures(other.day), figures(day), "in two files");
    },
  },
];

/** Something that went later than was known. */
interface Late {
  readonly what: "at" | "end" | "arrived" | "left" | "call";
  readonly id: Id;
  readonly planned: Instant;
  readonly at: Instant;
}

/** What may go late of a day after all that is logged of it. */
function lateFacts(day: Day, before: readonly Late[], dice: (below: number) => number): readonly Late[] {
  const since = Math.max(0, ...before.map(({ at }) => at));
  const all = [
    ...day.activities.flatMap(({ id, start, end, activity }) => [
      { what: "at" as const, id, planned: start },
      { what: "end" as const, id, planned: activity.kind === "standdown" ? null : end },
    ]),
    ...day.moves.map(({ id, leave }) => ({ what: "left" as const, id, planned: leave })),
    ...day.stops.map(({ stop, arrive }) => ({ what: "arrived" as const, id: stop.id, planned: arrive })),
    ...day.people.map(({ id, duties }) => ({ what: "call" as const, id, planned: duties[0]?.call ?? null })),
  ];
  return all.flatMap(({ planned, ...one }) =>
    planned === null || planned < since || before.some(({ id }) => id === one.id)
      ? []
      : { ...one, planned, at: instant(planned + 1 + dice(90)) },
  );
}

function withLate(plan: Plan, facts: readonly Late[]): Plan {
  const activities = new Map<Id, ActualActivity>();
  const stops = new Map<Id, ActualStop>();
  const people = new Map(plan.actual.people);
  for (const { what, id, at } of facts) {
    if (what === "call") people.set(id, { ...NOT_LOGGED, call: at });
    else if (what === "at" || what === "end") activities.set(id, { ...happened({}), [what]: at });
    else stops.set(id, stopped({ [what]: at }));
  }
  const logged = logging(plan, { activities, stops });
  return { ...logged, actual: { ...logged.actual, people } };
}

/**
 * What was known of before the fact and is otherwise with it. Between the moment it was planned for and its own, what has to
 * wait for it has not happened by then, and may be lost.
 */
function changedBefore(known: Day, next: Day, { what, id, planned, at }: Late): readonly string[] {
  const own = what === "call" ? `${id}.call` : what === "at" ? `${id}.start` : "";
  return [...known.instants].flatMap(([name, was]) => {
    if (was >= at || name === own || !/\.(?:leave|arrive|call|start)$/u.test(name)) return [];
    const is = next.instants.get(name);
    const waits = was >= planned && (is === undefined || is >= at);
    return is === was || waits ? [] : [`${name} at ${was} is at ${is}`];
  });
}

/** Some minutes of a day: two of its instants or beside them, and any other; of one day in many all. */
function momentsOf(day: Day, seed: number, dice: (below: number) => number): readonly number[] {
  const { from, to } = day.span;
  if (seed % EVERY_MINUTE === 0) return Array.from({ length: to - from + 2 }, (_, index) => from - 1 + index);
  const instants: readonly Instant[] = [...day.instants.values()];
  const near = (): number => (instants[dice(instants.length)] ?? from) + dice(3) - 1;
  return [near(), near(), from + dice(Math.max(1, to - from))];
}

/**
 * Every arrival up to an hour early, but not before what those aboard had on air, in whoever's visit, nor before they came
 * by another vehicle, and the likely drive after it, of which no less than half of the planned one is believed.
 */
function earlyArrivals(day: Day, dice: (below: number) => number): readonly (readonly [Id, ActualStop])[] {
  const arrived = new Map<Id, number>();
  return day.moves.flatMap(({ id, vehicle, driver, riders, leave, arrive, likelyMinutes, plannedMinutes, halts }) => {
    const stops = day.plan.runs.get(vehicle)?.stops ?? [];
    const next = stops[stops.findIndex((stop) => stop.id === id) + 1];
    if (next === undefined || next.ferry !== null || halts.length > 0) return [];
    const aboard = new Set([driver, ...riders]);
    const came = day.moves.flatMap((other) =>
      other.vehicle !== vehicle &&
      other.arrive <= leave &&
      [other.driver, ...other.riders].some((one) => aboard.has(one))
        ? other.arrive
        : [],
    );
    const ends = day.activities.flatMap(({ stops, state, who, end }) => {
      const theirs = stops.includes(id) || who.some((person) => aboard.has(person));
      return theirs && state === "fixed" && end !== null && end <= leave ? end : [];
    });
    const first =
      Math.max(arrived.get(id) ?? 0, ...came, ...ends) + Math.max(likelyMinutes, Math.ceil(plannedMinutes / 2));
    const at = Math.min(arrive, Math.max(arrive - dice(60), first));
    arrived.set(next.id, at);
    return [[next.id, stopped({ arrived: instant(at) })] as const];
  });
}

const sortedInstants = (one: ReturnType<typeof figures>) => ({
  ...one,
  instants: Object.entries(one.instants).toSorted(([a], [b]) => (a < b ? -1 : 1)),
});

function inItsVehicle(person: PersonDay, move: Day["moves"][number]): void {
  const aboard = move.driver === person.id || move.riders.includes(person.id);
  for (const span of person.spans) {
    if (span.to <= move.leave || span.from >= move.arrive) continue;
    if (aboard) same(span.place, null, `${person.id}: ${span.doing} on ${move.id}`);
    else same(span.vehicle === move.vehicle && span.place === null, false, `${person.id} rides ${move.id} unlisted`);
  }
}

function atItsPlace(day: Day, person: PersonDay, one: Day["activities"][number]): void {
  const { start, end, place } = one;
  if (!one.who.includes(person.id) || start === null || end === null || place === null) return;
  for (const span of person.spans) {
    if (span.to <= start || span.from >= end) continue;
    const onRoad = day.moves.some(({ id }) => id === span.vehicle);
    same([span.place, onRoad], [place, false], `${person.id}: ${span.doing} in ${one.id}`);
    same(span.is === "berth", false, `${person.id} asleep in ${one.id}`);
  }
}
