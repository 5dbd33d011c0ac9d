/** Limits at the minute at which they are used up, and what comes next, from the clauses named and arithmetic beside each record. */
import { describe, expect, it } from "vitest";
import { differs, judgeReadings } from "../../src/hours/count/pairing.ts";
import { isRest, type LogSpan } from "../../src/hours/count/spans.ts";
import { judgedBothWays } from "../../src/hours/judge/bothWays.ts";
import type { Verdict } from "../../src/hours/judge/judge.ts";
import { driveFromBerth, drivingMustStopAt, nextCallSearch } from "../../src/hours/judge/nextCallSearch.ts";
import { instant } from "../../src/time/units.ts";
import { breachesOf, DAYS, judged, rulesOf, spansFrom, utc } from "./records.ts";

const stateOf = ({ limits }: Verdict, id: string) => limits.find(({ limit }) => limit.id === id);

describe("free time", () => {
  const free = (is: LogSpan["is"], more: Partial<LogSpan> = {}) =>
    isRest({ from: instant(0), to: instant(60), is, in: "commercial", pause: false, ...more });

  it("is time off and sleep, on a ferry only with a berth of one's own", () => {
    expect([free("off"), free("berth"), free("ferry", { bunk: true })]).toEqual([true, true, true]);
    expect([free("ferry"), free("ferry", { bunk: false }), free("riding"), free("duty")]).toEqual([
      ...[false, false],
      ...[false, false],
    ]);
  });

  it("is not a pause, nor a day of which nothing is known", () => {
    expect([free("off", { pause: true }), free("ferry", { bunk: true, pause: true })]).toEqual([false, false]);
    expect([free("off", { unknown: true }), free("ferry", { bunk: true, unknown: true })]).toEqual([false, false]);
  });
});

describe("a limit near its end", () => {
  // 7 h and 3 h 59 min of 11 h: one minute is left at 21:29 (49 CFR 395.3(a)(3)(i)).
  it("runs out a minute later where a minute is left, and has run out where none is", () => {
    const left = (last: string) =>
      stateOf(judged("us-property", "18 00:00", `off 10, driving 7, off 0:30, driving ${last}`), "us-property.driving");
    expect(left("3:59")).toMatchObject({ usedMinutes: 659, leftMinutes: 1, runsOutAt: utc("18 21:30") });
    expect(left("4")).toMatchObject({ usedMinutes: 660, leftMinutes: 0, runsOutAt: utc("18 21:30") });
  });

  // 395.1(g)(1)(ii): the 14 h begin at the end of the first of the two rests, 22:00, and leave out the second.
  it("of 14 h goes on behind the second rest of a pair where a minute of it is left", () => {
    const verdict = judged("us-property", "18 00:00", "off 10, duty 5, berth 7, duty 13:59, berth 3");
    // 22:00 and 13 h 59 min are 11:59; the rest lasts until 14:59, and the minute until 15:00.
    expect(stateOf(verdict, "us-property.window")).toMatchObject({ leftMinutes: 1, runsOutAt: utc("19 15:00") });
  });
});

describe("two hours more on the way home, Reg 561/2006 Art 12", () => {
  // 10 h (Art 6(1), twice a week) and 2 h: of 12 h, 10 h 30 min are driven.
  const way = (pause: string) =>
    judged("eu", "18 00:00", `off 48, driving 4:30, off 0:45, driving 4:30, off ${pause}, driving 1:30`, [
      "homeTwoHours",
    ]);

  it("leave 1 h 30 min after 10 h 30 min, straight after a break of 30 min", () => {
    const verdict = way("0:45");
    const more = { allowedMinutes: 720, usedMinutes: 630, leftMinutes: 90, runsOutAt: utc("20 13:30") };
    expect(stateOf(verdict, "eu.driving")).toMatchObject(more);
    expect(breachesOf(verdict, "eu.driving")).toEqual([]);
    expect(breachesOf(way("0:30"), "eu.driving")).toEqual([]);
  });

  it("are none after a break of 29 min: what lies beyond 10 h is too much", () => {
    // From 00:00: 4:30, 0:45, 4:30 and 0:29 end at 10:14; an hour later the 10 h are over.
    expect(breachesOf(way("0:29"), "eu.driving")).toEqual([[utc("20 11:14"), utc("20 11:44")]]);
  });
});

