/** Every mistake of order: a plan that has it, and the same plan put right. */
import { describe, expect, it } from "vitest";
import * as found from "../../src/day/findings/findings.ts";
import * as bookings from "../../src/day/findings/findingsBookings.ts";
import * as facts from "../../src/day/findings/findingsFacts.ts";
import * as idle from "../../src/day/findings/findingsIdle.ts";
import * as missed from "../../src/day/findings/findingsMissed.ts";
import * as order from "../../src/day/findings/findingsOrder.ts";
import * as outage from "../../src/day/findings/findingsOutage.ts";
import { computeDay } from "../../src/day/index.ts";
import { codesOf } from "../../src/findings/catalogue.ts";
import { plainWording } from "../../src/reports/shared/wording.ts";
import { at, type Description, legsOf, makePlan, mistakesOf } from "./make.ts";

const CREW: Description["crew"] = { wren: { drives: ["wagon"] }, ilse: {} };
const ROADS: Description["roads"] = { "home pier": [30, 40], "pier cove": [20, 25], "home cove": [45, 60] };
const DAWN = { at: at("08:00"), forMinutes: 5, in: "pier" };
const RUN = { stops: ["home", "pier", "home"] };
const BASE: Description = { crew: CREW, roads: ROADS, hits: { dawn: DAWN }, runs: { wagon: RUN } };
const TWO: Description = { ...BASE, crew: { ...CREW, tomas: { drives: ["truck"] } } };
const wagon = (more: object): Description["runs"] => ({ wagon: { ...RUN, ...more } });

/** The wagon with wren and ilse, and the truck with tomas and whoever else is `aboard`, at its `stops`. */
const besideTruck = (
  aboard: readonly string[],
  stops: Description["runs"][string]["stops"],
  do1: readonly string[] | null = null,
): Description => ({
  ...TWO,
  runs: {
    wagon: { driver: "wren", aboard: ["wren", "ilse"], stops: ["home", { place: "pier", do: do1 }, "home"] },
    truck: { driver: "tomas", aboard, stops },
  },
});
const ROLLING = { location: { kind: "aboard", vehicle: "wagon" }, who: ["ilse"] } as const;
const WRITING: Description["runs"] = wagon({ stops: [{ place: "home", do: ["write"] }, "pier", "home"] });
const LATER = { place: "home", leave: at("12:00") };

type Pair = readonly [code: string, wrong: Description, right: Description];

