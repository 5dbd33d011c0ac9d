/** Rests that getting on and off a ferry interrupts, Reg 561/2006 Art 9(1), at the minute and at the edges of a crossing; by hand. */
import { describe, expect, it } from "vitest";
import { joinedRests } from "../../src/hours/count/joinedRests.ts";
import type { RestRun } from "../../src/hours/count/reading.ts";
import { judgeRecord } from "../../src/hours/judge/judge.ts";
import { instant } from "../../src/time/units.ts";
import { breachesOf, DAYS, rulesOf, spansFrom, utc } from "./records.ts";

const rules = rulesOf("eu");

describe("rests of which 11 h make a daily rest", () => {
  const run = (from: number, to: number): RestRun => ({
    ...{ from: instant(from), to: instant(to), night: false },
    berth: { from: instant(from), to: instant(from) },
  });
  const joined = (crossing: readonly [number, number], ...rests: readonly RestRun[]) => {
    const [from, to] = [instant(crossing[0]), instant(crossing[1])];
    return joinedRests({ rests, crossings: [{ from, to }], stretches: [] }, rules.ferry, 660).length;
  };

  it("are one if the whole crossing lies in them", () => {
    // 100 and 560 min are 11 h, with 10 min between.
    const rests = [run(0, 100), run(110, 670)];
    expect(joined([110, 670], ...rests)).toBe(1);
    expect(joined([0, 100], ...rests)).toBe(1);
    expect(joined([110, 671], ...rests)).toBe(2);
    expect(joined([-1, 100], ...rests)).toBe(2);
    expect(joined([700, 900], ...rests)).toBe(2);
  });

  it("stay as they are if one of them is of 11 h by itself", () => {
    expect(joined([110, 770], run(0, 100), run(110, 770))).toBe(2);
    expect(joined([110, 769], run(0, 100), run(110, 769))).toBe(1);
  });
});

describe("a daily rest with one interruption", () => {
  // On duty from 06:00 to 20:30; 1 h off, boarding until 22:00, 10 h aboard. Art 8(4): 9 h inside 24 h
  // are 1 h before boarding and 8 h before 06:00; it has to begin by 21:00.
  const breaches = (bunk: boolean) => {
    const spans = spansFrom("18 00:00", "off 30, duty 14:30, off 1, duty 0:30, ferry 10, duty 1").map((span) =>
      span.is === "ferry" ? { ...span, bunk } : span,
    );
    return breachesOf(judgeRecord({ spans, before: [] }, rules, DAYS), "eu.daily-rest");
  };

  it("is not delayed by the work in it", () => {
    expect(breaches(true)).toEqual([]);
  });

  it("is none without a bunk: all work behind 21:00 is too late", () => {
    expect(breaches(false)[0]?.[0]).toBe(utc("19 21:30"));
  });
});
