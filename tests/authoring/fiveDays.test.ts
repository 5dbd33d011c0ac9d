/**
 * Five days lived through from `new` by commands alone, as a new user would. All times are by hand, from the defaults that
 * the house rules say: a first hit needs 10 min in position, 10 line check, 30 set-up, 5 parking behind the bad drive, loading 15
 * before the wheels (30 on a day of check-out); behind the last hit 10 clear, 20 strike, the likely drive, 10 unload; the truck's driver has 15 of
 * walk-around before and 10 of post-trip after.
 */
import { beforeAll, describe, expect, it } from "vitest";
import { ran } from "../cli/fakeIo.ts";

type Files = Readonly<Record<string, string>>;
interface Night {
  readonly day: string;
  /** Commands of the day itself, then of the night. */
  readonly commands: readonly (readonly string[])[];
  /** Call, release, minutes on duty and at the wheel. */
  readonly wren: readonly [string, string, number, number];
  readonly tomas: readonly [string, string, number, number];
}

const NEW = [
  ...["new", "--date", "2027-01-18", "--desk", "America/Chicago", "--bed", "lodge", "--released", "18:00 -1d"],
  ...["--vehicle", "truck 16000 lb us-property", "--vehicle", "wagon"],
  ...["--person", "tomas engineer drives truck", "--person", "bea producer in truck"],
  ...["--person", "wren camera drives wagon", "--person", "ilse reporter in wagon"],
  ...["--drive", "lodge pier 40 min 60 min", "--drive", "lodge dock 30 min 45 min"],
  ...["--hit", "dawn 07:00 pier 3 min"],
];

const on = (day: number): string => `2027-01-${day}.yaml`;
const log = (day: number, words: string): readonly string[] => ["log", on(day), ...words.split(" ")];

const WEEK: readonly Night[] = [
  {
    // 07:00 − 55 − 60 − 15 = 04:50; 07:03 + 30 + 40 + 10 = 08:23. Tomas was let go at 08:50.
    day: on(18),
    commands: [NEW, log(18, "tomas released 08:50"), log(18, "truck odometer 41200 km")],
    wren: ["04:50", "08:23", 213, 100],
    tomas: ["04:35", "08:50", 255, 100],
  },
  {
    // 08:00 − 55 − 45 − 15 = 06:05; 08:03 + 30 + 30 + 10 = 09:13, but wren went on until 09:30.
    day: on(19),
    commands: [["next", on(18), "--hit", "dawn 08:00 dock 3 min"], log(19, "wren released 09:30")],
    wren: ["06:05", "09:30", 205, 75],
    tomas: ["05:50", "09:23", 213, 75],
  },
  {
    // Check-out, so loading takes 30: 12:00 − 55 − 60 − 30 = 09:35; 12:33 + 30 + 50 to the inn + 10 = 14:03.
    day: on(20),
    commands: [
      [
        ...["next", on(19), "--hit", "noon 12:00 pier 3 min", "--hit", "noon2 12:30 pier 3 min"],
        ...["--drive", "pier inn 50 min 70 min", "--drive", "inn dock 25 min 35 min", "--bed", "inn"],
      ],
    ],
    wren: ["09:35", "14:03", 268, 110],
    tomas: ["09:20", "14:13", 293, 110],
  },
  {
    // From the inn: 07:30 − 55 − 35 − 15 = 05:45; 07:33 + 30 + 25 + 10 = 08:38.
    day: on(21),
    commands: [["next", on(20), "--hit", "dawn 07:30 dock 3 min"], log(21, "ilse asleep 7 h")],
    wren: ["05:45", "08:38", 173, 60],
    tomas: ["05:30", "08:48", 198, 60],
  },
  {
    // Check-out again: 09:00 − 55 − 70 − 30 = 06:25; 09:04 + 30 + 40 to the lodge + 10 = 10:24.
    day: on(22),
    commands: [
      ["next", on(21), "--hit", "last 09:00 pier 4 min", "--bed", "lodge"],
      log(22, "truck odometer 41655 km"),
      log(22, "truck engineHours 1204.5"),
    ],
    wren: ["06:25", "10:24", 239, 110],
    tomas: ["06:10", "10:34", 264, 110],
  },
];

