/** Meals of a plan's day as labour law counts them (29 CFR 785.18, 785.19, Labor Code 226.7, from memory), to the minute. */
import { describe, expect, it } from "vitest";
import { hoursOf } from "../cases/hoursJson.ts";
import { ran } from "../cli/fakeIo.ts";

/** 09:00 to 13:00 work, a meal, four hours of work: nothing but the meal is between them. */
const plan = (rules: string, meal: number): string => `daywright: 1
date: 2027-01-20
clock: America/Los_Angeles
zone: America/Los_Angeles
crew: { ana: { role: camera, slept: a, sleeps: a, contract: c } }
contracts: { c: { rules: [${rules}], mealPenalty: 50, overtimeAfter: 10 h } }
history: { ana: { released: 2027-01-19T18:00-08:00 } }
vehicles: { w: {} }
places: { a: { at: [34, -118] } }
tasks:
  one: { what: work, place: a, for: 4 h, who: [ana], window: ["09:00", "13:00"] }
  eat: { kind: meal, place: a, for: ${meal} min, who: [ana], after: [one] }
  two: { what: work, place: a, for: 4 h, who: [ana], after: [eat] }
`;

const card = async (rules: string, meal: number) => {
  const files = { "x.yaml": plan(rules, meal) };
  const [{ out }, { out: page }] = [
    await ran(["timecard", "x.yaml", "--json"], { files }),
    await ran(["timecard", "x.yaml"], { files }),
  ];
  const [{ totals, mealPenalties }] = JSON.parse(out).data.people;
  return [totals.workedMinutes, totals.mealsAsked, totals.mealsMissed, mealPenalties, page.includes("29 CFR 785.19")];
};

describe.each(["us-labor", "california"])("a day of eight hours and a meal under %s", (rules) => {
  it("20 min are worked, and no meal", async () => {
    // From 09:00 to 17:20 without a meal of 30 min: due at 15:00, one is missed.
    expect(await card(rules, 20)).toEqual([500, 0, 1, 50, false]);
  });

  it("21 and 29 min are unpaid, with the question", async () => {
    expect(await card(rules, 21)).toEqual([480, 1, 1, 50, true]);
    expect(await card(rules, 29)).toEqual([480, 1, 1, 50, true]);
  });

  it("30 min are a meal", async () => {
    expect(await card(rules, 30)).toEqual([480, 0, 0, 0, false]);
  });
});

it("someone who works past a meal of the law works, and does not drive", async () => {
  const one = await hoursOf("x.yaml", { "x.yaml": plan("california", 21) });
  // Due at 15:00; work ends at 17:21.
  expect(one.law("ana")).toEqual(["california.meal 15:00-17:21 141"]);
  expect(one.said("break-missed").join()).toMatch(
    /^ana works 15:00 .* to 17:21 .* without the break: a meal of 30 min/,
  );
});
