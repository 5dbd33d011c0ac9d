import { describe, expect, it } from "vitest";
import { gapsOf } from "../../src/roads/gaps.ts";
import { byId, leg, place, road, run, stop } from "../day/parts.ts";
import { at, day, type Trip } from "./days.ts";

/** Hits at the pier end at 405 (cleared) and, in position, at 600: 195 minutes. */
const morning: Trip = {
  vehicle: "wagon",
  people: ["wren"],
  leave: at(300),
  way: [
    [leg("lodge", "pier", 30, 30), "bad", { work: 62, hit: "dawn" }],
    [leg("pier", "point", 30, 30), "bad", { work: 152, hit: "noon" }],
  ],
};
const places = byId(place("lodge"), place("pier"), place("point"), place("bluff"), place("far"), place("island"));
const roads = [
  road("pier", "bluff", { driveMinutes: 25, badMinutes: 40 }),
  road("bluff", "point", { driveMinutes: 20, badMinutes: 35 }),
  road("pier", "point", { driveMinutes: 30, badMinutes: 30 }),
  road("lodge", "pier", { driveMinutes: 30 }),
  road("pier", "far", { driveMinutes: 90, badMinutes: 100 }),
  road("far", "point", { driveMinutes: 80, badMinutes: 85 }),
];
const runs = byId(
  run("wagon", [], {
    stops: [
      stop("wagon.1", "lodge"),
      stop("wagon.2", "pier", { do: ["dawn"] }),
      stop("wagon.3", "point", { do: ["noon"] }),
    ],
  }),
);
const made = day([morning], { places, roads, runs });

describe("gaps between two visits", () => {
  // dawn ends, cleared, at 300 + 30 + 62 + 13 = 405; struck at 425. noon is in position at 405 + 30 + 152 = 587: back by
  // 587 − (park 5 + set-up 30 + line check 10) = 542.
  it("say how long one can stay at each place, and when to turn back", async () => {
    const gaps = await gapsOf(made);
    const told = new Map(gaps.map((gap) => [gap.place, gap]));
    expect(told.get("bluff")).toMatchObject({
      vehicle: "wagon",
      from: "dawn",
      to: "noon",
      outMinutes: 25,
      backMinutes: 35,
      turnBack: at(542 - 35),
      stayMinutes: 542 - 35 - 425 - 25,
      basis: "stated",
    });
    expect(told.get("far")).toMatchObject({ turnBack: at(542 - 85), stayMinutes: 542 - 85 - 425 - 90 }); // 58 short
    expect(told.get("island")).toMatchObject({ stayMinutes: null, turnBack: null, basis: null });
    expect(told.get("pier")).toMatchObject({ outMinutes: 0, backMinutes: 30 });
  });

  it("mark the farthest place that fits", async () => {
    expect((await gapsOf(made)).filter(({ farthest }) => farthest).map(({ place: id }) => id)).toEqual(["point"]);
  });

  it("drive back at the likely time into a hit that is not firm", async () => {
    const loose = made.activities.map((own) =>
      own.activity.kind === "hit" ? { ...own, activity: { ...own.activity, firm: false } } : own,
    );
    const bluff = (await gapsOf({ ...made, activities: loose })).find((gap) => gap.place === "bluff");
    expect(bluff).toMatchObject({ backMinutes: 20 });
  });
});

describe("gaps within a visit", () => {
  it("pay for striking and setting up again, and leave out staying put", async () => {
    const [dawn, noon] = made.activities;
    if (dawn === undefined || noon === undefined) throw new Error("two hits");
    const later = { ...noon, stops: dawn.stops, place: "pier" };
    const one = { ...made, activities: [dawn, later] };
    const bluff = (await gapsOf(one)).find((gap) => gap.place === "bluff");
    expect(bluff).toMatchObject({ turnBack: at(542 - 40), stayMinutes: 542 - 40 - 425 - 25 });
    expect((await gapsOf(one)).some((gap) => gap.place === "pier")).toBe(false);
  });

  it("that are too short for that are no gaps", async () => {
    const [dawn, noon] = made.activities;
    if (dawn === undefined || noon === undefined) throw new Error("two hits");
    const soon = (inPosition: number) => ({
      ...made,
      activities: [dawn, { ...noon, stops: dawn.stops, inPosition: at(inPosition), start: at(inPosition + 10) }],
    });
    expect(await gapsOf(soon(405 + 20 + 45))).toEqual([]);
    expect((await gapsOf(soon(405 + 20 + 46))).length).toBeGreaterThan(0);
  });
});
