/** Who drives, checks, sleeps and is called, on small days: each expected by hand. */
import { describe, expect, it } from "vitest";
import { computeDay, NOTHING_BEFORE } from "../../src/day/index.ts";
import type { Plan } from "../../src/plan/plan.ts";
import { at, type Description, dayOf, legsOf, makePlan, text } from "./make.ts";
import { actual } from "./parts.ts";

const BASE: Description = {
  crew: { wren: { drives: ["wagon"] }, ilse: { drives: ["wagon"] }, joe: {} },
  vehicles: { wagon: { commercial: true } },
  roads: { "home pier": [30, 30], "pier dock": [30, 30] },
  hits: { dawn: { at: at("08:00"), forMinutes: 5, in: "pier" } },
  runs: {
    wagon: {
      aboard: ["wren", "ilse", "joe"],
      stops: [{ place: "home", driver: "wren" }, { place: "pier", do: ["dawn"], driver: "ilse" }, "dock"],
    },
  },
};

const termsOf = (description: Description, who: string) =>
  dayOf(description)
    .people.find(({ id }) => id === who)
    ?.terms.map(({ name }) => name) ?? [];

describe("the checks of a commercial vehicle", () => {
  it("are the first driver's before and the last driver's after", () => {
    const has = (who: string) => ["walk-around", "post-trip"].map((name) => termsOf(BASE, who).includes(name));
    expect([has("wren"), has("ilse"), has("joe")]).toEqual([
      [true, false],
      [false, true],
      [false, false],
    ]);
    const plain = { ...BASE, vehicles: { wagon: { commercial: false } } };
    expect(["wren", "ilse"].flatMap((who) => termsOf(plain, who).filter((name) => /walk|post/u.test(name)))).toEqual(
      [],
    );
  });
});

describe("a driver who is stated asleep", () => {
  const asleep = (names: readonly string[], more: Partial<Plan> = {}) => {
    const made = {
      ...makePlan({
        ...BASE,
        runs: {
          wagon: {
            aboard: ["wren", "ilse", "joe"],
            stops: [
              { place: "home", driver: "wren", asleep: names },
              { place: "pier", do: ["dawn"], driver: "wren", asleep: [] },
              "dock",
            ],
          },
        },
      }),
      ...more,
    };
    return computeDay(made, legsOf(made)).findings.map(({ code, who, facts }) => [
      code,
      who,
      facts["awake"],
      facts["others"],
    ]);
  };

  it("is told with who aboard may drive and is awake", () => {
    expect(asleep(["wren"])).toEqual([["driver-asleep", "wren", ["ilse"], []]]);
    expect(asleep(["wren", "ilse"])).toEqual([["driver-asleep", "wren", [], ["ilse"]]]);
    expect(asleep(["wren", "joe"])).toEqual([["driver-asleep", "wren", ["ilse"], ["joe"]]]);
    expect(asleep(["ilse", "joe"])).toEqual([]);
  });

  it("is told once, if what a stop says of sleepers holds on later legs, and again where it is said again", () => {
    const told = (...later: readonly (readonly string[] | null)[]) => {
      const stops = [["wren"], ...later].map((names, n) => ({
        ...{ place: ["home", "pier", "dock"][n] ?? "", driver: "wren", asleep: names },
        ...(n === 1 ? { do: ["dawn"] } : {}),
      }));
      const runs = { wagon: { aboard: ["wren", "ilse", "joe"], stops: [...stops, "pier"] } };
      const made = makePlan({ ...BASE, runs });
      return computeDay(made, legsOf(made)).findings.map(({ code, facts }) => `${code} ${facts["leg"]}`);
    };
    expect(told(null, null)).toEqual(["driver-asleep wagon.1"]);
    expect(told(["wren"], null)).toEqual(["driver-asleep wagon.1", "driver-asleep wagon.2"]);
    expect(told([], ["wren"])).toEqual(["driver-asleep wagon.1", "driver-asleep wagon.3"]);
  });
});

