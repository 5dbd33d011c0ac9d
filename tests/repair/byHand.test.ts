/** How ways out are compared, rated and cut, on figures that can be worked out on paper. */
import { describe, expect, it } from "vitest";
import type { ActivityTimes, Day } from "../../src/day/day.ts";
import type { Finding } from "../../src/findings/finding.ts";
import { choicesOf, type Sound } from "../../src/repair/choices.ts";
import { differenceOf, findingKey, findingKeys, isHarm, isOpenError } from "../../src/repair/likeness.ts";
import type { JudgedPlan } from "../../src/repair/outcome.ts";
import {
  type Effect,
  gains,
  inPromisedOrder,
  leastCut,
  lengthsAtRoadEnds,
  promisingSteps,
  savedOf,
  shortOf,
  stepPairs,
  stepsFit,
  stepThrees,
} from "../../src/repair/promise.ts";
import { byRank, hitsLost, lawMinutes, type Standing, standingOf } from "../../src/repair/standing.ts";
import { instant } from "../../src/time/units.ts";
import { byId, hit, leg, task, weather } from "../day/parts.ts";
import { at, day } from "../roads/days.ts";
import { finding } from "./finding.ts";

describe("two findings are one", () => {
  it("if code, person, place in the plan, limit and subject are the same, whatever the figures", () => {
    const key = findingKey(finding({ facts: { hit: "dawn", minutes: 3 }, path: ["hits", "dawn"] }));
    expect(findingKey(finding({ facts: { hit: "dawn", minutes: 9 }, path: ["hits", "dawn"] }))).toBe(key);
    const others = [
      { facts: { hit: "noon" }, path: ["hits", "dawn"] },
      { facts: { hit: "dawn" }, path: ["hits", "noon"] },
      { facts: { hit: "dawn" }, path: ["hits", "dawn"], who: "wren" },
      { facts: { hit: "dawn", limit: "house.wheelDay" }, path: ["hits", "dawn"] },
      { facts: { what: "feed", hit: "dawn" }, path: ["hits", "dawn"] },
      { facts: { hit: "dawn" }, path: ["hits", "dawn"], code: "task-missed" },
    ].map((more) => findingKey(finding(more)));
    expect(new Set([key, ...others]).size).toBe(7);
    // An empty subject says nothing; the next one names it.
    expect(findingKey(finding({ facts: { what: "", hit: "dawn" } }))).toBe(
      findingKey(finding({ facts: { hit: "dawn" } })),
    );
    expect(findingKey(finding({ facts: { what: [], hit: "dawn" } }))).toBe(
      findingKey(finding({ facts: { hit: "dawn" } })),
    );
    const unpowered = ["hit-unpowered", "hit-left-out", "power-undecided"].map((code) => findingKey(finding({ code })));
    expect(new Set(unpowered).size).toBe(1);
  });

  it("each hit, task and person lost with what is out of service counts by itself", () => {
    const out = finding({
      code: "out-of-service",
      facts: { vehicle: "truck", lost: ["dawn", "noon"], stranded: ["bea"] },
    });
    expect(findingKeys(out).map((key) => key.split(" ").at(-1))).toEqual(["dawn", "noon", "bea"]);
    expect(findingKeys(finding({ code: "out-of-service", facts: { vehicle: "truck" } }))).toEqual([]);
    expect(findingKeys(finding())).toEqual([findingKey(finding())]);
  });

  it("an edit does harm with an error that stands or with packs that are not decided", () => {
    const states: Partial<Finding>[] = [
      {},
      { accepted: "we know" },
      { level: "warning" },
      { level: "warning", code: "power-undecided" },
      { level: "warning", code: "power-undecided", accepted: "we know" },
    ];
    expect(states.map((more) => [isOpenError(finding(more)), isHarm(finding(more))])).toEqual([
      ...[
        [true, true],
        [false, false],
        [false, false],
        [false, true],
        [false, false],
      ],
    ]);
  });

  it("what an edit brings is new or of a worse level; what is gone is not there at any level", () => {
    const [dawn, noon] = [{ facts: { hit: "dawn" } }, { facts: { hit: "noon" } }];
    const of = (before: Partial<Finding>[], after: Partial<Finding>[]) => {
      const made = differenceOf(before.map(finding), after.map(finding));
      return [made.gone.length, made.brought.length];
    };
    expect(of([dawn], [dawn])).toEqual([0, 0]);
    expect(of([dawn], [noon])).toEqual([1, 1]);
    expect(of([{ ...dawn, level: "warning" }], [dawn])).toEqual([0, 1]);
    expect(of([dawn], [{ ...dawn, level: "warning" }])).toEqual([0, 0]);
    expect(of([{ ...dawn, level: "note" }], [{ ...dawn, level: "warning" }])).toEqual([0, 1]);
    expect(of([{ ...dawn, accepted: "yes" }], [dawn])).toEqual([0, 1]);
    expect(of([{ ...dawn, level: "note" }, dawn], [dawn])).toEqual([0, 0]);
    expect(of([], [{ ...dawn, level: "note" }])).toEqual([0, 1]);
  });
});