const PAIRS: readonly Pair[] = [
  [
    "aboard-missing",
    {
      ...TWO,
      runs: {
        wagon: { aboard: ["wren", "ilse"], ...RUN },
        truck: { stops: [{ place: "home", leave: at("06:00") }, "cove"] },
      },
    },
    {
      ...TWO,
      runs: {
        wagon: { aboard: ["wren", "ilse"], ...RUN },
        truck: { driver: "tomas", stops: [{ place: "home", leave: at("06:00") }, "cove"] },
      },
    },
  ],
  ["driver-missing", { ...BASE, crew: { wren: {}, ilse: {} } }, BASE],
  [
    "driver-missing",
    { ...BASE, crew: { wren: { drives: ["wagon"] }, ilse: { drives: ["wagon"] } } },
    { ...BASE, crew: { wren: { drives: ["wagon"] }, ilse: { drives: ["wagon"] } }, runs: wagon({ driver: "wren" }) },
  ],
  [
    "driver-asleep",
    { ...BASE, runs: wagon({ stops: [{ place: "home", asleep: ["wren"] }, "pier", "home"] }) },
    { ...BASE, runs: wagon({ stops: [{ place: "home", asleep: ["ilse"] }, "pier", "home"] }) },
  ],
  [
    "rider-not-aboard",
    {
      ...TWO,
      runs: wagon({ aboard: ["wren", "ilse"], stops: [{ place: "home", asleep: ["tomas"] }, "pier", "home"] }),
    },
    { ...TWO, runs: wagon({ aboard: ["wren", "ilse"], stops: [{ place: "home", asleep: ["ilse"] }, "pier", "home"] }) },
  ],
  [
    "visit-open",
    { ...BASE, runs: wagon({ stops: ["home", "pier", "cove", "pier", "home"] }) },
    { ...BASE, runs: wagon({ stops: ["home", { place: "pier", do: ["dawn"] }, "cove", "pier", "home"] }) },
  ],
  [
    "place-not-visited",
    {
      ...BASE,
      hits: { dawn: { ...DAWN, in: "cove" } },
      runs: wagon({ stops: [{ place: "home", leave: at("06:00") }, "pier", "home"] }),
    },
    BASE,
  ],
  [
    "listed-twice",
    {
      ...BASE,
      runs: wagon({
        stops: ["home", { place: "pier", do: ["dawn"] }, "cove", { place: "pier", do: ["dawn"] }, "home"],
      }),
    },
    { ...BASE, runs: wagon({ stops: ["home", { place: "pier", do: ["dawn"] }, "cove", "pier", "home"] }) },
  ],
  [
    "cannot-attend",
    { ...TWO, hits: { dawn: { ...DAWN, who: ["wren", "tomas"] } }, runs: wagon({ aboard: ["wren", "ilse"] }) },
    { ...TWO, hits: { dawn: { ...DAWN, who: ["wren", "ilse"] } }, runs: wagon({ aboard: ["wren", "ilse"] }) },
  ],
  [
    "nobody-attends",
    { ...BASE, hits: { dawn: { ...DAWN, who: [] } } },
    { ...BASE, hits: { dawn: { ...DAWN, who: ["ilse"] } } },
  ],
  [
    "order-open",
    {
      ...TWO,
      tasks: { talk: { in: "pier", forMinutes: 20, who: ["ilse", "tomas"] } },
      hits: { dawn: { ...DAWN, who: ["wren", "ilse"] } },
      runs: {
        wagon: { aboard: ["wren", "ilse"], stops: ["home", { place: "pier", do: ["dawn"] }, "home"] },
        truck: {
          driver: "tomas",
          stops: [{ place: "home", leave: at("06:00") }, { place: "pier", do: ["talk"] }, "home"],
        },
      },
    },
    {
      ...TWO,
      tasks: { talk: { in: "pier", forMinutes: 20, who: ["ilse", "tomas"], after: ["dawn"] } },
      hits: { dawn: { ...DAWN, who: ["wren", "ilse"] } },
      runs: {
        wagon: { aboard: ["wren", "ilse"], stops: ["home", { place: "pier", do: ["dawn"] }, "home"] },
        truck: {
          driver: "tomas",
          stops: [{ place: "home", leave: at("06:00") }, { place: "pier", do: ["talk"] }, "home"],
        },
      },
    },
  ],
  ["two-vehicles-at-once", besideTruck(["tomas", "ilse"], RUN.stops), besideTruck(["tomas"], RUN.stops)],
  [
    "two-vehicles-at-once", // the places chain in one order: to the pier, home, and with the truck to the same hit again
    besideTruck(["tomas", "ilse"], ["home", "pier"]),
    besideTruck(["tomas"], ["home", "pier"]),
  ],
  [
    "two-vehicles-at-once", // the same way without a hit in common, and nothing says that it is later
    besideTruck(["tomas", "ilse"], [LATER, { place: "pier", do: [] }, "home"], ["dawn"]),
    besideTruck(["tomas", "ilse"], [{ ...LATER, after: ["dawn"] }, { place: "pier", do: [] }, "home"], ["dawn"]),
  ],
  [
    "order-loop", // tomas talks at home before he leaves for the hit that the talk is to come after
    {
      ...TWO,
      hits: { dawn: { ...DAWN, who: ["wren", "tomas"] } },
      tasks: { talk: { in: "home", forMinutes: 20, who: ["tomas"], after: ["dawn"] } },
      runs: {
        wagon: { driver: "wren", aboard: ["wren", "ilse"], ...RUN },
        truck: { driver: "tomas", stops: [{ place: "home", do: ["talk"] }, "pier", "home"] },
      },
    },
    {
      ...TWO,
      hits: { dawn: { ...DAWN, who: ["wren", "tomas"] } },
      tasks: { talk: { in: "home", forMinutes: 20, who: ["tomas"], after: ["dawn"] } },
      runs: {
        wagon: { driver: "wren", aboard: ["wren", "ilse"], ...RUN },
        truck: { driver: "tomas", stops: ["home", "pier", { place: "home", do: ["talk"] }] },
      },
    },
  ],
  [
    "drive-too-short", // into a firm hit the drive is planned at the bad time, 40 min
    { ...BASE, tasks: { write: { ...ROLLING, forMinutes: 41 } }, runs: WRITING },
    { ...BASE, tasks: { write: { ...ROLLING, forMinutes: 40 } }, runs: WRITING },
  ],
  [
    "ride-order-open", // home, cove, home begins and ends at either
    {
      ...TWO,
      crew: { ...TWO.crew, tomas: { drives: ["truck", "wagon"] } },
      runs: {
        wagon: {
          driver: "wren",
          aboard: ["wren"],
          stops: ["home", "pier", { place: "cove", driver: "tomas", aboard: ["wren", "tomas"] }, "home"],
        },
        truck: { driver: "tomas", stops: [LATER, "cove"] },
      },
    },
    {
      ...TWO,
      crew: { ...TWO.crew, tomas: { drives: ["truck", "wagon"], slept: "home" } },
      runs: {
        wagon: {
          driver: "wren",
          aboard: ["wren"],
          stops: ["home", "pier", { place: "cove", driver: "tomas", aboard: ["wren", "tomas"] }, "home"],
        },
        truck: { driver: "tomas", stops: [LATER, "cove"] },
      },
    },
  ],
  [
    "length-missing",
    { ...BASE, tasks: { pictures: { in: "pier" } } },
    { ...BASE, tasks: { pictures: { in: "pier", forMinutes: 20 } } },
  ],
  [
    "leg-open",
    { ...BASE, tasks: { fuel: { kind: "fuel", forMinutes: 5, location: { kind: "aboard", vehicle: "wagon" } } } },
    {
      ...BASE,
      tasks: { fuel: { kind: "fuel", forMinutes: 5, location: { kind: "aboard", vehicle: "wagon" } } },
      runs: wagon({ stops: ["home", { place: "pier", do: ["dawn", "fuel"] }, "home"] }),
    },
  ],
];

