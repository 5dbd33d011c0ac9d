/**
 * A call logged later than the vehicle was to leave, and what is logged as not done: one story in calls, hours and roads.
 * As planned: called 08:20 (15 min of loading), off 08:35, at the pier 09:05, parked 09:10, set up by 09:40, line check to
 * 09:50, in position, the hit 10:00. Between arrival and hit lie 5 + 30 + 10 + 10 = 55 min.
 */
import { describe, expect, it } from "vitest";
import { ran } from "../cli/fakeIo.ts";
import { clock, clocks } from "./clock.ts";
import { hoursOf } from "./hoursJson.ts";
import { judgedText } from "./judged.ts";

const plan = (actual: string, more = ""): string => `
daywright: 1
date: 2027-01-20
clock: America/Chicago
zone: America/Chicago
crew:
  wren: { role: camera, drives: wagon, slept: lodge, sleeps: lodge }
  ilse: { role: reporter, slept: lodge, sleeps: lodge }
history: { wren: { released: 2027-01-19T15:00-06:00 }, ilse: { released: 2027-01-19T15:00-06:00 } }
vehicles: { wagon: { range: 300 km, fuel: 30% } }
places: { lodge: { kind: lodging }, pier: { shelter: true } }
roads: [{ link: [lodge, pier], drive: 30 min, bad: 30 min, km: 30 }]
hits: { noon: { at: "10:00", for: 3 min, place: pier, clear: 10 min } }
tasks:
  lunch: { kind: meal, for: 45 min, place: pier, window: ["11:00", "12:00"], after: noon }
  top: { kind: fuel, for: 10 min, place: pier, after: lunch }
  work: { for: 4 h, place: pier, after: top }
runs: { wagon: { driver: wren, aboard: [wren, ilse], stops: [lodge, { place: pier, do: [noon, lunch, top, work] }, lodge] } }
${more}
actual: { ${actual} }
`;

const WAY = ["wagon.1.leave", "wagon.2.arrive", "noon.start"] as const;

describe("called later than their vehicle was to leave", () => {
  it.each([
    ["as planned", "wren: { call: 08:20 }", ["08:35", "09:05", "10:00"], null],
    // Loading was quicker; nothing else moves.
    ["a minute late", "wren: { call: 08:21 }", ["08:35", "09:05", "10:00"], null],
    ["as the wheels were to roll", "wren: { call: 08:35 }", ["08:35", "09:05", "10:00"], null],
    // 08:36 + 15 = 08:51, 16 min later than the 08:35 that the hit needs; without it they leave for lunch at 11:00.
    ["a minute later than that", "wren: { call: 08:36 }", ["10:25", "10:55", "-"], 16],
    ["the rider", "ilse: { call: 08:45 }", ["10:25", "10:55", "-"], 25],
    ["both, the later one counts", "wren: { call: 08:50 }, ilse: { call: 08:45 }", ["10:25", "10:55", "-"], 30],
    // A departure that was logged stands: 08:50 is 15 min late.
    ["with the departure", "wren: { call: 08:45 }, wagon.1: { left: 08:50 }", ["08:50", "09:20", "-"], 15],
    // Arrived 09:12: off 08:42 by the planned drive, yet not before the call; 7 min late.
    ["with the arrival", "wren: { call: 08:45 }, wagon.2: { arrived: 09:12 }", ["08:45", "09:12", "-"], 7],
    // The hit went out, so that what was before it was quicker.
    ["with the hit", "wren: { call: 08:45 }, noon: { at: 10:00 }", ["09:00", "09:30", "10:00"], null],
    // Seen at the lodge at 09:10: 35 min after 08:35.
    ["with the vehicle", "wren: { call: 08:45 }, wagon: { at: lodge, since: 09:10 }", ["10:25", "10:55", "-"], 35],
  ] as const)("%s", async (_, actual, way, short) => {
    const quoted = actual.replace(/\d\d:\d\d/g, (time) => `"${time}"`);
    const { day, found } = await judgedText(plan(quoted));
    expect(clocks(day, ...WAY)).toEqual(way);
    expect(found("hit-missed").map(({ shortMinutes }) => shortMinutes)).toEqual(short === null ? [] : [short]);
    // Whoever drives is on duty then.
    for (const { spans } of day.people)
      expect(spans.filter(({ is }) => is === "driving" || is === "riding")[0]?.from).toBe(
        day.instants.get("wagon.1.leave"),
      );
  });

  it("after a stand-down it is the second call", async () => {
    const text = plan('wren: { call: "16:45" }')
      .replace(
        /tasks:[\s\S]*work: .*\n/,
        'tasks: { free: { kind: standdown, place: lodge, window: ["12:00", "16:00"] } }\n',
      )
      .replace(
        "do: [noon, lunch, top, work] }, lodge]",
        "do: [noon] }, { place: lodge, do: [free] }, { place: pier, do: [six] }, lodge]",
      )
      .replace("hits: {", 'hits: { six: { at: "18:00", for: 3 min, place: pier },');
    const { day, found } = await judgedText(text);
    const wren = day.people.find(({ id }) => id === "wren");
    expect(wren?.duties.map(({ call, release }) => `${clock(day, call)}-${clock(day, release)}`)).toEqual([
      "08:20-12:00",
      // 16:45 + 15 = 17:00; the hit needs 16:35. There and back, 30 min each, and 10 of unloading.
      "16:45-18:10",
    ]);
    expect(found("hit-missed").map(({ shortMinutes }) => shortMinutes)).toEqual([25]);
  });
});

