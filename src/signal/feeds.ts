/** Feeds: whether what is sent goes through its path in the time the plan gives it. Its deadline `by` is the Day's edge. */

import type { Day } from "../day/day.ts";
import { feedMinutes } from "../day/feed.ts";
import type { Finding } from "../findings/finding.ts";
import type { Task } from "../plan/plan.ts";
import { feedRateMissing, feedTooSlow } from "./findings.ts";

/** Judges one feed. */
function feedFinding(day: Day, feed: Task): readonly Finding[] {
  const path = feed.signalPath === null ? undefined : day.plan.paths.get(feed.signalPath);
  const rate = path?.rateMegabits ?? null;
  if (path === undefined || rate === null || feed.sizeMegabytes === null) {
    return [feedRateMissing.raise({ feed: feed.id, path: path?.id ?? null }, { path: feed.path })];
  }
  const needs = feedMinutes(feed.sizeMegabytes, rate);
  const has = feed.forMinutes ?? needs;
  if (needs <= has) return [];
  const where = { path: [...feed.path, "for"], shortMinutes: needs - has };
  return [feedTooSlow.raise({ feed: feed.id, path: path.id, needs, has }, where)];
}

/** Judges every feed of the plan, in plan order. */
export const feedFindings = (day: Day): readonly Finding[] =>
  [...day.plan.tasks.values()].filter((task) => task.kind === "feed").flatMap((feed) => feedFinding(day, feed));
