/** The touches and shelves that a search has to look at: of those between which nothing happens, one. By hand. */
import { describe, expect, it } from "vitest";
import { withFewTouches } from "../../src/power/fast/fewTouches.ts";
import type { Model, Touch } from "../../src/power/model.ts";
import { instant } from "../../src/time/units.ts";
import { benchOf, packOf, smallDay, touchOf, useOf } from "./small.ts";

describe("the touches that count", () => {
  /** A lamp in the van that is wanted at the end of the day. */
  const model = (touches: readonly Touch[], more: Partial<Model> = {}): Model =>
    smallDay(500, { touches, swapMinutes: 2, demands: [use(400, 450)], ...more });
  const pack = packOf("one");
  const use = (from: number, to: number) => useOf(from, to, 10);
  const kept = (touches: readonly Touch[], more: Partial<Model> = {}) =>
    withFewTouches(model(touches, more)).touches.map(({ at }) => at);

  it("are one of those between which nothing happens, the first unless another is less unwelcome", () => {
    expect(kept([touchOf(100), touchOf(200), touchOf(300)])).toEqual([100]);
    expect(kept([touchOf(100, { burden: 2 }), touchOf(200, { burden: 1 }), touchOf(300, { burden: 1 })])).toEqual([
      200,
    ]);
    expect(kept([touchOf(100, { burden: 1 }), touchOf(200, { burden: 1 }), touchOf(300)])).toEqual([300]);
    expect(kept([touchOf(100), touchOf(200, { burden: 1 })])).toEqual([100]);
  });

  it("are both where only one of them reaches a bay, and the wider one where it reaches both", () => {
    const bays = ["van", "car"];
    expect(kept([touchOf(100), touchOf(200, { reach: ["car"] })], { bays })).toEqual([100, 200]);
    expect(kept([touchOf(100), touchOf(200, { reach: bays })], { bays })).toEqual([200]);
    expect(kept([touchOf(100, { reach: bays }), touchOf(200)], { bays })).toEqual([100]);
    expect(kept([touchOf(100, { reach: bays }), touchOf(200, { reach: bays }), touchOf(300)], { bays })).toEqual([100]);
    // One that reaches nothing only cuts the day; it stands for no other, and none for it.
    expect(kept([touchOf(100), touchOf(200, { reach: [] }), touchOf(300)])).toEqual([100, 200, 300]);
  });

  it("are both where a use lies between them, or part of it", () => {
    const between = (from: number, to: number) =>
      kept([touchOf(100), touchOf(200)], { demands: [use(from, to), use(400, 450)] });
    expect([between(120, 180), between(50, 101), between(199, 250)]).toEqual([
      [100, 200],
      [100, 200],
      [100, 200],
    ]);
    expect([between(50, 100), between(200, 250)]).toEqual([[100], [100]]);
  });

  it("are both where a charger in reach is on between them, or a load changes its bay, or a pack its service", () => {
    const bays = ["van", "car"];
    expect(kept([touchOf(100), touchOf(200)], { chargers: [benchOf(150, 160)] })).toEqual([100, 200]);
    expect(kept([touchOf(100), touchOf(200)], { chargers: [benchOf(200, 300)] })).toEqual([100]);
    expect(kept([touchOf(100), touchOf(200)], { chargers: [benchOf(150, 160, { bay: "car" })], bays })).toEqual([100]);
    const stages = [
      { from: instant(0), bay: "van" },
      { from: instant(150), bay: "car" },
    ];
    expect(kept([touchOf(100), touchOf(200)], { loads: [{ id: "lamp", mount: "v", bay: stages }], bays })).toEqual([
      100, 200,
    ]);
    const broken = (from: number, to: number) =>
      kept([touchOf(100), touchOf(200)], { packs: [{ ...pack, broken: [{ from: instant(from), to: instant(to) }] }] });
    expect([broken(120, 130), broken(200, 300), broken(50, 100)]).toEqual([
      [100, 200],
      [100, 200],
      [100, 200],
    ]);
    expect([broken(201, 300), broken(50, 99)]).toEqual([[100], [100]]);
  });

  it("count with the time that hands take: a pack that goes in later charges less", () => {
    // Moves take 2 min before 100 and 200. The charger is on until 99: in the first touch's work a pack that leaves loses a minute,
    // in the second's none; what goes in at the first gets nothing any more.
    expect(kept([touchOf(100), touchOf(200)], { chargers: [benchOf(0, 98)] })).toEqual([100]);
    expect(kept([touchOf(100), touchOf(200)], { chargers: [benchOf(0, 99)] })).toEqual([200]);
    expect(kept([touchOf(100), touchOf(200)], { chargers: [benchOf(0, 101)] })).toEqual([100, 200]);
  });

  it("end with the last use, but for those that only cut the day", () => {
    expect(kept([touchOf(100), touchOf(450), touchOf(460, { reach: [] })])).toEqual([100, 460]);
    expect(kept([touchOf(430), touchOf(449)])).toEqual([430, 449]);
    expect(kept([touchOf(100)], { demands: [] })).toEqual([]);
  });

  it("need one shelf of those that are always in reach together, and those on which packs lie at first", () => {
    const shelves = (reaches: readonly (readonly string[])[], more: Partial<Model> = {}) =>
      withFewTouches(
        model(
          reaches.map((reach, n) => touchOf(100 + n, { reach })),
          { bays: ["car", "van"], ...more },
        ),
      ).bays;
    expect(shelves([["car", "van"]])).toEqual(["van"]);
    expect(shelves([["car", "van"], ["van"]])).toEqual(["van"]);
    expect(shelves([["car", "van"], ["car"]])).toEqual(["car", "van"]);
    expect(shelves([["car", "van"]], { packs: [pack, { ...pack, id: "two", at: "car" }] })).toEqual(["car", "van"]);
    expect(shelves([["car", "van"]], { packs: [] })).toEqual(["van"]);
  });
});