describe("the 56 h of a week, Reg 561/2006 Art 4(i), 6(2), that are over when the week is", () => {
  const day = "driving 4:30, off 0:45, driving 4:30, off 0:45, driving 1:30";
  // Five days of 10 h 30 min from Tuesday 19 January 06:00 on, the fifth from 10:00 on: 52 h 30 min by Saturday 22:00.
  const until = (rest: string) =>
    `off 72, ${day}, off 12, ${day}, off 12, ${day}, off 12, ${day}, off 16, ${day}, off ${rest}`;

  it("let one drive on into Monday if they were reached at its very beginning", () => {
    // From 20:30 on, 3 h 30 min up to Monday 00:00 make 56 h; the hour behind them is the new week's.
    const verdict = judged("eu", "16 06:00", `${until("22:30")}, driving 4:30`);
    expect(breachesOf(verdict, "eu.week")).toEqual([]);
    const early = judged("eu", "16 06:00", `${until("22:29")}, driving 4:30`);
    expect(breachesOf(early, "eu.week")).toEqual([[utc("24 23:59"), utc("25 00:00")]]);
  });

  it("leave nothing to be rested later on the way home if nothing lies beyond them, a minute if a minute does", () => {
    const owed = (rest: string) =>
      judged("eu", "16 06:00", `${until(rest)}, driving 4:30`, ["homeHour"]).weekly?.owed.map(({ minutes }) => minutes);
    expect(owed("22:30")).toEqual([]);
    expect(owed("22:29")).toEqual([1]);
  });

  it("are broken until midnight, and forbid nothing from then on", () => {
    // 20:00 to 24:00: the last half hour is too much. The new week has none, 4 h are driven since the last rest.
    const verdict = judged("eu", "16 06:00", `${until("22")}, driving 4`);
    expect(breachesOf(verdict, "eu.week")).toEqual([[utc("24 23:30"), utc("25 00:00")]]);
    expect(nextCallSearch([verdict]).earliestNextDrive).toBe(utc("25 00:00"));
  });
});

describe("70 h on duty in 8 days, 49 CFR 395.3(b)(2), that are over when a shift begins", () => {
  it("forbid driving from its very beginning, not from the first drive on", () => {
    // Seven days of 10 h from 18 January on; the eighth begins on the 25th at 00:00, with the shift, after 10 h off.
    const days = "duty 10, off 14, duty 10, off 14, duty 10, off 14, duty 10, off 14, duty 10, off 14, duty 10, off 14";
    const verdict = judged("us-property", "17 00:00", `off 28, ${days}, duty 10, off 10, duty 2, driving 1`);
    expect(breachesOf(verdict, "us-property.week")).toEqual([[utc("25 02:00"), utc("25 03:00")]]);
    expect(drivingMustStopAt(verdict)).toBe(utc("25 00:00"));
  });
});

describe("the seat beside the berth, 49 CFR 395.2: up to 3 h behind 7 h in it", () => {
  it("is rest in two rides as in one, to the minute", () => {
    const rest = (rides: string) =>
      judged("us-property", "18 00:00", `off 10, duty 10, berth 7, ${rides}, duty 1`).rests.at(-1);
    // From 20:00 on, 7 h and 3 h.
    const whole = { from: utc("18 20:00"), to: utc("19 06:00") };
    expect(rest("riding 3:09")).toMatchObject(whole);
    expect(rest("riding 2:59, riding 0:10")).toMatchObject(whole);
    expect(rest("riding 3, riding 0:10")).toMatchObject(whole);
    expect(rest("riding 2:59")).toMatchObject({ to: utc("19 05:59") });
  });
});

describe("the next drive from the berth", () => {
  // On duty from 00:00 to 15:00. 49 CFR 395.3(a)(1): 10 h off; 395.5(a)(1): 8 h.
  const record = "off 24, duty 15";
  const goods = judged("us-property", "18 00:00", record);
  const people = judged("us-passenger", "18 00:00", record);

  it("is when every rule set allows it", () => {
    expect(driveFromBerth([goods])).toBe(utc("20 01:00"));
    expect(driveFromBerth([people])).toBe(utc("19 23:00"));
    expect(driveFromBerth([goods, people])).toBe(utc("20 01:00"));
    expect(driveFromBerth([people, goods])).toBe(utc("20 01:00"));
  });
});

describe("two rests of 3 h, either of which makes 10 h with a third of 7 h in the berth, 49 CFR 395.1(g)(1)(ii)", () => {
  const readings = (last: string) => {
    const spans = spansFrom("18 00:00", `off 10, duty 2, off 3, duty 2, off 3, duty 2, berth 7, ${last}`);
    return judgeReadings({ spans, before: [] }, rulesOf("us-property"), DAYS);
  };

  it("are read in two ways, the first of which is kept where they are alike", () => {
    const { all, strictest } = readings("duty 1");
    expect(all).toHaveLength(2);
    expect(all.map(({ breaches }) => breaches)).toEqual([[], []]);
    expect(strictest).toBe(all[0]);
  });

  it("and the stricter where they are not", () => {
    // Paired with the second, 2 h were used before the berth; with the first 2 h, 3 h and 2 h: 7 h are left, of 7 h 30 min.
    const { all, strictest } = readings("driving 7:30");
    expect(breachesOf(strictest, "us-property.window")).toEqual([[utc("19 12:00"), utc("19 12:30")]]);
    expect(strictest).toBe(all[1]);
    expect(all[0]?.breaches).toEqual([]);
    expect(readings("driving 7").strictest.breaches).toEqual([]);
  });
});

