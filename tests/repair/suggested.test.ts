/** The edits that suggestions stand for, on a day of two vehicles: written by hand for each kind of finding. */
import { describe, expect, it } from "vitest";
import type { Facts, Finding } from "../../src/findings/finding.ts";
import { suggestedEdits } from "../../src/repair/suggested.ts";
import { finding } from "./finding.ts";
import { type Change, clock, editsOf, posedWith } from "./twoRuns.ts";

/** Each way to follow the suggestion of a finding; null if it names no edit. */
async function ways(code: string, facts: Facts, more: Partial<Finding> = {}, ...changes: readonly Change[]) {
  const { now, text } = await posedWith([], ...changes);
  return suggestedEdits(now, text, finding({ code, facts, ...more }))?.map((edits) => editsOf({ edits })) ?? null;
}

const at = (text: string) => ({ at: clock(text) });

describe("a suggestion", () => {
  it("is the edits that a finding names, or none", async () => {
    expect(await ways("light-unknown", { edits: ["tasks.a.for=5 min", "hits.dawn.at="] })).toEqual([
      "tasks.a.for=5 min; hits.dawn.at=",
    ]);
    expect(await ways("light-unknown", { edits: ["no edit", "hits.dawn.at=06:00"] })).toEqual(["hits.dawn.at=06:00"]);
    for (const edits of [[], "tasks.a.for=5 min"]) expect(await ways("light-unknown", { edits })).toBe(null);
    expect(await ways("light-unknown", {})).toBe(null);
  });

  it("of a meal is one at the earliest and one at the latest moment", async () => {
    const wren = { who: "wren" };
    const meals = await ways("meal-late", { wait: at("07:43"), waitTo: at("08:10") }, wren);
    expect(meals?.map((one) => /window: (.*?) \}/u.exec(one)?.[1])).toEqual([
      '["07:43", "08:13"]',
      '["08:10", "08:40"]',
    ]);
    expect((await ways("meal-late", { wait: at("07:43"), waitTo: at("07:43") }, wren))?.length).toBe(1);
    expect((await ways("meal-late", { waitTo: at("07:43") }, wren))?.length).toBe(1);
    // Two meals are one way, with a task each.
    const two = await ways("meal-late", { wait: null, meal: at("07:43"), nextMeal: at("08:10") }, wren);
    expect(two?.map((one) => one.match(/tasks\.\w+/gu))).toEqual([["tasks.meal", "tasks.meal2"]]);
    expect(await ways("meal-late", { wait: at("06:00") }, wren)).toEqual([""]);
    expect(await ways("meal-late", { wait: null }, wren)).toBe(null);
  });
});

describe("a suggested order", () => {
  it("is that by time, at each stop at which it may be done, with what is done there", async () => {
    expect(await ways("task-missed", { what: "pictures", byTime: ["pictures", "lunch", "dawn", "again"] })).toEqual([
      "runs.wagon.stops[1].do=[pictures, dawn, again]",
    ]);
    // The car stops at the dock and does not say for what.
    expect(await ways("hit-missed", { what: "noon", byTime: ["noon", "lunch"] })).toEqual([
      "runs.wagon.stops[2].do=[noon, lunch]; runs.car.stops[1]={ place: dock, do: [noon, lunch] }",
    ]);
    expect(await ways("hit-missed", { what: "nothing", byTime: ["noon"] })).toEqual([""]);
    for (const byTime of [[], "noon"]) expect(await ways("hit-missed", { what: "noon", byTime })).toBe(null);
  });

  it("is that of the stop, else one task after the other", async () => {
    const order = ["again", "pictures", "dawn"];
    expect(await ways("order-unstated", { missed: null, stop: "wagon.2", order })).toEqual([
      "runs.wagon.stops[1].do=[again, pictures, dawn]",
    ]);
    expect(await ways("order-unstated", { missed: null, stop: null, tasks: ["pictures", "lunch"] })).toEqual([
      "tasks.lunch.after=[pictures]",
    ]);
    expect(await ways("order-unstated", { missed: null, tasks: ["pictures", "noon"] })).toEqual([
      "hits.noon.after=[pictures]",
    ]);
    const after: Change = ["lunch: { kind: meal,", "lunch: { kind: meal, after: dawn,"];
    expect(await ways("order-unstated", { missed: null, tasks: ["pictures", "lunch"] }, {}, after)).toEqual([
      "tasks.lunch.after=[dawn, pictures]",
    ]);
    expect(await ways("order-unstated", { missed: null, tasks: ["pictures", "nothing"] })).toEqual([]);
    expect(await ways("order-unstated", { missed: null, tasks: [] })).toEqual([]);
    expect(await ways("order-unstated", { missed: "pictures", stop: "wagon.2", order })).toBe(null);
  });
});

