/** Hits before the plan's date: `06:00 local` where the day begins earlier than in the control room. */
import type { Finding } from "../findings/finding.ts";
import type { Plan } from "../plan/plan.ts";
import { startOnClock } from "../time/index.ts";
import { hitBeforeDate } from "./findings/findingsIdle.ts";

/** Findings for hits before the plan's own date. */
export function earlyHits(plan: Plan): readonly Finding[] {
  const begins = startOnClock(plan.date, 0, plan.clock);
  return [...plan.hits.values()].flatMap((hit) => {
    if (hit.at >= begins) return [];
    const facts = { hit: hit.id, at: { at: hit.at }, date: plan.date };
    return [hitBeforeDate.raise(facts, { path: [...hit.path, "at"], at: hit.at })];
  });
}
