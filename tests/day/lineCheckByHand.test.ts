/** Minutes of line check and in position before a hit, by what is before it at the same visit. */
import { describe, expect, it } from "vitest";
import { AS_PLANNED } from "../../src/day/facts/fit.ts";
import { NO_PINS } from "../../src/day/facts/pins.ts";
import { buildNetwork } from "../../src/day/network/build.ts";
import { checkMinutes } from "../../src/day/network/prepare.ts";
import { timeLegs } from "../../src/day/network/timing.ts";
import { resolveOrder } from "../../src/day/order/resolveOrder.ts";
import { inPositionMinutes, lineCheckMinutes, livesOf } from "../../src/day/order/visits.ts";
import { at, legsOf, makePlan } from "./make.ts";

/** The wagon, with wren, makes dawn (07:00 for 3 min) and the second hit at one visit; the car, with ilse, comes for some of them. */
function posed(
  second: string,
  {
    path = "dish",
    who = ["wren", "ilse"],
    car = ["noon"],
  }: { path?: string | null; who?: readonly string[]; car?: readonly string[] } = {},
) {
  const plan = makePlan({
    crew: { wren: { drives: ["wagon"] }, ilse: { drives: ["car"] } },
    roads: { "home pier": [30, 30] },
    hits: {
      dawn: { at: at("07:00"), forMinutes: 3, signalPath: "cell", who: ["wren"] },
      noon: { at: at(second), forMinutes: 3, signalPath: path, who },
    },
    paths: { cell: {}, dish: {} },
    runs: {
      wagon: { stops: ["home", { place: "pier", do: ["dawn", "noon"] }, { place: "home", do: [] }] },
      car: { stops: ["home", { place: "pier", do: car }, { place: "home", do: [] }] },
    },
  });
  const { order } = resolveOrder(plan, legsOf(plan), new Map());
  const entered = { activities: new Set(["dawn", "noon"]), stops: new Set<string>(), rides: new Set<string>() };
  const build = buildNetwork(order, timeLegs(order, new Set(), new Map()), entered, { pins: NO_PINS, fit: AS_PLANNED });
  const each = order.visits.flatMap((visit) => {
    const lives = livesOf(order, visit, entered.activities);
    const live = lives.find(({ id }) => id === "noon");
    if (live === undefined) return [];
    return [[visit.vehicle, lineCheckMinutes(order, visit, live, lives), inPositionMinutes(order, visit, live, lives)]];
  });
  return { each, check: checkMinutes(build, "noon"), dawn: checkMinutes(build, "dawn") };
}

describe("a second hit of a visit", () => {
  it("on another path has what the first leaves of its line check, and in position before that", () => {
    // The rules: 10 min of line check, then 10 in position. From 07:03 to 07:23 there is room for both.
    expect(posed("07:23").each).toEqual([
      ["wagon", 10, 10],
      ["car", 10, 10],
    ]);
    expect(posed("07:22").each[0]).toEqual(["wagon", 9, 10]);
    expect(posed("07:14").each[0]).toEqual(["wagon", 1, 10]);
    expect(posed("07:13").each[0]).toEqual(["wagon", null, 10]);
    expect(posed("07:12").each[0]).toEqual(["wagon", null, 9]);
    expect(posed("07:03").each[0]).toEqual(["wagon", null, 0]);
  });

  it("of other people has all of its line check, whatever the first leaves", () => {
    // Ilse alone makes it, who is not busy until 07:03: the whole 10 min before 07:05.
    expect(posed("07:15", { who: ["ilse"] }).each[0]).toEqual(["wagon", 10, 10]);
    expect(posed("07:15", { who: ["wren"], car: [] }).each[0]).toEqual(["wagon", 2, 10]);
  });

  it("has the longest that one of the vehicles asks for: for the car it is the first", () => {
    expect([posed("07:15").each[0], posed("07:15").check]).toEqual([["wagon", 2, 10], 10]);
    expect([posed("07:15").dawn, posed("07:15", { car: [], who: ["wren"] }).check]).toEqual([10, 2]);
  });

  it("on the same path, or on none, has no line check", () => {
    expect(posed("12:00", { path: "cell", car: [], who: ["wren"] })).toMatchObject({
      each: [["wagon", null, 10]],
      check: null,
    });
    expect(posed("12:00", { path: null, car: [], who: ["wren"] }).check).toBeNull();
    expect(posed("12:00", { car: [], who: ["wren"] }).check).toBe(10);
  });
});
