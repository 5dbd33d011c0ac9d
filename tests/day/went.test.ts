/** What really happened, and the middle of a day: instants as they went are fixed first; with a now nothing else lies before it. */
import { describe, expect, it } from "vitest";
import { carryOver } from "../../src/day/chain.ts";
import { computeDay, type Day, NOTHING_BEFORE } from "../../src/day/index.ts";
import { at, type Description, legsOf, makePlan, text, times } from "./make.ts";
import { actual, type Went } from "./parts.ts";

const BASE: Description = {
  crew: { wren: { drives: ["wagon"] }, ilse: {} },
  roads: { "home pier": [30, 40], "pier cove": [20, 25], "home cove": [45, 60] },
  hits: { dawn: { at: at("08:00"), forMinutes: 5, in: "pier" }, noon: { at: at("12:00"), forMinutes: 5, in: "cove" } },
  runs: { wagon: { stops: ["home", "pier", "cove", "home"] } },
};

function went(entries: Went, now: string | null = null, description = BASE): Day {
  const plan = makePlan(description);
  const { day, findings } = computeDay({ ...plan, actual: actual(entries) }, legsOf(plan), NOTHING_BEFORE, {
    now: now === null ? null : at(now),
    unedited: null,
  });
  if (day === null) throw new Error(findings.map((finding) => finding.code).join());
  return day;
}

/** What contradicts what, to the minute. */
function contradictions(entries: Went): readonly (readonly unknown[])[] {
  const plan = makePlan(BASE);
  const { findings } = computeDay({ ...plan, actual: actual(entries) }, legsOf(plan));
  return findings.map((one) => [one.code, one.facts["what"], one.facts["first"]]);
}

const nothing = { at: null, end: null, done: false };

describe("as it went", () => {
  it("moves what follows and leaves the lengths between two stated instants open", () => {
    // 40 minutes planned, 55 taken; parked, set up and checked in less than planned before the hit
    const day = went({
      stops: new Map([
        ["wagon.1", { arrived: null, left: at("06:40") }],
        ["wagon.2", { arrived: at("07:35"), left: null }],
      ]),
      activities: new Map([["dawn", { ...nothing, at: at("08:00") }]]),
    });
    expect(times(day, "wagon.1.leave", "wagon.2.arrive", "dawn.start", "wagon.2.leave")).toEqual([
      "06:40",
      "07:35",
      "08:00",
      "08:35",
    ]);
    expect(day.findings).toEqual([]);
    const wren = day.people.find((one) => one.id === "wren");
    // Called at 06:10 for 06:25 as planned, they left at 06:40.
    expect(wren?.terms.filter((term) => term.name === "as it went").map((term) => term.minutes)).toEqual([30, 25]);
    expect(wren?.terms.find((term) => term.name === "drive")?.minutes).toBe(55);
  });

  it("a hit that slipped and took longer pushes the rest", () => {
    const day = went({ activities: new Map([["dawn", { at: at("08:20"), end: at("08:31"), done: true }]]) });
    expect(times(day, "dawn.start", "dawn.end", "wagon.2.leave")).toEqual(["08:20", "08:31", "09:01"]);
  });

  it("an arrival too late for a hit makes it missed by the minutes it is short", () => {
    const day = went({ stops: new Map([["wagon.2", { arrived: at("07:20"), left: null }]]) });
    // 07:20 + 5 + 30 + 10 + 10 = 08:15
    expect(day.findings.map((one) => [one.code, one.shortMinutes])).toEqual([["hit-missed", 15]]);
  });

  it("a stated call and release replace the planned ones", () => {
    const day = went({
      people: new Map([["wren", { call: at("06:00"), released: at("14:00"), asleepMinutes: null }]]),
    });
    const wren = day.people.find((one) => one.id === "wren");
    expect([text(wren?.call ?? null), text(wren?.release ?? null)]).toEqual(["06:00", "14:00"]);
    expect(wren?.terms.reduce((sum, term) => sum + term.minutes, 0)).toBe(480);
    expect(wren?.terms[0]).toMatchObject({ name: "as it went", minutes: 10 });
  });
});

