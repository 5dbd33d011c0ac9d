/**
 * Whom each rule set binds, what it lets pass for rest, and what it pays, by the texts of law; and what is published about
 * tired drivers. One value each, with its source.
 */
import { describe, expect, it } from "vitest";
import { awakeS, circadian } from "../../src/hours/fitness/alertness.ts";
import { nightDriving, wheelAwake } from "../../src/hours/fitness/findingsFitness.ts";
import { bloodAlcoholLevel, crashRatio } from "../../src/hours/fitness/fitness.ts";
import { declarationOf, payRuleOf, ruleSet } from "../../src/hours/rules/index.ts";
import { NO_OPTIONS } from "../../src/hours/rules/options.ts";
import type { RuleSetId } from "../../src/hours/rules/table.ts";
import { houseDefaults } from "../../src/plan/houseRules.ts";

const POUND_KG = 0.45359237;
const H = 60;

describe("a vehicle is one that the rules are for", () => {
  it.each([
    // The set, what is just below and what is just enough, kg with its trailer, and so many seats; the text.
    ["us-property", 10_000 * POUND_KG, 10_001 * POUND_KG, 15, 16, "49 CFR 390.5T (1), (3)"],
    ["us-passenger", 10_000 * POUND_KG, 10_001 * POUND_KG, 15, 16, "49 CFR 390.5T (1), (3)"],
    ["eu", 3500, 3501, 9, 10, "561/2006 Art 2(1)(a), (b)"],
    ["ca-south", 4500, 4501, 10, 11, "SOR/2005-313 s.1"],
  ] as const)(
    "%s: not at %d kg but at %d, not with %d seats but with %d (%s)",
    (set, light, heavy, few, many, _source) => {
      const threshold = declarationOf(set).threshold;
      expect(light).toBeLessThan(threshold?.leastKg ?? 0);
      expect(heavy).toBeGreaterThanOrEqual(threshold?.leastKg ?? Number.POSITIVE_INFINITY);
      expect(few).toBeLessThan(threshold?.leastSeats ?? 0);
      expect(many).toBe(threshold?.leastSeats);
    },
  );

  // Worked examples of the same texts: weight with trailer in lb or kg, seats, whether the set binds.
  it.each([
    ["a light wagon of 7,200 lb", "us-property", 7200 * POUND_KG, 5, false],
    ["the same with a trailer of 5,000 lb", "us-property", 12_200 * POUND_KG, 5, true],
    ["a van of 9,900 lb that weighs 10,250", "us-property", 10_250 * POUND_KG, 3, true],
    ["a truck of 19,500 lb", "us-property", 19_500 * POUND_KG, 3, true],
    ["a crew van of 12 seats, no charge", "us-property", 9500 * POUND_KG, 12, false],
    ["a van of 3.2 t inside one state", "eu", 3200, 5, false],
    ["a truck of 7.5 t", "eu", 7500, 3, true],
    ["a truck of 4,600 kg across provinces", "ca-south", 4600, 3, true],
  ] as const)("%s under %s", (_, set, kilograms, seats, binds) => {
    const { leastKg = 0, leastSeats = 0 } = declarationOf(set).threshold ?? {};
    expect(kilograms >= leastKg || seats >= leastSeats).toBe(binds);
  });

  it("from 2.5 t on across a border it is asked about since 1 July 2026 (561/2006 Art 2(1)(aa), Regulation 2020/1054)", () => {
    expect(declarationOf("eu").abroad).toMatchObject({ overKg: 2500, from: "2026-07-01" });
  });
});

const made = (set: RuleSetId, more = {}) => ruleSet(set, { ...NO_OPTIONS, ...more }, houseDefaults());

