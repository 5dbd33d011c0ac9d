/**
 * The hours of the rule sets against the texts of law, one value each, from a list of rules read in those texts (49 CFR Part
 * 395 by the govinfo text of 2024 and FMCSA's guide of 2022, Regulation 561/2006, Directive 2003/88/EC, the Transport Act
 * 1968, SOR/2005-313, IWC Orders 11 and 12), not from this program.
 */
import { expect, it } from "vitest";
import { ruleSet } from "../../src/hours/rules/index.ts";
import { NO_OPTIONS } from "../../src/hours/rules/options.ts";
import type { RuleSetId } from "../../src/hours/rules/table.ts";
import { houseDefaults } from "../../src/plan/houseRules.ts";

interface Wanted {
  readonly claims?: readonly string[];
  readonly weeks?: readonly string[];
  readonly drivers?: 1 | 2;
}

/** A number of a limit by the keys that lead to it: `since.0.minutes`. */
function figure(
  set: RuleSetId,
  id: string,
  keys: string,
  { claims = [], weeks = [], drivers = 1 }: Wanted = {},
): unknown {
  const { limits } = ruleSet(set, { ...NO_OPTIONS, claims, weeks, drivers }, houseDefaults());
  let at: unknown = limits.find((limit) => limit.id === `${set}.${id}`);
  for (const key of keys.split(".")) at = at instanceof Object ? Reflect.get(at, key) : undefined;
  return at;
}

const H = 60;

