/**
 * What a reduced weekly rest leaves to be made up: Regulation (EC) No 561/2006 Art 8(6), 8(6b) (an equivalent period en
 * bloc before the end of the third week after the week in question) and 8(7) (attached to another rest of at least 9 h),
 * consolidated text 02006R0561-20200820, from memory. By hand; weeks run from Monday, clocks are UTC.
 */
import { expect, it } from "vitest";
import type { LogSpan } from "../../src/hours/count/spans.ts";
import { judgeRecord } from "../../src/hours/judge/judge.ts";
import { ruleSet } from "../../src/hours/rules/index.ts";
import { NO_OPTIONS } from "../../src/hours/rules/options.ts";
import { houseDefaults } from "../../src/plan/houseRules.ts";
import { instant } from "../../src/time/index.ts";
import { answerTo, type LogText, logText } from "./logs.ts";
import { calendar } from "./naive/logs.ts";

type Work = readonly [from: string, to: string, is?: string];

/** Work with time off between, from before the first work on. */
function log(work: readonly Work[], end: string): string {
  const spans: { from: string; to: string; is: string }[] = [];
  let at = "2027-01-16T06:00";
  for (const [from, to, is = "duty"] of work) {
    if (at < from) spans.push({ from: at, to: from, is: "off" });
    spans.push({ from, to, is });
    at = to;
  }
  if (at < end) spans.push({ from: at, to: end, is: "off" });
  const text: LogText = { zone: "UTC", rules: "eu", spans };
  return logText(text);
}

const day = (date: string, from = "06:00", to = "16:00"): Work => [`${date}T${from}`, `${date}T${to}`];
const weekdays = (...dates: readonly string[]): readonly Work[] => dates.map((date) => day(date));

/** Week 1: off from Saturday 16:00 to Sunday 16:00, 24 h of 45: 21 h are due by the end of week 4, Monday 15 February 00:00. */
const WEEK_1 = [
  ...weekdays("2027-01-18", "2027-01-19", "2027-01-20", "2027-01-21", "2027-01-22", "2027-01-23"),
  day("2027-01-24", "16:00", "17:00"),
];
/** Weeks 2 and 3: 62 h off from Friday 16:00 on, the weekly rest and 17 h: not 21. */
const WEEKS_2_3 = [
  ...weekdays("2027-01-25", "2027-01-26", "2027-01-27", "2027-01-28", "2027-01-29"),
  ...weekdays("2027-02-01", "2027-02-02", "2027-02-03", "2027-02-04", "2027-02-05"),
];
const WEEK_4 = weekdays("2027-02-08", "2027-02-09", "2027-02-10", "2027-02-11", "2027-02-12");
const BEFORE = [...WEEK_1, ...WEEKS_2_3];

async function madeUp(work: readonly Work[], end = work.at(-1)?.[1] ?? "") {
  const { person, codes } = await answerTo(log(work, end), null);
  const breaches = person.breaches.filter(({ limit }) => limit === "eu.make-up").map(({ from, to }) => [from, to]);
  const state = person.limits.find(({ id }) => id === "eu.make-up") ?? null;
  return { person, codes, breaches, state };
}

const utc = (text: string): string => `${text}+00:00`;

it("tells from the short rest on until when the make-up must have begun", async () => {
  // 21 h before Monday 00:00, the 9 h beside them may follow: Sunday 03:00. From Sunday 24 January 16:00 that is 20 days 11 h.
  const { state, breaches } = await madeUp(WEEK_1);
  expect(state).toMatchObject({ allowedMinutes: 29460, usedMinutes: 60, leftMinutes: 29400 });
  expect(state?.runsOutAt).toBe(utc("2027-02-14T03:00"));
  expect(breaches).toEqual([]);
});

it("is made up by 66 h over the last weekend, 45 of them the weekly rest's own, or by 45, 24 of them", async () => {
  // Friday 16:00 and 66 h: Monday 10:00.
  const kept = await madeUp([...BEFORE, ...WEEK_4, day("2027-02-15", "10:00", "11:00")]);
  expect(kept.breaches).toEqual([]);
  expect(kept.state).toBeNull();
  // 45 h: Sunday 13:00. The weekly rest is reduced, and 21 h are owed by the end of week 7, Monday 8 March 00:00.
  const reduced = await madeUp([...BEFORE, ...WEEK_4, day("2027-02-14", "13:00"), day("2027-02-15", "10:00", "11:00")]);
  expect(reduced.breaches).toEqual([]);
  expect(reduced.state?.runsOutAt).toBe(utc("2027-03-07T03:00"));
  // A minute less is either.
  const short = await madeUp([...BEFORE, ...WEEK_4, day("2027-02-14", "12:59"), day("2027-02-15", "10:00", "11:00")]);
  expect(short.breaches).toEqual([[utc("2027-02-15T10:00"), utc("2027-02-15T11:00")]]);
  expect(short.codes).toContain("rest-too-late");
});