/** 05:00 to the pier by 05:30; hits at 05:40 and 07:00 for 3 minutes; then to the lodge. */
const made = day(
  [
    {
      ...{ vehicle: "wagon", people: ["wren", "ilse"], leave: at(300) },
      way: [
        [leg("lodge", "pier", 30, 30), "drive", { hit: "dawn" }],
        [leg("pier", "lodge", 30, 30), "drive", { work: 10, hit: "noon", firm: false }],
      ],
    },
  ],
  {
    hits: byId(hit("dawn", "pier", { at: at(340) }), hit("noon", "lodge", { at: at(400), firm: false })),
    tasks: byId(task("feed", "pier")),
  },
);
const judged = (own: Day, ...findings: readonly Finding[]): JudgedPlan => ({ day: own, findings });
const with1 = (own: Day, id: string, more: Partial<ActivityTimes>): Day => ({
  ...own,
  activities: own.activities.map((one) => (one.id === id ? { ...one, ...more } : one)),
});

describe("how a plan stands", () => {
  it("minutes of law are those of errors of law; a breach without a length is one", () => {
    const law = { law: true, code: "limit-exceeded" };
    const findings = [
      finding({ ...law, shortMinutes: 30 }),
      finding({ ...law }),
      finding({ ...law, shortMinutes: 0 }),
      finding({ ...law, level: "warning", shortMinutes: 500 }),
      finding({ ...law, accepted: "no", shortMinutes: 700 }),
      finding({ shortMinutes: 900 }),
    ];
    expect(lawMinutes(findings)).toBe(32);
    const house = { title: "house rules", clause: null };
    const all = [
      ...findings,
      finding({ source: house, level: "warning", shortMinutes: 7 }),
      finding({ source: house, level: "note", shortMinutes: 70 }),
      finding({ source: house, law: true, level: "warning", shortMinutes: 40 }),
      finding({ source: { title: "49 CFR 395", clause: null }, level: "warning", shortMinutes: 90 }),
    ];
    expect(standingOf(judged(made), judged(made, ...all))).toMatchObject({ lawMinutes: 32, houseMinutes: 7 });
  });

  it("a hit is lost if it is dropped, missed or blamed by an error that stands", () => {
    const lost = (own: Day, ...findings: readonly Partial<Finding>[]) =>
      hitsLost(made, judged(own, ...findings.map((one) => finding(one))));
    expect(lost(made)).toEqual([]);
    expect(lost(with1(made, "dawn", { state: "missed" }))).toEqual(["dawn"]);
    expect(lost({ ...made, activities: made.activities.filter(({ id }) => id !== "noon") })).toEqual(["noon"]);
    for (const facts of [{ hit: "dawn" }, { demand: "dawn" }, { what: "dawn" }, { activities: ["feed", "dawn"] }])
      expect(lost(made, { facts })).toEqual(["dawn"]);
    expect(lost(made, { facts: { hit: "dawn" }, level: "warning" })).toEqual([]);
    expect(lost(made, { facts: { hit: "dawn" }, accepted: "yes" })).toEqual([]);
    expect(lost(made, { path: ["hits", "noon", "at"] })).toEqual(["noon"]);
    expect(lost(made, { path: ["hits", "noon", "at"], facts: { hit: "dawn" } })).toEqual(["dawn"]);
    expect(lost(made, { path: ["tasks", "noon"] })).toEqual([]);
    const both = { ...made, activities: [] };
    expect(standingOf(judged(made), judged(both))).toMatchObject({ firmHitsLost: ["dawn"], hitsLost: ["noon"] });
  });

  it("moved minutes: ten later and two longer are twelve; a dropped hit its three, a dropped task the rest of the day", () => {
    const moved = (own: Day, from = made) => standingOf(judged(from), judged(own)).movedMinutes;
    expect(moved(made)).toBe(0);
    const dawn = made.activities.find(({ id }) => id === "dawn");
    if (dawn === undefined || dawn.start === null || dawn.end === null) throw new Error("no dawn");
    const { start, end } = dawn;
    expect([start, end]).toEqual([at(340), at(343)]);
    expect(moved(with1(made, "dawn", { start: instant(start + 10), end: instant(end + 12) }))).toBe(12);
    expect(moved(with1(made, "dawn", { start: instant(start - 10), end: instant(end - 12) }))).toBe(12);
    expect(moved(with1(made, "dawn", { start: null, end: null }))).toBe(3);
    expect(moved({ ...made, activities: made.activities.filter(({ id }) => id !== "dawn") })).toBe(3);
    // A task begun at 05:50 of a day that ends at 24:00; one without a time counts from the arrival at 05:30, else from 00:00.
    const feed = { ...dawn, id: "feed", start: at(350), end: at(360) };
    const withFeed = { ...made, activities: [...made.activities, feed] };
    expect(moved(made, withFeed)).toBe(1440 - 350);
    expect(moved(made, with1(withFeed, "feed", { start: null, end: null }))).toBe(1440 - 330);
    expect(moved(made, with1(withFeed, "feed", { start: null, end: null, stops: [] }))).toBe(1440);
    expect(moved(withFeed, with1(withFeed, "feed", { start: null, end: null }))).toBe(0);
  });

  it("names who is called earlier, and by how much", () => {
    const calls = (...minutes: readonly (number | null)[]): Day => ({
      ...made,
      people: made.people.map((person, n) => ({ ...person, call: minutes[n] == null ? null : at(minutes[n]) })),
    });
    const earlier = (before: Day, after: Day) => standingOf(judged(before), judged(after)).earlierPeople;
    expect(earlier(calls(300, 300), calls(290, 300))).toEqual([{ id: "wren", minutes: 10 }]);
    expect(earlier(calls(300, 300), calls(310, null))).toEqual([]);
    expect(earlier(calls(null, 300), calls(10, 299))).toEqual([{ id: "ilse", minutes: 1 }]);
  });

  it("is ranked by law, firm hits, house, hits, people, minutes and edits, in this order", () => {
    const none: Standing = {
      ...{ lawMinutes: 0, firmHitsLost: [], houseMinutes: 0, hitsLost: [], earlierPeople: [], movedMinutes: 0 },
    };
    const worse: readonly Partial<Standing>[] = [
      { movedMinutes: 1 },
      { earlierPeople: [{ id: "wren", minutes: 1 }] },
      { hitsLost: ["noon"] },
      { houseMinutes: 1 },
      { firmHitsLost: ["dawn"] },
      { lawMinutes: 1 },
    ];
    const rows = [
      { standing: none, edits: 1 },
      { standing: none, edits: 9 },
      ...worse.map((more) => ({ standing: { ...none, ...more }, edits: 1 })),
    ];
    expect([...rows].reverse().sort(byRank)).toEqual(rows);
    expect(byRank({ standing: none, edits: 1 }, { standing: none, edits: 1 })).toBe(0);
    expect(byRank({ standing: none, edits: 1 }, { standing: none, edits: 3 })).toBe(-2);
  });
});