const VALUES: readonly (readonly [RuleSetId, string, string, number, string, Wanted?])[] = [
  ["us-property", "rest", "requires", 10 * H, "49 CFR 395.3(a)(1)"],
  ["us-property", "window", "allows", 14 * H, "49 CFR 395.3(a)(2)"],
  ["us-property", "driving", "allows", 11 * H, "49 CFR 395.3(a)(3)(i)"],
  ["us-property", "break", "allows", 8 * H, "49 CFR 395.3(a)(3)(ii): after 8 h of driving"],
  ["us-property", "break", "since.0.minutes", 30, "49 CFR 395.3(a)(3)(ii): 30 min"],
  ["us-property", "week", "allows", 60 * H, "49 CFR 395.3(b)(1)", { weeks: ["60/7"] }],
  ["us-property", "week", "since.0.count", 7, "49 CFR 395.3(b)(1)", { weeks: ["60/7"] }],
  ["us-property", "week", "allows", 70 * H, "49 CFR 395.3(b)(2)", { weeks: ["70/8"] }],
  ["us-property", "week", "since.0.count", 8, "49 CFR 395.3(b)(2)", { weeks: ["70/8"] }],
  ["us-property", "week", "since.0.restart", 34 * H, "49 CFR 395.3(c)"],
  ["us-property", "window", "allows", 16 * H, "49 CFR 395.1(b)(1): 2 h more", { claims: ["adverse"] }],
  ["us-property", "driving", "allows", 13 * H, "49 CFR 395.1(b)(1): 2 h more", { claims: ["adverse"] }],
  ["us-property", "week", "allows", 70 * H, "49 CFR 395.1(b)(1): the week stays", { claims: ["adverse"] }],
  ["us-property", "window", "extension.allows", 16 * H, "49 CFR 395.1(o)", { claims: ["sixteenHour"] }],
  [
    "us-property",
    "window",
    "extension.over",
    7,
    "49 CFR 395.1(o): not in the 6 days before",
    { claims: ["sixteenHour"] },
  ],
  [
    "us-property",
    "window",
    "extension.times",
    2,
    "49 CFR 395.1(e)(2): 2 of any 7 days",
    { claims: ["nonCdlShortHaul"] },
  ],
  ["us-property", "window", "extension.allows", 16 * H, "49 CFR 395.1(e)(2)", { claims: ["nonCdlShortHaul"] }],
  ["us-property", "break", "waivedWithin", 14 * H, "49 CFR 395.1(e)(1)(ii)", { claims: ["shortHaul"] }],
  ["us-property", "driving", "since.0.split.longBerth", 7 * H, "49 CFR 395.1(g)(1)(ii)"],
  ["us-property", "driving", "since.0.split.each", 2 * H, "49 CFR 395.1(g)(1)(ii)"],
  ["us-property", "driving", "since.0.split.sum", 10 * H, "49 CFR 395.1(g)(1)(ii)"],
  ["us-passenger", "rest", "requires", 8 * H, "49 CFR 395.5(a)(1)"],
  ["us-passenger", "driving", "allows", 10 * H, "49 CFR 395.5(a)(1)"],
  ["us-passenger", "duty", "allows", 15 * H, "49 CFR 395.5(a)(2)"],
  ["us-passenger", "week", "allows", 70 * H, "49 CFR 395.5(b)(2)", { weeks: ["70/8"] }],
  ["us-passenger", "week", "allows", 60 * H, "49 CFR 395.5(b)(1)", { weeks: ["60/7"] }],
  ["us-passenger", "driving", "allows", 12 * H, "49 CFR 395.1(b)(1): 2 h more", { claims: ["adverse"] }],
  ["us-passenger", "driving", "since.0.split.each", 2 * H, "49 CFR 395.1(g)(3)"],
  ["us-passenger", "driving", "since.0.split.sum", 8 * H, "49 CFR 395.1(g)(3)"],
  ["us-production", "driving", "allows", 10 * H, "49 CFR 395.1(p)"],
  ["us-production", "duty", "allows", 15 * H, "49 CFR 395.1(p)"],
  ["us-production", "rest", "requires", 8 * H, "49 CFR 395.1(p)"],
  ["eu", "driving", "allows", 9 * H, "561/2006 Art 6(1)"],
  ["eu", "driving", "extension.allows", 10 * H, "561/2006 Art 6(1): twice a week"],
  ["eu", "driving", "extension.times", 2, "561/2006 Art 6(1): twice a week"],
  ["eu", "driving", "homeward.0.more", 1 * H, "561/2006 Art 12: an hour more", { claims: ["homeHour"] }],
  ["eu", "driving", "homeward.0.more", 2 * H, "561/2006 Art 12: two hours more", { claims: ["homeTwoHours"] }],
  ["eu", "driving", "homeward.0.after", 30, "561/2006 Art 12: after a break of 30 min", { claims: ["homeTwoHours"] }],
  ["eu", "break", "since.0.beside", 45, "561/2006 Art 7, third subparagraph, Regulation 2020/1054", { drivers: 2 }],
  ["eu", "daily-rest", "since.0.endsCount", 7 * H, "Commission implementing decision of 7 June 2011: a rest of 7 h"],
  ["eu", "make-up", "makeUp.beside", 9 * H, "561/2006 Art 8(7): joined to a rest of 9 h"],
  ["eu", "week", "allows", 56 * H, "561/2006 Art 6(2)"],
  ["eu", "fortnight", "allows", 90 * H, "561/2006 Art 6(3)"],
  ["eu", "break", "allows", 4.5 * H, "561/2006 Art 7: after 4 h 30"],
  ["eu", "break", "since.0.minutes", 45, "561/2006 Art 7"],
  ["eu", "break", "since.0.parts.0", 15, "561/2006 Art 7: 15, then 30"],
  ["eu", "break", "since.0.parts.1", 30, "561/2006 Art 7: 15, then 30"],
  ["eu", "daily-rest", "since.0.regular", 11 * H, "561/2006 Art 4(g)"],
  ["eu", "daily-rest", "since.0.reduced", 9 * H, "561/2006 Art 4(g)"],
  ["eu", "daily-rest", "since.0.firstPart", 3 * H, "561/2006 Art 4(g): split 3 + 9"],
  ["eu", "daily-rest", "since.0.times", 3, "561/2006 Art 8(4)"],
  ["eu", "daily-rest", "since.0.within", 30 * H, "561/2006 Art 8(5): 9 h within 30 h", { drivers: 2 }],
  ["eu", "weekly-rest", "allows", 6 * 24 * H, "561/2006 Art 8(6): six periods of 24 h"],
  ["eu", "weekly-rest", "since.0.minutes", 24 * H, "561/2006 Art 4(h): reduced"],
  ["eu", "weekly-regular", "requires", 45 * H, "561/2006 Art 4(h)"],
  ["eu", "make-up", "makeUp.weeks", 3, "561/2006 Art 8(6b): by the end of the third week after"],
  ["eu-working-time", "rest", "requires", 11 * H, "2003/88/EC Art 3"],
  ["eu-working-time", "week", "since.0.minutes", 35 * H, "2003/88/EC Art 5: 24 h and the 11 h"],
  ["gb-domestic", "driving", "allows", 10 * H, "Transport Act 1968, GB domestic rules"],
  ["gb-domestic", "duty", "allows", 11 * H, "Transport Act 1968, GB domestic rules"],
  ["gb-domestic", "duty", "exemptWeekBelow", 4 * H, "Transport Act 1968: at most 4 h driving every day of a week"],
  ["ca-south", "driving", "allows", 13 * H, "SOR/2005-313 s.12(1), 13(1)"],
  ["ca-south", "duty", "allows", 14 * H, "SOR/2005-313 s.12(2), 13(2)"],
  ["ca-south", "elapsed", "allows", 16 * H, "SOR/2005-313 s.13(3)"],
  ["ca-south", "elapsed", "since.0.minutes", 8 * H, "SOR/2005-313 s.13(3)"],
  ["ca-south", "day-off", "allows", 10 * H, "SOR/2005-313 s.14(1)"],
  ["ca-south", "driving", "since.1.split.sum", 10 * H, "SOR/2005-313 s.18"],
  ["ca-south", "driving", "since.1.split.each", 2 * H, "SOR/2005-313 s.18"],
  ["ca-south", "day-off", "deferral.most", 2 * H, "SOR/2005-313 s.16: 2 h", { claims: ["deferral"] }],
  ["ca-south", "day-off", "deferral.twoDaysDriving", 26 * H, "SOR/2005-313 s.16: 26 h", { claims: ["deferral"] }],
  ["ca-south", "cycle", "allows", 120 * H, "SOR/2005-313 s.27(a)", { weeks: ["cycle 2"] }],
  ["ca-south", "cycle", "since.0.count", 14, "SOR/2005-313 s.27(a)", { weeks: ["cycle 2"] }],
  ["ca-south", "cycle", "since.0.restart", 72 * H, "SOR/2005-313 s.28(1)(b)", { weeks: ["cycle 2"] }],
  ["ca-south", "cycle-rest", "allows", 70 * H, "SOR/2005-313 s.27(b)", { weeks: ["cycle 2"] }],
  ["ca-south", "cycle-rest", "since.0.minutes", 24 * H, "SOR/2005-313 s.27(b)", { weeks: ["cycle 2"] }],
  ["ca-south", "day-in-14", "since.0.minutes", 24 * H, "SOR/2005-313 s.25"],
  ["ca-south", "cycle", "since.0.count", 7, "SOR/2005-313 s.26"],
  ["ca-south", "cycle", "allows", 70 * H, "SOR/2005-313 s.26"],
  ["ca-south", "cycle", "since.0.restart", 36 * H, "SOR/2005-313 s.28(1)(a)"],
  ["california", "meal", "allows", 6 * H, "IWC Orders 11 and 12 s.11"],
  ["california", "meal", "since.0.minutes", 30, "IWC Orders 11 and 12 s.11"],
  ["california", "day", "allows", 16 * H, "8 CCR 11120"],
];

it.each(VALUES.map((row) => ({ row, name: row.slice(0, 5).join(" ") })))(
  "$name",
  ({ row: [set, id, keys, value, , wanted] }) => {
    expect(figure(set, id, keys, wanted)).toBe(value);
  },
);