describe("a suggestion for the signal", () => {
  it("sets up before the first of the hits", async () => {
    const facts = { hits: ["dawn", "again"], who: ["wren", "ilse"], place: "pier", setUp: 25 };
    expect(await ways("set-up-unplanned", facts)).toEqual([
      "tasks.setup={ place: pier, for: 25 min, who: [wren, ilse], before: dawn }",
    ]);
    const taken: Change = ["  pictures:", "  setup: { place: pier, for: 5 min, who: [wren] }\n  pictures:"];
    const there: Change = ["do: [dawn, pictures, again]", "do: [setup, dawn, pictures, again]"];
    expect((await ways("set-up-unplanned", facts, {}, taken, there))?.[0]).toMatch(/^tasks\.setup2=/u);
  });

  const booked: Change = [
    "sat: { kind: cellular }",
    'sat: { kind: satellite, windows: [["06:00", "07:30"], ["11:30", "12:30"]] }',
  ];
  const windows = async (from: string, to: string, opens: string | null, closes: string | null) => {
    const open = opens === null ? null : at(opens);
    const close = closes === null ? null : at(closes);
    const facts = { path: "sat", from: at(from), to: at(to), opens: open, closes: close };
    return (await ways("window-too-short", facts, {}, booked))?.map((one) => one.replace("paths.sat.windows=", ""));
  };

  it("books one window more in its place by time, or the nearest one longer", async () => {
    expect(await windows("08:55", "09:03", null, null)).toEqual([
      '[["06:00", "07:30"], ["08:55", "09:03"], ["11:30", "12:30"]]',
    ]);
    // Begins before, ends after, both; what is within stays.
    expect(await windows("11:20", "12:10", "11:30", "12:30")).toEqual(['[["06:00", "07:30"], ["11:20", "12:30"]]']);
    expect(await windows("11:40", "12:40", "11:30", "12:30")).toEqual(['[["06:00", "07:30"], ["11:30", "12:40"]]']);
    expect(await windows("05:50", "07:40", "06:00", "07:30")).toEqual(['[["05:50", "07:40"], ["11:30", "12:30"]]']);
    expect(await windows("11:40", "12:10", "11:30", "12:30")).toEqual(['[["06:00", "07:30"], ["11:30", "12:30"]]']);
    const facts = { from: at("11:40"), to: at("12:10") };
    expect(await ways("window-missing", { ...facts, path: "nothing" }, {}, booked)).toEqual([]);
    expect(await ways("window-missing", { from: at("11:40"), path: "sat" }, {}, booked)).toEqual([]);
    expect(await ways("window-missing", { to: at("11:40"), path: "sat" }, {}, booked)).toEqual([]);
  });

  it("lays a reel more, or gives a feed as long as it needs", async () => {
    const reels: Change = ["sat: { kind: cellular }", "sat: { kind: cable, reels: [50 m] }"];
    expect(await ways("cable-too-short", { path: "sat", needs: 120, has: 50 }, {}, reels)).toEqual([
      "paths.sat.reels=[50 m, 70 m]",
    ]);
    expect(await ways("cable-too-short", { path: "nothing", needs: 120, has: 50 })).toEqual([]);
    expect(await ways("feed-too-slow", { feed: "pictures", needs: 55 })).toEqual(["tasks.pictures.for=55 min"]);
    expect(await ways("feed-too-slow", { feed: "nothing", needs: 55 })).toEqual([]);
  });
});

describe("a suggestion for kit and power", () => {
  it("puts a piece into the vehicle that will be there, while it stands where that can be done", async () => {
    const missing = (place: string, time: string | null, into = "wagon") =>
      ways("kit-missing", { item: "tripod", into, lastPlace: place, lastMove: time === null ? null : at(time) });
    // The wagon is at the lodge until 05:30 and at the pier from 06:05 to 09:33.
    expect(await missing("lodge", "05:30")).toEqual([`runs.wagon.stops[0].moves={ tripod: wagon }`]);
    expect(await missing("lodge", "05:31")).toEqual([]);
    expect(await missing("pier", "06:04")).toEqual([]);
    expect(await missing("pier", "06:05")).toEqual([`runs.wagon.stops[1].moves={ tripod: wagon }`]);
    expect(await missing("pier", "09:33")).toEqual([`runs.wagon.stops[1].moves={ tripod: wagon }`]);
    expect(await missing("lodge", "13:30")).toEqual([`runs.wagon.stops[3]={ place: lodge, moves: { tripod: wagon } }`]);
    expect(await missing("dock", "09:30", "car")).toEqual([
      `runs.car.stops[1]={ place: dock, moves: { tripod: car } }`,
    ]);
    expect(await missing("lodge", null)).toBe(null);
    expect(await missing("lodge", "05:30", "")).toBe(null);
    const moved: Change = [
      '{ place: lodge, leave: "05:30" }',
      '{ place: lodge, leave: "05:30", moves: { camera: wagon } }',
    ];
    const inCar: Change = ["camera: { in: wagon", "camera: { in: car"];
    const facts = { item: "tripod", into: "wagon", lastPlace: "lodge", lastMove: at("05:00") };
    expect(await ways("kit-missing", facts, {}, moved, inCar)).toEqual([
      "runs.wagon.stops[0].moves={ camera: wagon, tripod: wagon }",
    ]);
  });

  it("puts a piece where the rest of it is", async () => {
    expect(await ways("kit-missing", { item: "tripod", split: "car" })).toEqual(["kit.tripod.in=car"]);
    expect(await ways("kit-missing", { item: "desk", split: "car" })).toEqual(["chargers.desk.in=car"]);
    expect(await ways("kit-missing", { item: "nothing", split: "car" })).toBe(null);
  });

  it("counts as many as are needed, and names the mount that is near", async () => {
    expect(await ways("kit-too-few", { item: "tripod", needed: 3 })).toEqual(["kit.tripod.count=3"]);
    expect(await ways("kit-too-few", { item: "brick.1", needed: 3 })).toEqual([]);
    expect(await ways("load-fits-no-pack", { load: "camera", near: "wedge" })).toEqual(["kit.camera.mount=wedge"]);
    expect(await ways("charger-fits-no-pack", { charger: "desk", near: "wedge" })).toEqual([
      "chargers.desk.mount=wedge",
    ]);
    expect(await ways("load-fits-no-pack", { load: "camera", near: null })).toBe(null);
  });
});