describe("what passes for rest", () => {
  it.each([
    ["us-property", 10, "49 CFR 395.1(j)(1)"],
    ["us-passenger", 8, "49 CFR 395.1(j)(2)"],
    ["ca-south", 8, "SOR/2005-313 s.10"],
  ] as const)("%s: a ride by order is free if %d h off follow (%s)", (set, hours, _source) => {
    expect(made(set).travel).toBe(hours * H);
  });

  it("3 h beside the driver next to 7 h in the berth (49 CFR 395.2 (4)(iii), 395.1(g)(1)(i)(D))", () => {
    expect(made("us-property").seat).toEqual({ berth: 7 * H, most: 3 * H });
  });

  it("a team's rests are of 4 h each and 8 h together (SOR/2005-313 s.19)", () => {
    expect(made("ca-south", { drivers: 2 }).shift).toMatchObject({ split: { each: 4 * H, sum: 8 * H } });
  });

  it("8 h in one piece and 2 h more that are not part of them (SOR/2005-313 s.14)", () => {
    expect(made("ca-south").asks.surplus).toMatchObject({ core: 8 * H, other: 2 * H });
  });
});

describe("what a set pays", () => {
  it.each([
    ["california", "dayOvertimeAfter", 8, "Labor Code 510(a)"],
    ["california", "dayDoubleAfter", 12, "Labor Code 510(a)"],
    ["california", "weekOvertimeAfter", 40, "Labor Code 510(a)"],
    ["california", "seventhDayDoubleAfter", 8, "Labor Code 510(a)"],
    ["us-labor", "weekOvertimeAfter", 40, "29 U.S.C. 207(a)(1)"],
  ] as const)("%s: %s %d h (%s)", (set, key, hours, _source) => {
    expect(payRuleOf(set)?.[key]).toBe(hours * H);
  });

  it("no daily overtime by federal law (29 U.S.C. 207; 29 CFR 778)", () => {
    expect(payRuleOf("us-labor")).toMatchObject({ dayOvertimeAfter: null, dayDoubleAfter: null });
  });

  it("breaks of 20 min are worked, a meal is 30 min (29 CFR 785.18, 785.19)", () => {
    expect(payRuleOf("us-labor")).toMatchObject({ mealWorkedUnder: 21, mealAskedUnder: 30 });
  });
});

describe("tired drivers", () => {
  it.each([
    [7, 1],
    [6.5, 1.3],
    [5.5, 1.9],
    [4, 4.3],
    [3.9, 11.5],
  ])(
    "after %d h of sleep crashes are %d times as many (Tefft, AAA Foundation for Traffic Safety, 2016)",
    (hours, ratio) => {
      expect(crashRatio(hours * H)).toBe(ratio);
    },
  );

  it.each([
    [16.5, null],
    [17, "0.05 %"],
    [24, "0.10 %"],
  ])("after %d h awake as with %s of alcohol (Dawson and Reid, Nature 388:235, 1997)", (hours, level) => {
    expect(bloodAlcoholLevel(hours * H)).toBe(level);
  });

  it("between 16.9 and 19.7 h by another study (Williamson and Feyer, Occup Environ Med 57:649, 2000, table 6)", () => {
    // 0.05 %: 16.91 and 18.55 h; 0.10 %: 17.74 and 19.65.
    expect(wheelAwake.entry.why).toContain("between 16.9 and 19.7 hours");
  });

  it("at 04:00 5.7 times as many, fatal ones 11.4 (Akerstedt, Kecklund, Horte, Sleep 24(4):401, 2001)", () => {
    expect(nightDriving.entry.why).toMatch(/at 04:00 5\.7 times .* fatal ones 11\.4/);
  });

  it.each([
    [8, 11.146],
    [16, 8.994],
    [17, 8.766],
    [24, 7.372],
  ])("S is, after %d h awake from 14, %d (Ingre and others, PLoS ONE 9:e108679, 2014)", (hours, index) => {
    expect(awakeS(14, hours)).toBeCloseTo(index, 3);
  });

  it.each([
    // Hours after midnight, awake since 06:00 at 14.
    [14, 13.004],
    [22, 9.514],
    [26, 6.268],
    [28, 5.29],
  ])("S + C is at hour %d %d (Ingre and others, PLoS ONE 9:e108679, 2014)", (hour, index) => {
    expect(awakeS(14, hour - 6) + circadian(hour % 24)).toBeCloseTo(index, 3);
  });
});
