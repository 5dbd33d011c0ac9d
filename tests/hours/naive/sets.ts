/** The minute-by-minute reading of every rule set by name, and options to try it with. */

import { isRuleSet, ruleSet } from "../../../src/hours/rules/index.ts";
import type { RuleSet } from "../../../src/hours/rules/rule.ts";
import { houseDefaults } from "../../../src/plan/houseRules.ts";
import { europe } from "./europe.ts";
import { dayLength } from "./logs.ts";
import type { Marks, Minutes, Pairing } from "./minutes.ts";
import { canada, gb, house, workingTime } from "./others.ts";
import { property, tenAndFifteen } from "./us.ts";

/** What a random log is tried with, in words of its own. */
export interface TriedOptions {
  readonly week: "60/7" | "70/8";
  readonly adverse: boolean;
  readonly shortHaul: boolean;
  readonly nonCdlShortHaul: boolean;
  readonly sixteenHour: boolean;
  readonly deferral: boolean;
  readonly homeHour: boolean;
  readonly homeTwoHours: boolean;
  readonly drivers: 1 | 2;
  readonly dayStarts: number;
  readonly cycle: 1 | 2;
}

/** The engine's rule set with the same options. */
export function engineSet(name: string, options: TriedOptions): RuleSet {
  if (!isRuleSet(name)) throw new Error(name);
  const { week, cycle, drivers, dayStarts } = options;
  const claims = Object.entries(options).flatMap(([key, value]) => (value === true ? [key] : []));
  return ruleSet(name, { weeks: [week, `cycle ${cycle}`], claims, drivers, dayStarts }, houseDefaults());
}

/** `bites` takes minutes that only make a whole day a breach. */
export type Naive = (m: Minutes, options: TriedOptions, pairing?: Pairing, bites?: number[]) => Marks;

/** Each rest with the latest that fits. */
export const latest = (): Pairing => ({ passed: [], open: [] });

export const NAIVE = new Map<string, Naive>([
  ["us-property", (m, o, pairing = latest()) => property(m, o, pairing)],
  ["us-passenger", (m, o, pairing = latest()) => tenAndFifteen(m, "us-passenger", o, pairing)],
  ["us-production", (m, o, pairing = latest()) => tenAndFifteen(m, "us-production", o, pairing)],
  [
    "ca-south",
    (m, o, pairing = latest(), bites = []) => canada(m, o, (day) => dayLength(day, o.dayStarts / 60), pairing, bites),
  ],
  ["eu", (m, o) => europe(m, o, (day) => dayLength(day, 0))],
  ["eu-working-time", workingTime],
  ["gb-domestic", gb],
  ["house", house],
]);

/** Some exceptions, each often enough; a break missed before a short haul was lost is a question, no breach. */
export function optionsFor(name: string, random: () => number): TriedOptions {
  const some = (share: number): boolean => random() < share;
  return {
    week: some(0.5) ? "60/7" : "70/8",
    adverse: some(0.2),
    shortHaul: some(0.15),
    nonCdlShortHaul: some(0.2),
    sixteenHour: some(0.25),
    deferral: name === "ca-south" && some(0.4),
    drivers: some(0.3) ? 2 : 1,
    cycle: some(0.5) ? 2 : 1,
    dayStarts: name === "ca-south" && some(0.5) ? 360 : 0,
    homeHour: name === "eu" && some(0.4),
    homeTwoHours: name === "eu" && some(0.4),
  };
}

/** More ways to pair the rests of one log than this are not tried; hardly a log has more. */
export const MOST_WAYS = 100;

/** What a plain reading says of a log, for every way to pair its rests; the latest first. */
export function everyWay(
  naive: Naive,
  m: Minutes,
  options: TriedOptions,
): readonly { readonly passed: readonly number[]; readonly marks: Marks }[] {
  const begun: (readonly number[])[] = [[]];
  const ways: { passed: readonly number[]; marks: Marks }[] = [];
  for (let way = begun.pop(); way !== undefined && ways.length < MOST_WAYS; way = begun.pop()) {
    const passed = way;
    const open: number[] = [];
    ways.push({ passed, marks: naive(m, options, { passed, open }) });
    // A list that ends early takes the latest: the first longer ones are those that do not.
    for (let at = passed.length; at < open.length; at++) {
      const before = Array.from({ length: at - passed.length }, () => 0);
      for (let n = 1; n < (open[at] ?? 0); n++) begun.push([...passed, ...before, n]);
    }
  }
  return ways;
}
