/**
 * What is logged later changes nothing before it. By hand: wagon and van leave the lodge for the hit at 10:00 at 08:35, 30 min
 * to the pier at 09:05, parked 09:10, set up 09:40, line check to 09:50, in position 10 min; called 15 min before wheels, 08:20.
 */
import { describe, expect, it } from "vitest";
import { clocks } from "./clock.ts";
import { judgedText } from "./judged.ts";

const plan = (actual: string, doing = "noon, work", more = ""): string => `
daywright: 1
date: 2027-01-20
clock: America/Chicago
zone: America/Chicago
crew:
  wren: { role: camera, drives: wagon, slept: lodge, sleeps: lodge }
  ilse: { role: reporter, drives: van, slept: lodge, sleeps: lodge }
vehicles: { wagon: {}, van: {} }
places: { lodge: { kind: lodging, mains: true }, pier: { shelter: true } }
roads: [{ link: [lodge, pier], drive: 30 min, bad: 30 min, km: 30 }]
hits: { noon: { at: "10:00", for: 3 min, place: pier, who: [wren, ilse] } }
tasks:
  work: { for: 1 h, place: pier, window: ["11:00", "14:00"], who: [wren, ilse] }
${more}
runs:
  wagon: { driver: wren, stops: [lodge, { place: pier, do: [${doing}] }, lodge] }
  van: { driver: ilse, stops: [lodge, { place: pier, do: [noon, work] }, lodge] }
actual: { ${actual} }
`;
const dayWith = async (...text: Parameters<typeof plan>) => (await judgedText(plan(...text))).day;

const VAN = ["ilse.call", "van.1.leave", "van.2.arrive", "van.2.parked", "van.2.setUp"] as const;

describe("a fact of one vehicle that loses a hit", () => {
  it.each([
    ["a late arrival", 'wagon.2: { arrived: "09:55" }', "09:40"],
    // At 09:06 the van had arrived, and parked; no one says that anything was set up.
    ["a departure late enough", 'wagon.1: { left: "09:06" }', "09:10"],
    ["a call as late", 'wren: { call: "09:06" }', "09:10"],
    ["a vehicle seen late", 'wagon: { at: lodge, since: "09:06" }', "09:10"],
  ] as const)("%s leaves the other as it was known", async (_, actual, setUp) => {
    const day = await dayWith(actual);
    expect(clocks(day, "noon.start", ...VAN)).toEqual(["-", "08:20", "08:35", "09:05", "09:10", setUp]);
  });
});

it("who is logged as leaving late was called as planned, and the chain says so", async () => {
  const day = await dayWith('wagon.1: { left: "08:45" }');
  expect(clocks(day, "wren.call", "wagon.1.loading", "wagon.1.leave")).toEqual(["08:20", "08:20", "08:45"]);
  expect(day.why("wren.call")?.fixedBy.by).toBe("planned before");
  const called = await dayWith('wren: { call: "08:25" }, wagon.1: { left: "08:45" }');
  expect(called.why("wren.call")?.fixedBy.by).toBe("log");
});

it("a hit that went out late was waited for in position", async () => {
  const day = await dayWith('noon: { at: "10:04" }');
  expect(clocks(day, "noon.lineCheck", "noon.inPosition", "noon.start")).toEqual(["09:40", "09:50", "10:04"]);
  // Earlier it takes what is before it along.
  const early = await dayWith('noon: { at: "09:58" }');
  expect(clocks(early, "noon.lineCheck", "noon.inPosition", "noon.start")).toEqual(["09:38", "09:48", "09:58"]);
});

it("a task whose end costs a hit stays where it was logged", async () => {
  // The line check at 09:40 less 50 min is 08:50, ready by then, at the pier 08:15.
  const feed = "feed: { for: 50 min, place: pier, who: [wren] }";
  const day = await dayWith('feed: { end: "10:30" }', "feed, noon, work", `  ${feed}`);
  const seen = ["wagon.1.leave", "wagon.2.arrive", "feed.start", "feed.end", "noon.start"];
  expect(clocks(day, ...seen)).toEqual(["07:45", "08:15", "08:50", "10:30", "-"]);
});

it("a stated departure that a late call and an arrival override is said", async () => {
  const text = plan('wren: { call: "08:45" }, wagon.2: { arrived: "09:12" }').replace(
    "wren, stops: [lodge",
    'wren, stops: [{ place: lodge, leave: "08:30" }',
  );
  // Off at 08:45, since the drive of 30 min cannot have begun later than 08:42 and no one was there before.
  const { day, found } = await judgedText(text);
  expect(clocks(day, "wagon.1.leave", "wagon.2.arrive")).toEqual(["08:45", "09:12"]);
  expect(found("stop-time-missed").map(({ shortMinutes }) => shortMinutes)).toEqual([15]);
});
