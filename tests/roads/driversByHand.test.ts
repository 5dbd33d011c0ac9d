/** What the search for drivers cuts and compares, on figures that can be worked out on paper; each with its arithmetic. */
import { describe, expect, it } from "vitest";
import { changesIn, compareOrder, compareScores } from "../../src/roads/relief/problem.ts";
import { drivingStretches, groupsOf } from "../../src/roads/relief/stretches.ts";
import { beyond, breachTotal, leastLeft, longestSleep, personVerdict } from "../../src/roads/relief/verdict.ts";
import { byId, leg, person } from "../day/parts.ts";
import { at, day, type Trip } from "./days.ts";

describe("the pieces of a leg for two drivers", () => {
  const trip: Trip = {
    ...{ vehicle: "truck", people: ["tomas", "bea"], leave: at(0) },
    way: [[leg("lodge", "harbour", 200, 200), "drive", {}]],
  };
  const crew = byId(person("tomas", { drives: ["truck"] }), person("bea", { drives: ["truck"] }));
  const made = day([trip], { crew });
  const pieces = (wheel: readonly (readonly [number, number, string])[], now: number | null = null) => {
    const rows = wheel.map(([from, to, driver]) => ({ from: at(from), to: at(to), driver }));
    const moves = made.moves.map((move) => ({ ...move, wheel: rows }));
    return drivingStretches({ ...made, moves }, 60, now === null ? null : at(now)).map((own) => [
      ...[own.from - at(0), own.to - at(0), own.afterMinutes, own.planned, own.drivers.length],
    ]);
  };

  it("are cut every so many minutes of driving, not where the plan changes drivers", () => {
    expect(
      pieces([
        [0, 90, "tomas"],
        [90, 200, "bea"],
      ]),
    ).toEqual([
      [0, 60, 0, "tomas", 2],
      [60, 120, 60, "tomas", 2],
      [120, 180, 120, "bea", 2],
      [180, 200, 180, "bea", 2],
    ]);
  });

  it("are cut at a halt, which is no driving", () => {
    expect(
      pieces([
        [0, 30, "tomas"],
        [40, 100, "tomas"],
      ]),
    ).toEqual([
      [0, 30, 0, "tomas", 2],
      [40, 70, 30, "tomas", 2],
      [70, 100, 60, "tomas", 2],
    ]);
  });

  it("stay as they are once begun", () => {
    expect(pieces([[0, 120, "tomas"]], 60).map((piece) => piece.at(-1))).toEqual([1, 2]);
    expect(pieces([[0, 120, "tomas"]], 61).map((piece) => piece.at(-1))).toEqual([1, 1]);
  });

  it("hang together through people who drive both vehicles", () => {
    const of = (vehicle: string, ...drivers: readonly string[]) => {
      const [stretch] = drivingStretches(made, 60, null);
      if (stretch === undefined) throw new Error("no stretch");
      return { ...stretch, vehicle, drivers };
    };
    const groups = (...all: readonly ReturnType<typeof of>[]) =>
      groupsOf(all).map((group) => group.map(({ vehicle: id }) => id));
    expect(groups(of("truck", "tomas"), of("wagon", "wren"))).toEqual([["truck"], ["wagon"]]);
    expect(groups(of("truck", "tomas"), of("wagon", "wren"), of("truck", "bea"))).toEqual([
      ["wagon"],
      ["truck", "truck"],
    ]);
    expect(groups(of("truck", "tomas"), of("wagon", "wren"), of("van", "wren", "tomas"))).toEqual([
      ["truck", "wagon", "van"],
    ]);
  });
});

describe("what a search for drivers compares", () => {
  const limit = (id: string, kind: "max" | "rest" = "max") => ({ id, title: id, clause: null, kind });
  const broken = (id: string, to: number, minutes: number) => ({ from: at(0), to: at(to), limit: limit(id), minutes });
  const verdicts = [
    {
      rules: { legallyBinding: true },
      limits: [
        { limit: limit("wheel"), leftMinutes: 40 },
        { limit: limit("rest", "rest"), leftMinutes: 5 },
      ],
      breaches: [broken("wheel", 60, 10), broken("wheel", 61, 20), broken("duty", 90, 5)],
    },
    {
      rules: { legallyBinding: false },
      limits: [
        { limit: limit("house"), leftMinutes: null },
        { limit: limit("window"), leftMinutes: 15 },
      ],
      breaches: [broken("house", 90, 7)],
    },
  ];

  it("breaches that end later than the last release, by limit", () => {
    const since = breachTotal("bea", verdicts, at(60));
    expect(since.map(({ limit: id, minutes, law }) => [id, minutes, law])).toEqual([
      ["wheel", 20, true],
      ["duty", 5, true],
      ["house", 7, false],
    ]);
    expect(personVerdict(since, 120)).toMatchObject({ lawMinutes: 25, houseMinutes: 7, sleepMinutes: 120 });
    expect(breachTotal("bea", verdicts)[0]?.minutes).toBe(30);
    const rides = breachTotal("bea", verdicts, at(60)).map((one) => ({
      ...one,
      minutes: one.limit === "wheel" ? 8 : 7,
    }));
    expect(beyond(since, rides).map(({ limit: id, minutes }) => [id, minutes])).toEqual([["wheel", 12]]);
    expect(beyond(since, [])).toHaveLength(3);
  });

  it("the least that a limit leaves, rests apart, and the longest sleep in one piece", () => {
    expect(leastLeft(verdicts)).toBe(15);
    expect(leastLeft([])).toBeNull();
    const span = (is: string, from: number, to: number) => ({ is, from: at(from), to: at(to) });
    // 0 to 60 and 60 to 90 touch: 90; 100 to 180 alone are 80.
    expect(
      longestSleep([span("berth", 0, 60), span("berth", 60, 90), span("duty", 90, 100), span("berth", 100, 180)]),
    ).toBe(90);
    expect(longestSleep([span("berth", 0, 60), span("duty", 60, 61), span("berth", 61, 180)])).toBe(119);
    expect(longestSleep([])).toBe(0);
  });

  it("the law before the house, then more sleep, then fewer changes; then the order of the plan", () => {
    const score = (lawMinutes: number, houseMinutes: number, sleepMinutes: number, changes: number) => ({
      ...{ lawMinutes, houseMinutes, sleepMinutes, changes },
    });
    const best = [score(0, 9, 0, 9), score(1, 0, 9, 9), score(1, 1, 9, 0), score(1, 1, 9, 1), score(1, 1, 8, 0)];
    expect([...best].reverse().sort(compareScores)).toEqual(best);
    expect(compareScores(score(1, 2, 3, 4), score(1, 2, 3, 4))).toBe(0);
    const two = [
      { vehicle: "truck", drivers: ["tomas", "bea"] },
      { vehicle: "wagon", drivers: ["wren", "ilse"] },
      { vehicle: "truck", drivers: ["tomas", "bea"] },
    ];
    expect(changesIn(two, ["tomas", "wren", "bea"])).toBe(1);
    expect(changesIn(two, ["tomas", "wren", "tomas"])).toBe(0);
    expect(Math.sign(compareOrder(two, ["tomas", "ilse", "bea"], ["bea", "wren", "tomas"]))).toBe(-1);
    expect(Math.sign(compareOrder(two, ["bea", "ilse", "bea"], ["bea", "wren", "tomas"]))).toBe(1);
  });
});
