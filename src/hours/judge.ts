/** The one mechanism: a record held against a rule set's limits. Pure, whole minutes, linear in spans. */
import { type Instant, type Interval, instant } from "../time/units.ts";
import type { Epoch, EpochInput } from "./epoch.ts";
import { judgeMax, type MaxContext, type Piece } from "./judgeMax.ts";
import { parts, type RestRun, readSpans } from "./reading.ts";
import type { Limit, RestLimit, RuleSet } from "./rule.ts";
import { epochsOf } from "./since.ts";
import type { Calendar, HoursRecord } from "./spans.ts";
import { tallies, tallyOf } from "./tally.ts";

/** How a limit stands at the end of the record. */
export interface LimitState {
  readonly limit: Limit;
  /** For a rest: the minutes it must have. */
  readonly allowedMinutes: number;
  /** For a rest: the minutes taken; null where nothing is known of it. */
  readonly usedMinutes: number | null;
  readonly leftMinutes: number | null;
  /** When nothing will be left if what it counts goes on; in the past where nothing is left; null where nothing runs. */
  readonly runsOutAt: Instant | null;
  /** From when on it counts; null for a rest. */
  readonly countsFrom: Instant | null;
}

/** Minutes in which something forbidden was done. */
export interface Breach extends Interval {
  readonly limit: Limit;
  /** The first minute of it: later than `from` only where the breach is of a whole day. */
  readonly bites: Instant;
  /** The first minute of each of the days or stretches that touch and are told as one; in order. */
  readonly eachBites: readonly Instant[];
  /** For each of them, from when on it was forbidden: what was allowed was used up, perhaps in a pause before. */
  readonly eachForbidden: readonly Instant[];
}

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
  /** The start of the last shift with work in it; null where there is none, or no shift in these rules. */
  readonly shiftFrom: Instant | null;
  /** All rests of the record, for asking whether one is complete. */
  readonly rests: readonly RestRun[];
  readonly shifts: readonly Epoch[];
}

export interface JudgeOptions {
  /** What lies behind it is supposed, not known: a shift is not late because of it. Default: the end of the record. */
  readonly knownUntil?: Instant;
  /** Work that begins at the very end of the record: a call that may come before a rest is complete. */
  readonly calledAt?: Instant;
}

function joined(pieces: readonly Piece[], limit: Limit): Breach[] {
  const done: (Breach & { to: Instant; bites: Instant; eachBites: Instant[]; eachForbidden: Instant[] })[] = [];
  for (const { from, to, bites, usedUpAt = bites } of [...pieces].sort((a, b) => a.from - b.from)) {
    const last = done.at(-1);
    if (last !== undefined && from <= last.to) {
      last.to = instant(Math.max(last.to, to));
      last.bites = instant(Math.min(last.bites, bites));
      last.eachBites.push(bites);
      last.eachForbidden.push(usedUpAt);
    } else done.push({ from, to, bites, eachBites: [bites], eachForbidden: [usedUpAt], limit });
  }
  return done;
}

const lengthOf = ({ from, to }: Interval): number => to - from;

/** Working again before a rest that parts two shifts is complete, until it would have been. */
function shortRests(limit: RestLimit, context: MaxContext, calledAt: Instant | undefined): Piece[] {
  const pieces: Piece[] = [];
  let shorterBefore = limit.afterShorter !== true;
  for (const run of context.input.reading.rests) {
    const length = lengthOf(run);
    if (!parts(run, limit.parting)) continue;
    if (length < limit.requires && shorterBefore) {
      const until = instant(run.from + limit.requires);
      const work = limit.forbids === "work" ? context.work : context.counts.driving;
      if (run.to === calledAt) pieces.push({ from: run.to, to: until, bites: run.to });
      else pieces.push(...work.within(run.to, until).map(({ from, to }) => ({ from, to, bites: from })));
    }
    if (limit.afterShorter === true) shorterBefore = length < limit.requires;
  }
  return pieces;
}

/** Driving in a shift that no known rest precedes. */
const unrested = (context: MaxContext): Piece[] =>
  context.shifts
    .filter(({ rested }) => !rested)
    .flatMap(({ from, to }) => context.counts.driving.within(from, to))
    .map(({ from, to }) => ({ from, to, bites: from }));

/** The rest that a view calls the rest before: the last that parts shifts, or the one still running. */
function lastRest(limit: RestLimit, context: MaxContext): number | null {
  const { rests } = context.input.reading;
  for (let i = rests.length - 1; i >= 0; i--) {
    const run = rests[i];
    if (run !== undefined && parts(run, limit.parting)) return lengthOf(run);
  }
  return null;
}

function restState(limit: RestLimit, context: MaxContext): LimitState {
  const used = lastRest(limit, context);
  const left = used === null ? null : Math.max(0, limit.requires - used);
  return {
    limit,
    allowedMinutes: limit.requires,
    usedMinutes: used,
    leftMinutes: left,
    runsOutAt: null,
    countsFrom: null,
  };
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

function contextOf(record: HoursRecord, rules: RuleSet, calendar: Calendar, options: JudgeOptions): MaxContext | null {
  const start = record.spans[0]?.from;
  const end = record.spans.at(-1)?.to;
  if (start === undefined || end === undefined) return null;
  const reading = readSpans(record.spans, rules);
  const input: EpochInput = { reading, rules, calendar, before: record.before, start, end };
  const shifts = rules.shift === null ? [] : epochsOf(input, rules.shift);
  const commercial = tallyOf(reading.stretches.filter((stretch) => stretch.commercial));
  const work = tallyOf(reading.stretches.filter(({ status }) => status === "duty" || status === "driving"));
  return { input, counts: tallies(reading, rules), work, commercial, shifts, knownUntil: options.knownUntil ?? end };
}

/**
 * Judges a record by one rule set at the record's end. A limit reached exactly is lawful; breaches name the minutes of
 * driving or work beyond it. An empty record has no breaches and no limits.
 */
export function judge(record: HoursRecord, rules: RuleSet, calendar: Calendar, options: JudgeOptions = {}): Verdict {
  const context = contextOf(record, rules, calendar, options);
  if (context === null) {
    return { rules, record, calendar, limits: [], breaches: [], reviews: [], shiftFrom: null, rests: [], shifts: [] };
  }
  const { limits } = rules;
  const pieces = new Map<string, Piece[]>(limits.map(({ id }) => [id, []]));
  const open = new Map<string, Piece[]>();
  const states: LimitState[] = [];
  const add = (to: Map<string, Piece[]>, id: string, more: readonly Piece[]): void => {
    to.set(id, [...(to.get(id) ?? []), ...more]);
  };
  for (const limit of limits) {
    if (limit.kind === "rest") {
      states.push(restState(limit, context));
      add(
        pieces,
        limit.id,
        limit.breach === "short" ? shortRests(limit, context, options.calledAt) : unrested(context),
      );
      continue;
    }
    const found = judgeMax(limit, context);
    states.push(found.state);
    add(pieces, limit.id, found.pieces);
    add(open, limit.id, found.open);
    if (limit.asRest !== undefined) add(pieces, limit.asRest.id, found.asRest);
  }
  const gather = (of: Map<string, Piece[]>): Breach[] =>
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
  };
}
