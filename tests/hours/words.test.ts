/** What the hours say, at the figures and facts at which the words change; the words are written by hand. */
import { describe, expect, it } from "vitest";
import type { Facts, Finding } from "../../src/findings/finding.ts";
import * as hours from "../../src/hours/findings.ts";
import * as fitness from "../../src/hours/fitness/findingsFitness.ts";
import * as questions from "../../src/hours/questions/findingsQuestions.ts";
import { plainWording as say } from "../../src/reports/shared/wording.ts";
import { instant } from "../../src/time/units.ts";

const said = <F extends Facts>(definition: { raise(facts: F): Finding }, facts: F) => {
  const made = definition.raise(facts);
  return [made.sentence(say), made.hint(say)];
};
const [A, B] = [{ at: instant(30_006_720) }, { at: instant(30_006_780) }];
const [from, to] = [say.time(A.at), say.time(B.at)];

const BREACH: hours.BreachFacts = {
  ...{ who: "wren", limit: "x.y", rule: "the rule", from: A, to: B, overMinutes: 60, times: 1 },
  ...{ doing: "drives" as const, since: null, mayBeLater: false },
};

describe("a breach", () => {
  it("that comes again says how often", () => {
    const sentence = (times: number) => said(hours.windowOver, { ...BREACH, times })[0];
    expect(sentence(1)).toBe(`wren drives ${from} to ${to}, after the end of the the rule`);
    expect(sentence(2)).toContain(`${to}, and 1 more time, after`);
    expect(sentence(3)).toContain(`${to}, and 2 more times, after`);
  });

  it("is mended by a later call only if the day has room for it", () => {
    const hints = (mayBeLater: boolean) => [
      said(hours.windowOver, { ...BREACH, mayBeLater })[1],
      said(hours.dutyTooLong, { ...BREACH, mayBeLater })[1],
    ];
    expect(hints(false)[0]).toBe("let someone else take the wheel before then");
    expect(hints(true)[0]).toBe("let someone else take the wheel before then, or call wren later");
    expect(hints(false)[1]).toBe("release wren earlier");
    expect(hints(true)[1]).toBe("release wren earlier, or call later");
  });

  it("of a break is a stop for who drives, and a meal for who works", () => {
    expect(said(hours.breakMissed, BREACH)[1]).toBe("plan a stop before then, or `relieve` the driver");
    expect(said(hours.breakMissed, { ...BREACH, doing: "works" })[1]).toBe("plan a meal before then");
  });
});

describe("a rest", () => {
  it("that is too short may be longer by a later call, or not", () => {
    const rest = {
      ...{ who: "wren", limit: "x.y", rule: "10 h", restMinutes: 540, neededMinutes: 600 },
      ...{ released: A, call: B, callFrom: B, releaseBy: A },
    };
    expect(said(hours.restTooShort, { ...rest, mayBeLater: true })[1]).toBe(
      "call wren later, or let someone else begin the day",
    );
    expect(said(hours.restTooShort, { ...rest, mayBeLater: false })[1]).toBe("let someone else begin the day");
  });

  it("that is not known is stated as a release, or as days off", () => {
    const facts = { who: "wren", rule: "10 h", needed: 600, evening: null, missing: [] };
    const log = "begin the log with the rest before, or state `before: { releasedAt: … }`";
    expect(said(hours.restNotStated, facts)).toEqual([
      "cannot check rest for wren: no last release given; needed: 10 h",
      log,
    ]);
    expect(said(hours.restNotStated, { ...facts, evening: "2027-01-19THH:MM-06:00" })[1]).toBe(
      "history: { wren: { released: 2027-01-19THH:MM-06:00 } } with the hour, or `follows` the day before",
    );
    const one = { ...facts, missing: ["2027-01-18"] };
    const off =
      "`history: { wren: { totals: { 2027-01-18: { duty: 0 h, driving: 0 h } } } }` for a day off, or a plan for that date";
    expect(said(hours.restNotStated, one)).toEqual([
      "2027-01-18 is unknown; wren must have been off duty then to keep this limit: 10 h",
      off,
    ]);
    expect(said(hours.restNotStated, { ...facts, missing: ["2027-01-17", "2027-01-18"] })[0]).toMatch(
      /^2027-01-17, 2027-01-18 are unknown; /u,
    );
    const both = (own: Parameters<typeof hours.restNotStated.raise>[0]) =>
      hours.restNotStated.raise(own).shared?.(["wren", "ilse"], say);
    expect(both(facts)).toEqual({
      sentence: "cannot check rest for wren, ilse (2): no last release given; needed: 10 h",
      hint: `${log}, and so for each`,
    });
    expect(both(one)).toEqual({
      sentence: "2027-01-18 is unknown; wren, ilse (2) must have been off duty then to keep this limit: 10 h",
      hint: `${off}, and so for each`,
    });
  });

  it("whose release comes after the call is corrected here, or on the day before", () => {
    const facts = { who: "wren", released: B, call: A, before: "2027-01-19T20:10" };
    expect(said(hours.releaseAfterCall, { ...facts, follows: false })[1]).toBe("`2027-01-19T20:10`, if that is meant");
    expect(said(hours.releaseAfterCall, { ...facts, follows: true })[1]).toBe(
      "call wren later, or correct the release on the day before",
    );
  });
});

