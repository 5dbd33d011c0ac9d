/** Limits of the form "no more than so much since then": what is used, when it runs out, what lies beyond. */
import { sumOf } from "../../lists.ts";
import { type Instant, type Interval, instant, overlap } from "../../time/units.ts";
import type { CountingPeriod, MaxContext } from "../count/countingPeriods.ts";
import { deferred, type ExtensionUses, excusedFor, extensionOf, moreHome, usesLeft } from "../count/exceptions.ts";
import { parts } from "../count/reading.ts";
import { countingPeriodsOf, unitOf, weekStart } from "../count/since.ts";
import { dailyRests } from "../count/sinceDailyRest.ts";
import { indexAfter, type Tally } from "../count/tally.ts";
import type { MaxLimit, Since } from "../rules/rule.ts";
import type { LimitState } from "./limitState.ts";

/** A stretch of a breach: from the minute at which the limit is passed. */
export interface BreachPiece extends Interval {
  readonly bites: Instant;
  /** From when on nothing was left of what it breaks; left out for a rest, of which nothing runs out. */
  readonly usedUpAt?: Instant;
  /** What is too much or missing, where that is not all of it. */
  readonly minutes?: number;
  /** The clause that it breaks, where it is not the limit's own. */
  readonly clause?: string;
}

/** What is used of a limit, and where it is passed. */
export interface MaxFound {
  readonly state: LimitState;
  readonly pieces: readonly BreachPiece[];
  /** Breaches of the rest rule that show as a breach of this limit. */
  readonly asRest: readonly BreachPiece[];
  /** Breaches only if an open question is answered so. */
  readonly open: readonly BreachPiece[];
  /** What a run home excuses, and leaves to be rested later. */
  readonly excused: readonly Interval[];
}

const carriedOf = (limit: MaxLimit, period: CountingPeriod): number =>
  limit.counts === "duty" ? period.carried.duty : limit.counts === "driving" ? period.carried.driving : 0;

/** Minutes used at `at`, which lies in the period. */
export function usedAt(limit: MaxLimit, period: CountingPeriod, at: Instant, context: MaxContext): number {
  if (limit.counts === "elapsed") {
    const left = sumOf(period.excluded, (rest) => overlap(rest, { from: period.anchor, to: at }));
    return Math.max(0, at - period.anchor - left);
  }
  const tally = context.counts[limit.counts];
  return tally.upTo(at) - tally.upTo(period.anchor) + carriedOf(limit, period);
}

/** The first instant from the period's start on at which `allowed` minutes are used; null where the record ends before. */
export function exhaustedAt(
  limit: MaxLimit,
  period: CountingPeriod,
  allowed: number,
  context: MaxContext,
): Instant | null {
  if (limit.counts !== "elapsed") {
    const used = usedAt(limit, period, period.from, context);
    return context.counts[limit.counts].reaches(period.from, allowed - used);
  }
  let at: Instant = period.anchor;
  let left = allowed;
  for (const rest of period.excluded) {
    if (rest.from - at >= left) break;
    left -= rest.from - at;
    at = rest.to;
  }
  return instant(Math.max(period.from, at + left));
}

const activityOf = (limit: MaxLimit, context: MaxContext): Tally =>
  limit.forbids === "driving" ? context.counts.driving : context.work;

function baseOf(limit: MaxLimit, period: CountingPeriod): number {
  if (limit.leavesFree === true) return period.to - period.anchor - limit.allows;
  return limit.counts === "elapsed" && period.allows !== null ? period.allows : limit.allows;
}

/** Whether the limit is not for this period: no driving under the rules in it, or a week with little driving. */
function exempt(limit: MaxLimit, period: CountingPeriod, context: MaxContext): boolean {
  if (limit.exemptWeekBelow === undefined) return false;
  const { calendar } = context.input;
  if (context.commercial.upTo(period.to) === context.commercial.upTo(period.from)) return true;
  const monday = weekStart(unitOf("week", calendar.dayOf(period.from)));
  const most = limit.exemptWeekBelow;
  for (let day = monday; day < monday + 7; day++) {
    const { upTo } = context.counts.driving;
    if (upTo(calendar.startOf(day + 1)) - upTo(calendar.startOf(day)) > most) return false;
  }
  return true;
}

/** From when on, inside the period, driving comes after a long rest that began too late to help; null where it does not. */
function tooLateRest(limit: MaxLimit, period: CountingPeriod, from: Instant, context: MaxContext): Instant | null {
  const parting = limit.asRest?.parting;
  if (parting === undefined) return null;
  const { rests } = context.input.reading;
  for (let i = indexAfter(rests, instant(from - 1)); i < rests.length; i++) {
    const rest = rests[i];
    if (rest === undefined || rest.to >= period.to) break;
    if (rest.from >= period.anchor && parts(rest, parting)) return rest.to;
  }
  return null;
}

interface Sorted {
  readonly pieces: BreachPiece[];
  readonly asRest: BreachPiece[];
  readonly open: BreachPiece[];
}

