/** From what the hours say of a person to what the search for drivers compares. */
import { sumOf } from "../../lists.ts";
import type { Id } from "../../plan/plan.ts";
import type { Interval } from "../../time/units.ts";
import type { PersonVerdict } from "./problem.ts";

interface LimitHead {
  readonly id: string;
  readonly clause: string | null;
  readonly kind: "max" | "rest" | "makeUp";
}

/** What is read of a verdict under one rule set. */
export interface RulesVerdict {
  readonly limits: readonly { readonly limit: LimitHead; readonly leftMinutes: number | null }[];
  readonly breaches: readonly (Interval & { readonly limit: LimitHead; readonly minutes: number })[];
}

/**
 * Adds up the breaches of one person, later than `since`, under all rule sets that bind them; left is the smallest of what
 * limits leave. A rest has nothing left to spend: it is complete, or it is a breach.
 */
export function personVerdict(
  who: Id,
  verdicts: readonly RulesVerdict[],
  since = Number.NEGATIVE_INFINITY,
): PersonVerdict {
  const broken = new Map<string, { readonly clause: string | null; minutes: number }>();
  for (const { limit, minutes, to } of verdicts.flatMap(({ breaches }) => breaches)) {
    if (to <= since) continue;
    const entry = broken.get(limit.id) ?? { clause: limit.clause, minutes: 0 };
    entry.minutes += minutes;
    broken.set(limit.id, entry);
  }
  const lefts = verdicts.flatMap(({ limits }) =>
    limits.flatMap(({ limit, leftMinutes }) => (limit.kind === "max" && leftMinutes !== null ? [leftMinutes] : [])),
  );
  const breaches = [...broken].map(([limit, { clause, minutes }]) => ({ who, limit, clause, minutes }));
  return {
    breachMinutes: sumOf(breaches, ({ minutes }) => minutes),
    leftMinutes: Math.min(Number.POSITIVE_INFINITY, ...lefts),
    breaches,
  };
}
