/** Which rests make a pair where three or more qualify: the text leaves it open, so every reading is judged and the stricter one holds. */
import { sumOf } from "../../lists.ts";
import { type Breach, judgeRecord, type RecordOptions, type Verdict } from "../judge/judge.ts";
import type { Limit, RuleSet, Since } from "../rules/rule.ts";
import { waysToPair } from "./sinceRest.ts";
import type { Calendar, HoursRecord } from "./spans.ts";

/** A record held against one rule set, in each reading of it that the record gives room for. */
export interface Readings {
  /** The one with the most minutes in breach; the first where they are alike. */
  readonly strictest: Verdict;
  readonly all: readonly Verdict[];
}

const choosingIn =
  (choices: readonly number[]) =>
  (since: Since): Since =>
    since.kind === "rest" && since.split !== undefined ? { ...since, split: { ...since.split, choices } } : since;

/** The rules with the pairs chosen so wherever a rest fits several. */
export function choosing(rules: RuleSet, choices: readonly number[]): RuleSet {
  const chosen = choosingIn(choices);
  const limitIn = (limit: Limit): Limit =>
    limit.kind === "max" ? { ...limit, since: limit.since.map(chosen) } : limit;
  return { ...rules, shift: rules.shift === null ? null : chosen(rules.shift), limits: rules.limits.map(limitIn) };
}

/** Minutes over all limits. */
export const minutesOver = ({ breaches }: Pick<Verdict, "breaches">): number =>
  sumOf(breaches, ({ minutes }) => minutes);

/**
 * Judges a record by a rule set in every reading. Which rests are paired between two full ones changes nothing before or
 * after these, so each such stretch is read in every way on its own, and then all in their strictest one.
 */
export function judgeReadings(
  record: HoursRecord,
  rules: RuleSet,
  calendar: Calendar,
  options: RecordOptions = {},
): Readings {
  const latest = judgeRecord(record, rules, calendar, options);
  const stretches = rules.shift?.kind === "rest" ? waysToPair(latest.rests, rules.shift) : [];
  const chosen = stretches.map(([first = []]) => first);
  const all = [latest];
  let strictest = latest;
  stretches.forEach((ways, n) => {
    for (const way of ways.slice(1)) {
      const tried = chosen.map((other, i) => (i === n ? way : other));
      const verdict = judgeRecord(record, choosing(rules, tried.flat()), calendar, options);
      all.push(verdict);
      if (minutesOver(verdict) <= minutesOver(strictest)) continue;
      strictest = verdict;
      chosen[n] = way;
    }
  });
  return { strictest, all };
}

const same = (a: Breach, b: Breach): boolean => a.limit.id === b.limit.id && a.from === b.from && a.to === b.to;

/** The first breach of the strictest reading that another one does not have; null where they agree. */
export function differs({ strictest, all }: Readings): Breach | null {
  const others = all.filter((verdict) => verdict !== strictest);
  return (
    strictest.breaches.find((breach) => others.some(({ breaches }) => !breaches.some((b) => same(b, breach)))) ?? null
  );
}