describe("what contradicts itself", () => {
  const stops = (...all: readonly (readonly [string, string | null, string | null])[]): Went => ({
    stops: new Map(
      all.map(([id, arrived, left]) => [
        id,
        { arrived: arrived === null ? null : at(arrived), left: left === null ? null : at(left) },
      ]),
    ),
  });
  const wren = (call: string | null, released: string | null): Went => ({
    people: new Map([
      [
        "wren",
        {
          call: call === null ? null : at(call),
          released: released === null ? null : at(released),
          asleepMinutes: null,
        },
      ],
    ]),
  });
  const dawn = (began: string | null, end: string | null): Went => ({
    activities: new Map([
      ["dawn", { at: began === null ? null : at(began), end: end === null ? null : at(end), done: true }],
    ]),
  });

  it.each([
    ["left before it arrived", stops(["wagon.2", "07:36", "07:35"]), "`wagon.2 left`", "`wagon.2 arrived`"],
    [
      "there before it left the stop before",
      stops(["wagon.1", null, "06:41"], ["wagon.2", "06:40", null]),
      "`wagon.2 arrived`",
      "`wagon.1 left`",
    ],
    ["a hit that ends before it begins", dawn("08:05", "08:04"), "`dawn ended`", "`dawn began`"],
    ["or before it was planned to begin", dawn(null, "07:59"), "`dawn ended`", "`dawn`, as planned,"],
    [
      "a hit before its vehicle is there",
      { ...dawn("07:34", null), ...stops(["wagon.2", "07:35", null]) },
      "`dawn began`",
      "`wagon.2 arrived`",
    ],
    [
      "and after it left",
      { ...dawn("08:20", "08:31"), ...stops(["wagon.2", null, "08:30"]) },
      "`wagon.2 left`",
      "`dawn ended`",
    ],
    ["released when called", wren("06:00", "06:00"), "`wren released`", "`wren call`"],
    // 08:00 less 10 + 10 + 30 + 5 and 40 for the drive, and 15 to load
    ["or, with no call logged, when planned to be", wren(null, "06:10"), "`wren released`", "`wren call`, as planned,"],
    [
      "released on the road",
      { ...wren(null, "14:00"), ...stops(["wagon.4", "14:01", null]) },
      "`wren released`",
      "`wagon.4 arrived`",
    ],
    [
      "called after the wheels rolled",
      { ...wren("06:41", null), ...stops(["wagon.1", null, "06:40"]) },
      "`wagon.1 left`",
      "`wren call`",
    ],
  ])("%s", (_, actual, what, first) => {
    expect(contradictions(actual)).toEqual([["went-backwards", what, first]]);
  });

  it.each([
    [stops(["wagon.2", "07:35", "07:35"])],
    [stops(["wagon.1", null, "06:40"], ["wagon.2", "06:40", null])],
    [dawn("08:05", "08:05")],
    [dawn(null, "08:00")],
    [{ ...dawn("07:35", null), ...stops(["wagon.2", "07:35", null]) }],
    [{ ...dawn("08:20", "08:30"), ...stops(["wagon.2", null, "08:30"]) }],
    [wren("06:00", "06:01")],
    [wren(null, "06:11")],
    [{ ...wren(null, "14:01"), ...stops(["wagon.4", "14:01", null]) }],
    [{ ...wren("06:40", null), ...stops(["wagon.1", null, "06:40"]) }],
    // Sent home before a hit that the others made.
    [{ ...wren(null, "07:50"), ...dawn("08:00", "08:05") }],
  ])("and a minute better does not: %#", (actual) => {
    expect(contradictions(actual).filter(([code]) => code === "went-backwards")).toEqual([]);
  });
});

