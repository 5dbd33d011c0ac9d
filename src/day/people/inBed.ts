/** Sleep that is stated for a time in which somebody works. */
import type { Finding } from "../../findings/finding.ts";
import type { Plan, SpanKind } from "../../plan/plan.ts";
import { type Interval, instant } from "../../time/units.ts";
import type { PersonDay, PersonSpan } from "../day.ts";
import { inBedAtWork } from "../findings/findings.ts";

/** What somebody can sleep through. */
const IDLE: ReadonlySet<SpanKind> = new Set(["off", "riding", "berth", "ferry"]);

/** The first span of work in a stretch that is stated as slept; undefined where all of it can have been. */
export const firstWorkIn = (spans: readonly PersonSpan[], inBed: Interval): PersonSpan | undefined =>
  spans.find((span) => !IDLE.has(span.is) && span.from < inBed.to && span.to > inBed.from);

/** One for each stretch in bed, at the first work in it. */
export function asleepAtWork(plan: Plan, people: readonly PersonDay[]): readonly Finding[] {
  return people.flatMap(({ id, spans }) => {
    const logged = plan.actual.people.get(id)?.inBed ?? [];
    const stated = logged.length > 0 ? logged : (plan.crew.get(id)?.inBed ?? []);
    const path = logged.length > 0 ? ["actual", id, "inBed"] : ["crew", id, "inBed"];
    return stated.flatMap(({ from, to }) => {
      if (to === null) return [];
      const work = firstWorkIn(spans, { from, to });
      if (work === undefined) return [];
      const begins = { at: instant(Math.max(work.from, from)) };
      const facts = { who: id, from: { at: from }, to: { at: to }, doing: work.doing, begins };
      return [inBedAtWork.raise(facts, { who: id, path, at: begins.at })];
    });
  });
}
