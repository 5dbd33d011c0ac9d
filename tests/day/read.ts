/** A fixture read from disk and computed with the days it follows. */
import { readFileSync } from "node:fs";
import { computeChain } from "../../src/day/chain.ts";
import type { Day } from "../../src/day/index.ts";
import type { Finding } from "../../src/findings/finding.ts";
import { legsOf } from "../../src/legs/legs.ts";
import { type FileReading, readChain } from "../../src/plan/index.ts";

const read = (path: string): FileReading => {
  try {
    return { kind: "text", text: readFileSync(path, "utf8") };
  } catch {
    return { kind: "missing", near: [] };
  }
};

const said = (findings: readonly Finding[]): string =>
  findings.map(({ code, span }) => `${code} line ${span?.line}`).join("; ");

/** The chain of days that `file` ends, or `text` in its place, oldest first; throws what is mistaken. */
export async function daysOfFile(file: string, text = readFileSync(file, "utf8")): Promise<readonly Day[]> {
  const { plans, findings } = await readChain(text, { file, files: { read } });
  if (plans === null) throw new Error(said(findings));
  const links = await Promise.all(plans.map(async (plan) => ({ plan, legs: await legsOf(plan) })));
  const chain = computeChain(links);
  if (chain.findings.length > 0) throw new Error(said(chain.findings));
  return chain.days;
}

/** The last of them. */
export async function dayOfFile(file: string, text?: string): Promise<Day> {
  const day = (await daysOfFile(file, text)).at(-1);
  if (day === undefined) throw new Error(`${file} has no day`);
  return day;
}