describe("steps of a repair", () => {
  const effect = (
    steps: readonly number[],
    cleared: readonly string[],
    saved: Record<string, number> = {},
  ): Effect => ({
    ...{ steps, cleared: new Set(cleared), saved: new Map(Object.entries(saved)) },
  });
  const goal = {
    keys: ["a", "b"],
    start: new Map([
      ["a", 30],
      ["b", 0],
    ]),
  };

  it("gain if something is gone or less is short", () => {
    expect([effect([1], []), effect([1], ["a"]), effect([1], [], { a: 1 })].map(gains)).toEqual([false, true, true]);
  });

  it("are tried together: for each finding the first three that help, then those that clear most", () => {
    const effects = new Map([
      [1, effect([1], [], { a: 5 })],
      [2, effect([2], ["a"])],
      [3, effect([3], [], { a: 9 })],
      [4, effect([4], ["a", "b"])],
      [5, effect([5], ["b"])],
      [6, effect([6], [])],
    ]);
    // a: 4 clears two, 2 clears one, 3 saves most; b: 4 and 5; then 1 and 6.
    expect(promisingSteps(effects, goal, 3)).toEqual([2, 3, 4]);
    expect(promisingSteps(effects, goal, 4)).toEqual([2, 3, 4, 5]);
    expect(promisingSteps(effects, goal, 5)).toEqual([1, 2, 3, 4, 5]);
    expect(promisingSteps(effects, goal, 99)).toEqual([1, 2, 3, 4, 5, 6]);
  });

  it("make pairs and threes, each once", () => {
    const pairs = stepPairs([3, 1, 2]);
    expect(pairs).toEqual([
      [1, 3],
      [2, 3],
      [1, 2],
    ]);
    expect(stepThrees(pairs, [3, 1, 2])).toEqual([[1, 2, 3]]);
    expect(stepThrees([[1, 2]], [1, 2, 3, 4])).toEqual([
      [1, 2, 3],
      [1, 2, 4],
    ]);
  });

  it("are asked in the order of what they promise: 10 and 20 minutes together clear 30", () => {
    const alone = new Map([
      [1, effect([1], [], { a: 10 })],
      [2, effect([2], [], { a: 20 })],
      [3, effect([3], [], { a: 19 })],
      [4, effect([4], ["b"], {})],
      [5, effect([5], ["b"], { a: 9 })],
    ]);
    // 1+2 clear a; 1+3 are a minute short and promise nothing; 4+5 promise b, which each clears alone; 2+5 a minute short of a.
    const order = inPromisedOrder([[4], [1, 3], [1, 2], [4, 5], [2, 5], [1], [1, 2, 4], [2, 3, 5]], alone, goal);
    expect(order).toEqual([[1, 2, 4], [2, 3, 5], [4], [1, 2], [1]]);
  });

  it("exclude each other if they write one value, or one inside the other", () => {
    const candidates = [
      ["hits", "dawn", "at"],
      ["hits", "dawn"],
      ["hits", "dawns"],
      ["hits", "dawn", "at"],
      ["tasks", "dawn"],
    ].map((path) => ({ edits: [{ path, value: "1" }] }));
    const fits = ([a, b]: readonly [number, number]) => stepsFit(candidates, [a, b]);
    expect(
      (
        [
          [0, 1],
          [1, 0],
          [0, 3],
          [1, 2],
          [0, 4],
          [0, 2],
        ] as const
      ).map(fits),
    ).toEqual([...[false, false, false, true, true, true]]);
    expect([stepsFit(candidates, [0]), stepsFit(candidates, [2, 4, 0, 1])]).toEqual([true, false]);
  });

  it("count what is less short, key by key", () => {
    const one = finding({ facts: { hit: "dawn" }, shortMinutes: 12 });
    const other = finding({ facts: { hit: "noon" } });
    const keys = [one, other].map(findingKey);
    const short = shortOf(judged(made, one, one, other), keys);
    expect([...short.values()]).toEqual([24, 0]);
    expect(shortOf(judged(made, one), keys.slice(1)).size).toBe(0);
    const was = new Map([
      ["a", 30],
      ["b", 5],
      ["c", 7],
    ]);
    expect([
      ...savedOf(
        was,
        new Map([
          ["a", 29],
          ["b", 5],
          ["c", 9],
        ]),
      ),
    ]).toEqual([["a", 1]]);
    expect([...savedOf(was, new Map())]).toEqual([...was]);
  });
});

