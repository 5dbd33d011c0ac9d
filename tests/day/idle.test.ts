/** Stops, people and hits that something was forgotten for: each as it is told, and as it is not. */
import { describe, expect, it } from "vitest";
import { at, type Description, dayOf, times } from "./make.ts";

const ROADS: Description["roads"] = { "home pier": [30, 40], "pier cove": [20, 25], "home cove": [45, 60] };
const WAY = ["home", "cove", "pier", "home"] as const;

const idle = (more: Partial<Description>, stops: Description["runs"][string]["stops"] = WAY) =>
  dayOf({
    crew: { wren: { drives: ["wagon"] }, ilse: { drives: ["wagon"] } },
    roads: ROADS,
    hits: { dawn: { at: at("08:00"), forMinutes: 5, in: "pier" } },
    runs: { wagon: { driver: "wren", aboard: ["wren", "ilse"], stops } },
    ...more,
  }).findings.flatMap(({ code, level, path }) => (code === "stop-idle" ? [`${level} ${path?.join(".")}`] : []));

const COVE = ["warning runs.wagon.stops.1"];
const via = (stop: object): Description["runs"][string]["stops"] => [
  "home",
  { place: "cove", ...stop },
  "pier",
  "home",
];

describe("a stop for nothing", () => {
  it("is told where a road leads past it, and where the vehicle only comes back from it", () => {
    expect(idle({})).toEqual(COVE);
    const there = ["home", { place: "pier", do: ["dawn"] }, "cove", { place: "pier", do: [] }, "home"];
    expect(idle({ roads: { "home pier": [30, 40], "pier cove": [20, 25] } }, there)).toEqual([
      "warning runs.wagon.stops.2",
    ]);
  });

  it("is none where it leads the way: no road past it is stated", () => {
    const { "home pier": past, ...others } = ROADS;
    expect(past).toBeDefined();
    expect(idle({ roads: others })).toEqual([]);
  });

  it.each([
    ["a task", { tasks: { pictures: { in: "cove", forMinutes: 10 } } }, WAY],
    ["someone who gets off", {}, via({ aboard: ["wren"] })],
    ["`do: []`", {}, via({ do: [] })],
    ["a stay", {}, via({ stayMinutes: 10 })],
    ["a time", {}, via({ arriveBy: at("07:00") })],
    ["gear that changes over", {}, via({ moves: new Map([["camera", "wagon"]]) })],
    ["a change at the wheel", {}, via({ driver: "ilse" })],
  ] satisfies readonly (readonly [string, Partial<Description>, Description["runs"][string]["stops"]])[])(
    "is none with %s",
    (_, more, stops) => {
      expect(idle(more, stops)).toEqual([]);
    },
  );
});

describe("someone with nothing to do", () => {
  const told = (odo: object, more: Partial<Description> = {}) =>
    dayOf({
      crew: { wren: { drives: ["wagon"] }, odo: { slept: "home", ...odo } },
      roads: ROADS,
      hits: { dawn: { at: at("08:00"), forMinutes: 5, in: "pier" } },
      runs: { wagon: { driver: "wren", aboard: ["wren"], stops: ["home", "pier", "home"] } },
      ...more,
    }).findings.map(({ code, level, who }) => [code, level, who]);

  it("is told, and is not with a ride or a task", () => {
    expect(told({})).toEqual([["nothing-to-do", "note", "odo"]]);
    expect(told({}, { runs: { wagon: { driver: "wren", aboard: ["odo"], stops: ["home", "pier", "home"] } } })).toEqual(
      [],
    );
    const tasks = {
      guard: { in: "home", forMinutes: 60, who: ["odo"], window: { from: at("08:00"), to: at("10:00") } },
    };
    expect(told({}, { tasks })).toEqual([]);
  });
});

describe("a hit without a vehicle", () => {
  const hits = { dawn: { at: at("08:00"), forMinutes: 5, in: "home", who: ["wren"] } };
  const atHome = (more: Partial<Description>) =>
    dayOf({ crew: { wren: { slept: "home" } }, roads: {}, places: { home: {} }, runs: {}, hits, ...more });
  const codes = (more: Partial<Description>) => atHome(more).findings.map(({ code, level }) => `${level} ${code}`);

  it("has no set-up unless a task or a standing vehicle is there for it", () => {
    expect(codes({})).toEqual(["warning set-up-unplanned"]);
    const build = { in: "home", forMinutes: 30, who: ["wren"] };
    expect(codes({ tasks: { build: { ...build, before: ["dawn"] } } })).toEqual([]);
    expect(codes({ tasks: { build: { ...build, after: ["dawn"] } } })).toEqual(["warning set-up-unplanned"]);
    expect(codes({ rules: { setUp: 0 } })).toEqual([]);
    expect(codes({ runs: { wagon: { stops: ["home"] } } })).toEqual([]);
  });

  it("calls people for the line check, for the task before it, or with the standing vehicle for its set-up", () => {
    const call = (more: Partial<Description>) => times(atHome(more), "wren.call")[0];
    // 10 line check, 10 in position
    expect(call({})).toBe("07:40");
    const build = { in: "home", forMinutes: 30, who: ["wren"], before: ["dawn"] };
    expect(call({ tasks: { build } })).toBe("07:10");
    // 5 park and 30 set-up before the line check, as at any stop
    expect(call({ runs: { wagon: { stops: ["home"] } } })).toBe("07:05");
  });

  it("is at the bed of who is aboard a vehicle that stands there all day, also where no bed is stated", () => {
    const day = atHome({ crew: { wren: {} }, runs: { wagon: { stops: ["home"] } } });
    // 08:05 + 10 clear + 20 strike
    expect(times(day, "wren.call", "wren.release")).toEqual(["07:05", "08:35"]);
  });
});

it("a hit before the plan's date in the control room is told, and is not from that midnight on", () => {
  const codes = (minute: number): readonly string[] =>
    dayOf({
      crew: { wren: { drives: ["wagon"] } },
      roads: ROADS,
      hits: { dawn: { at: at(minute), forMinutes: 5, in: "pier" } },
      runs: { wagon: { stops: ["home", "pier", "home"] } },
    }).findings.map(({ code, level }) => `${level} ${code}`);
  expect(codes(-1)).toEqual(["warning hit-before-date"]);
  expect(codes(0)).toEqual([]);
});
