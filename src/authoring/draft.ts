/** A plan while it is asked for: what an answer makes wrong, as the plan's own reader finds it. */
import type { Finding } from "../findings/finding.ts";
import { readOnePlan } from "../plan/index.ts";
import { firstPlan } from "./first.ts";
import type { FirstPlan } from "./start.ts";

/** Stands where nothing is answered yet; nothing of it reaches a plan that is written. */
export const UNANSWERED: FirstPlan = {
  date: "2027-01-20",
  clock: "UTC",
  zone: "UTC",
  title: null,
  bed: "not-answered-yet",
  released: null,
  people: [],
  vehicles: [],
  drives: [],
  hits: [],
};

/** What the drives, which are asked for last, may yet put right. */
const isOpen = ({ code, path }: Finding): boolean => path?.[0] === "runs" || code === "hit-unattended";

async function mistakesOf(start: FirstPlan): Promise<readonly Finding[]> {
  const { findings } = await readOnePlan(firstPlan(start), { file: null });
  return findings.filter((finding) => finding.level === "error" && !isOpen(finding));
}

const same = (a: Finding, b: Finding): boolean => a.code === b.code && a.path?.join(".") === b.path?.join(".");

/** The first mistake that `after` has and `before` has not: that of the answer between them. Null where it is sound. */
export async function mistakeOf(before: FirstPlan, after: FirstPlan): Promise<Finding | null> {
  const known = await mistakesOf(before);
  return (await mistakesOf(after)).find((one) => !known.some((other) => same(one, other))) ?? null;
}
