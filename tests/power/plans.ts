/** Plans as text, read and computed into chains of days, for tests of the batteries. */
import { readFileSync } from "node:fs";
import { computeChain } from "../../src/day/chain.ts";
import type { Day } from "../../src/day/index.ts";
import { legsOf } from "../../src/legs/legs.ts";
import { readChain } from "../../src/plan/index.ts";

/** Computes the chain that ends with this plan. Throws with the mistakes where it cannot be read or computed. */
export async function daysOf(text: string, others: ReadonlyMap<string, string> = new Map()): Promise<readonly Day[]> {
  const files = {
    read: (path: string) => {
      const found = others.get(path);
      return found === undefined ? ({ kind: "missing", near: [] } as const) : ({ kind: "text", text: found } as const);
    },
  };
  const { plans, findings } = await readChain(text, { file: "day.yaml", files });
  if (plans === null) throw new Error(findings.map((one) => `${one.code} ${JSON.stringify(one.facts)}`).join("; "));
  const links = await Promise.all(plans.map(async (plan) => ({ plan, legs: await legsOf(plan) })));
  const chain = computeChain(links);
  if (chain.days.length < plans.length) throw new Error(chain.findings.map((one) => one.code).join("; "));
  return chain.days;
}

/** The demo assignment's day of this date. */
export async function demoDays(date: string): Promise<readonly Day[]> {
  const folder = new URL("../../fixtures/days/", import.meta.url);
  const names = ["assignment.yaml", "2027-01-19.yaml", "2027-01-20.yaml", "2027-01-21.yaml"];
  const texts = new Map(names.map((name) => [name, readFileSync(new URL(name, folder), "utf8")]));
  return daysOf(texts.get(`${date}.yaml`) ?? "", texts);
}
