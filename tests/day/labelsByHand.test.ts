/** Where the reasons of a day point, what the log contradicts, and what a fact that stands alone makes of a day; by hand. */
import { describe, expect, it } from "vitest";
import { contradiction, releasedEarly } from "../../src/day/facts/contradictions.ts";
import { AS_PLANNED } from "../../src/day/facts/fit.ts";
import { type LoggedFact, NO_PINS } from "../../src/day/facts/pins.ts";
import { computeDay } from "../../src/day/index.ts";
import { buildNetwork } from "../../src/day/network/build.ts";
import { timeLegs } from "../../src/day/network/timing.ts";
import { resolveOrder } from "../../src/day/order/resolveOrder.ts";
import type { Actual, Hit } from "../../src/plan/plan.ts";
import { at, type Description, legsOf, makePlan, text } from "./make.ts";
import { actual, plan } from "./parts.ts";

const BASE: Description = {
  crew: { wren: { drives: ["wagon"] } },
  roads: { "home pier": [30, 40] },
  hits: { dawn: { at: at("08:00"), forMinutes: 5 } },
  runs: { wagon: { driver: "wren", aboard: ["wren"], stops: ["home", { place: "pier", do: ["dawn"] }, "home"] } },
};

describe("the lengths of a hit", () => {
  /** What the length from one instant to another is called, where it is and where the plan says it. */
  const labelled = (from: string, to: string, more: Partial<Hit> = {}, rules: Description["rules"] = {}) => {
    const made = makePlan({ ...BASE, rules, hits: { dawn: { at: at("08:00"), forMinutes: 5, ...more } } });
    const { order } = resolveOrder(made, legsOf(made), new Map());
    const entered = { activities: new Set(["dawn"]), stops: new Set<string>(), rides: new Set<string>() };
    const facts = { pins: NO_PINS, fit: AS_PLANNED };
    const { network, nodes } = buildNetwork(order, timeLegs(order, new Set(), new Map()), entered, facts);
    const edge = network.out(nodes.get(from) ?? -1).find((one) => !one.backward && one.to === nodes.get(to));
    const { name, place, activity, where } = edge?.label ?? { name: "none" };
    return [name, place, activity, where];
  };

  it("are at its place and point at its entry", () => {
    expect(labelled("dawn.start", "dawn.end")).toEqual(["dawn", "pier", "dawn", ["hits", "dawn"]]);
  });

  it("are nowhere on the road", () => {
    const location = { kind: "onRoad", from: "home", to: "pier" } as const;
    expect(labelled("dawn.start", "dawn.end", { location })).toEqual(["dawn", null, "dawn", ["hits", "dawn"]]);
  });

  it("until the desk lets go point at the hit's own `clear`, else at the plan's rule, else nowhere", () => {
    const clear = (more: Partial<Hit>, rules?: Description["rules"]) => labelled("dawn.end", "dawn.clear", more, rules);
    const stated = { stated: new Set(["clear"]) };
    expect(clear({ clearMinutes: 15 })).toEqual(["clear", "pier", "dawn", ["hits", "dawn", "clear"]]);
    expect(clear({ clearMinutes: 15 }, stated)[3]).toEqual(["hits", "dawn", "clear"]);
    expect(clear({}, stated)[3]).toEqual(["rules", "clear"]);
    expect(clear({})[3]).toBeNull();
  });
});

describe("what contradicts itself", () => {
  const span = { file: "day.yaml", line: 7, column: 3, length: 5, text: "  at: 08:00" };
  const located = plan({ source: { locate: (path) => (path.includes("first") ? span : null) } });
  const fact = (id: string, when: string): LoggedFact => ({
    ...{ what: id, at: at(when), place: "pier", path: ["actual", id, "at"] },
  });
  const pin = (id: string, when: string) => ({ at: at(when), how: "as it went", fact: fact(id, when) }) as const;

  it("points at the later fact, and at the line of the earlier one if it has one", () => {
    const told = (first: string, second: string) => {
      const pins = {
        ...NO_PINS,
        at: new Map([
          ["first", pin("first", "08:00")],
          ["other", pin("other", "07:00")],
        ]),
      };
      return contradiction(located, pins, { first, second }).map(({ path, related }) => [path, related]);
    };
    expect(told("first", "other")).toEqual([[["actual", "other", "at"], [{ span, label: "this comes first" }]]]);
    expect(told("other", "first")).toEqual([[["actual", "first", "at"], []]]);
    expect(told("other", "neither")).toEqual([]);
  });

  it("is a release no later than a call, and points at the call if that is logged", () => {
    const first = (call: string | null, released: string): Actual =>
      actual({
        people: new Map([["first", { call: call === null ? null : at(call), released: at(released) }]]),
      });
    const told = (logged: Actual, call: string | null) =>
      releasedEarly({ ...located, actual: logged }, "first", call === null ? null : at(call), null).map(
        ({ facts, related }) => [facts["first"], related?.length],
      );
    // Planned: called at 06:00; released at 06:00 or before is early, at 06:01 it is not.
    expect(told(first(null, "06:01"), "06:00")).toEqual([]);
    expect(told(first(null, "06:00"), "06:00")).toEqual([["`first call`, as planned,", 0]]);
    // Logged: called at 07:00.
    expect(told(first("07:00", "06:30"), null)).toEqual([["`first call`", 1]]);
    expect(told(first("07:00", "06:30"), "07:00")).toEqual([["`first call`", 1]]);
    expect(told(first("07:00", "07:01"), null)).toEqual([]);
    expect(told(first(null, "06:30"), null)).toEqual([]);
  });
});

