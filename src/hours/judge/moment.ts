/** A moment at which a log is to be judged, and which it does not reach: what is judged instead is said. */
import type { Finding } from "../../findings/finding.ts";
import type { LogPerson } from "../../plan/log/log.ts";
import type { Instant } from "../../time/units.ts";
import { momentOutside } from "../findings.ts";

/** What to tell where nothing of a person's log lies before `at`, or it ends earlier; nothing where `at` is inside. */
export function momentOutsideOf({ id, path, spans }: LogPerson, at: Instant | null): readonly Finding[] {
  const from = spans[0]?.from;
  const to = spans.at(-1)?.to;
  if (at === null || from === undefined || to === undefined || (at > from && at <= to)) return [];
  const facts = { who: id, asked: { at }, from: { at: from }, to: { at: to }, before: at <= from };
  return [momentOutside.raise(facts, { who: id, path })];
}