function sortPieces(
  limit: MaxLimit,
  period: CountingPeriod,
  x: Instant,
  found: readonly Interval[],
  context: MaxContext,
): Sorted {
  const sorted: Sorted = { pieces: [], asRest: [], open: [] };
  if (limit.leavesFree === true) {
    const first = found[0];
    if (first === undefined) return sorted;
    // It is short by what it holds beyond what it may.
    const { busy } = context.counts;
    const minutes = busy.upTo(period.to) - busy.upTo(x);
    sorted.pieces.push({ from: period.from, to: period.to, bites: first.from, minutes });
    return sorted;
  }
  const late = tooLateRest(limit, period, x, context);
  for (const { from, to } of found) {
    const named = period.clause === undefined ? {} : { clause: period.clause };
    const piece = { from, to, bites: from, usedUpAt: x, ...named };
    if (limit.asRest !== undefined && !period.rested) continue;
    if (late !== null && from >= late) sorted.asRest.push(piece);
    else if (limit.waivedWithin === undefined) sorted.pieces.push(piece);
    else if (!releasedWithin(limit.waivedWithin, from, context)) sorted.open.push(piece);
  }
  return sorted;
}

/** Whether the shift around `at` was over, duty included, within so many minutes of its start, as far as is known. */
function releasedWithin(minutes: number, at: Instant, context: MaxContext): boolean {
  const shift = context.shifts[indexAfter(context.shifts, at)];
  if (shift === undefined) return false;
  const late = context.counts.duty.within(instant(shift.anchor + minutes), shift.to)[0];
  return late === undefined || late.from >= context.knownUntil;
}

interface Judged {
  readonly period: CountingPeriod;
  readonly allowed: number;
}

function stateOf(limit: MaxLimit, { period, allowed }: Judged, context: MaxContext): LimitState {
  const at = context.input.end;
  const used = usedAt(limit, period, at, context);
  const left = Math.max(0, allowed - used);
  const idle = limit.counts === "elapsed" && used === 0;
  const goesOn = limit.counts === "elapsed" ? exhaustedAt(limit, period, allowed, context) : instant(at + left);
  const runsOutAt = idle ? null : left > 0 ? goesOn : exhaustedAt(limit, period, allowed, context);
  return { limit, allowedMinutes: allowed, usedMinutes: used, leftMinutes: left, runsOutAt, countsFrom: period.anchor };
}

/** How often a limit may still be stretched: larger allowances, or reduced daily rests. */
function leftOf(
  limit: MaxLimit,
  since: Since,
  period: CountingPeriod,
  uses: ExtensionUses,
  context: MaxContext,
): Pick<LimitState, "extensionsLeft"> {
  if (limit.extension !== undefined) return { extensionsLeft: usesLeft(limit.extension, uses, period.anchor, context) };
  if (limit.counts !== "elapsed" || since.kind !== "dailyRest" || since.reduced === since.regular) return {};
  return { extensionsLeft: dailyRests(context.input, since).reducedLeft };
}

/** Stretches in order, parted at an instant. */
function partedAt(
  found: readonly Interval[],
  at: Instant,
): { before: readonly Interval[]; behind: readonly Interval[] } {
  const before = found.filter(({ from }) => from < at).map(({ from, to }) => ({ from, to: instant(Math.min(to, at)) }));
  const behind = found.filter(({ to }) => to > at).map(({ from, to }) => ({ from: instant(Math.max(from, at)), to }));
  return { before, behind };
}

/** Holds one limit against every period of every `since` it has. */
export function judgeMax(limit: MaxLimit, context: MaxContext): MaxFound {
  const all: Sorted = { pieces: [], asRest: [], open: [] };
  const excused: Interval[] = [];
  const states: LimitState[] = [];
  for (const since of limit.since) {
    const periods = countingPeriodsOf(context.input, since);
    const moved = deferred(limit, periods, context);
    const uses: ExtensionUses = [];
    let last: Judged | null = null;
    for (const period of periods) {
      const base = baseOf(limit, period);
      const { allowed, use } = extensionOf(limit, period, base, uses, context);
      last = { period, allowed: allowed + moreHome(limit) };
      if (moved.has(period.from) || exempt(limit, period, context)) continue;
      const beyond = (minutes: number): { x: Instant; found: readonly Interval[] } | null => {
        const x = exhaustedAt(limit, period, minutes, context);
        if (x === null || x >= period.to) return null;
        const found = activityOf(limit, context).within(x, period.to);
        return found.length === 0 ? null : { x, found };
      };
      if (allowed > base && beyond(base) !== null) use();
      const over = beyond(allowed);
      const [first] = over?.found ?? [];
      if (over === null || first === undefined) continue;
      const exhausted = (more: number): Instant | null => exhaustedAt(limit, period, allowed + more, context);
      // What a rest lacked is no way home.
      const home = period.allows === 0 ? null : excusedFor(limit, first, exhausted, context);
      const { before, behind } = partedAt(over.found, home?.until ?? first.from);
      last = { period, allowed: allowed + (home?.more ?? 0) };
      excused.push(...before);
      const sorted = sortPieces(limit, period, home?.until ?? over.x, behind, context);
      all.pieces.push(...sorted.pieces);
      all.asRest.push(...sorted.asRest);
      all.open.push(...sorted.open);
    }
    if (last !== null)
      states.push({ ...stateOf(limit, last, context), ...leftOf(limit, since, last.period, uses, context) });
  }
  const tightest = states.reduce((a, b) => ((b.leftMinutes ?? 0) < (a.leftMinutes ?? 0) ? b : a));
  return { state: tightest, ...all, excused };
}
