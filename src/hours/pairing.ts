/** Which rests make a pair where three or more qualify: the text leaves it open, so every reading is judged and the stricter one holds. */
import { type Breach, type JudgeOptions, judge, type Verdict } from "./judge.ts";
import type { Limit, RuleSet, Since } from "./rule.ts";
import { pairingIsOpen } from "./sinceRest.ts";
import type { Calendar, HoursRecord } from "./spans.ts";

/** A record held against one rule set, in each reading of it that the record gives room for. */
export interface Readings {
  /** The one with the most minutes in breach; the first where they are alike. */
  readonly strictest: Verdict;
  readonly all: readonly Verdict[];
}

const earliestIn = (since: Since): Since =>
  since.kind === "rest" && since.split !== undefined
    ? { ...since, split: { ...since.split, with: "earliest" } }
    : since;

const limitIn = (limit: Limit): Limit =>
  limit.kind === "max" ? { ...limit, since: limit.since.map(earliestIn) } : limit;

/** The rules with each rest paired with the earliest that fits instead of the latest. */
export const pairedEarliest = (rules: RuleSet): RuleSet => ({
  ...rules,
  shift: rules.shift === null ? null : earliestIn(rules.shift),
  limits: rules.limits.map(limitIn),
});

export const minutesOver = ({ breaches }: Pick<Verdict, "breaches">): number =>
  breaches.reduce((sum, { from, to }) => sum + to - from, 0);

/** Judges a record by a rule set in every reading. */
export function judgeReadings(
  record: HoursRecord,
  rules: RuleSet,
  calendar: Calendar,
  options: JudgeOptions = {},
): Readings {
  const latest = judge(record, rules, calendar, options);
  if (rules.shift?.kind !== "rest" || !pairingIsOpen(latest.rests, rules.shift)) {
    return { strictest: latest, all: [latest] };
  }
  const earliest = judge(record, pairedEarliest(rules), calendar, options);
  return { strictest: minutesOver(earliest) > minutesOver(latest) ? earliest : latest, all: [latest, earliest] };
}

const same = (a: Breach, b: Breach): boolean => a.limit.id === b.limit.id && a.from === b.from && a.to === b.to;

/** The first breach of the strictest reading that another one does not have; null where they agree. */
export function differs({ strictest, all }: Readings): Breach | null {
  const others = all.filter((verdict) => verdict !== strictest);
  return (
    strictest.breaches.find((breach) => others.some(({ breaches }) => !breaches.some((b) => same(b, breach)))) ?? null
  );
}
