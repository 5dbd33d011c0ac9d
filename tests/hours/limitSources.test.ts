/** `explain` of the codes of hours: rule set, clause, limit and source, from the rule sets themselves. */
import { expect, it } from "vitest";
import { codesOf } from "../../src/findings/catalogue.ts";
import * as found from "../../src/hours/findings.ts";
import * as fitness from "../../src/hours/fitness/findingsFitness.ts";
import { limitSourcesOf } from "../../src/hours/limitSources.ts";
import * as questions from "../../src/hours/questions/findingsQuestions.ts";
import { ALL_SETS, ruleSet } from "../../src/hours/rules/index.ts";
import { NO_OPTIONS } from "../../src/hours/rules/options.ts";
import { houseDefaults } from "../../src/plan/houseRules.ts";
import { ran } from "../cli/fakeIo.ts";

const hours = { ...found, ...fitness, ...questions };

const explained = async (code: string) => {
  const { out } = await ran(["explain", code, "--json"], { files: {} });
  return JSON.parse(out).data.rules.map((row: { set: string; clause: string; limit: string }) => [
    row.set,
    row.clause,
    row.limit,
  ]);
};

it("names the clauses of the law: 49 CFR 395.3(a)(2), 395.1(e)(2); Reg 561/2006 Art 7; SOR/2005-313 s. 14(1)", async () => {
  const window = await explained("window-over");
  expect(window).toContainEqual(["us-property", "49 CFR 395.3(a)(2)", "14 h window"]);
  expect(window).toContainEqual(["us-property", "49 CFR 395.1(e)(2)", "14 h window"]);
  // 395.1(b)(1): two hours more where adverse conditions are claimed.
  expect(window).toContainEqual(["us-property", "49 CFR 395.3(a)(2)", "16 h window"]);
  expect(await explained("break-missed")).toContainEqual([
    "eu",
    "Reg 561/2006 Art 7",
    "45 min break after 4 h 30 min driving",
  ]);
  expect(await explained("day-off-too-short")).toEqual([["ca-south", "SOR/2005-313 s.14(1)", "10 h off in the day"]]);
  // What no rule set decides says so: the house's own 14 h, and studies of groups.
  expect(await explained("awake-too-long-at-wheel")).toEqual([["house", "house rules", "no wheel after 14 h awake"]]);
  expect(await explained("night-driving")).toEqual([["fatigue", null, "at the wheel between midnight and 06:00"]]);
});

it("every code of hours has its table, and no other code has one of hours", async () => {
  expect(
    codesOf(hours)
      .filter(({ code }) => limitSourcesOf(code).length === 0)
      .map(({ code }) => code),
  ).toEqual([]);
  expect(limitSourcesOf("hit-missed")).toEqual([]);
});

it("questions stand with the set that asks them: the crossing under 561/2006 Art 9(1), the short meal under 29 CFR 785.19", async () => {
  const asked = (await explained("law-open-review"))
    .map(([set = "", , limit = ""]: string[]) => `${set}: ${limit}`)
    .join("\n");
  expect(asked).toContain("eu: a crossing with a berth");
  expect(asked).toContain("california: a meal of 21 to 29 min");
});

it("prints the table and the sources, within 80 columns", async () => {
  const { out } = await ran(["explain", "rest-too-short", "--width", "80"], { files: {} });
  expect(out).toContain("Rules behind it");
  expect(out).toContain("- us-property: Code of Federal Regulations, Title 49, Part 395");
  expect(out.split("\n").every((line) => line.length <= 80)).toBe(true);
});

it("every limit of every rule set stands under some code", () => {
  const known = codesOf(hours)
    .flatMap(({ code }) => limitSourcesOf(code))
    .map(({ set, limit }) => `${set} ${limit}`);
  const limits = ALL_SETS.flatMap((id) =>
    ruleSet(id, NO_OPTIONS, houseDefaults()).limits.map(({ title }) => `${id} ${title}`),
  );
  expect(limits.filter((one) => !known.includes(one))).toEqual([]);
});