describe("a suggested fill-up", () => {
  const fill = (place: string) => `tasks.fuel-${place}={ kind: fuel, place: ${place}, for: 15 min, who: [wren] }`;
  const at0 = `${fill("lodge")}; runs.wagon.stops[0].do=[fuel-lodge]`;
  const at1 = `${fill("pier")}; runs.wagon.stops[1].do=[dawn, pictures, again, fuel-pier]`;
  const at2 = `${fill("dock")}; runs.wagon.stops[2].do=[lunch, noon, fuel-dock]`;

  it("is at the place that is named, or at every stop from there to the last but one", async () => {
    const wagon = { vehicle: "wagon", everyKm: null };
    expect(await ways("fuel-short", { ...wagon, place: "pier" })).toEqual([at1]);
    expect(await ways("fuel-short", { ...wagon, place: "lodge" })).toEqual([at0]);
    expect(await ways("fuel-short", { ...wagon, place: "pier", everyKm: 40 })).toEqual([`${at1}; ${at2}`]);
    expect(await ways("fuel-short", { ...wagon, place: "quay" })).toEqual([]);
    expect(await ways("fuel-short", { vehicle: "boat", place: "pier", everyKm: null })).toEqual([]);
  });

  it("is before the last leg, if the tank is to be full at the end", async () => {
    expect(await ways("fuel-due-short", { vehicle: "wagon" })).toEqual([at2]);
    expect(await ways("fuel-due-short", { vehicle: "boat" })).toEqual([]);
  });

  it("has an id of its own at each of several stops at one place", async () => {
    const twice: Change = ["lodge] }\n  car:", "pier, lodge] }\n  car:"];
    const found = await ways("fuel-short", { vehicle: "wagon", place: "pier", everyKm: 40 }, {}, twice);
    expect(found?.[0]?.match(/tasks\.[\w-]+/gu)).toEqual(["tasks.fuel-pier", "tasks.fuel-dock", "tasks.fuel-pier2"]);
  });
});

describe("a suggested departure", () => {
  // Whoever waits at the dock from 10:58 came with the wagon, which left the pier at 09:33 and was there at 09:43.
  it("is later by what is said, of the last leg that brought those who wait", async () => {
    const wait = { from: at("10:58"), place: "dock" };
    expect(await ways("wait-outside", { ...wait, later: 20 })).toEqual(['runs.wagon.stops[1].leave="09:53"']);
    expect(await ways("wait-outside", { from: at("11:39"), place: "dock", later: 1 })).toEqual([
      'runs.wagon.stops[1].leave="09:34"',
    ]);
    // The wagon has been there before: that leg stays.
    const twice: Change = ['{ place: lodge, leave: "05:30" },', '{ place: lodge, leave: "05:00" }, dock,'];
    expect(await ways("wait-outside", { ...wait, later: 20 }, {}, twice)).toEqual([
      'runs.wagon.stops[2].leave="09:53"',
    ]);
    // No wait there at that moment.
    for (const from of ["10:57", "11:40"])
      expect(await ways("wait-outside", { from: at(from), place: "dock", later: 20 })).toEqual([""]);
    expect(await ways("wait-outside", { from: at("10:58"), place: "pier", later: 20 })).toEqual([""]);
    expect(await ways("wait-outside", { ...wait, later: 0 })).toBe(null);
    expect(await ways("wait-outside", { place: "dock", later: 20 })).toBe(null);
  });
});
