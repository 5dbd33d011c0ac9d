/** Pay: the worked examples LAB-01, 03, 04 of `tests/world/hours.json`, each with its source there, and the bounds to the minute. */
import { describe, expect, it } from "vitest";
import { bestPaid, contractPay, type WorkDay } from "../../src/hours/pay/pay.ts";
import type { PayRule } from "../../src/hours/rules/payRule.ts";
import { california } from "../../src/hours/rules/sets/california.ts";
import { usLabor } from "../../src/hours/rules/sets/usLabor.ts";
import { dayOfDate } from "../../src/time/index.ts";

const [CALIFORNIA_PAY, US_LABOR_PAY] = [california.pay, usLabor.pay];
if (CALIFORNIA_PAY === null || US_LABOR_PAY === null) throw new Error("no pay rule");

const paidDays = (days: readonly WorkDay[], rule: PayRule) => bestPaid(days, [rule]);

const MONDAY = dayOfDate("2026-03-02") ?? 0;
const week = (hours: readonly number[]) => hours.map((count, i) => ({ day: MONDAY + i, workedMinutes: count * 60 }));

describe("California Labor Code 510(a)", () => {
  it("LAB-01: 14 h are 8 straight, 4 at one and a half, 2 double", () => {
    expect(paidDays(week([14]), CALIFORNIA_PAY)[0]).toMatchObject({
      straightMinutes: 480,
      overtimeMinutes: 240,
      doubleMinutes: 120,
    });
  });

  it("LAB-04: seven days; the sixth is over 40 h, the seventh has no straight time", () => {
    const paid = paidDays(week([8, 8, 8, 8, 8, 8, 10]), CALIFORNIA_PAY);
    expect(paid[6]).toMatchObject({ straightMinutes: 0, overtimeMinutes: 480, doubleMinutes: 120 });
    expect(paid[5]).toMatchObject({ straightMinutes: 0, overtimeMinutes: 480, doubleMinutes: 0 });
    expect(paid.reduce((sum, { workedMinutes }) => sum + workedMinutes, 0)).toBe(58 * 60);
  });

  it("are paid by date, whatever the order in which they are told", () => {
    const days = week([8, 8, 8, 8, 8, 8, 10]);
    const paid = paidDays(days, CALIFORNIA_PAY);
    expect(paidDays(days.toReversed(), CALIFORNIA_PAY)).toEqual(paid);
    expect(paidDays([...days.slice(3), ...days.slice(0, 3)], CALIFORNIA_PAY)).toEqual(paid);
    expect(paid.map(({ day }) => day - MONDAY)).toEqual([0, 1, 2, 3, 4, 5, 6]);
  });

  it("exactly 8 and exactly 12 hours are not beyond them", () => {
    expect(paidDays(week([8]), CALIFORNIA_PAY)[0]?.overtimeMinutes).toBe(0);
    expect(paidDays(week([12]), CALIFORNIA_PAY)[0]).toMatchObject({ overtimeMinutes: 240, doubleMinutes: 0 });
  });
});

describe("Fair Labor Standards Act", () => {
  it("LAB-03 (from memory): a week of 46 h has 6 h of overtime and no daily overtime", () => {
    const paid = paidDays(week([12, 12, 11, 11, 0, 0, 0]), US_LABOR_PAY);
    expect(paid.reduce((sum, { overtimeMinutes }) => sum + overtimeMinutes, 0)).toBe(360);
    expect(paid.slice(0, 3).every(({ overtimeMinutes }) => overtimeMinutes === 0)).toBe(true);
  });
});

describe("a plain contract and several rules at once", () => {
  it("overtime after 10 h, double after 14 h", () => {
    expect(paidDays(week([15]), contractPay("day10", 600, 840))[0]).toMatchObject({
      straightMinutes: 600,
      overtimeMinutes: 240,
      doubleMinutes: 60,
    });
  });

  it("pays each day by the rule that gives the most", () => {
    const [day] = bestPaid(week([13]), [contractPay("day10", 600, 840), CALIFORNIA_PAY]);
    expect(day).toMatchObject({ by: "california", straightMinutes: 480, overtimeMinutes: 240, doubleMinutes: 60 });
    expect(bestPaid(week([6]), [CALIFORNIA_PAY])[0]).toMatchObject({ by: "straight time", straightMinutes: 360 });
  });
});

describe("daily overtime is credited against the week's (29 U.S.C. 207(e)(5), 207(h)(2), from memory)", () => {
  it("four days of 12 h under a contract from 10 h on: 48 h, of which 8 are paid as overtime, not 14", () => {
    const paid = bestPaid(week([12, 12, 12, 12]), [contractPay("c", 600, 840), US_LABOR_PAY]);
    expect(paid.map(({ overtimeMinutes }) => overtimeMinutes)).toEqual([120, 120, 120, 120]);
  });

  it("a fifth day of 12 h: 50 straight hours would be 10 over the week's 40", () => {
    // 40 straight after four days; all of the fifth is overtime, 2 h of it by the contract.
    const paid = bestPaid(week([12, 12, 12, 12, 12]), [contractPay("c", 600, 840), US_LABOR_PAY]);
    expect(paid[4]).toMatchObject({ straightMinutes: 0, overtimeMinutes: 720, by: "us-labor" });
  });
});
