/** Stated times that no road takes, estimates, and waits outside: each at the minute at which it is found, and a minute before. */
import { describe, expect, it } from "vitest";
import type { Road } from "../../src/plan/plan.ts";
import { assess } from "../../src/roads/assess.ts";
import { byId, leg, place, road } from "../day/parts.ts";
import { at, day } from "./days.ts";

const oneTrip = (way: ReturnType<typeof leg> = leg("a", "b", 30, 30)) => [
  { vehicle: "wagon", people: ["wren"], leave: at(300), way: [[way, "drive", {}] as const] },
];
const found = (made: ReturnType<typeof day>) =>
  assess({ days: [made], patience: 1, now: null }).findings.map(({ code, facts, path }) => ({ code, facts, path }));

/** Two places on the equator, a degree apart: 6371 × π / 180 = 111.19 km. */
const PLACES = byId(
  place("a", { at: { latitude: 0, longitude: 0 } }),
  place("b", { at: { latitude: 0, longitude: 1 } }),
  place("c"),
);

const doubts = (more: Partial<Road>, to = "b") =>
  found(day(oneTrip(), { places: PLACES, roads: [road("a", to, more)] })).flatMap(({ facts, path }) => [
    [facts["key"], facts["doubt"], facts["straight"], path?.at(-1)],
  ]);

describe("a stated time", () => {
  // A tenth and 2 km off the straight line are 98.07 km: 137 km/h takes 42.95 min for them, and a minute is rounding.
  it("is too fast for the least that a road between two coordinates can be from 41 min down", () => {
    expect(doubts({ driveMinutes: 42 })).toEqual([]);
    expect(doubts({ driveMinutes: 41 })).toEqual([["drive", "fast", true, "drive"]]);
  });

  // Three straight lines and 30 km are 363.57 km: at 10 km/h 2,181.4 min, and an hour: 2,241.4.
  it("is too slow for the most that it can be from 2,242 min on", () => {
    expect(doubts({ driveMinutes: 60, badMinutes: 2241 })).toEqual([]);
    expect(doubts({ driveMinutes: 60, badMinutes: 2242 })).toEqual([["bad", "slow", true, "bad"]]);
  });

  // 100 km at 137 km/h are 43.8 min, at 10 km/h and an hour more 660.
  it("is held against the stated length where there is one", () => {
    expect(doubts({ km: 100, driveMinutes: 43, badMinutes: 660 })).toEqual([]);
    expect(doubts({ km: 100, driveMinutes: 42, badMinutes: 660 })).toEqual([["drive", "fast", false, "drive"]]);
    expect(doubts({ km: 100, driveMinutes: 43, badMinutes: 661 })).toEqual([["bad", "slow", false, "bad"]]);
  });

  it("is found once for a road, the likely time first; and not without a length", () => {
    expect(doubts({ driveMinutes: 40, badMinutes: 41 })).toEqual([["drive", "fast", true, "drive"]]);
    expect(doubts({ driveMinutes: 40, badMinutes: 41 }, "c")).toEqual([]);
  });
});

describe("an estimate", () => {
  const range = { lowMinutes: 20.9, highMinutes: 40.1 };
  const estimated = leg("a", "b", 30.2, 41, { basis: "estimated", range });

  it("is noted with its range rounded outwards: 20 to 41 min, and 31 likely", () => {
    expect(found(day(oneTrip(estimated)))).toMatchObject([
      { code: "road-estimated", facts: { from: "a", to: "b", low: 20, likely: 31, high: 41 } },
    ]);
  });

  it("is none with a stated time, or an answer", () => {
    expect(found(day(oneTrip(leg("a", "b", 30, 41, { basis: "routed", range }))))).toEqual([]);
    expect(found(day(oneTrip(leg("a", "b", 30, 41, { range }))))).toEqual([]);
  });

  it("of each road is noted, not of the same road back", () => {
    const back = leg("b", "a", 30.2, 41, { basis: "estimated", range });
    const other = leg("a", "c", 30.2, 41, { basis: "estimated", range });
    const made = day([
      {
        vehicle: "wagon",
        people: ["wren"],
        leave: at(300),
        way: [estimated, back, other].map((one) => [one, "drive", {}]),
      },
    ]);
    expect(found(made).map(({ facts }) => [facts["from"], facts["to"]])).toEqual([
      ["a", "b"],
      ["a", "c"],
    ]);
  });
});

describe("the dark", () => {
  it("is below 6 degrees under the horizon, civil twilight's end", () => {
    // 30 min likely, 50 bad, planned at 50: in the dark the drive takes 1 / 0.96 of its time.
    const made = day([
      {
        ...{ vehicle: "wagon", people: ["wren"], leave: at(300) },
        way: [[leg("a", "b", 30, 50), "bad", { hit: "dawn" }]],
      },
    ]);
    const dark = (altitude: number | null) =>
      assess({ days: [made], patience: 1, now: null }, { sunAltitude: () => altitude }).result.chain.departures.map(
        (departure) => departure.dark,
      );
    expect([dark(-6), dark(-6.01), dark(null)]).toEqual([[false], [true], [false]]);
  });
});
