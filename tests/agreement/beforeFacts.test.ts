/** Small forms of random days in which something logged moved what lay before it; each figure from the sentence above it. */
import { expect, it } from "vitest";
import type { Id } from "../../src/plan/plan.ts";
import { instant } from "../../src/time/units.ts";
import { happened, stopped } from "../day/parts.ts";
import { logging, type Solved, solved } from "./days.ts";
import type { Entries } from "./randomPlan.ts";

const BASE: Entries = {
  daywright: 1,
  date: "2027-05-10",
  until: "+1d",
  clock: "America/Chicago",
  zone: "America/Chicago",
};
const NIGHT = { slept: "s0", sleeps: "s0" };
const road = (from: string, to: string, drive: string, bad: string) => ({ link: [from, to], drive, bad });

async function dayOf(entries: Entries): Promise<Solved> {
  const one = await solved({ ...BASE, ...entries });
  if (one === null) expect.fail("the plan is refused");
  return one;
}

/** With activities logged as begun so many minutes later than planned. */
const begunLate = ({ plan, day, again }: Solved, late: Readonly<Record<Id, number>>) =>
  again(
    logging(plan, {
      activities: new Map(
        Object.entries(late).map(([id, minutes]) => {
          const start = day.instants.get(`${id}.start`);
          if (start === undefined) throw new Error(`no ${id}`);
          return [id, { ...happened({}), at: instant(start + minutes) }];
        }),
      ),
      stops: new Map(),
    }),
  );

it("a drive that was planned to a hit which may be late took what it was planned to, though it now leads to a firm one", async () => {
  // By h0's log h1 came first: to a firm hit the icy drives are planned with their bad time, which there was no room for.
  const one = await dayOf({
    crew: { p0: { ...NIGHT, drives: ["v0"] } },
    vehicles: { v0: {} },
    places: { s0: { kind: "lodging", mains: true }, s1: {}, s2: { shelter: true } },
    roads: [
      road("s0", "s1", "8 min", "24 min"),
      road("s1", "s2", "8 min", "39 min"),
      road("s0", "s2", "13 min", "47 min"),
    ],
    hits: {
      h0: { at: "10:20", for: "4 min", place: "s2", who: ["p0"], firm: false },
      h1: { at: "10:52", for: "2 min", place: "s2", who: ["p0"], firm: true },
    },
    runs: {
      v0: {
        driver: "p0",
        aboard: ["p0"],
        stops: ["s0", { place: "s1", do: [], stay: "10 min" }, { place: "s2", do: ["h0", "h1"] }, "s0"],
      },
    },
    weather: [{ from: "09:19", to: "14:23", road: "ice", temp: "-5 C" }],
  });
  const late = begunLate(one, { h0: 38 });
  for (const name of ["v0.1.leave", "v0.2.arrive", "v0.2.leave", "v0.3.arrive"])
    expect([name, late.instants.get(name)]).toEqual([name, one.day.instants.get(name)]);
  expect(late.moves[0]?.arrive).toBe((late.moves[0]?.leave ?? 0) + 8);
});

it("work begun after a hit that two vehicles went to stands, though the other one has lost its next hit since", async () => {
  // t3 so late loses h4: its people now clear h0 before they pack up. That is no reason for t1 to have begun later.
  const hit = (at: string, who: readonly string[], firm: boolean) => ({ at, for: "5 min", place: "s1", who, firm });
  const work = (who: string) => ({ for: "45 min", place: "s1", who: [who], window: ["11:15", "13:50"] });
  const one = await dayOf({
    crew: { p1: { ...NIGHT, drives: ["v1"] }, p2: { ...NIGHT, drives: ["v2"] } },
    vehicles: { v1: {}, v2: {} },
    places: { s0: { kind: "lodging", mains: true }, s1: {}, s2: {} },
    roads: [
      road("s0", "s1", "70 min", "75 min"),
      road("s1", "s2", "16 min", "44 min"),
      road("s0", "s2", "11 min", "26 min"),
    ],
    hits: {
      h0: { at: "10:17", for: "2 min", place: "s1", firm: true },
      h2: hit("12:47", ["p1"], false),
      h4: hit("12:32", ["p2"], false),
    },
    tasks: { t1: work("p1"), t3: work("p2") },
    runs: {
      v1: { driver: "p1", aboard: ["p1"], stops: ["s0", { place: "s1", do: ["h0", "t1", "h2"] }, "s0"] },
      v2: {
        driver: "p2",
        aboard: ["p2"],
        stops: ["s0", { place: "s1", do: ["h0", "t3", "h4"] }, { place: "s2", do: [], stay: "20 min" }, "s0"],
      },
    },
  });
  const end = 10 * 60 + 17 + 66 + 2;
  const begun = begunLate(one, { h0: 66 });
  const late = begunLate(one, { h0: 66, t3: 70 });
  expect(late.activities.find(({ id }) => id === "h4")?.state).toBe("missed");
  const midnight = (one.day.instants.get("h0.start") ?? 0) - (10 * 60 + 17);
  for (const { instants } of [begun, late])
    expect([instants.get("h0.clear"), instants.get("t1.start")]).toEqual([midnight + end, midnight + end]);
});

it("of two drives in a row with less time than either was planned for, none took no time", async () => {
  // Off at 08:00 and there at 08:12, 20 min each: half of each is not enough, so one gave eight more, and kept two.
  const one = await dayOf({
    crew: { p0: { ...NIGHT, drives: ["v0"] } },
    vehicles: { v0: {} },
    places: { s0: { kind: "lodging", mains: true }, s1: {}, s2: {} },
    roads: [
      road("s0", "s1", "20 min", "20 min"),
      road("s1", "s2", "20 min", "20 min"),
      road("s0", "s2", "30 min", "30 min"),
    ],
    hits: { h0: { at: "12:00", for: "5 min", place: "s2", firm: true } },
    runs: {
      v0: { driver: "p0", aboard: ["p0"], stops: ["s0", { place: "s1", do: [] }, { place: "s2", do: ["h0"] }, "s0"] },
    },
  });
  const eight = instant((one.day.instants.get("h0.start") ?? 0) - 240);
  const stops = new Map([
    ["v0.1", stopped({ left: eight })],
    ["v0.3", stopped({ arrived: instant(eight + 12) })],
  ]);
  const { moves } = one.again(logging(one.plan, { activities: new Map(), stops }));
  const lasted = moves.slice(0, 2).map(({ leave, arrive }) => arrive - leave);
  expect(Math.min(...lasted)).toBeGreaterThan(0);
  expect(lasted.reduce((sum, minutes) => sum + minutes, 0)).toBeLessThanOrEqual(12);
});