describe("the repairs that are shown", () => {
  const none: Standing = {
    ...{ lawMinutes: 0, firmHitsLost: [], houseMinutes: 0, hitsLost: [], earlierPeople: [], movedMinutes: 0 },
  };
  const sound = (steps: readonly number[], cleared: readonly string[], open: number, movedMinutes = 0): Sound => {
    const edits = steps.map((step) => ({ path: ["hits", String(step)], value: "1" }));
    const outcome = judged(made);
    return {
      one: { steps, cleared: new Set(cleared), saved: new Map(), edits, outcome, brings: [] },
      repair: {
        ...{ edits, outcome, clears: [], eases: [], brings: [], left: open, open },
        standing: { ...none, movedMinutes },
      },
    };
  };
  const shown = (...all: readonly Sound[]) => choicesOf(all).map(({ one }) => one.steps.join("+"));

  it("leave least first, then those of the better rank", () => {
    expect(shown(sound([1], ["a"], 1, 5), sound([2, 3], ["a", "b"], 0, 90))).toEqual(["2+3", "1"]);
    expect(shown(sound([1], ["a"], 1, 5), sound([2], ["b"], 1, 4))).toEqual(["2", "1"]);
  });

  it("need all of their steps: what a part clears as well is not shown with more", () => {
    expect(shown(sound([1], ["a"], 1), sound([1, 2], ["a"], 1, -9))).toEqual(["1"]);
    expect(shown(sound([1], ["a"], 1), sound([1, 2], ["a", "b"], 0))).toEqual(["1+2", "1"]);
    expect(shown(sound([3], ["a"], 1), sound([1, 2], ["a"], 1, -9))).toEqual(["1+2", "3"]);
    expect(shown(sound([1, 2], ["a"], 1), sound([1, 2], ["a"], 1))).toEqual(["1+2"]);
  });

  it("are no more than another that clears the same with no more edits", () => {
    expect(shown(sound([1], ["a"], 1, 5), sound([2], ["a"], 1, 6))).toEqual(["1"]);
    expect(shown(sound([1, 2], ["a", "b"], 0), sound([3], ["a"], 1))).toEqual(["1+2", "3"]);
    expect(shown(sound([1, 2], ["a", "b"], 0), sound([3, 4], ["a"], 1))).toEqual(["1+2"]);
  });
});

