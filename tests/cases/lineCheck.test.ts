/** The line check of a hit is the Day's: booked satellite time holds one where the Day has one, and nowhere else. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { judgedText } from "./judged.ts";

const text = readFileSync("fixtures/cases/facts/lc.yaml", "utf8");
const SECOND = 'two: { at: "10:00", for: 3 min, place: pier, path: dish }';

const short = async (plan: string) => (await judgedText(plan)).said("window-too-short");
const secondFrom = (from: string) => text.replace("09:45", from);

describe("booked satellite time", () => {
  it("holds no line check for a visit's second hit on the same path, to the minute", async () => {
    // By hand: two is at 10:00, and in position ten minutes before it; a line check would have begun at 09:40.
    expect(await short(text)).toEqual([]);
    expect(await short(secondFrom("09:50"))).toEqual([]);
    expect(await short(secondFrom("09:51"))).toEqual([
      "the window of dish opens 1 min too late for two: 09:51 Chicago to 10:15 Chicago",
    ]);
  });

  it("holds the line check of a visit's first hit", async () => {
    // By hand: one is at 06:00, in position at 05:50 and checked from 05:40 on.
    expect(await short(text.replace("05:30", "05:40"))).toEqual([]);
    expect(await short(text.replace("05:30", "05:41"))).toEqual([
      "the window of dish opens 1 min too late for one: 05:41 Chicago to 06:15 Chicago",
    ]);
  });

  it("holds as much of one before the first hit on another path as the hit before leaves", async () => {
    // By hand: on `cell` until 06:03; two at 06:20 is in position at 06:10, and seven minutes are left for its check.
    const other = (from: string) =>
      text
        .replace("path: dish }", "path: cell }")
        .replace(SECOND, SECOND.replace("10:00", "06:20"))
        .replace("paths:\n", "paths:\n  cell: { kind: cellular }\n")
        .replace('["05:30", "06:15"], ["09:45", "10:15"]', `["${from}", "06:30"]`);
    expect(await short(other("06:03"))).toEqual([]);
    expect(await short(other("06:04"))).toEqual([
      "the window of dish opens 1 min too late for two: 06:04 Chicago to 06:30 Chicago",
    ]);
  });
});