/** Told in other tests of this folder: readings, properties, went, idle, loggedDrivers. */
const ELSEWHERE = [
  "booked-twice",
  "date-twice",
  "out-of-service",
  "order-unstated",
  "logged-otherwise",
  "fact-ahead",
  "all-released",
  "duty-half-logged",
  "edit-of-past",
  "ride-missing",
  "two-waits",
  "run-unfixed",
  "left-away-from-bed",
  "in-bed-at-work",
  "hit-missed",
  "task-missed",
  "stop-time-missed",
  "ride-missed",
  "went-backwards",
  "driver-elsewhere",
  "vehicle-elsewhere",
  "bed-elsewhere",
  "slip-too-long",
  "stop-idle",
  "departure-missing",
  "set-up-unplanned",
  "nothing-to-do",
  "hit-before-date",
];

describe("mistakes of order", () => {
  it.each(PAIRS)("%s", (code, wrong, right) => {
    expect(mistakesOf(wrong)).toContain(code);
    expect(mistakesOf(right)).toEqual([]);
  });

  it("someone in two vehicles at once is told with both lines and as nothing else", () => {
    const made = makePlan(besideTruck(["tomas", "ilse"], RUN.stops));
    const findings = computeDay(made, legsOf(made)).findings;
    expect(findings.map(({ code, who, path }) => [code, who, path])).toEqual([
      ["two-vehicles-at-once", "ilse", ["runs", "truck", "aboard"]],
    ]);
    expect(findings[0]?.facts).toMatchObject({ first: "wagon", second: "truck", to: "pier", activity: "dawn" });
  });

  it("a ring is told as steps, each with what waits, for what, and where a vehicle then is", () => {
    const [, wrong] = PAIRS.find(([code]) => code === "order-loop") ?? [];
    if (wrong === undefined) throw new Error("no ring");
    const made = makePlan(wrong);
    expect(computeDay(made, legsOf(made)).findings.map((finding) => finding.sentence(plainWording))).toEqual([
      "these wait for each other: talk waits for dawn; dawn waits for truck to arrive at pier; truck leaves home after talk",
    ]);
  });

  it("what is done one behind the other by way of a third is in order, whichever way it is said", () => {
    const chain = (eat: Description["tasks"], two: Description["tasks"]): Description => ({
      crew: { wren: { slept: "home" } },
      roads: {},
      runs: {},
      places: { home: {} },
      tasks: { one: { in: "home", forMinutes: 60, who: ["wren"] }, ...eat, ...two },
    });
    const task = { in: "home", forMinutes: 30, who: ["wren"] };
    expect(mistakesOf(chain({ eat: { ...task, after: ["one"] } }, { two: { ...task, after: ["eat"] } }))).toEqual([]);
    expect(mistakesOf(chain({ eat: { ...task, after: ["one"], before: ["two"] } }, { two: task }))).toEqual([]);
    expect(mistakesOf(chain({ eat: { ...task, after: ["one"] } }, { two: task }))).toContain("order-open");
  });

  const hintsOf = (description: Description): readonly (string | null)[] => {
    const made = makePlan(description);
    return computeDay(made, legsOf(made)).findings.map((finding) => finding.hint(plainWording));
  };

  it("who may drive is asked once a vehicle, not once a leg", () => {
    expect(mistakesOf({ ...BASE, crew: { wren: {}, ilse: {} } })).toEqual(["driver-missing"]);
  });

  it("someone who cannot be there is offered the vehicle that stops there; a place without one, who is there", () => {
    const left = {
      ...TWO,
      hits: { dawn: { ...DAWN, who: ["wren", "tomas"] } },
      runs: wagon({ aboard: ["wren", "ilse"] }),
    };
    expect(hintsOf(left)).toEqual([
      "add `tomas` to `aboard` of `wagon`, which stops there, or take `tomas` out of `who`",
    ]);
    const bed = {
      crew: { wren: { slept: "home" } },
      roads: {},
      runs: {},
      places: { home: {} },
      hits: { dawn: { ...DAWN, in: "home" } },
    };
    expect(mistakesOf(bed)).toEqual(["place-not-visited"]);
    expect(hintsOf(bed)).toEqual(["write `who: [wren]`, who are there without one, or add a stop at `home` to a run"]);
    // Who leaves later is there as well, and who never comes is not.
    const rides = { bus: { from: "home", to: "cove", leave: at("09:00"), arrive: at("10:00"), who: ["wren"] } };
    const leaving = { ...bed, crew: { ...bed.crew, ilse: { slept: "cove" } }, places: { home: {}, cove: {} }, rides };
    expect(hintsOf(leaving)).toEqual(hintsOf(bed));
  });

  it("a stop that says what is done there is not offered without it", () => {
    const wagon = { aboard: ["wren", "ilse"], ...RUN };
    const plain = hintsOf({ ...TWO, runs: { wagon, truck: { stops: ["home", "cove"] } } });
    const stay = hintsOf({ ...TWO, runs: { wagon, truck: { stops: ["home", { place: "cove", waitHere: true }] } } });
    expect(plain[0]).toContain("stops: [home, cove] }`");
    expect(stay[0]).toContain("stops: […] }`, the stops as they are");
  });

  it("are all shown", () => {
    const shown = new Set([...PAIRS.map(([code]) => code), ...ELSEWHERE]);
    const codes = [found, bookings, facts, idle, missed, order, outage].flatMap(codesOf);
    expect(codes.map(({ code }) => code).filter((code) => !shown.has(code))).toEqual([]);
  });
});

describe("a vehicle that nothing fixes", () => {
  const unfixed = (dish: string) => {
    const plan = makePlan({
      ...besideTruck(["tomas"], ["home", "pier", "home"], ["dawn"]),
      hits: { dawn: { ...DAWN, signalPath: "dish" } },
      paths: { dish: { vehicle: dish } },
    });
    const [finding] = computeDay(plan, legsOf(plan)).findings.filter(({ code }) => code === "run-unfixed");
    return finding?.hint(plainWording);
  };

  it("is to list the hits whose path it carries, at the stop where they are", () => {
    expect(unfixed("truck")).toBe("its path is for dawn: write `{ place: pier, do: [dawn] }` for that stop");
  });

  it("and is to state a time if another vehicle carries it", () => {
    expect(unfixed("wagon")).toBe("write `leave: …` or `arriveBy: …` on a stop, or `window: […]` on a task");
  });
});
