/** Random days: what may change nothing changes nothing, and nobody is in two places. */
import { afterAll, describe, expect, it } from "vitest";
import { computeChain } from "../../src/day/chain.ts";
import type { Day, PersonDay } from "../../src/day/day.ts";
import { NOT_UNDER_WAY, type UnderWay } from "../../src/day/index.ts";
import { legsOf } from "../../src/legs/legs.ts";
import { readChain } from "../../src/plan/index.ts";
import type { Plan } from "../../src/plan/plan.ts";
import { instant } from "../../src/time/units.ts";
import { random } from "../day/random.ts";
import { runs } from "../fuzz.ts";
import { everythingLogged, figures, logging, oneByOne } from "./days.ts";
import { DATE, type Entries, randomPlan } from "./randomPlan.ts";

const FIRST = Number(process.env["DAYWRIGHT_FUZZ_SEED"] ?? 1);
const COUNT = runs(100, Number(process.env["DAYWRIGHT_FUZZ_DAYS"] ?? 20_000));
const counts = { days: 0, refused: 0, missed: 0, standdowns: 0, teams: 0, meetings: 0 };

interface Solved {
  readonly plan: Plan;
  readonly day: Day;
  again(plan: Plan, underWay?: UnderWay): Day;
}

/** The day of a plan's entries; null where it has mistakes. `files` are those that it uses. */
async function solved(entries: Entries, files: Readonly<Record<string, Entries>> = {}): Promise<Solved | null> {
  const read = (path: string) => {
    const found = Object.entries(files).find(([name]) => path.endsWith(name));
    if (found === undefined) return { kind: "missing", near: [] } as const;
    return { kind: "text", text: JSON.stringify(found[1]) } as const;
  };
  const { plan } = await readChain(JSON.stringify(entries, null, 1), { file: "day.yaml", files: { read } });
  if (plan === null) return null;
  const legs = await legsOf(plan);
  const again = (other: Plan, underWay: UnderWay = NOT_UNDER_WAY): Day => {
    const { days, findings } = computeChain([{ plan: other, legs }], underWay);
    if (days[0] === undefined)
      throw new Error(findings.map(({ code, facts }) => code + JSON.stringify(facts)).join("; "));
    return days[0];
  };
  const [day] = computeChain([{ plan, legs }]).days;
  return day === undefined ? null : { plan, day, again };
}

/** Each random day once; what is asked of it may ask for others. */
async function each(check: (one: Solved, entries: Entries, seed: number) => void | Promise<void>): Promise<void> {
  for (let seed = FIRST; seed < FIRST + COUNT; seed++) {
    const entries = randomPlan(seed);
    const one = await solved(entries);
    if (one !== null) await check(one, entries, seed);
  }
}

const byId = <T extends { readonly id: string }>(all: readonly T[]): readonly T[] =>
  all.toSorted((a, b) => (a.id < b.id ? -1 : 1));

/** The figures of a day whatever the order of its rows. */
const unordered = (day: Day) => {
  const { moves, activities, people, findings, ...others } = figures(day);
  const said = findings.map((one) => JSON.stringify(one)).toSorted();
  return { ...others, moves: byId(moves), activities: byId(activities), people: byId(people), said };
};

/** What is missed is short by other minutes once it is known when a vehicle left for what comes later. */
const withoutShort = ({ findings, ...others }: ReturnType<typeof figures>) => ({
  ...others,
  findings: findings.map(({ code, who, at }) => ({ code, who, at })),
});

