/**
 * Neighbours of `12:00 tomorrow` and of a missing brace: a time with a weekday or a day in words is never read as one in
 * another zone or on another day, and what is proposed, put in, is read. 2027-01-20 is a Wednesday.
 */
import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { readPlan } from "../../src/index.ts";
import { plainWording } from "../../src/reports/shared/wording.ts";

const PLAN = readFileSync("fixtures/cases/contract/pt.yaml", "utf8");
const files = { read: () => ({ kind: "missing", near: [] }) as const };

async function mistakes(text: string) {
  const { findings } = await readPlan(text, { file: "day.yaml", files });
  return findings
    .filter(({ level }) => level === "error")
    .map((one) => [one.code, one.hint?.(plainWording) ?? null] as const);
}

const at = (time: string): string => PLAN.replace('"07:00 PT"', time);

it.each([
  ["07:00 Thu", '"07:00 +1d"'],
  ["Thu 07:00", '"07:00 +1d"'],
  ["Thursday, 07:00", '"07:00 +1d"'],
  ["07:00 Wednesday", '"07:00"'],
  ["07:00 Tue", '"07:00 -1d"'],
  ["07:00 Mon", '"07:00 +5d"'],
  ["07:00 next day", '"07:00 +1d"'],
  ["07:00 the following morning", '"07:00 +1d"'],
  ["tonight 19:00", '"19:00"'],
  ["19:00 this evening", '"19:00"'],
] as const)("%s", async (time, fix) => {
  expect(await mistakes(at(`"${time}"`))).toEqual([["time-bad", fix]]);
  expect(await mistakes(at(fix))).toEqual([]);
});

it("a clock of the plan may be called like a day", async () => {
  const named = at('"07:00 SAT"').replace("crew:", "labels: { SAT: America/Chicago }\ncrew:");
  expect(await mistakes(named)).toEqual([]);
});

it("an entry that lacks its opening brace alone gets that one", async () => {
  const entry = 'dawn: { at: "07:00", for: 3 min, place: pier }';
  const whole = at('"07:00"');
  expect(whole).toContain(entry);
  const broken = whole.replace(entry, entry.replace("{ ", ""));
  expect(await mistakes(broken)).toEqual([["yaml-colon-in-text", entry]]);
});
