/** Gaps: how long one can stay where, less what is planned in them. */
import { describe, expect, it } from "vitest";
import { gapsOf } from "../../src/roads/gaps.ts";
import { missed, ROADS, type Shape, textOf } from "../agreement/gapShapes.ts";
import { judgedFile, judgedText } from "../cases/judged.ts";

describe("the cases", () => {
  it("gap.yaml: 65 min at c, not 90", async () => {
    // h 12:00 to 12:05, clear 10, strike 20: packed 12:35; 40 min out at `bad`, since g is firm, and 5 to park: 13:20.
    // g at 16:00 less in position 10, line check 10, set-up 30, park 5 is 15:05; 40 min back: 14:25, 65 min later.
    const { day } = await judgedFile("fixtures/cases/world/gap.yaml");
    const c = (await gapsOf(day)).find(({ place }) => place === "c");
    expect(c).toMatchObject({
      from: "h",
      to: "g",
      outMinutes: 40,
      backMinutes: 40,
      stayMinutes: 65,
      plannedMinutes: 0,
    });
  });

  it("gap-does-not-fit.yaml: 90 min there are 25 too many", async () => {
    const day = await judgedFile("fixtures/cases/world/gap-does-not-fit.yaml");
    expect(missed(day)).toEqual(["task-missed"]);
    expect(day.found("task-missed")[0]?.shortMinutes).toBe(25);
  });
});

/** A car from a by b to c and back; both drives take 30 min, 40 at worst. */
const THREE_PLACES = `daywright: 1
date: 2027-05-10
clock: UTC
crew: { wren: { role: [camera, engineer], drives: [car] } }
vehicles: { car: {} }
places: { a: { zone: UTC, kind: lodging }, b: { zone: UTC }, c: { zone: UTC } }
roads: [ { link: [a, b], drive: 30 min, bad: 40 min }, { link: [b, c], drive: 30 min, bad: 40 min } ]
`;

describe("a dish", () => {
  const stay = async (h: string, g: string) => {
    const text = `${THREE_PLACES}paths: { sky: { kind: satellite, vehicle: car, slot: 101 west }, net: { kind: cellular } }
hits: { h: { at: "12:00", for: 5 min, place: b, ${h} }, g: { at: "16:00", for: 5 min, place: b, ${g} } }
runs: { car: { driver: wren, stops: [a, b, a] } }
`;
    const { day } = await judgedText(text);
    return (await gapsOf(day)).find(({ place }) => place === "c")?.stayMinutes;
  };

  it("is up anew 25 min before a hit that goes out or can go out by it: 40 min are left of 65", async () => {
    expect(await stay("path: net", "path: net")).toBe(65);
    expect(await stay("path: net", "path: sky")).toBe(40);
    expect(await stay("path: sky", "path: net, spare: sky")).toBe(40);
    // A dish that is only a spare is put up as well.
    expect(await stay("path: net", "path: net, spare: sky")).toBe(40);
    // What only the hit before the gap needed stays down.
    expect(await stay("path: sky", "path: net")).toBe(65);
  });
});

describe("what is planned in a gap is taken off, and named", () => {
  const shape: Shape = {
    roads: ROADS.map((link) => `{ link: ${link}, drive: 30 min, bad: 40 min }`),
    hits: [
      { id: "h0", at: "12:00", place: "b", more: "" },
      { id: "h1", at: "16:00", place: "b", more: "" },
    ],
    tasks: [{ id: "meal", after: "h0", minutes: 20 }],
    rules: "planDrivesAt: bad",
    weather: "",
  };

  it("20 min of work between two hits leave 45 of 65", async () => {
    const { day } = await judgedText(textOf(shape));
    expect((await gapsOf(day)).find(({ place }) => place === "c")).toMatchObject({
      stayMinutes: 45,
      planned: ["meal"],
      plannedMinutes: 20,
    });
  });

  it("the next stop's own work is kept free as well", async () => {
    const other = {
      ...shape,
      hits: [shape.hits[0], { id: "h1", at: "16:00", place: "c", more: "" }].filter((hit) => hit !== undefined),
      tasks: [],
    };
    const free = (await gapsOf((await judgedText(textOf(other))).day)).find(({ place }) => place === "d");
    // Packed 12:35, 40 out and 5 to park: 13:20; at c by 15:05, 40 back: 14:25.
    expect(free?.stayMinutes).toBe(65);
  });
});

