/** Small parts of the hours on figures that the test states: days of a carrier, joined rests, questions of weekly rests, personal conveyance, vehicles of a record. */
import { describe, expect, it } from "vitest";
import { calendarOf } from "../../src/hours/count/calendar.ts";
import { joinedRests } from "../../src/hours/count/joinedRests.ts";
import type { RestRun } from "../../src/hours/count/reading.ts";
import type { LogSpan } from "../../src/hours/count/spans.ts";
import { judgeRecord } from "../../src/hours/judge/judge.ts";
import { ledgerOf } from "../../src/hours/judge/ledger.ts";
import { breachFindingOf } from "../../src/hours/judge/limitFindings.ts";
import { personHours } from "../../src/hours/judge/person.ts";
import { withMissing } from "../../src/hours/judge/unknown.ts";
import { weeklyRest } from "../../src/hours/questions/weeklyQuestions.ts";
import { ruleSet } from "../../src/hours/rules/index.ts";
import { NO_OPTIONS } from "../../src/hours/rules/options.ts";
import type { RuleSetId } from "../../src/hours/rules/table.ts";
import { houseDefaults } from "../../src/plan/houseRules.ts";
import { dayOfDate } from "../../src/time/index.ts";
import { type Instant, instant } from "../../src/time/units.ts";
import { judgedText } from "../cases/judged.ts";
import { CHICAGO } from "../day/parts.ts";
import { answerTo, logText } from "./logs.ts";

const utc = (text: string): Instant => instant(Date.parse(text) / 60_000);
const H = 60;

describe("days that begin at 01:30, where the clock goes from 02:00 back to 01:00 on 7 November 2027", () => {
  const { dayOf, startOf } = calendarOf(CHICAGO, 90);
  const day = dayOfDate("2027-11-07") ?? 0;

  it("begin at the first 01:30, and the hour that comes again lies in them", () => {
    // 01:30 CDT is 06:30 UTC; 01:15 CST is 07:15.
    expect(startOf(day)).toBe(utc("2027-11-07T06:30Z"));
    const days = ["06:29", "06:30", "06:59", "07:00", "07:15", "07:30", "08:00"];
    expect(days.map((clock) => dayOf(utc(`2027-11-07T${clock}Z`)) - day)).toEqual([-1, 0, 0, 0, 0, 0, 0]);
    // The next one begins at 01:30 CST, 07:30 UTC.
    expect(["07:29", "07:30"].map((clock) => dayOf(utc(`2027-11-08T${clock}Z`)) - day)).toEqual([0, 1]);
  });

  it("and at a time that the clock leaves out on 14 March every instant lies in the day that has begun last", () => {
    const spring = calendarOf(CHICAGO, 150);
    for (let at = utc("2027-03-14T05:00Z"); at < utc("2027-03-14T12:00Z"); at = instant(at + 1)) {
      const own = spring.dayOf(at);
      expect(spring.startOf(own) <= at && at < spring.startOf(own + 1)).toBe(true);
    }
  });
});

describe("rests on both sides of a crossing", () => {
  const run = (from: number, to: number, berth: readonly [number, number]): RestRun => ({
    ...{ from: instant(from), to: instant(to), night: false },
    berth: { from: instant(berth[0]), to: instant(berth[1]) },
  });
  const crossing = { from: instant(100), to: instant(400) };
  const { ferry } = ruleSet("eu", NO_OPTIONS, houseDefaults());
  const joined = (...rests: readonly RestRun[]) =>
    joinedRests({ rests, crossings: [crossing], stretches: [] }, ferry, 660);

  // Art 9(1): interrupted twice at most, by not more than an hour in all. 100 + 300 + 260 min are 11 h.
  it("are one of 11 h, with the longest of their berths", () => {
    const [first, second, third] = [run(0, 100, [0, 40]), run(110, 410, [110, 300]), run(460, 720, [500, 650])];
    expect(joined(first, second, third)).toEqual([
      {
        ...{ from: 0, to: 720, night: false, berth: { from: 110, to: 300 } },
        interruptions: [
          { from: 100, to: 110 },
          { from: 410, to: 460 },
        ],
      },
    ]);
    // A minute more between them, or a minute less in all.
    expect(joined(first, second, run(461, 721, [500, 650]))).toHaveLength(3);
    expect(joined(first, second, run(460, 719, [500, 650]))).toHaveLength(3);
  });
});