describe("a shorter length", () => {
  it("is the longest that does, by halving", async () => {
    for (const longest of [10, 11, 25, 38, 39]) {
      const asked: number[] = [];
      await leastCut({ was: 40, minutes: 10 }, async (minutes) => {
        asked.push(minutes);
        return minutes <= longest;
      });
      // Thirty lengths need five questions at most; the best that does has been asked, or is the one that is known to do.
      expect(asked.length).toBeLessThanOrEqual(5);
      expect(new Set(asked).size).toBe(asked.length);
      expect(Math.max(10, ...asked.filter((minutes) => minutes <= longest))).toBe(longest);
      expect(Math.min(40, ...asked.filter((minutes) => minutes > longest))).toBe(longest + 1);
    }
  });

  it("may end with a bad road: 10 minutes, and 12 from 05:43 until it is good at 05:55", () => {
    const bad = weather({ from: at(300), to: at(355), road: "snow" });
    const other = weather({ from: at(300), to: at(400), celsius: -5 });
    const own = { ...made, plan: { ...made.plan, weather: [bad, other] } };
    const stop = own.stops.find(({ place }) => place === "pier");
    if (stop === undefined || stop.leave === null) throw new Error("no stop");
    expect(stop.leave).toBe(at(343));
    const path = [...stop.stop.path, "for"];
    // 22 has to be shorter than it was, and no less than allowed.
    expect(lengthsAtRoadEnds(own, path, { was: 30, minutes: 10 }, 5)).toEqual([22]);
    expect(lengthsAtRoadEnds(own, path, { was: 22, minutes: 10 }, 5)).toEqual([]);
    expect(lengthsAtRoadEnds(own, path, { was: 23, minutes: 10 }, 22)).toEqual([22]);
    expect(lengthsAtRoadEnds(own, path, { was: 30, minutes: 10 }, 23)).toEqual([]);
    const two = {
      ...own,
      plan: {
        ...own.plan,
        weather: [bad, weather({ to: at(350), road: "ice" }), weather({ to: at(343), road: "ice" })],
      },
    };
    expect(lengthsAtRoadEnds(two, path, { was: 30, minutes: 10 }, 0)).toEqual([17, 22]);
  });
});
