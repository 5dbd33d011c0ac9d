/** How one rule set reads a person's spans: each becomes a status, riding by what goes before and after it. */
import { type Instant, type Interval, instant } from "../../time/units.ts";
import type { Limit, RestLimit, RuleSet, Status } from "../rules/rule.ts";
import { isCovered, type LogSpan } from "./spans.ts";

/** A stretch of one status, as the rules count it. */
export interface StatusStretch extends Interval {
  readonly status: Status;
  /** Driving in a vehicle the rules are for; a driver of light vehicles only is free of some limits. */
  readonly commercial: boolean;
  readonly night: boolean;
  /** Riding in a vehicle the rules are for, while another drives it. */
  readonly beside: boolean;
}

/** Consecutive free time, as long as it lasts. */
export interface RestRun extends Interval {
  /** The longest stretch in the berth inside it, empty where there is none. */
  readonly berth: Interval;
  /** It follows a stated release. */
  readonly night: boolean;
  /** Work inside a rest that a crossing allows; left out where there is none. */
  readonly interruptions?: readonly Interval[];
}

/** Minutes of rest, without what interrupts it. */
export const restMinutes = ({ from, to, interruptions = [] }: RestRun): number =>
  interruptions.reduce((sum, gap) => sum - (gap.to - gap.from), to - from);

/** Whether a rest parts two shifts: after a release always, else from so many minutes on. */
export const parts = (run: RestRun, minutes: number): boolean => run.night || run.to - run.from >= minutes;

/** Whether a rest is one that a limit looks at: a weekly rest by its length alone, a release does not make a night one. */
export const partsIn = (run: RestRun, { parting, afterShorter }: RestLimit): boolean =>
  afterShorter === true ? run.to - run.from >= parting : parts(run, parting);

/** Whether a limit asks for a rest before each call or drive: not a weekly one, not where it is taken. */
export const isBeforeWork = (limit: Limit): limit is RestLimit =>
  limit.kind === "rest" && limit.afterShorter !== true && limit.breach !== "aboard";

/** A record as one rule set reads it: stretches and rests. */
export interface SpanReading {
  readonly stretches: readonly StatusStretch[];
  readonly rests: readonly RestRun[];
  /** On a ferry with a berth, counted as rest. In order. */
  readonly crossings: readonly Interval[];
}

type Read = { from: Instant; to: Instant; status: Status; commercial: boolean; night: boolean; beside: boolean };

const isFree = (span: LogSpan): boolean =>
  span.unknown !== true && (span.is === "off" || span.is === "berth" || span.is === "meal");

const isCrossing = (span: LogSpan, { ferry }: RuleSet): boolean =>
  span.is === "ferry" && span.bunk === true && span.to - span.from > ferry.over;

function statusOf(span: LogSpan, rules: RuleSet): Status {
  if (span.unknown === true) return "idle";
  if (span.pause) return rules.pause;
  if (isCrossing(span, rules)) return rules.ferry.status;
  return span.is === "driving" && !isCovered(span, rules) ? rules.lightDriving : rules.statuses[span.is];
}

/** Which riding spans are free because enough time off follows on arrival. */
function freeTravel(spans: readonly LogSpan[], off: number): ReadonlySet<number> {
  const free = new Set<number>();
  let rest = 0;
  for (let i = spans.length - 1; i >= 0; i--) {
    const span = spans[i];
    if (span === undefined) break;
    const isRest = isFree(span);
    if (isRest) rest += span.to - span.from;
    else if ((span.is === "riding" || span.is === "ferry") && (rest >= off || free.has(i + 1))) free.add(i);
    if (!isRest) rest = 0;
  }
  return free;
}

/** A run of neighbours that `joins` accepts, from index `i` on: its end index (outside) and its minutes. */
function runFrom(reads: readonly Read[], i: number, joins: (read: Read) => boolean): { end: number; minutes: number } {
  let end = i;
  let minutes = 0;
  for (let read = reads[end]; read !== undefined && joins(read); read = reads[++end]) minutes += read.to - read.from;
  return { end, minutes };
}

/** Frees the first `most` minutes of `run`, or the last where `fromEnd`, cutting a span where they end inside it. */
function freeSeat(run: readonly Read[], most: number, fromEnd: boolean): Read[] {
  const order = fromEnd ? [...run].reverse() : run;
  let left = most;
  const done = order.flatMap((read): Read[] => {
    const take = Math.min(left, read.to - read.from);
    left -= take;
    if (take === 0) return [read];
    if (take === read.to - read.from) return [{ ...read, status: "off" }];
    const cut = instant(fromEnd ? read.to - take : read.from + take);
    const first = { ...read, to: cut };
    const second = { ...read, from: cut };
    return fromEnd ? [{ ...second, status: "off" }, first] : [{ ...first, status: "off" }, second];
  });
  return fromEnd ? done.reverse() : done;
}