describe("a rest that makes up for a reduced weekly rest", () => {
  const rules = ruleSet("eu", NO_OPTIONS, houseDefaults());
  const monday = utc("2027-01-18T00:00Z");
  const span = (from: number, to: number, is: LogSpan["is"]): LogSpan => ({
    ...{ from: instant(monday + from), to: instant(monday + to), is },
    ...{ in: "commercial", pause: false, night: is === "off" },
  });
  const spans = [span(0, 660, "off"), span(660, 1260, "duty")];
  const calendar = calendarOf(CHICAGO, 0);
  const hours = personHours({
    ...{ id: "tomas", recordIn: () => ({ spans, before: [] }), bindings: [], calendars: () => calendar },
    ...{ drives: true, released: false, foretells: false },
  });
  const verdict = judgeRecord({ spans, before: [] }, rules, calendar);
  const asks = (length: number, besides: number, reportedBefore = false) => {
    if (verdict.weekly === null) throw new Error("no weekly rests");
    const [from, to] = [instant(monday), instant(monday + length)];
    const rest: RestRun = { from, to, berth: { from, to: from }, night: true };
    const owed = { during: { from, to }, minutes: 60, due: to, weeks: 1 } as const;
    const weekly = { ...verdict.weekly, owed: [], missed: [], carried: [{ rest, owed, besides }] };
    const own = { ...hours, verdicts: [{ ...verdict, weekly }] };
    const context = { hours: own, spans, from: reportedBefore ? to : from, path: [], labour: [] };
    const found = weeklyRest({ ...context, offset: () => 0, atVenue: () => false }, rules);
    return found.map(({ question }) =>
      question.includes("all of it is counted as the daily rest") ? "daily" : "weekly",
    );
  };

  // 561/2006 Art 4(g): a regular daily rest is 11 h; Art 4(h): a reduced weekly one 24 h, a regular one 45 h.
  it("is asked about as a daily one from 11 h on, with less than 11 h left besides, and as a weekly one from 24 h on", () => {
    expect(asks(11 * H - 1, 9 * H)).toEqual([]);
    expect(asks(11 * H, 9 * H)).toEqual(["daily"]);
    expect(asks(20 * H, 11 * H - 1)).toEqual(["daily"]);
    expect(asks(20 * H, 11 * H)).toEqual([]);
    expect(asks(24 * H - 1, 9 * H)).toEqual(["daily"]);
    expect(asks(24 * H, 9 * H)).toEqual(["weekly"]);
    expect(asks(60 * H, 45 * H - 1)).toEqual(["weekly"]);
    expect(asks(60 * H, 45 * H)).toEqual([]);
  });

  it("was asked about on the day in which it ended", () => {
    expect(asks(11 * H, 9 * H, true)).toEqual([]);
  });
});

describe("a vehicle driven as personal conveyance", () => {
  // Off duty for 6 h, an hour for oneself, 4 h off: 10 h of rest only if the hour is off duty as well (395.8 guidance Q26).
  const drive = async (is: string, day = "10:00") => {
    const spans = [
      { from: "2027-01-18T00:00Z", to: "2027-01-18T10:00Z", is: "off" },
      { from: "2027-01-18T10:00Z", to: "2027-01-18T20:00Z", is: "duty" },
      { from: "2027-01-18T20:00Z", to: "2027-01-19T02:00Z", is: "off" },
      { from: "2027-01-19T02:00Z", to: "2027-01-19T03:00Z", is },
      { from: "2027-01-19T03:00Z", to: "2027-01-19T07:00Z", is: "off" },
      { from: "2027-01-19T07:00Z", to: `2027-01-19T${day}Z`, is: "driving" },
    ];
    const { person, codes } = await answerTo(logText({ zone: "UTC", rules: "us-property", spans }), null);
    return [person.breaches.length > 0, codes.includes("hours-review")];
  };

  it("is asked about where a rest goes on through it, and is no breach", async () => {
    expect(await drive("personal")).toEqual([false, true]);
    expect(await drive("off")).toEqual([false, false]);
    expect((await drive("duty"))[0]).toBe(true);
  });
});