describe("what is logged as not done", () => {
  it("a meal is no meal, and its time counts as work", async () => {
    const meals = async (actual: string) => {
      const one = await hoursOf("day.yaml", { "day.yaml": plan(actual) });
      return one.said("meal-late").length;
    };
    // From 11:45 on 4 h 10 of fuel and work, 30 min home, 10 of unloading: under 6 h. From 08:20 on it is 8 h 15, for both.
    expect([await meals(""), await meals("lunch: { done: false }")]).toEqual([0, 2]);
  });

  it("fuel is not taken", async () => {
    // 30 % of 300 km are 90; 60 km there and back leave 30, less than the reserve of 15 %, which is 45.
    expect((await judgedText(plan(""))).found("fuel-short")).toHaveLength(0);
    expect((await judgedText(plan("top: { done: false }"))).found("fuel-short")).toHaveLength(1);
  });

  it("a stand-down released no one", async () => {
    const free = 'tasks: { free: { kind: standdown, place: pier, window: ["11:00", "15:00"] } }\n';
    const duties = async (actual: string) => {
      const text = plan(actual)
        .replace(/tasks:[\s\S]*work: .*\n/, free)
        .replace("noon, lunch, top, work", "noon, free");
      return (await judgedText(text)).day.people.map((person) => person.duties.length);
    };
    expect(await duties("")).toEqual([2, 2]);
    expect(await duties("free: { done: false }")).toEqual([1, 1]);
    // What has a logged end was done.
    expect(await duties('free: { done: false, end: "14:00" }')).toEqual([2, 2]);
  });
});