/** The seat allowance: riding directly after a long stretch in the berth, else directly before it, never on both sides. */
function seated(reads: readonly Read[], seat: { berth: number; most: number }, ride: (read: Read) => boolean): Read[] {
  const done: Read[] = [];
  const inBerth = (read: Read): boolean => read.status === "berth";
  let i = 0;
  let before: Read[] = [];
  while (i < reads.length) {
    const riding = runFrom(reads, i, ride);
    if (riding.end > i) {
      done.push(...before);
      before = reads.slice(i, riding.end);
      i = riding.end;
      continue;
    }
    const berth = runFrom(reads, i, inBerth);
    if (berth.minutes >= seat.berth) {
      const following = runFrom(reads, berth.end, ride);
      const after = reads.slice(berth.end, following.end);
      done.push(...(after.length > 0 ? before : freeSeat(before, seat.most, true)));
      done.push(...reads.slice(i, berth.end), ...freeSeat(after, seat.most, false));
      before = [];
      i = following.end;
      continue;
    }
    const end = Math.max(i + 1, berth.end);
    done.push(...before, ...reads.slice(i, end));
    before = [];
    i = end;
  }
  return [...done, ...before];
}

/** Stays in the berth that are too short to be a rest of their own: neither work nor rest. */
function underWay(reads: readonly Read[], rest: readonly Status[], least: number): Read[] {
  const done: Read[] = [];
  const isRest = (read: Read): boolean => rest.includes(read.status);
  for (let i = 0; i < reads.length; ) {
    const { end, minutes } = runFrom(reads, i, isRest);
    const run = reads.slice(i, Math.max(end, i + 1));
    const parts = minutes >= least || run.some(({ night }) => night);
    done.push(...run.map((read): Read => (read.status === "berth" && !parts ? { ...read, status: "idle" } : read)));
    i += run.length;
  }
  return done;
}

function merged(reads: readonly Read[]): StatusStretch[] {
  const done: Read[] = [];
  for (const read of reads) {
    const last = done.at(-1);
    const alike =
      last?.status === read.status &&
      last.commercial === read.commercial &&
      last.night === read.night &&
      last.beside === read.beside;
    if (last !== undefined && alike) last.to = read.to;
    else if (read.from < read.to) done.push({ ...read });
  }
  return done;
}

/** The free stretches that touch, joined. */
function restRuns(stretches: readonly StatusStretch[], rest: readonly Status[]): RestRun[] {
  const runs: { from: Instant; to: Instant; berth: Interval; night: boolean }[] = [];
  for (const { from, to, status, night } of stretches) {
    if (!rest.includes(status)) continue;
    const berth = status === "berth" ? { from, to } : { from, to: from };
    const last = runs.at(-1);
    if (last === undefined || last.to !== from) runs.push({ from, to, berth, night });
    else {
      last.to = to;
      last.night ||= night;
      if (berth.to - berth.from > last.berth.to - last.berth.from) last.berth = berth;
    }
  }
  return runs;
}

/** Reads a record's spans by one rule set. Linear in spans. */
export function readSpans(spans: readonly LogSpan[], rules: RuleSet): SpanReading {
  const free = rules.travel === null ? new Set<number>() : freeTravel(spans, rules.travel);
  const riders = new Set<Instant>();
  const reads = spans.map((span, i): Read => {
    const commercial = span.is === "driving" && isCovered(span, rules);
    const night = span.night === true;
    const { from, to } = span;
    if (free.has(i)) return { from, to, status: "off", commercial: false, night, beside: false };
    const beside = span.is === "riding" && isCovered(span, rules);
    if (beside) riders.add(from);
    return { from, to, status: statusOf(span, rules), commercial, night, beside };
  });
  const placed = rules.seat === null ? reads : seated(reads, rules.seat, (read) => riders.has(read.from));
  const stretches = merged(rules.berthParts === undefined ? placed : underWay(placed, rules.rest, rules.berthParts));
  const crossings = spans.filter((span) => isCrossing(span, rules) && rules.rest.includes(rules.ferry.status));
  return { stretches, rests: restRuns(stretches, rules.rest), crossings };
}