describe("the next drive in the second rest of a pair, 49 CFR 395.1(g)(1)(ii)", () => {
  // 5 h on duty, a berth, 6 h on duty: the 14 h are over. With 10 h in two rests, one of 7 h in a berth, they begin behind the first.
  const next = async (berthEnds: string, worked: string) => {
    const spans = [
      { from: "2027-01-18T00:00Z", to: "2027-01-18T10:00Z", is: "off" },
      { from: "2027-01-18T10:00Z", to: "2027-01-18T15:00Z", is: "duty" },
      { from: "2027-01-18T15:00Z", to: `2027-01-18T${berthEnds}Z`, is: "berth" },
      { from: `2027-01-18T${berthEnds}Z`, to: `2027-01-19T${worked}Z`, is: "duty" },
    ];
    return (await answerTo(logText({ zone: "UTC", rules: "us-property", spans }), null)).person.earliestNextDrive;
  };

  it("is when both make 10 h, and the second has 2 h at least", async () => {
    expect(await next("22:30", "04:30")).toBe("2027-01-19T07:00+00:00");
    expect(await next("22:07", "04:07")).toBe("2027-01-19T07:00+00:00");
    expect(await next("23:00", "05:00")).toBe("2027-01-19T07:00+00:00");
    expect(await next("23:30", "05:30")).toBe("2027-01-19T07:30+00:00");
  });

  it("is after 10 h where the first is a minute too short for a pair", async () => {
    expect(await next("21:59", "04:30")).toBe("2027-01-19T14:30+00:00");
  });
});

describe("what kind of breach a limit makes", () => {
  const code = (set: RuleSetId, id: string, weeks: readonly string[] = []) => {
    const { limits } = ruleSet(set, { ...NO_OPTIONS, weeks }, houseDefaults());
    const limit = limits.find((one) => one.id === `${set}.${id}`);
    return limit === undefined ? null : breachFindingOf(limit).entry.code;
  };

  it.each([
    ["us-property", "driving", "driving-too-long"],
    ["us-property", "window", "window-over"],
    ["us-property", "break", "break-missed"],
    ["us-property", "week", "week-too-long", ["70/8"]],
    ["us-passenger", "duty", "duty-too-long"],
    ["eu", "week", "week-too-long"],
    ["eu", "fortnight", "week-too-long"],
    ["eu", "daily-rest", "rest-too-late"],
    ["ca-south", "day-off", "day-off-too-short"],
    ["gb-domestic", "duty", "duty-too-long"],
    ["gb-domestic", "driving", "driving-too-long"],
  ] as const)("%s.%s: %s", (set, id, wanted, weeks: readonly string[] = []) => {
    expect(code(set, id, weeks)).toBe(wanted);
  });
});