describe("somebody in two vehicles at once", () => {
  it("is told where the second names them, with the first beside it", () => {
    const made = makePlan({
      ...BASE,
      crew: { ...BASE.crew, tomas: { drives: ["truck"] } },
      hits: { dawn: { at: at("08:00"), forMinutes: 5, in: "pier", who: ["wren", "tomas"] } },
      runs: {
        wagon: { driver: "wren", aboard: ["wren", "ilse"], stops: ["home", { place: "pier", do: ["dawn"] }, "home"] },
        truck: { driver: "tomas", aboard: ["tomas", "ilse"], stops: ["home", { place: "pier", do: ["dawn"] }, "home"] },
      },
    });
    const told = (located: boolean) => {
      const locate: Plan["source"]["locate"] = (path) =>
        located ? { file: "day.yaml", line: 1, column: 1, length: 1, text: path.join(".") } : null;
      const plan = { ...made, source: { locate } };
      return computeDay(plan, legsOf(plan))
        .findings.filter(({ code }) => code === "two-vehicles-at-once")
        .slice(0, 1)
        .map(({ who, path, span, related }) => [who, path?.join("."), span?.text, related.map((one) => one.span.text)]);
    };
    expect(told(true)).toEqual([["ilse", "runs.truck.aboard", "runs.truck.aboard", ["runs.wagon.aboard"]]]);
    expect(told(false)).toEqual([["ilse", "runs.truck.aboard", undefined, []]]);
  });

  it("is told at the stop, last before the leg, that names them; at `driver` where they drive", () => {
    const path = (run: Omit<Description["runs"][string], "stops">, named: { aboard?: string[]; driver?: string }) => {
      const plan = makePlan({
        ...BASE,
        crew: { ...BASE.crew, tomas: { drives: ["truck"] }, ilse: { drives: ["truck"] } },
        hits: { dawn: { at: at("08:00"), forMinutes: 5, in: "pier", who: ["wren", "ilse"] } },
        runs: {
          wagon: { driver: "wren", aboard: ["wren", "ilse"], stops: ["home", { place: "pier", do: ["dawn"] }, "home"] },
          truck: { ...run, stops: [{ place: "home", ...named }, { place: "pier", do: ["dawn"] }, "home"] },
        },
      });
      const { findings } = computeDay(plan, legsOf(plan));
      const found = findings.filter(({ code }) => code === "two-vehicles-at-once");
      return found.slice(0, 1).map((one) => [one.path?.join("."), one.facts["drives"]]);
    };
    const both = { aboard: ["tomas", "ilse"] };
    expect(path({ driver: "tomas" }, both)).toEqual([["runs.truck.stops.0.aboard", false]]);
    expect(path({ driver: "tomas", ...both }, {})).toEqual([["runs.truck.aboard", false]]);
    expect(path({ driver: "ilse", ...both }, {})).toEqual([["runs.truck.driver", true]]);
    expect(path(both, { driver: "ilse" })).toEqual([["runs.truck.stops.0.driver", true]]);
  });
});

describe("a day that follows another", () => {
  const elsewhere = (slept: string | null, at0: string | null, wagon: string | null = null) => {
    const plan = makePlan({ ...BASE, crew: { ...BASE.crew, joe: { slept } } });
    const before = {
      ...NOTHING_BEFORE,
      beds: new Map(at0 === null ? [] : [["joe", at0]]),
      vehicles: new Map(wagon === null ? [] : [["wagon", wagon]]),
    };
    const { day, findings } = computeDay(plan, legsOf(plan), before);
    return [...findings, ...(day?.findings ?? [])]
      .filter(({ code }) => /elsewhere/u.test(code))
      .map(({ code, facts }) => [code, facts["at"], facts["slept"] ?? facts["from"]]);
  };

  it("states a bed or a place for a vehicle only where the day before left them", () => {
    expect(elsewhere("home", "inn")).toEqual([["bed-elsewhere", "inn", "home"]]);
    expect([elsewhere("home", "home"), elsewhere("home", null), elsewhere(null, "home")]).toEqual([[], [], []]);
    expect(elsewhere(null, null, "inn")).toEqual([["vehicle-elsewhere", "inn", "home"]]);
    expect(elsewhere(null, null, "home")).toEqual([]);
  });
});