describe("someone logged as released", () => {
  const there = async (actual: string) => {
    const { day, said } = await judgedText(plan(actual));
    const noon = day.activities.find(({ id }) => id === "noon");
    return [noon?.who, said("hit-uncrewed")];
  };

  it("is at no hit that begins later, and is missed there", async () => {
    expect(await there("")).toEqual([["wren", "ilse"], []]);
    // At 10:00 itself she has left, and no one else appears.
    const without = [["wren"], ["noon: no one there has the role reporter"]];
    expect(await there('ilse: { released: "09:30" }')).toEqual(without);
    expect(await there('ilse: { released: "10:00" }')).toEqual(without);
    expect(await there('ilse: { released: "10:03" }')).toEqual([["wren", "ilse"], []]);
  });

  it("with everyone else: a hit with no one there is lost in every view, unless it is logged", async () => {
    const both = 'ilse: { released: "09:30" }, wren: { released: "09:40" }';
    const { day, said, found } = await judgedText(plan(both));
    expect(day.activities.flatMap(({ id, state }) => (state === "missed" ? [id] : [])).sort()).toEqual([
      ...["lunch", "noon", "top", "work"],
    ]);
    expect(clocks(day, "noon.start", "noon.lineCheck", "lunch.start")).toEqual(["-", "-", "-"]);
    expect(day.why("noon.start")).toBeNull();
    expect(said("all-released")).toEqual(
      ["noon", "lunch", "top", "work"].map(
        (what) => `no one is there for ${what}: wren, ilse are logged as released before it`,
      ),
    );
    expect(found("all-released").map(({ level }) => level)).toEqual(["error", "warning", "warning", "warning"]);
    expect(said("hit-uncrewed")).toEqual([]);
    const file = { files: { "x.yaml": plan(both) } };
    const view = async (...words: readonly string[]) => (await ran([...words, "x.yaml", "--json"], file)).out;
    const calls = JSON.parse(await view("calls"));
    expect(calls.data.activities.find(({ id }: { id: string }) => id === "noon")).toMatchObject({
      ...{ state: "missed", start: null, inPosition: null },
    });
    expect((await ran(["sheet", "x.yaml"], file)).out).toContain("noon: cannot be met");
    // It went out: what is logged is never counted as missed.
    const logged = await judgedText(plan(`${both}, noon: { at: "10:00" }`));
    expect(logged.day.activities.find(({ id }) => id === "noon")).toMatchObject({ who: [], state: "fixed" });
    expect(logged.found("all-released").map(({ facts }) => facts["what"])).toEqual(["lunch", "top", "work"]);
  });

  it("was on duty before and after a stand-down, as `asrun` counts it too", async () => {
    const free = 'tasks: { free: { kind: standdown, place: pier, window: ["10:20", "15:00"] } }\n';
    const went = async (actual: string) => {
      const text = plan(actual)
        .replace(/tasks:[\s\S]*work: .*\n/, free)
        .replace("noon, lunch, top, work", "noon, free, six")
        .replace("hits: {", 'hits: { six: { at: "18:00", for: 3 min, place: pier },');
      const { out } = await ran(["asrun", "x.yaml", "--json"], { files: { "x.yaml": text } });
      return JSON.parse(out).data.people.find(({ id }: { id: string }) => id === "wren").dutyMinutes;
    };
    // 08:20 to 20:00 is 11 h 40, less the window of 4 h 40 that the stand-down fills.
    expect(await went('wren: { call: "08:20", released: "20:00" }')).toBe(7 * 60);
    // Called at 15:10 after it: 4 h 50.
    expect(await went('wren: { call: "15:10", released: "20:00" }')).toBe(290);
  });

  it("is there again after a stand-down", async () => {
    const free = 'tasks: { free: { kind: standdown, place: pier, window: ["10:20", "15:00"] } }\n';
    const text = plan('ilse: { released: "10:20" }')
      .replace(/tasks:[\s\S]*work: .*\n/, free)
      .replace("noon, lunch, top, work", "noon, free, six")
      .replace("hits: {", 'hits: { six: { at: "18:00", for: 3 min, place: pier },');
    const { day } = await judgedText(text);
    expect(day.activities.find(({ id }) => id === "six")?.who).toEqual(["wren", "ilse"]);
  });
});

it("a meal logged before its hit leaves as much too little as it does then, whatever the order was to be", async () => {
  // Lunch 09:00-09:45; the line check of the hit at 10:00 begins at 09:40.
  const short = async (actual: string) =>
    (await judgedText(plan(actual))).found("hit-missed").map(({ shortMinutes }) => shortMinutes);
  expect(await short('lunch: { at: "09:00" }')).toEqual([5]);
  expect(await short('lunch: { at: "09:00", end: "09:41" }')).toEqual([1]);
  expect(await short('lunch: { at: "09:00", end: "09:40" }')).toEqual([]);
});
