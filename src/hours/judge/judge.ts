/** The one mechanism: a record held against a rule set's limits. Pure, whole minutes, linear in spans. */
import { type Instant, type Interval, instant } from "../../time/units.ts";
import type { CountingInput, CountingPeriod, MaxContext } from "../count/countingPeriods.ts";
import { owedFor } from "../count/exceptions.ts";
import { type RestRun, readSpans } from "../count/reading.ts";
import { countingPeriodsOf } from "../count/since.ts";
import { dailyRests } from "../count/sinceDailyRest.ts";
import type { Calendar, HoursRecord } from "../count/spans.ts";
import { tallies, tallyOf } from "../count/tally.ts";
import { type WeeklyRests, weeklyRests } from "../count/weekly.ts";
import type { Limit, RuleSet } from "../rules/rule.ts";
import { type BreachPiece, judgeMax, type MaxFound } from "./judgeMax.ts";
import { type RestContext, restPieces, restStates } from "./judgeRest.ts";
import type { LimitState } from "./limitState.ts";

/** Minutes in which something forbidden was done. */
export interface Breach extends Interval {
  readonly limit: Limit;
  /** The first minute of it: later than `from` only where the breach is of a whole day. */
  readonly bites: Instant;
  /** The first minute of each of the days or stretches that touch and are reported as one; in order. */
  readonly eachBites: readonly Instant[];
  /** For each of them, from when on it was forbidden: what was allowed was used up, perhaps in a pause before. */
  readonly eachForbidden: readonly Instant[];
  readonly clause: string;
  /** What is too much or missing: less than the stretch where a whole day is in breach. */
  readonly minutes: number;
  /** What has to be answered before it is one. */
  readonly question?: string;
}

/** What one rule set says of a record: limits, breaches, rests. */
export interface Verdict {
  readonly rules: RuleSet;
  /** What was judged, and the days it was counted in. */
  readonly record: HoursRecord;
  readonly calendar: Calendar;
  readonly limits: readonly LimitState[];
  /** In time order, then in the order of the limits. */
  readonly breaches: readonly Breach[];
  /** What would be a breach if a question that the rules leave open were answered so. */
  readonly reviews: readonly Breach[];
  /** What would be lawful if a day of which nothing is known was free. */
  readonly notStated?: readonly Breach[];
  /** The start of the last shift with work in it; null where there is none, or no shift in these rules. */
  readonly shiftFrom: Instant | null;
  /** All rests of the record, for asking whether one is complete. */
  readonly rests: readonly RestRun[];
  readonly shifts: readonly CountingPeriod[];
  /** Daily rests that were too short and yet ended the count of driving. */
  readonly shortRests: readonly RestRun[];
  /** Null where the rules ask for no make-up of weekly rests. */
  readonly weekly: WeeklyRests | null;
}

/** Until when a record is known, and when the person is called again. */
export interface RecordOptions {
  /** What lies behind it is supposed, not known: a shift is not late because of it. Default: the end of the record. */
  readonly knownUntil?: Instant;
  /** Work that begins at the very end of the record: a call that may come before a rest is complete. */
  readonly calledAt?: Instant;
}

function joined(pieces: readonly BreachPiece[], limit: Limit): Breach[] {
  const done: (Breach & {
    to: Instant;
    bites: Instant;
    eachBites: Instant[];
    eachForbidden: Instant[];
    minutes: number;
  })[] = [];
  for (const { from, to, bites, usedUpAt = bites, clause = limit.clause, minutes = to - from } of [...pieces].sort(
    (a, b) => a.from - b.from,
  )) {
    const last = done.at(-1);
    if (last !== undefined && from <= last.to) {
      last.minutes += minutes - Math.max(0, Math.min(last.to, to) - from);
      last.to = instant(Math.max(last.to, to));
      last.bites = instant(Math.min(last.bites, bites));
      last.eachBites.push(bites);
      last.eachForbidden.push(usedUpAt);
    } else done.push({ from, to, bites, eachBites: [bites], eachForbidden: [usedUpAt], limit, clause, minutes });
  }
  return done;
}