describe("what only the strict reading breaks, 395.8 guidance Q26", () => {
  it("is a question of its own, though another breach ends with it", () => {
    // Strictly no 10 h lie between 20:00 and 07:00: the 14 h from 10:00 on are over at midnight. If the hour is off duty they
    // begin at 07:00, and only the break after 8 h of driving is missed, from 15:00 on (395.3(a)(3)(ii)).
    const spans = spansFrom("18 00:00", "off 10, duty 10, off 5, personal 1, off 5, driving 9");
    const { strictest } = judgedBothWays({ spans, before: [] }, rulesOf("us-property"), DAYS, {});
    const told = (list: Verdict["breaches"]) => list.map(({ limit, from, to }) => [limit.id, from, to]);
    expect(told(strictest.breaches)).toEqual([["us-property.break", utc("19 15:00"), utc("19 16:00")]]);
    expect(told(strictest.reviews)).toEqual([["us-property.window", utc("19 07:00"), utc("19 16:00")]]);
  });

  it("is no question of which rests are a pair", () => {
    // If the hour is off duty, 11 h are driven until 14:00 the next day, and one more; strictly, none of the twelve was lawful.
    const spans = spansFrom("18 00:00", "off 10, driving 11, off 5, personal 1, off 5, driving 12");
    const readings = judgedBothWays({ spans, before: [] }, rulesOf("us-property"), DAYS, {});
    const driven = [[utc("19 19:00"), utc("19 20:00")]];
    expect(breachesOf(readings.strictest, "us-property.driving")).toEqual(driven);
    expect(differs(readings)).toBeNull();
  });

  it("is one though the same limit was broken before for certain", () => {
    // 14 h from 18 10:00 on are over at midnight; an hour more is driven. The rest is the record above, 28 h later: from 19 11:00 on.
    const spans = spansFrom(
      "18 00:00",
      "off 10, duty 14, driving 1, off 10, duty 10, off 5, personal 1, off 5, driving 9",
    );
    const { strictest } = judgedBothWays({ spans, before: [] }, rulesOf("us-property"), DAYS, {});
    expect(breachesOf(strictest, "us-property.window")).toEqual([[utc("19 00:00"), utc("19 01:00")]]);
    expect(breachesOf({ breaches: strictest.reviews }, "us-property.window")).toEqual([
      [utc("20 08:00"), utc("20 17:00")],
    ]);
  });
});

describe("short haul, 49 CFR 395.1(e)(1): no break of 30 min in a shift of 14 h", () => {
  // From 10:00 on. 395.3(a)(3)(i): 11 h at the wheel, so until 21:00, whether 7 h 59 min or 8 h of them are driven.
  const stop = (driven: string) =>
    drivingMustStopAt(judged("us-property", "18 00:00", `off 10, driving ${driven}`, ["shortHaul"]));

  it("lets the driver go on after 8 h to the end of the 11", () => {
    expect([stop("7:59"), stop("8"), stop("8:01")]).toEqual(Array(3).fill(utc("18 21:00")));
  });
});

describe("a weekly rest that is due after six days", () => {
  // Reg 561/2006 Art 8(6): the sixth day ends on Saturday 23 January at 16:00; a regular rest of 45 h is over on Monday at 13:00.
  const DAYS_OF_10 = "duty 10, off 14, duty 10, off 14, duty 10, off 14, duty 10, off 14, duty 10";
  const next = (rest: string) =>
    nextCallSearch([judged("eu", "16 06:00", `off 48, ${DAYS_OF_10}, off 14, duty 10, off ${rest}`)]).earliestNextCall;

  it("is proposed regular a minute before the reduced one would be had as well", () => {
    expect([next("23:58"), next("23:59")]).toEqual([utc("25 13:00"), utc("25 13:00")]);
  });
});

describe("reduced daily rests, Regulation (EC) 561/2006 Art 8(4): three at most between two weekly rests", () => {
  it("are three less those taken since the last weekly rest", () => {
    // 13 h of duty and 9 h of rest end within 24 h of the rest before; 9 h are reduced, 11 h are not.
    const left = (text: string) => stateOf(judged("eu", "04 00:00", `off 45, ${text}duty 4`), "eu.daily-rest");
    const day = (rest: number) => `duty 13, off ${rest}, `;
    expect(left("")).toMatchObject({ extensionsLeft: 3 });
    expect(left(day(11))).toMatchObject({ extensionsLeft: 3 });
    expect(left(day(9))).toMatchObject({ extensionsLeft: 2 });
    expect(left(day(9) + day(11) + day(9))).toMatchObject({ extensionsLeft: 1 });
    expect(left(day(9) + day(9) + day(9))).toMatchObject({ extensionsLeft: 0 });
    expect(left(`${day(9)}duty 4, off 45, `)).toMatchObject({ extensionsLeft: 3 });
  });
});
