/** `stop-idle`: what a stop may be for, one thing at a time. */
import { describe, expect, it } from "vitest";
import { at, type Description, dayOf } from "./make.ts";

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
