/** Days for tests of light, signal, kit and cautions, made the whole way: text, plan, legs, day. */
import { computeDay, type Day } from "../../src/day/index.ts";
import type { Finding, Wording } from "../../src/findings/finding.ts";
import type { JudgeInput } from "../../src/findings/judgement.ts";
import { legsOf } from "../../src/legs/legs.ts";
import { readOnePlan } from "../../src/plan/index.ts";
import { wordingOf } from "../../src/reports/shared/wording.ts";

const told = (findings: readonly Finding[], say: Wording): string =>
  findings.map((own) => `${own.code}: ${own.sentence(say)}`).join("\n");

const plain: Wording = { time: String, clock: String, length: String, name: (id) => id };

/** The day of a plan's text; a plan that cannot be read or timed is a mistake in the test. */
export async function dayFrom(text: string): Promise<Day> {
  const { plan, findings } = await readOnePlan(text, { file: "day.yaml" });
  if (plan === null) throw new Error(told(findings, plain));
  const { day, findings: timed } = computeDay(plan, await legsOf(plan));
  if (day === null) throw new Error(told(timed, wordingOf(plan)));
  return day;
}

export const inputOf = (...days: readonly Day[]): JudgeInput => ({ days, patience: 1, now: null });

/** The findings of one code, as sentences. */
export const sentences = (findings: readonly Finding[], code: string, day: Day): readonly string[] =>
  findings.filter((finding) => finding.code === code).map((finding) => finding.sentence(wordingOf(day.plan)));

/** A winter day by the ice: one wagon, one hit at the pier. Lines after the first replace those that begin alike. */
export function plan(...lines: readonly string[]): string {
  const base = [
    "daywright: 1",
    "date: 2027-01-20",
    "clock: America/New_York",
    "zone: America/Chicago",
    "crew: { wren: { role: camera, drives: wagon }, ilse: { role: reporter } }",
    "vehicles: { wagon: {} }",
    "places: { lodge: { at: [46.60, -90.88] }, pier: { at: [46.81, -90.82], signal: good } }",
    "roads: [{ link: [lodge, pier], drive: 35 min, bad: 50 min }]",
    'hits: { dawn: { at: "07:00", for: 3 min, place: pier } }',
    "runs: { wagon: [lodge, pier, lodge] }",
  ];
  const key = (line: string): string => line.slice(0, line.indexOf(":"));
  const own = new Map(lines.map((line) => [key(line), line]));
  const kept = base.filter((line) => !own.has(key(line)));
  return [...kept, ...own.values()].join("\n");
}
