/** The minute-by-minute reading of every rule set by name, and options to try it with. */
import { NO_OPTIONS, type RuleOptions } from "../../../src/hours/rules/options.ts";
import { dayLength } from "./logs.ts";
import type { Marks, Minutes, Pairing } from "./minutes.ts";
import { canada, europe, gb, house, workingTime } from "./others.ts";
import { property, tenAndFifteen } from "./us.ts";

/** `bites` takes minutes that only make a whole day a breach. */
export type Naive = (m: Minutes, options: RuleOptions, pairing?: Pairing, bites?: number[]) => Marks;

export const NAIVE = new Map<string, Naive>([
  ["us-property", (m, o, pairing = "latest") => property(m, o, pairing)],
  ["us-passenger", (m, o, pairing = "latest") => tenAndFifteen(m, "us-passenger", o, pairing)],
  ["us-production", (m, o, pairing = "latest") => tenAndFifteen(m, "us-production", o, pairing)],
  [
    "ca-south",
    (m, o, pairing = "latest", bites = []) => canada(m, o, (day) => dayLength(day, o.dayStarts / 60), pairing, bites),
  ],
  ["eu", (m, o) => europe(m, o.drivers)],
  ["eu-working-time", workingTime],
  ["gb-domestic", gb],
  ["house", house],
]);

/** Some exceptions, each often enough; a break missed before a short haul was lost is a question, no breach. */
export function optionsFor(name: string, random: () => number): RuleOptions {
  const some = (share: number): boolean => random() < share;
  return {
    ...NO_OPTIONS,
    week: some(0.5) ? "60/7" : "70/8",
    adverse: some(0.2),
    shortHaul: some(0.15),
    nonCdlShortHaul: some(0.2),
    sixteenHour: some(0.25),
    deferral: name === "ca-south" && some(0.4),
    drivers: some(0.3) ? 2 : 1,
    cycle: some(0.5) ? 2 : 1,
    dayStarts: name === "ca-south" && some(0.5) ? 360 : 0,
  };
}