describe("with a now", () => {
  it("what is past stands as planned, what is left is not before now", () => {
    // planned: the pier is struck and left 08:35; noon is set up from 09:00 on
    const day = went({}, "08:20");
    expect(times(day, "wagon.1.leave", "wagon.2.leave", "noon.lineCheck")).toEqual(["06:25", "08:35", "11:40"]);
  });

  it("a leg under way keeps its planned length", () => {
    const day = went({ stops: new Map([["wagon.2", { arrived: null, left: at("08:50") }]]) }, "09:00");
    expect(times(day, "wagon.2.leave", "wagon.3.arrive")).toEqual(["08:50", "09:15"]);
  });

  describe("a vehicle that stood somewhere at a moment", () => {
    const stood = (place: string, since: string | null) =>
      new Map([
        ["wagon", { place, since: since === null ? null : at(since), odometerKm: null, fuel: null, engineHours: null }],
      ]);

    it("had not left before it, with a now and without, and a hit it can no longer make says by how much", () => {
      // Planned: at the pier 07:05 to 08:35. A later moment of now moves nothing.
      for (const now of [null, "10:00", "11:00", "15:00"]) {
        const day = went({ vehicles: stood("pier", "10:00") }, now);
        expect([now, ...times(day, "wagon.2.arrive", "wagon.2.leave")]).toEqual([now, "07:05", "10:00"]);
      }
      // 25 + 5 + 30 + 10 + 10 = 80 minutes before 12:00 is 10:40
      const late = went({ vehicles: stood("pier", "10:47") });
      expect(late.findings.map((one) => [one.code, one.facts["what"], one.shortMinutes])).toEqual([
        ["hit-missed", "noon", 7],
      ]);
    });

    it("was there by then", () => {
      // Nobody logged the departure: it was as planned, 06:25, and the drive took 30 minutes.
      const day = went({ vehicles: stood("pier", "06:55") });
      expect(times(day, "wagon.1.leave", "wagon.2.arrive", "wagon.2.leave")).toEqual(["06:25", "06:55", "08:35"]);
    });

    it("as planned changes nothing", () => {
      for (const [place, since] of [
        ["home", "06:00"],
        ["pier", "07:05"],
        ["pier", "08:00"],
        ["cove", "09:30"],
      ] as const)
        expect(
          times(went({ vehicles: stood(place, since) }), "wagon.1.leave", "wagon.2.arrive", "wagon.4.arrive"),
        ).toEqual(times(went({}), "wagon.1.leave", "wagon.2.arrive", "wagon.4.arrive"));
    });

    it("is there the day after only if it did not go on by the plan", () => {
      const next = (place: string, since: string | null) => {
        const day = went({ vehicles: stood(place, since) });
        return [carryOver(day, NOTHING_BEFORE).vehicles.get("wagon"), day.findings.map(({ code }) => code)];
      };
      expect(next("pier", "08:00")).toEqual(["home", []]);
      expect(next("home", "14:00")).toEqual(["home", []]);
      // Where it stood after the day, and where its run does not go, are said.
      expect(next("pier", null)).toEqual(["pier", ["logged-otherwise"]]);
      expect(next("inn", "18:00")).toEqual(["inn", ["logged-otherwise"]]);
      expect(next("inn", "10:00")).toEqual(["home", ["logged-otherwise"]]);
    });
  });
});

describe("a departure and a hit as they went", () => {
  it("leave the drive between them as long as planned, and stretch a wait", () => {
    const day = went({
      stops: new Map([["wagon.1", { arrived: null, left: at("05:20") }]]),
      activities: new Map([["dawn", { ...nothing, at: at("08:04") }]]),
    });
    // 40 minutes at bad into a firm hit
    expect(times(day, "wagon.1.leave", "wagon.2.arrive", "dawn.start")).toEqual(["05:20", "06:00", "08:04"]);
  });

  it("so late that the next stop's hit was on air by then lose that hit, and keep the way", () => {
    const day = went({ activities: new Map([["dawn", { ...nothing, at: at("12:30") }]]) });
    // 12:30 and 5 on air, 10 to clear, 20 to strike, 25 on the road, 5 to park, 30 to set up, 10 of line check, 10 in position.
    const noon = { code: "hit-missed", shortMinutes: 145 };
    expect(day.findings.filter(({ level }) => level === "error")).toMatchObject([noon]);
    expect(day.activities.map(({ id, state }) => [id, state])).toEqual([
      ["noon", "missed"],
      ["dawn", "fixed"],
    ]);
    expect(times(day, "dawn.start", "wagon.2.leave")).toEqual(["12:30", "13:05"]);
  });

  it("and shorten it only where there was less time", () => {
    const day = went({
      stops: new Map([["wagon.1", { arrived: null, left: at("07:40") }]]),
      activities: new Map([["dawn", { ...nothing, at: at("08:10") }]]),
    });
    expect(times(day, "dawn.start")).toEqual(["08:10"]);
    expect(day.findings).toEqual([]);
  });
});