describe("both ways of a gap are planned as the drives into the hit after it", () => {
  const text = (
    rule: string,
    firm: boolean,
  ) => `${THREE_PLACES}hits: { h: { at: "12:00", for: 5 min, place: b }, g: { at: "16:00", for: 5 min, place: b, firm: ${firm} } }
runs: { car: { driver: wren, stops: [a, b, a] } }
rules: { planDrivesAt: ${rule} }
`;
  const out = async (rule: string, firm: boolean) => {
    const { day } = await judgedText(text(rule, firm));
    const c = (await gapsOf(day)).find(({ place }) => place === "c");
    return [c?.outMinutes, c?.backMinutes];
  };

  it("at bad into a firm one, else at the likely time, unless the house has one for all", async () => {
    expect(await out("bad-into-firm", true)).toEqual([40, 40]);
    expect(await out("bad-into-firm", false)).toEqual([30, 30]);
    expect(await out("drive", true)).toEqual([30, 30]);
    expect(await out("bad", false)).toEqual([40, 40]);
  });

  it("lead to every place but the one at which both hits are", async () => {
    const away = async (plan: string) => (await gapsOf((await judgedText(plan)).day)).map(({ place }) => place);
    expect(await away(text("drive", true))).toEqual(["a", "c"]);
    const on = text("drive", true)
      .replace("for: 5 min, place: b, firm", "for: 5 min, place: c, firm")
      .replace("stops: [a, b, a]", "stops: [a, b, c, a]")
      .replace("roads: [", "roads: [ { link: [a, c], drive: 30 min, bad: 40 min },");
    expect(await away(on)).toEqual(["a", "b", "c"]);
  });

  it("rest on the worse of both: stated if each is, estimated if one is", async () => {
    const basis = async (plan: string) =>
      (await gapsOf((await judgedText(plan)).day)).find(({ place }) => place === "c")?.basis;
    expect(await basis(text("drive", true))).toBe("stated");
    // One way only to c, and the way back as far as the map says, or the other way round.
    const placed = text("drive", true)
      .replace("b: { zone: UTC }", "b: { zone: UTC, at: [46.81, -90.82] }")
      .replace("c: { zone: UTC }", "c: { zone: UTC, at: [46.70, -90.85] }");
    for (const link of ["[b, c]", "[c, b]"])
      expect(await basis(placed.replace("link: [b, c]", `oneWay: true, link: ${link}`))).toBe("estimated");
    // No way back at all.
    const oneWay = text("drive", true).replace("link: [b, c]", "oneWay: true, link: [b, c]");
    const [c] = (await gapsOf((await judgedText(oneWay)).day)).filter(({ place }) => place === "c");
    expect([c?.outMinutes, c?.backMinutes, c?.stayMinutes, c?.basis]).toEqual([null, null, null, null]);
  });

  it("and the farthest of those that one can stay at is marked, the first in the plan of two as far", async () => {
    const two = text("drive", true)
      .replace("c: { zone: UTC }", "c: { zone: UTC }, d: { zone: UTC }, e: { zone: UTC }, f: { zone: UTC }")
      .replace(
        "roads: [",
        "roads: [ { link: [b, d], drive: 31 min, bad: 40 min }, { link: [b, e], drive: 31 min, bad: 40 min }, { link: [b, f], drive: 3 h, bad: 4 h },",
      );
    const found = await gapsOf((await judgedText(two)).day);
    // Packed 12:35, at b again 15:05 at the latest, 5 min to park: 145 min for both ways, f is 3 h away.
    expect(found.flatMap(({ place, farthest }) => (farthest ? [place] : []))).toEqual(["d"]);
    expect(found.find(({ place }) => place === "f")?.stayMinutes).toBe(145 - 360);
  });
});
