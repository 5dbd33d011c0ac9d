/**
 * The law of identity: without an edit `--now` changes nothing, at every instant of a day, a minute before it and after it.
 * The chance of a hit is left aside, with the dark that it counts: a drive that is over varies no more.
 */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { judge, makeReport, type PlanReading, readPlan, solveDay } from "../../src/index.ts";
import { instant } from "../../src/time/units.ts";
import { random } from "../day/random.ts";
import { runs } from "../fuzz.ts";
import { figures, same } from "./days.ts";
import { ALL, FILES, read } from "./fixtures.ts";

const COMMANDS = ["calls", "hours", "power", "drives", "kit", "sheet"] as const;
/** Of each fixture every report is made at so many moments; in the fuzz at each. */
const MOMENTS = runs(2, 100_000);

type Read = Extract<PlanReading, { ok: true }>;

async function readFile(file: string): Promise<Read> {
  const reading = await readPlan(readFileSync(file, "utf8"), { file, files: { read } });
  if (!reading.ok) throw new Error(`${file} is no plan`);
  return reading;
}

async function solve(reading: Read, now: number | null) {
  const solved = await solveDay(reading, { now: now === null ? null : instant(now) });
  if (!solved.ok) throw new Error(solved.findings.map(({ code }) => code).join("; "));
  return solved;
}

/** What each command answers, without chances. */
async function answers(reading: Read, now: number | null): Promise<Readonly<Record<string, unknown>>> {
  const judged = await judge(await solve(reading, now));
  const findings = judged.findings.map(({ code, who, at, facts }) => ({ code, who, at, facts }));
  const said: Record<string, unknown> = { findings: findings.filter(({ code }) => !code.startsWith("chance")) };
  for (const name of COMMANDS) said[name] = withoutChance((await makeReport(name, judged)).data);
  return said;
}

const withoutChance = (data: unknown): unknown =>
  JSON.parse(
    JSON.stringify(data ?? null, (key, value) =>
      /chance|printed|^dark$|^hit$|^lowerBound$/i.test(key) ? undefined : value,
    ),
  );

/** Where nothing is logged: a fact after `--now` is left aside. */
const hasNoFacts = (file: string): boolean => !readFileSync(file, "utf8").includes("actual:");

describe.each(ALL.filter(hasNoFacts))("%s", (file) => {
  it("is the same day at every instant of it, a minute before and after", async () => {
    const reading = await readFile(file);
    const { day } = await solve(reading, null);
    const expected = figures(day);
    const moments = new Set([...day.instants.values()].flatMap((at) => [at - 1, at, at + 1]));
    for (const now of moments) expect(figures((await solve(reading, now)).day), `now ${now}`).toEqual(expected);
  });
});

describe.each(FILES.filter(hasNoFacts))("%s", (file) => {
  it("is answered the same by every command", async () => {
    const reading = await readFile(file);
    const { day } = await solve(reading, null);
    const moments = [...new Set([...day.instants.values()].flatMap((at) => [at - 1, at, at + 1]))];
    const dice = random(moments.length);
    const picked =
      MOMENTS >= moments.length ? moments : Array.from({ length: MOMENTS }, () => moments[dice(moments.length)]);
    const expected = await answers(reading, null);
    for (const now of picked) same(await answers(reading, now ?? null), expected, `now ${now}`);
  }, 3_600_000);
});