describe("the record of a day", () => {
  it("names the vehicle of each stretch in one, and is under the rules of commercial vehicles only in those", async () => {
    const { day } = await judgedText(`daywright: 1
date: 2027-01-20
clock: UTC
zone: UTC
crew:
  wren: { drives: [wagon], slept: lodge, sleeps: lodge }
  ilse: { drives: [car], slept: lodge, sleeps: lodge }
vehicles: { wagon: { gross: 5 t, rules: us-property }, car: {} }
places: { lodge: { zone: UTC, kind: lodging }, pier: { zone: UTC } }
roads: [{ link: [lodge, pier], drive: 30 min, bad: 30 min }]
hits: { dawn: { at: "08:00", for: 5 min, place: pier }, noon: { at: "14:00", for: 5 min, place: pier } }
runs:
  wagon: { driver: wren, stops: [lodge, { place: pier, do: [dawn] }, lodge] }
  car: { driver: ilse, stops: [lodge, { place: pier, do: [noon] }, lodge] }
`);
    const drives = (who: string) =>
      ledgerOf([day], who)
        .spans.filter(({ is }) => is === "driving")
        .map((own) => [own.vehicle === day.plan.vehicles.get("wagon"), own.vehicle === undefined, own.in]);
    expect(drives("wren")).toEqual([
      [true, false, "commercial"],
      [true, false, "commercial"],
    ]);
    expect(drives("ilse")).toEqual([
      [false, false, "light"],
      [false, false, "light"],
    ]);
    const others = ledgerOf([day], "wren").spans.filter(({ is }) => is === "off");
    expect(others.every((own) => own.vehicle === undefined)).toBe(true);
  });

  it("keeps what is known from before a hole as totals of its days, all on duty and what was at the wheel", async () => {
    const { day } = await judgedText(`daywright: 1
date: 2027-01-20
clock: UTC
zone: UTC
crew: { wren: { drives: [wagon], slept: lodge, sleeps: lodge } }
vehicles: { wagon: {} }
places: { lodge: { zone: UTC, kind: lodging }, pier: { zone: UTC } }
roads: [{ link: [lodge, pier], drive: 30 min, bad: 30 min }]
hits: { dawn: { at: "08:00", for: 5 min, place: pier } }
runs: { wagon: { driver: wren, stops: [lodge, pier, lodge] } }
history:
  wren:
    spans:
      - { from: 2027-01-17T22:00Z, to: 2027-01-18T01:00Z, is: driving }
      - { from: 2027-01-18T01:00Z, to: 2027-01-18T04:00Z, is: duty }
      - { from: 2027-01-19T00:00Z, to: 2027-01-20T01:00Z, is: off }
`);
    // From 22:00 on 2 h of driving on the 17th; on the 18th 1 h of it and 3 h of other work.
    const [first, second] = [dayOfDate("2027-01-17"), dayOfDate("2027-01-18")];
    expect(ledgerOf([day], "wren").recordIn(calendarOf(day.plan.zone, 0)).before).toEqual([
      { day: first, dutyMinutes: 120, drivingMinutes: 120 },
      { day: second, dutyMinutes: 240, drivingMinutes: 60 },
    ]);
  });
});

describe("a night between two days that were not handed over", () => {
  const span = (from: number, to: number, is: LogSpan["is"], more: Partial<LogSpan> = {}): LogSpan => ({
    ...{ from: instant(from), to: instant(to), is, in: "commercial", pause: false },
    ...more,
  });
  const spans = [span(0, 50, "duty"), span(50, 150, "off", { night: true }), span(150, 200, "off")];
  const filled = (unknown: readonly (readonly [number, number])[], stated: readonly LogSpan[]) => {
    const missing = { unknown: unknown.map(([from, to]) => ({ from: instant(from), to: instant(to) })), spans: stated };
    return withMissing(spans, { ...missing, totals: [] }).map(
      ({ from, to, is, unknown: open }) => `${is} ${from}-${to}${open === true ? " unknown" : ""}`,
    );
  };

  it("holds what a history states and what nothing is known of, each where it lies in it, and is off for the rest", () => {
    const kept = (...night: readonly string[]) => ["duty 0-50", ...night, "off 150-200"];
    expect(filled([], [])).toEqual(kept("off 50-150"));
    expect(filled([], [span(70, 90, "driving")])).toEqual(kept("off 50-70", "driving 70-90", "off 90-150"));
    expect(filled([[60, 70]], [])).toEqual(kept("off 50-60", "off 60-70 unknown", "off 70-150"));
    expect(filled([[100, 160]], [span(40, 60, "duty")])).toEqual(
      kept("duty 50-60", "off 60-100", "off 100-150 unknown"),
    );
  });
});