it("may begin until its own length before it is due", async () => {
  // Work to Sunday 03:00, then 21 h and 24; or to a minute later.
  const until = (sunday: string): readonly Work[] => [
    ...BEFORE,
    ...WEEK_4,
    ["2027-02-13T14:00", "2027-02-13T20:00"],
    ["2027-02-13T20:45", `2027-02-14T${sunday}`],
    day("2027-02-16", "10:00", "11:00"),
  ];
  expect((await madeUp(until("03:00"))).breaches).toEqual([]);
  expect((await madeUp(until("03:01"))).breaches).toEqual([[utc("2027-02-14T03:00"), utc("2027-02-14T03:01")]]);
});

it("is made up by 21 h beside a daily rest of 9 h, Art 8(7), with the weekly rest besides", async () => {
  // Tuesday 16:00 and 30 h: Wednesday 22:00. Then 45 h from Friday 16:00 on.
  const { breaches, state, codes } = await madeUp([
    ...BEFORE,
    ...weekdays("2027-02-08", "2027-02-09"),
    day("2027-02-10", "22:00", "23:30"),
    ...weekdays("2027-02-11", "2027-02-12"),
    day("2027-02-14", "13:00", "14:00"),
  ]);
  expect(breaches).toEqual([]);
  expect(state).toBeNull();
  // Whether the 30 h are a weekly rest, too, is asked.
  expect(codes).toContain("law-open-review");
});

/** A working week with nights of 12 h, off from Friday 16:00 until Sunday at `sunday`. */
const week = (monday: string, sunday: string): readonly Work[] => {
  const date = (n: number): string =>
    new Date(Date.parse(`${monday}T00:00Z`) + n * 86_400_000).toISOString().slice(0, 10);
  return [
    ...[0, 1, 2, 3].map((n) => day(date(n), "06:00", "18:00")),
    day(date(4)),
    day(date(6), sunday, sunday === "13:00" ? "20:00" : "18:00"),
  ];
};

it("a night is long enough for 9 h and what is owed, or it is not", async () => {
  // Week 1: 40 h from Friday 16:00 on, so 5 h; weeks 2 and 3: exactly 45 h; week 4: a night of 14 h, or a minute less.
  const before = [...week("2027-01-18", "08:00"), ...week("2027-01-25", "13:00"), ...week("2027-02-01", "13:00")];
  const week4 = (thursday: string): readonly Work[] => [
    day("2027-02-08", "06:00", "18:00"),
    day("2027-02-09", "06:00", "18:00"),
    day("2027-02-10"),
    day("2027-02-11", thursday, "18:00"),
    day("2027-02-12"),
    day("2027-02-14", "13:00", "14:00"),
  ];
  expect((await madeUp(before)).state?.runsOutAt).toBe(utc("2027-02-14T19:00"));
  expect((await madeUp([...before, ...week4("06:00")])).breaches).toEqual([]);
  expect((await madeUp([...before, ...week4("06:00")])).state).toBeNull();
  // A minute short, the 5 h are the weekend's, 40 h of weekly rest are left, and 5 h are owed by Monday 8 March 00:00.
  const short = await madeUp([...before, ...week4("05:59")]);
  expect(short.breaches).toEqual([]);
  expect(short.state?.runsOutAt).toBe(utc("2027-03-07T19:00"));
});

it("a make-up is no weekly rest, too: where the week has no other, it was the weekly one", async () => {
  // 30 h from Tuesday 9 February 16:00.
  const work = [
    ...BEFORE,
    ...weekdays("2027-02-08", "2027-02-09"),
    day("2027-02-10", "22:00", "23:00"),
    ...weekdays("2027-02-11", "2027-02-12", "2027-02-13"),
  ];
  expect((await madeUp(work)).state?.runsOutAt).toBe(utc("2027-02-14T03:00"));
  // 45 h from Saturday 16:00 on are the week's, and end on Monday 13:00.
  expect((await madeUp([...work, day("2027-02-15", "13:00", "14:00")])).breaches).toEqual([]);
  const past = await madeUp([...work, day("2027-02-14", "08:00", "09:00"), day("2027-02-15", "06:00", "07:00")]);
  expect(past.breaches).toEqual([[utc("2027-02-15T06:00"), utc("2027-02-15T07:00")]]);
});

