/**
 * What `history` states before a first day, as spans and as totals: one record, each minute once. A driver of a commercial
 * vehicle leaves at 06:00, so that he is called 05:30 (15 min of loading and 15 of walk-around); 3 h of driving and 50 min of
 * other duty follow (30 before, 20 after: 10 of post-trip and 10 of unloading). Needed: 10 h in a row off duty
 * (49 CFR 395.3(a)(1)); at most 70 h on duty in 8 days (395.3(b)(2)).
 */
import { expect, it } from "vitest";
import { hoursOf } from "./hoursJson.ts";

const plan = (known: string): string => `
daywright: 1
date: 2027-01-20
clock: America/Chicago
zone: America/Chicago
crew: { tomas: { drives: [truck], slept: a, sleeps: a } }
history: { tomas: ${known} }
vehicles: { truck: { gross: 14000 lb, rules: us-property, week: 70/8 } }
places: { a: {}, b: {} }
roads: [{ link: [a, b], drive: 1h30, bad: 1h30 }]
runs: { truck: { driver: tomas, stops: [{ place: a, leave: "06:00" }, b, a] } }
`;

/** `19T06 19T18 duty`: days and hours of January on the clock of the plan. */
const spans = (...lines: readonly string[]): string =>
  `[${lines
    .map((line) => line.split(" "))
    .map(([from, to, is]) => `{ from: 2027-01-${from}:00-06:00, to: 2027-01-${to}:00-06:00, is: ${is} }`)
    .join(", ")}]`;

const hours = (known: string) => hoursOf("day.yaml", { "day.yaml": plan(known) });
const TODAY = 3 * 60 + 50;
const RELEASED = "released: 2027-01-19T18:00-06:00";

it.each([
  ["released", `{ ${RELEASED} }`, TODAY],
  ["off up to the call", spans("19T06 19T18 duty", "19T18 20T05:30 off").replace("05:30:00", "05:30"), 12 * 60 + TODAY],
  // Rest stated beyond the call ends there: the plan says what follows.
  ["off beyond the call", spans("19T06 19T18 duty", "19T18 20T09 off"), 12 * 60 + TODAY],
  ["off in two parts", spans("19T18 19T22 berth", "19T22 20T09 off"), TODAY],
  // 12 h of the 18th as a total, 12 h of the 19th in spans.
  [
    "the same day as a total and in spans",
    `{ ${RELEASED}, totals: { 2027-01-18: { duty: 12 h }, 2027-01-19: { duty: 12 h } }, spans: ${spans("19T06 19T18 duty")} }`,
    24 * 60 + TODAY,
  ],
  // Of the 14 h of the 19th the spans have 12.
  [
    "a total with more than its spans",
    `{ ${RELEASED}, totals: { 2027-01-19: { duty: 14 h } }, spans: ${spans("19T06 19T18 duty")} }`,
    14 * 60 + TODAY,
  ],
] as const)("%s: a rest of 11 h 30, and the hours of eight days", async (_, known, inEight) => {
  const one = await hours(known);
  expect(one.person("tomas").restBeforeMinutes).toBe(11 * 60 + 30);
  expect(one.limit("tomas", "us-property.rest").usedMinutes).toBe(11 * 60 + 30);
  expect(one.limit("tomas", "us-property.week").usedMinutes).toBe(inEight);
  expect(one.said("rest-not-stated")).toEqual([]);
});

it("a berth before the call rests as time off does, in two spans or in one", async () => {
  const berth = spans("19T06 19T18 duty", "19T18 19T23 berth", "19T23 20T09 berth");
  const one = await hours(berth);
  expect(one.person("tomas").restBeforeMinutes).toBe(11 * 60 + 30);
  expect(one.law("tomas")).toEqual([]);
});

it("off that ends before the call states no release: nothing is known of the time between", async () => {
  const one = await hours(spans("19T06 19T18 duty", "19T18 20T05 off"));
  expect(one.person("tomas").restBeforeMinutes).toBeNull();
  expect(one.said("rest-not-stated")).toHaveLength(1);
});

it("work stated beyond the call is still a contradiction", async () => {
  const one = await hours(spans("19T06 19T18 duty", "19T18 20T04 off", "20T04 20T07 duty"));
  expect(one.said("release-after-call")).toHaveLength(1);
});

it.each([
  ["inside another", spans("19T06 19T18 duty", "19T08 19T12 driving"), 1],
  ["across the end of another", spans("19T06 19T18 duty", "19T17 19T19 driving"), 1],
  ["inside one two spans before", spans("19T06 19T18 duty", "19T08 19T09 driving", "19T10 19T11 driving"), 2],
  ["beside another", spans("19T06 19T12 duty", "19T12 19T18 driving"), 0],
  ["beside another, the later one first", spans("19T12 19T18 driving", "19T06 19T12 duty"), 0],
] as const)("a span %s", async (_, known, overlaps) => {
  const both = [known, `{ ${RELEASED}, spans: ${known} }`];
  for (const form of both) {
    const { findings } = await hours(form);
    expect(findings.filter(({ code }) => code === "log-overlap")).toHaveLength(overlaps);
  }
});
