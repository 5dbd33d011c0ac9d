/** Stated sleep and work at once: one of the two is wrong, and the sleep is not counted. */
import { describe, expect, it } from "vitest";
import { nightOf, wakingOf } from "../../src/hours/fitness/sleep.ts";
import { clock } from "../cases/clock.ts";
import { dayOfFile } from "./read.ts";

/** Called in the morning for a hit at noon, which is 45 minutes away and asks for ten in position. */
const day = (inBed: string) =>
  dayOfFile(
    "day.yaml",
    `daywright: 1
date: 2027-01-20
until: +1d
clock: America/Chicago
zone: America/Chicago
places: { lodge: { kind: lodging }, pier: {} }
roads: [{ link: [lodge, pier], drive: 30 min, bad: 45 min }]
crew: { wren: { drives: wagon, slept: lodge, sleeps: lodge, inBed: [${inBed}] } }
history: { wren: { released: 2027-01-19T18:00-06:00 } }
vehicles: { wagon: {} }
rules: { setUp: 0 min, lineCheck: 0 min, park: 0 min }
hits: { noon: { at: "12:00", for: 3 min, place: pier } }
runs: { wagon: { driver: wren, stops: [lodge, { place: pier, do: [noon] }, lodge] } }
`,
  );

describe("somebody stated in bed", () => {
  it("who works then has a warning at the first work in it", async () => {
    const one = await day('["23:00 -1d", "07:00"], ["11:30", "14:30"]');
    const said = one.findings.filter(({ code }) => code === "in-bed-at-work");
    expect(said.map(({ who, path, at }) => [who, path, at === null ? null : clock(one, at)])).toEqual([
      ["wren", ["crew", "wren", "inBed"], "11:30"],
    ]);
  });

  it("to the minute of the call, or after the release, has none", async () => {
    const plain = await day("");
    const called = clock(plain, plain.instants.get("wren.call") ?? plain.span.from);
    for (const [inBed, expected] of [
      [`["02:00", "${called}"]`, 0],
      ['["16:00", "20:00"]', 0],
      ['["02:00", "11:30"]', 1],
    ] as const) {
      const { findings } = await day(inBed);
      expect(findings.filter(({ code }) => code === "in-bed-at-work")).toHaveLength(expected);
    }
  });

  it("slept to the first work in it", async () => {
    const one = await day('["02:00", "11:30"]');
    const [wren] = one.people;
    if (wren?.call == null) expect.fail("nobody is called");
    const { up, sleepMinutes } = nightOf(one, wren);
    expect([up, sleepMinutes]).toEqual([wren.call, sleepMinutesFrom(clock(one, wren.call))]);
    // A rest of three hours stated in the middle of the work adds nothing to the eight of the night.
    const other = await day('["23:00 -1d", "07:00"], ["11:30", "14:30"]');
    const [again] = other.people;
    if (again?.release == null) expect.fail("nobody is released");
    expect(wakingOf(other, again).sleepIn24(again.release)).toBe(480);
  });
});

/** Minutes from 02:00 to a time of the clock. */
function sleepMinutesFrom(time: string): number {
  const [hours = 0, minutes = 0] = time.split(":").map(Number);
  return (hours - 2) * 60 + minutes;
}
