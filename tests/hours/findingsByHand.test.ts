/** What findings of hours say of a record: room for a later call, since when a limit counts, law and house of one rest; by hand. */
import { describe, expect, it } from "vitest";
import type { Finding } from "../../src/findings/finding.ts";
import { judgeRecord } from "../../src/hours/judge/judge.ts";
import { personFindings } from "../../src/hours/judge/limitFindings.ts";
import type { RuleSet } from "../../src/hours/rules/rule.ts";
import { houseDefaults } from "../../src/plan/houseRules.ts";
import { DAYS, rulesOf, spansFrom, utc } from "./records.ts";

/** All findings of a record under rule sets, where a call has so many minutes of room. */
function findingsOf(sets: readonly RuleSet[], text: string, room: number | null = null): readonly Finding[] {
  const spans = spansFrom("18 00:00", text);
  const verdicts = sets.map((rules) => judgeRecord({ spans, before: [] }, rules, DAYS));
  return personFindings({
    ...{ hours: { id: "tomas", bindings: [], verdicts, disputed: [] }, spans, from: utc("18 00:00"), path: [] },
    ...{ startsReleased: true, missing: [], labour: [], offset: () => 0, atVenue: () => false },
    ...{ where: () => null, evening: () => null, callRoom: () => room },
    mealsFor: () => ({ count: 1, room: null, pair: null }),
  });
}

const house = (minutes: number) => rulesOf("house", [], { ...houseDefaults(), turnaround: minutes });
const factsOf = (all: readonly Finding[], code: string) =>
  all.filter((one) => one.code === code).map(({ facts }) => facts);

describe("a call after too short a rest", () => {
  // 9 h 20 min of the 10 h between two days: 40 min are missing.
  const later = (room: number | null) =>
    factsOf(findingsOf([house(600)], "off 12, duty 8, off 9:20, duty 1", room), "rest-too-short");

  it("may come later if it has room for what is missing, not for a minute less", () => {
    expect(later(40)).toEqual([expect.objectContaining({ restMinutes: 560, neededMinutes: 600, mayBeLater: true })]);
    expect(later(39)).toEqual([expect.objectContaining({ mayBeLater: false })]);
    expect(later(0)).toEqual([expect.objectContaining({ mayBeLater: false })]);
    expect(later(null)).toEqual([expect.objectContaining({ mayBeLater: true })]);
  });

  it("could come when the rest is whole, or the release before as much earlier", () => {
    // Released at 20:00 on the 18th and called at 05:20: from 06:00 on, or released by 19:20.
    expect(later(40)).toEqual([
      expect.objectContaining({
        ...{ released: { at: utc("18 20:00") }, call: { at: utc("19 05:20") } },
        ...{ callFrom: { at: utc("19 06:00") }, releaseBy: { at: utc("18 19:20") } },
      }),
    ]);
  });
});

describe("one rest that is too short for law and house", () => {
  // 14 h on duty up to midnight, and 9 h off: 49 CFR 395.3(a)(1) asks for 10 h before driving.
  const told = (turnaround: number) =>
    factsOf(
      findingsOf([house(turnaround), rulesOf("us-property")], "off 10, duty 14, off 9, driving 1"),
      "rest-too-short",
    ).map(({ limit }) => limit);

  it("is said once if the house asks for no more", () => {
    expect(told(600)).toEqual(["us-property.rest"]);
    expect(told(599)).toEqual(["us-property.rest"]);
  });

  it("is said twice if the house asks for a minute more", () => {
    expect([...told(601)].sort()).toEqual(["house.turnaround", "us-property.rest"]);
  });

  it("does not hide another fault that both have", () => {
    // 15 h at the wheel are too many for law (395.3(a)(3)(i), 11 h) and house (9 h a day), each by its own count.
    const both = findingsOf([house(600), rulesOf("us-property")], "off 10, driving 7, off 1, driving 7");
    expect(factsOf(both, "driving-too-long").map(({ limit, overMinutes }) => [limit, overMinutes])).toEqual([
      ["house.wheelDay", (14 - houseDefaults().wheelDay / 60) * 60],
      ["us-property.driving", 3 * 60],
    ]);
  });
});

describe("since when a limit counts", () => {
  // SOR/2005-313 s. 14(1): a day of 24 h with 8 h and 1 h off; from 22:00 on, 14 h after 08:00, no work is allowed.
  const found = findingsOf([rulesOf("ca-south")], "off 24, off 8, duty 14:30, off 1").filter(
    ({ code }) => code === "day-off-too-short",
  );

  it("is the day's beginning for what a whole day lacks", () => {
    expect(found.map(({ facts: { since, from } }) => [since, from])).toEqual([
      [{ at: utc("19 00:00") }, { at: utc("19 00:00") }],
    ]);
    expect(found.map(({ chain }) => chain.map(({ name, from, to }) => [name, from, to]))).toEqual([
      [
        ["10 h off in the day", utc("19 00:00"), utc("19 22:00")],
        ["beyond it", utc("19 00:00"), utc("20 00:00")],
      ],
    ]);
  });

  // 49 CFR 395.3(a)(3)(i), 11 h after 10 h off: 12 h from 10:00 on are over at 21:00.
  const drives = (text: string) =>
    findingsOf([rulesOf("us-property")], text).filter(({ code }) => code === "driving-too-long");

  it("is the end of the rest before the shift that goes on, and is not said of a shift before it", () => {
    const beyond = ["beyond it", utc("18 21:00"), utc("18 22:00")];
    const [now] = drives("off 10, driving 12");
    expect(now?.facts).toMatchObject({
      since: { at: utc("18 10:00") },
      from: { at: utc("18 21:00") },
      overMinutes: 60,
    });
    expect(now?.chain.map(({ from, to }) => [from, to])).toEqual([[utc("18 10:00"), utc("18 21:00")], beyond.slice(1)]);
    const [before] = drives("off 10, driving 12, off 10, driving 1");
    expect(before?.facts).toMatchObject({ since: null, from: { at: utc("18 21:00") }, overMinutes: 60 });
    expect(before?.chain.map(({ name, from, to }) => [name, from, to])).toEqual([beyond]);
  });
});