it("driving stops when the make-up must begin, and the next call comes after it", async () => {
  const friday = [...BEFORE, ...WEEK_4];
  const driving: readonly Work[] = [
    ...friday,
    ["2027-02-13T14:30", "2027-02-13T15:00"],
    ["2027-02-13T23:00", "2027-02-13T23:30", "driving"],
  ];
  expect((await madeUp(driving)).person.drivingMustStopAt).toBe(utc("2027-02-14T03:00"));
  // Off from Saturday 18:00: 24 h of weekly rest and the 21 are 45, Monday 15:00.
  const last = await madeUp([...friday, day("2027-02-13", "06:00", "18:00")]);
  expect(last.breaches).toEqual([]);
  expect(last.person.earliestNextCall).toBe(utc("2027-02-15T15:00"));
  // Off from Tuesday 9 February 16:00: 9 h will do for a call, the make-up is not due yet.
  expect((await madeUp([...BEFORE, ...weekdays("2027-02-08", "2027-02-09")])).person.earliestNextCall).toBe(
    utc("2027-02-10T01:00"),
  );
});

it("two that are owed need two rests", async () => {
  // Week 3, too, has 24 h from Saturday 16:00 on: 21 h more, due by the end of week 6, Monday 1 March 00:00.
  const work = [
    ...WEEK_1,
    ...WEEKS_2_3,
    ...weekdays("2027-02-06"),
    day("2027-02-07", "16:00", "17:00"),
    ...weekdays("2027-02-08", "2027-02-09"),
  ];
  // 51 h from Tuesday 16:00 on, 9 and twice 21; then 45 h from Friday 16:00 on.
  const { state, breaches, codes } = await madeUp([
    ...work,
    day("2027-02-11", "19:00", "20:00"),
    ...weekdays("2027-02-12"),
    day("2027-02-14", "13:00", "14:00"),
  ]);
  expect(breaches).toEqual([]);
  expect(state?.runsOutAt).toBe(utc("2027-02-28T03:00"));
  expect(codes).toContain("law-open-review");
});

it("says nothing of a rest that may have begun before the record", async () => {
  const spans = [
    { from: "2027-01-18T00:00", to: "2027-01-19T00:00", is: "off" },
    { from: "2027-01-19T00:00", to: "2027-01-19T01:00", is: "duty" },
  ];
  const { person } = await answerTo(logText({ zone: "UTC", rules: "eu", spans }), null);
  expect(person.limits.some(({ id }) => id === "eu.make-up")).toBe(false);
});

it("a rest of 24 h in a week with a full one leaves nothing, whichever comes first", async () => {
  // Week 1: 30 h from Tuesday 16:00 to Wednesday 22:00, and 45 h from Friday 16:00 to Sunday 13:00.
  const week = [
    ...weekdays("2027-01-18", "2027-01-19"),
    day("2027-01-20", "22:00", "23:00"),
    ...weekdays("2027-01-21", "2027-01-22"),
    day("2027-01-24", "13:00", "14:00"),
  ];
  expect((await madeUp([...week, day("2027-01-25")])).state).toBeNull();
});

/** Two weeks, 40 h from Friday 16:00 to Sunday 08:00 in the first; in the second so much from Friday 16:00 on. */
const twoWeeks = (sunday: string): readonly Work[] => [
  ...week("2027-01-18", "08:00"),
  ...["2027-01-25", "2027-01-26", "2027-01-27", "2027-01-28"].map((date) => day(date, "06:00", "18:00")),
  day("2027-01-29"),
  day("2027-01-31", sunday, "18:00"),
];

it("in two weeks one weekly rest is a full one, Art 8(6): 45 h, or work in the third week is too early", async () => {
  const monday: Work = day("2027-02-01", "06:00", "07:00");
  const regular = async (work: readonly Work[]) =>
    (await madeUp(work)).person.breaches
      .filter(({ limit }) => limit === "eu.weekly-regular")
      .map(({ from, to }) => [from, to]);
  expect(await regular([...twoWeeks("13:00"), monday])).toEqual([]);
  expect(await regular([...twoWeeks("12:59"), monday])).toEqual([[utc("2027-02-01T06:00"), utc("2027-02-01T07:00")]]);
  // Until Sunday's end a full one can begin, and it counts for the week.
  expect(await regular(twoWeeks("12:59"))).toEqual([]);
  expect(await regular([...twoWeeks("12:59"), day("2027-02-02", "15:00", "16:00")])).toEqual([]);
});

it("a short night after a release is no weekly rest", () => {
  const span = (from: number, to: number, is: LogSpan["is"]): LogSpan => ({
    from: instant(from),
    to: instant(to),
    is,
    in: "commercial",
    pause: false,
    night: is === "off",
  });
  // 11 h, 10 h of work, 11 h, 10 h of work, from Monday 18 January 2027 on.
  const start = Date.parse("2027-01-18T00:00Z") / 60_000;
  const spans = [
    span(start, start + 660, "off"),
    span(start + 660, start + 1260, "duty"),
    span(start + 1260, start + 1920, "off"),
    span(start + 1920, start + 2520, "duty"),
  ];
  const rules = ruleSet("eu", NO_OPTIONS, houseDefaults());
  expect(judgeRecord({ spans, before: [] }, rules, calendar(0)).breaches).toEqual([]);
});