describe("a day without an outage", () => {
  it("has no other day beside it", () => {
    expect(dayOf(BASE).intact).toBeNull();
  });
});

describe("a call that is logged", () => {
  const all = ["wren", "ilse", "joe"];
  const down: Description = {
    ...BASE,
    hits: { ...BASE.hits, noon: { at: at("18:00"), forMinutes: 5, in: "pier" } },
    tasks: { down: { kind: "standdown", in: "pier", who: all, window: { from: at("12:00"), to: at("16:00") } } },
    runs: {
      wagon: {
        aboard: all,
        stops: [{ place: "home", driver: "wren" }, { place: "pier", do: ["dawn", "down", "noon"] }, "dock"],
      },
    },
  };
  const called = (call: string) => {
    const plan = { ...makePlan(down), actual: actual({ people: new Map([["wren", { call: at(call) }]]) }) };
    const { day } = computeDay(plan, legsOf(plan));
    const person = day?.people.find(({ id }) => id === "wren");
    const own = person?.terms.find(({ activity }) => activity === "down");
    return [text(person?.call ?? null), text(own?.from ?? null), text(own?.to ?? null)];
  };

  it("is that after the stand-down which began before it, else the first", () => {
    expect(called("16:10").slice(1)).toEqual(["12:00", "16:10"]);
    expect(called("15:30").slice(1)).toEqual(["12:00", "15:30"]);
    // At noon or before it is the first call, and what was before it is cut.
    expect(called("06:00")).toEqual(["06:00", "12:00", "16:00"]);
    expect(called("16:10")[0]).toBe(called("15:30")[0]);
    expect(called("16:10")[0]).not.toBe("16:10");
  });

  it("is no chore in a stand-down, apart from both ends of it", () => {
    const duties = (from: string, to: string) => {
      const chore = { who: "wren", from: at(from), to: at(to), place: "pier", vehicle: null };
      const made = dayOf(down).withChores([chore], NOTHING_BEFORE);
      return made.people
        .find(({ id }) => id === "wren")
        ?.duties.slice(0, 2)
        .map(({ call, release }) => [text(call), text(release)]);
    };
    // `choreJoin` is 15 min: 13:30 is apart, 12:15 makes the release later, and what ends at 15:45 the call earlier.
    const [first, second] = duties("13:30", "13:40") ?? [];
    expect([first?.[1], second?.[0]]).toEqual(["12:00", "16:00"]);
    expect(duties("12:15", "12:25")?.[0]?.[1]).toBe("12:25");
    expect(duties("15:35", "15:45")?.[1]?.[0]).toBe("15:35");
  });
});

describe("someone who goes on with another vehicle while the one they came with is set up", () => {
  it("is there until they leave, and never again", () => {
    // For 08:00 with 10 in position, 10 of line check, 30 of set-up and 5 to park the truck arrives at 07:05, after 40 min.
    const day = dayOf({
      crew: { ann: { drives: ["truck"] }, bob: { drives: ["car"] }, cat: {} },
      roads: { "home pier": [30, 40], "pier cove": [5, 5] },
      hits: { dawn: { at: at("08:00"), forMinutes: 5, who: ["ann"] } },
      runs: {
        truck: { aboard: ["ann", "cat"], stops: ["home", { place: "pier", do: ["dawn"], aboard: ["ann"] }, "home"] },
        car: {
          aboard: ["bob"],
          stops: ["home", { place: "pier", aboard: ["bob", "cat"], leave: at("07:20") }, "cove"],
        },
      },
    });
    const cat = day.people.find(({ id }) => id === "cat");
    expect(cat?.spans.slice(-5).map(({ from, to, doing, place }) => [text(from), text(to), doing, place])).toEqual([
      ["06:25", "07:05", "ride", null],
      ["07:05", "07:10", "park", "pier"],
      ["07:10", "07:20", "set-up", "pier"],
      ["07:20", "07:25", "ride", null],
      ["07:25", "07:35", "unload", "cove"],
    ]);
  });
});
