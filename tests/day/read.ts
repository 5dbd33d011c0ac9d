/** A fixture read from disk and computed with the days it follows. */
import { readFileSync } from "node:fs";
import { computeChain } from "../../src/day/chain.ts";
import type { Day } from "../../src/day/index.ts";
import { type FileReading, readChain } from "../../src/plan/index.ts";
import { legsOf } from "../../src/roads/legs.ts";

const read = (path: string): FileReading => {
  try {
    return { kind: "text", text: readFileSync(path, "utf8") };
  } catch {
    return { kind: "missing" };
  }
};

/** The last day of the chain that `file` ends, or of `text` in its place; throws what is mistaken. */
export async function dayOfFile(file: string, text = readFileSync(file, "utf8")): Promise<Day> {
  const { plans, findings } = await readChain(text, { file, files: { read } });
  if (plans === null)
    throw new Error(findings.map((finding) => `${finding.code} line ${finding.span?.line}`).join("; "));
  const links = await Promise.all(plans.map(async (plan) => ({ plan, legs: (await legsOf(plan)).legs })));
  const chain = computeChain(links);
  const day = chain.days.at(-1);
  if (day === undefined || chain.findings.length > 0)
    throw new Error(chain.findings.map((finding) => finding.code).join("; "));
  return day;
}