describe("a single fact", () => {
  const driven = (standing: string | null, arrived: string) => {
    const made = makePlan(BASE);
    const logged = actual({
      vehicles: new Map(standing === null ? [] : [["wagon", { place: "home", since: at(standing) }]]),
      stops: new Map([["wagon.2", { arrived: at(arrived) }]]),
    });
    const own = { ...made, actual: logged };
    const [move] = computeDay(own, legsOf(own)).day?.moves ?? [];
    return [text(move?.leave ?? null), text(move?.arrive ?? null)];
  };

  it("and a vehicle that was seen standing make the drive between them as short as it was", () => {
    // Planned off at 06:25 for 40 min. At home still at 07:00, at the pier by 07:10: left at 07:00, ten minutes.
    expect(driven("07:00", "07:10")).toEqual(["07:00", "07:10"]);
    expect(driven("07:00", "07:01")).toEqual(["07:00", "07:01"]);
  });

  it("stands before a vehicle that was seen where it had left by then: at the pier by 07:10, so not at home at 07:30", () => {
    expect(driven("07:30", "07:10")).toEqual(driven(null, "07:10"));
  });
});

describe("an arrival after a vehicle stood at the stop before", () => {
  // Planned 25 min from the pier to the cove. It could not leave before 09:00 and was there at 09:10.
  const driven = (broken: boolean, more: Parameters<typeof actual>[0]) => {
    const made = makePlan({
      ...BASE,
      vehicles: { wagon: { broken: broken ? { from: at("08:20"), to: at("09:00") } : null } },
      roads: { "home pier": [30, 40], "pier cove": [20, 25], "home cove": [45, 60] },
      hits: { dawn: { at: at("08:00"), forMinutes: 5 }, noon: { at: at("12:00"), forMinutes: 5, in: "cove" } },
      runs: { wagon: { stops: ["home", { place: "pier", do: ["dawn"] }, { place: "cove", do: ["noon"] }, "home"] } },
    });
    const stops = new Map([["wagon.3", { arrived: at("09:10") }]]);
    const own = { ...made, actual: actual({ stops, ...more }) };
    const move = computeDay(own, legsOf(own)).day?.moves.find(({ id }) => id === "wagon.2");
    return [text(move?.leave ?? null), text(move?.arrive ?? null)];
  };

  it("leaves ten minutes for the drive, whether it was out of service or seen there, with another fact or alone", () => {
    const seen = { vehicles: new Map([["wagon", { place: "pier", since: at("09:00") }]]) };
    const began = { activities: new Map([["dawn", { at: at("08:02") }]]) };
    for (const more of [driven(true, {}), driven(false, seen), driven(false, { ...seen, ...began })])
      expect(more).toEqual(["09:00", "09:10"]);
  });
});

describe("why a logged hit ended when it did", () => {
  it("is its beginning, as logged, and its length: the end itself is no reason", () => {
    const made = makePlan(BASE);
    const own = { ...made, actual: actual({ activities: new Map([["dawn", { at: at("08:10") }]]) }) };
    const why = computeDay(own, legsOf(own)).day?.why("dawn.end");
    expect([why?.fixedBy.id, text(why?.fixedBy.at ?? null), why?.fixedBy.by]).toEqual(["dawn.start", "08:10", "log"]);
    expect(why?.terms.map(({ name, minutes }) => [name, minutes])).toEqual([["dawn", 5]]);
  });
});