/** The entries of every map in another order. */
function shuffled<T>(value: T, dice: (below: number) => number): T;
function shuffled(value: unknown, dice: (below: number) => number): unknown {
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

const inText = (entries: Entries, change: (text: string) => string): Entries =>
  JSON.parse(change(JSON.stringify(entries)));

afterAll(() => {
  if (COUNT > 100)
    process.stdout.write(`agreement: seeds ${FIRST} to ${FIRST + COUNT - 1}, ${JSON.stringify(counts)}\n`);
});

describe("random days", () => {
  it("are of every kind", async () => {
    for (let seed = FIRST; seed < FIRST + COUNT; seed++) {
      const entries = randomPlan(seed);
      const one = await solved(entries);
      counts.days++;
      if (one === null) counts.refused++;
      else {
        const { activities, stops } = one.day;
        if (activities.some(({ state }) => state === "missed")) counts.missed++;
        if (activities.some(({ activity }) => activity.kind === "standdown")) counts.standdowns++;
        if (activities.some((activity) => activity.stops.length > 1)) counts.meetings++;
        if (stops.some(({ stop }) => (stop.asleep?.length ?? 0) > 0)) counts.teams++;
      }
    }
    expect(counts.refused).toBeLessThan(counts.days / 10);
    expect(Math.min(counts.missed, counts.standdowns, counts.teams, counts.meetings)).toBeGreaterThan(0);
  });

  it("have nobody in two places, nor asleep and busy", async () => {
    await each(({ day }, _, seed) => {
      for (const person of day.people) {
        const at = `seed ${seed}, ${person.id}`;
        expect(
          person.spans.slice(1).map(({ from }) => from),
          at,
        ).toEqual(person.spans.slice(0, -1).map(({ to }) => to));
        for (const move of day.moves) inItsVehicle(person, move, at);
        for (const one of day.activities) atItsPlace(day, person, one, at);
      }
    });
  });

  it("are the same with what they plan logged, all together and one by one", async () => {
    await each(({ plan, day, again }, _, seed) => {
      const expected = withoutShort(figures(day));
      expect(withoutShort(figures(again(logging(plan, everythingLogged(day))))), `seed ${seed}`).toEqual(expected);
      const all = [...oneByOne(day)];
      const dice = random(seed);
      for (const one of Array.from({ length: COUNT > 100 ? 1 : 4 }, () => all[dice(all.length)])) {
        if (one === undefined) continue;
        const what = `seed ${seed}: ${JSON.stringify([...one.activities, ...one.stops])}`;
        expect(withoutShort(figures(again(logging(plan, one)))), what).toEqual(expected);
      }
    });
  });

  it("are the same at any minute of them, also where an edit changes nothing", async () => {
    await each(async ({ plan, day, again }, _, seed) => {
      const instants = [...day.instants.values()];
      const dice = random(seed);
      const picked = Array.from({ length: 6 }, () => (instants[dice(instants.length)] ?? 0) + dice(3) - 1);
      const legs = await legsOf(plan);
      for (const now of picked) {
        const expected = figures(day);
        for (const unedited of [null, { plan, legs }])
          expect(figures(again(plan, { now: instant(now), unedited })), `seed ${seed}, now ${now}`).toEqual(expected);
      }
    });
  });

  it("with the entries of every map in another order are the same, or a note says what the order decided", async () => {
    await each(async ({ day }, entries, seed) => {
      const other = await solved(shuffled(entries, random(seed)));
      if (other === null) throw new Error(`seed ${seed} is refused in another order`);
      const isOpen = (one: Day): boolean => one.findings.some(({ code }) => code === "order-unstated");
      if (isOpen(day) || isOpen(other.day)) return;
      expect(unordered(other.day), `seed ${seed}`).toEqual(unordered(day));
    });
  });

  it("a week later are the same a week later", async () => {
    await each(async ({ day }, _, seed) => {
      const later = await solved(randomPlan(seed, "2027-05-17"));
      expect(DATE).toBe("2027-05-10");
      const back = [...(later?.day.instants ?? [])].map(([id, when]) => [id, when - 7 * 1440]);
      expect(back, `seed ${seed}`).toEqual([...day.instants]);
    });
  });

  it("with other ids in the same order are the same", async () => {
    await each(async ({ day }, entries, seed) => {
      const renamed = inText(entries, (text) => text.replace(/"([pvsht])(\d+)"/g, '"x$1$2"'));
      const other = await solved(renamed);
      const same = JSON.parse(JSON.stringify(figures(other?.day ?? day)).replace(/"x([pvsht])(\d+)/g, '"$1$2'));
      const expected = JSON.parse(JSON.stringify(figures(day)));
      expect(sortedInstants(same), `seed ${seed}`).toEqual(sortedInstants(expected));
    });
  });

  it("with somebody who has nothing to do are the same for all others", async () => {
    await each(async ({ day }, entries, seed) => {
      const other = await solved({
        ...entries,
        crew: { ...Object(entries["crew"]), z9: { slept: "s0", sleeps: "s0" } },
      });
      if (other === null) throw new Error(`seed ${seed} is refused`);
      const { people, findings, ...others } = figures(other.day);
      const expected = figures(day);
      expect({ ...others, people: people.filter(({ id }) => id !== "z9") }, `seed ${seed}`).toEqual({
        ...others,
        moves: expected.moves,
        activities: expected.activities,
        instants: expected.instants,
        people: expected.people,
      });
      expect(findings.filter(({ code }) => code !== "nothing-to-do")).toEqual(
        expected.findings.filter(({ code }) => code !== "nothing-to-do"),
      );
    });
  });

  it("in two files are the same as in one", async () => {
    await each(async ({ day }, entries, seed) => {
      const { crew = {}, vehicles = {}, places = {}, roads = [], ...own } = entries;
      const shared: Entries = { crew, vehicles, places, roads };
      const other = await solved({ ...own, uses: ["shared.yaml"] }, { "shared.yaml": shared });
      if (other === null) throw new Error(`seed ${seed} is refused`);
      expect(figures(other.day), `seed ${seed}`).toEqual(figures(day));
    });
  });
});

const sortedInstants = (one: { readonly instants: Readonly<Record<string, number>> }) => ({
  ...one,
  instants: Object.entries(one.instants).toSorted(([a], [b]) => (a < b ? -1 : 1)),
});

function inItsVehicle(person: PersonDay, move: Day["moves"][number], at: string): void {
  const aboard = move.driver === person.id || move.riders.includes(person.id);
  for (const span of person.spans) {
    if (span.to <= move.leave || span.from >= move.arrive) continue;
    if (aboard) expect([span.place, at], `${span.doing} on ${move.id}`).toEqual([null, at]);
    else expect(span.vehicle === move.vehicle && span.place === null, `${at} rides ${move.id} unlisted`).toBe(false);
  }
}

function atItsPlace(day: Day, person: PersonDay, one: Day["activities"][number], at: string): void {
  const { start, end, place } = one;
  if (!one.who.includes(person.id) || start === null || end === null || place === null) return;
  for (const span of person.spans) {
    if (span.to <= start || span.from >= end) continue;
    expect([span.place, day.moves.some(({ id }) => id === span.vehicle), at], `${span.doing} in ${one.id}`).toEqual([
      place,
      false,
      at,
    ]);
    expect(span.is === "berth", `${at} asleep in ${one.id}`).toBe(false);
  }
}
