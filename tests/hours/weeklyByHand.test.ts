/** Weekly rests at the turn of a week, and what is asked about them: Reg 561/2006 Art 4(h), 4(i), 8(6), 8(6b), 8(7), by hand. */
import { describe, expect, it } from "vitest";
import { type RestRun, readSpans } from "../../src/hours/count/reading.ts";
import { type Owed, weeklyRests } from "../../src/hours/count/weekly.ts";
import { weeklyRest } from "../../src/hours/questions/weeklyQuestions.ts";
import type { Instant } from "../../src/time/units.ts";
import { instant } from "../../src/time/units.ts";
import { breachesOf, DAYS, judged, rulesOf, spansFrom, utc } from "./records.ts";

/** A weekly rest of 48 h up to Monday 18 January 06:00, four days of 10 h from then on, two more up to Sunday 00:00. */
const WEEK_1 = "off 48, duty 10, off 14, duty 10, off 14, duty 10, off 14, duty 10, off 14, duty 10, off 22, duty 10";

describe("a reduced weekly rest at the turn of a week", () => {
  // 45 h less what was rested, by the end of the third week after: Monday 15 February 00:00.
  const owed = (rest: string) => judged("eu", "16 06:00", `${WEEK_1}, off ${rest}, duty 1`).weekly?.owed;
  const due = utc("02-15 00:00");

  it("lies in one week if it ends with it, in two if it ends a minute later", () => {
    expect(owed("24")).toMatchObject([{ minutes: 1260, due, weeks: 1 }]);
    expect(owed("24:01")).toMatchObject([{ minutes: 1259, due, weeks: 2 }]);
  });
});

describe("the last weekly rest", () => {
  // Art 4(h): 24 h at least.
  const last = (rest: string) =>
    judged("eu", "16 06:00", `off 48, duty 10, off ${rest}, duty 1`).limits.find(
      ({ limit }) => limit.id === "eu.weekly-regular",
    );

  it("is one of 24 h, not one of a minute less", () => {
    expect(last("24")).toMatchObject({ usedMinutes: 24 * 60, leftMinutes: 21 * 60 });
    expect(last("23:59")).toMatchObject({ usedMinutes: 48 * 60, leftMinutes: 0 });
  });
});

describe("two weeks with one reduced weekly rest", () => {
  // From Monday 25 January 00:00 on there is work every day, and none of 24 h off; the two weeks end on 1 February 00:00.
  const days = "duty 10, off 14, duty 10, off 14, duty 10, off 14, duty 10, off 14, duty 10, off 14, duty 10, off 14";
  const broken = (last: string) =>
    breachesOf(judged("eu", "16 06:00", `${WEEK_1}, off 24, ${days}, duty 10, off 13, ${last}`), "eu.weekly-regular");

  it("break nothing if a regular one begins as they end", () => {
    expect(broken("duty 1, off 45, duty 1")).toEqual([]);
  });

  it("forbid work from their end on until a regular one", () => {
    expect(broken("duty 1:01, off 45, duty 1")).toEqual([[utc("02-01 00:00"), utc("02-01 00:01")]]);
    expect(broken("duty 1, off 44:59, duty 1")).toEqual([[utc("02-02 20:59"), utc("02-02 21:59")]]);
  });
});

describe("work after two weeks with too little weekly rest", () => {
  it("is too much in each of its stretches, also from a reduced rest on that ends with a week", () => {
    // None in the week up to 1 February, 24 h from Sunday 7 February on: Saturday's second work and an hour of Monday are the last.
    const week = "duty 10, off 14, duty 10, off 14, duty 10, off 14, duty 10, off 14, duty 10, off 14";
    const { weekly } = judged(
      "eu",
      "16 06:00",
      `${WEEK_1}, off 24, ${week}, duty 10, off 14, duty 10, off 13, duty 1, ${week}, duty 10, off 4, duty 10, off 24, duty 1`,
    );
    expect(weekly?.short.slice(-2)).toEqual([
      { from: utc("02-06 14:00"), to: utc("02-07 00:00") },
      { from: utc("02-08 00:00"), to: utc("02-08 01:00") },
    ]);
  });
});

describe("what is owed", () => {
  const rules = rulesOf("eu");
  const makeUp = rules.limits.flatMap((limit) => (limit.kind === "makeUp" ? [limit.makeUp] : []))[0];
  const spans = spansFrom("18 06:00", "duty 10");
  const order = (...owed: readonly Owed[]) => {
    if (makeUp === undefined) throw new Error("no make-up");
    const input = { rules, calendar: DAYS, before: [], start: utc("18 06:00"), end: utc("18 16:00") };
    const found = weeklyRests({ ...input, reading: readSpans(spans, rules) }, makeUp, owed, false);
    return found.owed.map((one) => owed.indexOf(one));
  };
  const owed = (from: string, to: string, due: string): Owed => ({
    ...{ during: { from: utc(`18 ${from}`), to: utc(`18 ${to}`) }, minutes: 60, due: utc(due), weeks: 1 },
  });

  it("is in the order in which it is due, then in that of what left it", () => {
    expect(order(owed("08:00", "09:00", "02-15 00:00"), owed("10:00", "11:00", "02-08 00:00"))).toEqual([1, 0]);
    expect(order(owed("08:00", "09:00", "02-08 00:00"), owed("10:00", "11:00", "02-15 00:00"))).toEqual([0, 1]);
    expect(order(owed("10:00", "11:00", "02-08 00:00"), owed("09:00", "12:00", "02-08 00:00"))).toEqual([1, 0]);
  });
});

describe("a rest that was counted as something else", () => {
  // 21 h are owed from Sunday 24 January 16:00 on, due on 15 February 00:00; beside 9 h they are 30 h (Art 8(7)).
  const rules = rulesOf("eu");
  const verdict = judged("eu", "16 06:00", `${WEEK_1}, off 24, duty 1`);
  const short = { from: utc("23 16:00"), to: utc("24 16:00") };
  const owed = { during: short, minutes: 21 * 60, due: utc("02-15 00:00"), weeks: 1 } as const;
  const asks = (from: Instant, minutes: number) => {
    if (verdict.weekly === null) throw new Error("no weekly rests");
    const to = instant(from + minutes);
    const rest: RestRun = { from, to, berth: { from, to: from }, night: true };
    const weekly = { ...verdict.weekly, owed: [], short: [], missed: [owed], carried: [] };
    const hours = { id: "tomas", bindings: [], verdicts: [{ ...verdict, rests: [rest], weekly }], disputed: [] };
    const context = { hours, spans: [], from: utc("16 06:00"), path: [], labour: [] };
    const found = weeklyRest({ ...context, offset: () => 0, atVenue: () => false }, rules);
    return found.filter(({ question }) => question.includes("nothing is counted twice")).map(({ during }) => during);
  };

  it("is asked about from 30 h on", () => {
    expect(asks(utc("29 16:00"), 30 * 60)).toEqual([expect.objectContaining({ from: utc("29 16:00") })]);
    expect(asks(utc("29 16:00"), 30 * 60 - 1)).toEqual([]);
  });

  it("is asked about from the end of what it could make up for until that is due", () => {
    expect(asks(utc("24 16:00"), 30 * 60)).toHaveLength(1);
    expect(asks(utc("24 15:59"), 30 * 60)).toEqual([]);
    expect(asks(utc("02-14 23:59"), 30 * 60)).toHaveLength(1);
    expect(asks(utc("02-15 00:00"), 30 * 60)).toEqual([]);
  });
});