const inOrder =
  (limits: readonly Limit[]) =>
  (a: Breach, b: Breach): number =>
    a.from - b.from || limits.indexOf(a.limit) - limits.indexOf(b.limit);

/** The start of the last shift that has work in it. */
function lastShift(context: MaxContext): Instant | null {
  const shift = context.shifts.findLast(({ from, to }) => context.counts.duty.within(from, to).length > 0);
  return shift?.anchor ?? null;
}

interface Found {
  readonly context: RestContext;
  readonly byLimit: ReadonlyMap<Limit, MaxFound>;
}

function foundIn(record: HoursRecord, rules: RuleSet, calendar: Calendar, options: RecordOptions): Found | null {
  const start = record.spans[0]?.from;
  const end = record.spans.at(-1)?.to;
  if (start === undefined || end === undefined) return null;
  const reading = readSpans(record.spans, rules);
  const input: CountingInput = { reading, rules, calendar, before: record.before, start, end };
  const shifts = rules.shift === null ? [] : countingPeriodsOf(input, rules.shift);
  const commercial = tallyOf(reading.stretches.filter((stretch) => stretch.commercial));
  const work = tallyOf(reading.stretches.filter(({ status }) => status === "duty" || status === "driving"));
  const knownUntil = options.knownUntil ?? end;
  const context: MaxContext = { input, counts: tallies(reading, rules), work, commercial, shifts, knownUntil };
  const byLimit = new Map(
    rules.limits.flatMap((limit) => (limit.kind === "max" ? [[limit, judgeMax(limit, context)] as const] : [])),
  );
  const makeUp = rules.limits.flatMap((limit) => (limit.kind === "makeUp" ? [limit.makeUp] : []))[0];
  if (makeUp === undefined) return { context: { ...context, weekly: null }, byLimit };
  const excused = [...byLimit.values()].flatMap((found) => found.excused);
  const owed = owedFor(excused, makeUp, context);
  const weekly = weeklyRests(input, makeUp, owed, options.calledAt !== undefined);
  return { context: { ...context, weekly }, byLimit };
}

/**
 * Judges a record by one rule set at the record's end. A limit reached exactly is lawful; breaches name the minutes of
 * driving or work beyond it. An empty record has no breaches and no limits.
 */
export function judgeRecord(
  record: HoursRecord,
  rules: RuleSet,
  calendar: Calendar,
  options: RecordOptions = {},
): Verdict {
  const all = foundIn(record, rules, calendar, options);
  if (all === null) {
    return {
      rules,
      record,
      calendar,
      limits: [],
      breaches: [],
      reviews: [],
      shiftFrom: null,
      rests: [],
      shifts: [],
      shortRests: [],
      weekly: null,
    };
  }
  const { context, byLimit } = all;
  const { limits } = rules;
  const pieces = new Map<string, BreachPiece[]>(limits.map(({ id }) => [id, []]));
  const open = new Map<string, BreachPiece[]>();
  const states: LimitState[] = [];
  const add = (to: Map<string, BreachPiece[]>, id: string, more: readonly BreachPiece[]): void => {
    to.set(id, [...(to.get(id) ?? []), ...more]);
  };
  for (const limit of limits) {
    if (limit.kind !== "max") {
      states.push(...restStates(limit, context));
      add(pieces, limit.id, restPieces(limit, context, options.calledAt));
      continue;
    }
    const found = byLimit.get(limit);
    if (found === undefined) continue;
    states.push(found.state);
    add(pieces, limit.id, found.pieces);
    add(open, limit.id, found.open);
    if (limit.asRest !== undefined) add(pieces, limit.asRest.id, found.asRest);
  }
  const gather = (of: Map<string, BreachPiece[]>): Breach[] =>
    limits.flatMap((limit) => joined(of.get(limit.id) ?? [], limit)).sort(inOrder(limits));
  const shiftFrom = lastShift(context);
  const { rests } = context.input.reading;
  return {
    rules,
    record,
    calendar,
    limits: states,
    breaches: gather(pieces),
    reviews: gather(open),
    shiftFrom,
    rests,
    shifts: context.shifts,
    shortRests: rules.shift?.kind === "dailyRest" ? dailyRests(context.input, rules.shift).short : [],
    weekly: context.weekly,
  };
}