let files: Files = {};

async function command(words: readonly string[]): Promise<void> {
  const done = await ran(words, { files });
  expect([words.join(" "), done.code, done.out]).toEqual([words.join(" "), 0, ""]);
  files = Object.fromEntries([...done.files].map(([path, text]) => [path.replace("/plans/", ""), text]));
}

const json = async (...words: readonly string[]) => JSON.parse((await ran([...words, "--json"], { files })).out);

/** What a person's day was, as `calls` and `hours` tell it. */
async function told(day: string, who: string): Promise<readonly [string, string, number, number]> {
  const [calls, hours] = [await json("calls", day), await json("hours", day)];
  const mine = (one: { readonly id: string }): boolean => one.id === who;
  const { call, release } = calls.data.people.find(mine);
  const { dutyMinutes, drivingMinutes } = hours.data.people.find(mine);
  return [call.slice(11, 16), release.slice(11, 16), dutyMinutes, drivingMinutes];
}

// Each day follows from what the one before it wrote.
describe("five days", { shuffle: false }, () => {
  beforeAll(() => {
    files = {};
  });

  it.each(WEEK)(
    "$day: commands alone, a clean check at night, hours by hand",
    async ({ day, commands, wren, tomas }) => {
      for (const words of commands) await command(words);
      const { ok, data } = await json("check", day);
      expect([ok, data.errors, data.warnings]).toEqual([true, 0, 0]);
      expect(await told(day, "wren")).toEqual(wren);
      expect(await told(day, "tomas")).toEqual(tomas);
    },
  );

  it("rests are from release to call, the logged ones where something was logged", async () => {
    const { data } = await json("hours", on(19));
    const rest = new Map(
      data.people.map((one: { id: string; restBeforeMinutes: number }) => [one.id, one.restBeforeMinutes]),
    );
    // 08:50 to 05:50 of the next day, 08:23 to 06:05.
    expect([rest.get("tomas"), rest.get("wren")]).toEqual([21 * 60, 21 * 60 + 42]);
    const third = await json("hours", on(20));
    // 09:30 to 09:35 of the next day.
    expect(third.data.people.find((one: { id: string }) => one.id === "wren").restBeforeMinutes).toBe(24 * 60 + 5);
  });

  it("the time card's totals are those of hours, to the minute", async () => {
    const { data } = await json("timecard", on(22));
    const [tomas, , wren] = data.people;
    expect([wren.id, wren.days.map((day: { workedMinutes: number }) => day.workedMinutes)]).toEqual([
      "wren",
      [213, 205, 268, 173, 239],
    ]);
    // 213 + 205 + 268 + 173 + 239 and 255 + 213 + 293 + 198 + 264; at the wheel 100 + 75 + 110 + 60 + 110.
    expect([wren.totals.workedMinutes, wren.totals.straightMinutes, wren.totals.drivingMinutes]).toEqual([
      1098, 1098, 455,
    ]);
    expect([tomas.totals.workedMinutes, tomas.totals.daysWorked, tomas.totals.mealsMissed]).toEqual([1223, 5, 0]);
    expect(data.vehicles).toEqual([
      { vehicle: "truck", date: "2027-01-18", odometerKm: 41200, drivenKm: null, engineHours: null, ranHours: null },
      { vehicle: "truck", date: "2027-01-22", odometerKm: 41655, drivenKm: 455, engineHours: 1204.5, ranHours: null },
    ]);
  });

  it("the time card as CSV has one record a person and day, then the vehicles", async () => {
    const { out } = await ran(["timecard", on(22), "--format", "csv", "--for", "wren"], { files });
    const [head = "", first = ""] = out.split("\r\n");
    expect(head.startsWith("who,date,workedMinutes,straightMinutes,overtimeMinutes,doubleMinutes")).toBe(true);
    expect(first.startsWith("wren,2027-01-18,213,213,0,0")).toBe(true);
    expect(out).toContain("\r\ntruck,2027-01-22,41655,455,1204.5,");
  });
});
