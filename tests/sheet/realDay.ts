/** The demo assignment of `fixtures/days` as sheets: read, computed and judged as the program does. */
import { readFileSync } from "node:fs";
import { computeChain } from "../../src/day/chain.ts";
import { judge } from "../../src/index.ts";
import { legsOf } from "../../src/legs/legs.ts";
import { readChain } from "../../src/plan/index.ts";
import { wordingOf } from "../../src/reports/shared/wording.ts";
import { sheetFacts } from "../../src/reports/sheet/facts.ts";
import type { SheetRequest } from "../../src/reports/sheet/input.ts";

const FOLDER = "fixtures/days/";

/** Reads beside the plans, as the edge of the program does. */
const files = {
  read: (path: string) => ({ kind: "text" as const, text: readFileSync(path, "utf8") }),
};

/** The demo's day of this date, ready for a sheet. Throws where the plan is not read: then the fixture is broken. */
export async function realDay(date: string, more: Partial<SheetRequest> = {}): Promise<SheetRequest> {
  return dayOf(`${FOLDER}${date}.yaml`, more);
}

/** A plan's file, ready for a sheet. Throws where the plan is not read: then the fixture is broken. */
export async function dayOf(file: string, more: Partial<SheetRequest> = {}): Promise<SheetRequest> {
  const { plans } = await readChain(readFileSync(file, "utf8"), { file, files });
  if (plans === null) throw new Error(`${file} is not a plan`);
  const links = await Promise.all(plans.map(async (plan) => ({ plan, legs: await legsOf(plan) })));
  const { days } = computeChain(links);
  const judged = await judge({ days, now: null });
  const say = wordingOf(judged.day.plan, { people: judged.day.people });
  const rest = { say, desk: null, person: null, redact: false, changes: null };
  return { day: judged.day, facts: sheetFacts(judged), findings: judged.findings, ...rest, ...more };
}
