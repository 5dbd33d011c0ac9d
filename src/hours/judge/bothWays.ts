/** A record in which something is open, judged by the strict reading; what only that breaks is set apart. */
import { judgeReadings, type Readings } from "../count/pairing.ts";
import type { Calendar, HoursRecord, LogSpan } from "../count/spans.ts";
import type { RuleSet } from "../rules/rule.ts";
import type { Breach, RecordOptions, Verdict } from "./judge.ts";
import type { LimitState } from "./limitState.ts";
import { spansUnknown } from "./unknown.ts";

const same = (a: Breach, b: Breach): boolean => a.limit.id === b.limit.id && a.from === b.from && a.to === b.to;

const lacking = (breaches: readonly Breach[], others: readonly Breach[]): readonly Breach[] =>
  breaches.filter((breach) => !others.some((other) => same(breach, other)));

const known = (span: LogSpan): LogSpan => ({ ...span, unknown: false });

/** Figures that reach over unknown time are a least. */
function atLeast(state: LimitState, { rests, record }: Verdict): LimitState {
  const unknown = record.spans.filter((span) => span.unknown === true);
  const since = state.countsFrom;
  const rest = rests.at(-1);
  const over =
    since === null
      ? rest !== undefined && state.limit.kind === "rest" && unknown.some(({ to }) => to === rest.from)
      : spansUnknown(unknown, since);
  return over ? { ...state, atLeast: true } : state;
}

/**
 * Judges a record. Unknown time is no rest: what would be lawful if it were is `notStated`, not a breach. Driving for
 * oneself is neither work nor rest: what would be lawful if it were off duty is a question.
 */
export function judgedBothWays(
  record: HoursRecord,
  rules: RuleSet,
  calendar: Calendar,
  options: RecordOptions,
): Readings {
  const strict = judgeReadings(record, rules, calendar, options);
  let { breaches, reviews } = strict.strictest;
  let notStated: readonly Breach[] = [];
  let base = record;
  if (record.spans.some(({ unknown }) => unknown === true)) {
    base = { ...record, spans: record.spans.map(known) };
    const free = judgeReadings(base, rules, calendar, options).strictest.breaches;
    notStated = lacking(breaches, free);
    breaches = free;
  }
  const question = rules.asks.personalBreach;
  if (question !== undefined && record.spans.some(({ is }) => is === "personal")) {
    const offDuty = { ...rules, statuses: { ...rules.statuses, personal: "off" as const } };
    const free = judgeReadings(base, offDuty, calendar, options).strictest.breaches;
    reviews = [...reviews, ...lacking(breaches, free).map((breach) => ({ ...breach, question }))];
    breaches = free;
  }
  const limits = strict.strictest.limits.map((state) => atLeast(state, strict.strictest));
  const strictest = { ...strict.strictest, limits, breaches, reviews, notStated };
  return { strictest, all: strict.all.map((verdict) => (verdict === strict.strictest ? strictest : verdict)) };
}