describe("a meal that is late", () => {
  const meal = { ...BREACH, wait: null, waitTo: null, meals: 1, meal: null, nextMeal: null };

  it("is planned in a wait, at its one minute or from one to another; else earlier, or several", () => {
    expect(said(hours.mealLate, meal)[1]).toBe("plan a meal for wren earlier; no wait is long enough for one");
    expect(said(hours.mealLate, { ...meal, meals: 2 })[1]).toBe(
      "plan 2 meals for wren: one does not cover so long a day",
    );
    expect(said(hours.mealLate, { ...meal, meals: 2, meal: A, nextMeal: B })[1]).toBe(
      `plan 2 meals for wren, at ${from} and at ${to}, while they wait`,
    );
    expect(said(hours.mealLate, { ...meal, wait: A, waitTo: A })[1]).toBe(
      `plan a meal for wren at ${from}, while they wait`,
    );
    expect(said(hours.mealLate, { ...meal, wait: A, waitTo: B })[1]).toBe(
      `plan a meal for wren that begins from ${from} to ${to}, while they wait`,
    );
    expect(said(hours.mealLate, { ...meal, wait: A })[1]).toContain("no wait is long enough");
  });
});

describe("what is open", () => {
  it.each([
    ["a review", questions.hoursReview],
    ["a question of law", questions.lawOpen],
  ])("%s names a stretch of time where both ends are known", (_, definition) => {
    const facts = { who: "wren", question: "is it?", limit: null, from: A, to: B };
    expect(said(definition, facts)[0]).toBe(`wren, ${from} to ${to}: is it?`);
    expect(said(definition, { ...facts, from: null })[0]).toBe("wren: is it?");
    expect(said(definition, { ...facts, to: null })[0]).toBe("wren: is it?");
  });

  it("a moment before a log or after it", () => {
    const moment = { who: "wren", asked: A, from: A, to: B };
    expect(said(hours.momentOutside, { ...moment, before: true })).toEqual([
      `the log of wren begins at ${from}, so nothing is judged at ${from}`,
      `\`--at\` after ${from}, up to ${to}`,
    ]);
    expect(said(hours.momentOutside, { ...moment, before: false })).toEqual([
      `the log of wren ends at ${to} and is judged there, not at ${from}`,
      "state what followed, or leave `--at` out",
    ]);
  });
});

describe("how rested a driver is", () => {
  it("is an estimate unless stated, and mended by a later call if the day has room", () => {
    const sleep = { who: "wren", sleepMinutes: 300, stated: true, ratio: 1.9, from: A, mayBeLater: false };
    expect(said(fitness.sleepShort, sleep)).toEqual([
      `wren takes the wheel at ${from} after 5 h of sleep: crash rate 1.9 times that after 7 h`,
      "let someone who slept longer drive",
    ]);
    expect(said(fitness.sleepShort, { ...sleep, stated: false, mayBeLater: true })).toEqual([
      `wren takes the wheel at ${from} after an estimated 5 h of sleep: crash rate 1.9 times that after 7 h`,
      "let someone who slept longer drive, or call later",
    ]);
  });

  it("is put at a level of alcohol from 17 h on, and asks when they slept where that is assumed", () => {
    const awake = { who: "wren", awakeMinutes: 960, limitMinutes: 900, level: null, from: A, assumed: false };
    expect(said(fitness.wheelAwake, awake)).toEqual([
      "wren is at the wheel 16 h after getting up; the house limit is 15 h",
      "let someone else drive from then on",
    ]);
    expect(said(fitness.wheelAwake, { ...awake, level: "0.05 %", assumed: true })).toEqual([
      "wren is at the wheel 16 h after getting up (assumed: nothing states when); the house limit is 15 h, and tests put this at the level of 0.05 % blood alcohol",
      "let someone else drive from then on, or state when wren slept: `inBed`",
    ]);
  });
});
