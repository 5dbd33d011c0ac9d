/**
 * What comes next: when driving must stop, when someone may be called or may drive again. Asked of the same judge, with
 * the record continued as supposed: at the wheel, or off duty and then a single minute of work.
 */

import { leastOf } from "../../lists.ts";
import { type Instant, type Interval, instant } from "../../time/units.ts";
import { judgeReadings } from "../count/pairing.ts";
import { isBeforeWork, partsIn } from "../count/reading.ts";
import { type HoursRecord, type LogSpan, recordThen } from "../count/spans.ts";
import type { Limit, RuleSet, Since } from "../rules/rule.ts";
import { leastRest } from "./bindingRests.ts";
import { type Breach, judgeRecord, type Verdict } from "./judge.ts";

/** Every driving limit of every rule set bites within this. */
const FAR = 48 * 60;

const span = (from: Instant, to: Instant, is: LogSpan["is"]): LogSpan => ({
  from,
  to,
  is,
  in: "commercial",
  pause: false,
});

const forward = (at: Instant, minutes: number): Instant => instant(at + minutes);

const firstBite = (breaches: readonly Breach[], from: Instant): Instant | null => {
  const later = breaches.flatMap(({ eachBites }) => eachBites.filter((bites) => bites >= from));
  return leastOf(later);
};

/** From when on the first of the breaches from `shiftFrom` on was forbidden; a shift's own start where it was before. */
function firstForbidden(breaches: readonly Breach[], shiftFrom: Instant): Instant | null {
  const past = breaches.flatMap(({ eachBites, eachForbidden }) =>
    eachBites.flatMap((bites, i) => {
      const forbidden = eachForbidden[i] ?? bites;
      return bites < shiftFrom ? [] : forbidden >= shiftFrom ? [forbidden] : [bites];
    }),
  );
  return leastOf(past);
}

const endOf = (record: HoursRecord): Instant | null => record.spans.at(-1)?.to ?? null;

/** When a limit was used up of which nothing is left, in the current shift and before the record's end; null where none was. */
function ranOut({ limits, shiftFrom }: Verdict, at: Instant): Instant | null {
  const spent = limits.flatMap(({ limit, leftMinutes, runsOutAt }) => {
    if (limit.kind !== "max" || leftMinutes !== 0 || runsOutAt === null) return [];
    // Of a longer way home more may be left than at this moment: after the break it asks for.
    if ((limit.homeward ?? []).length > 0) return [];
    // One that a short shift is free of is used up only if the shift turns out longer, which is then a breach.
    if (limit.waivedWithin !== undefined) return [];
    return runsOutAt <= at && runsOutAt >= (shiftFrom ?? at) ? [runsOutAt] : [];
  });
  return leastOf(spent);
}

/**
 * Whether what follows decides whether something was a breach: a day made up for by the next, a run home to a weekly rest, a
 * long break that becomes the day's rest because none comes in time.
 */
const hangsOnLater = (limit: Limit): boolean =>
  limit.kind === "max" &&
  (limit.deferral !== undefined ||
    (limit.homeward ?? []).length > 0 ||
    (limit.counts === "elapsed" && limit.since.some(({ kind }) => kind === "dailyRest")));

/** Minutes of the record in breach of such limits; what was to be made up for is not, until that fails. */
const failed = (breaches: readonly Breach[], until: Instant): number =>
  breaches.reduce(
    (sum, { limit, from, to }) => sum + (hangsOnLater(limit) ? Math.max(0, Math.min(to, until) - from) : 0),
    0,
  );

/**
 * When driving on would undo what made something before it lawful: free time that makes up for a deferred day, the weekly
 * rest that a longer way home ends in. Null where nothing hangs on what follows.
 */
function undoneAt({ rules, breaches, record, calendar }: Verdict, at: Instant): Instant | null {
  if (!rules.limits.some(hangsOnLater)) return null;
  const before = failed(breaches, at);
  const lostBy = (minutes: number): boolean => {
    const driven = recordThen(record, span(at, forward(at, minutes), "driving"));
    return failed(judgeRecord(driven, rules, calendar, { knownUntil: at }).breaches, at) > before;
  };
  if (!lostBy(FAR)) return null;
  let [kept, lost] = [0, FAR];
  while (lost - kept > 1) {
    const middle = (kept + lost) >> 1;
    if (lostBy(middle)) lost = middle;
    else kept = middle;
  }
  return forward(at, kept);
}

/**
 * The first instant of the current shift at which driving was no longer allowed, or will no longer be if it goes on from
 * the record's end. The current shift is the last that had work in it, until a new one begins.
 */
export function drivingMustStopAt(verdict: Verdict): Instant | null {
  const { record, calendar } = verdict;
  const at = endOf(record);
  if (at === null) return null;
  const past = [firstForbidden(verdict.breaches, verdict.shiftFrom ?? at), ranOut(verdict, at)];
  const over = leastOf(past.flatMap((t) => t ?? []));
  if (over !== null) return over;
  const driven = recordThen(record, span(at, forward(at, FAR), "driving"));
  const bites = firstBite(judgeRecord(driven, verdict.rules, calendar, { knownUntil: at }).breaches, at);
  return leastOf([bites, undoneAt(verdict, at)].flatMap((t) => t ?? []));
}

/** All lengths of rest that could change anything under a `since`. */
function lengthsOf(since: Since): readonly number[] {
  switch (since.kind) {
    case "rest":
      return since.split === undefined
        ? [since.minutes]
        : [since.minutes, since.split.each, since.split.longBerth ?? 0];
    case "break":
      return [since.minutes, ...(since.parts ?? [])];
    case "dailyRest":
      return [since.regular, since.reduced, since.weekly, since.firstPart ?? 0, since.endsCount];
    case "calendar":
      return since.restart === undefined ? [] : [since.restart];
    case "period":
      return [];
  }
}

function lengthsOfLimit(limit: Limit): readonly number[] {
  if (limit.kind === "rest") return [limit.requires];
  if (limit.kind === "makeUp") return [limit.makeUp.weekly];
  return [...limit.since.flatMap(lengthsOf), limit.extension?.clearedBy ?? 0];
}

/** What is left of a pair's sum after the rests already taken, each a length that would complete a pair. */
function pairLengths(rules: RuleSet, verdict: Verdict): readonly number[] {
  const split = rules.shift?.kind === "rest" ? rules.shift.split : undefined;
  if (split === undefined) return [];
  const recent = verdict.rests.filter(({ to }) => verdict.shiftFrom === null || to >= verdict.shiftFrom);
  return recent.flatMap(({ from, to, berth }) => [split.sum - (to - from), split.sum - (berth.to - berth.from)]);
}

/** A deferral is made up for by a rest as long as the core and what was moved: each count of minutes up to the most. */
const deferralLengths = ({ limits }: RuleSet): readonly number[] =>
  limits.flatMap((limit) => {
    if (limit.kind !== "max" || limit.deferral === undefined) return [];
    const { core, most } = limit.deferral;
    return Array.from({ length: most }, (_, n) => core + n + 1);
  });

/** What is owed is rested beside another rest, which may be a weekly one; also what a rest that goes on counts for so far. */
function makeUpLengths({ rules, weekly }: Verdict, at: Instant): readonly number[] {
  const carried = weekly?.carried.filter(({ rest }) => rest.to === at).map(({ owed }) => owed) ?? [];
  const owed = [...(weekly?.owed ?? []), ...carried];
  return rules.limits.flatMap((limit) => {
    if (limit.kind !== "makeUp") return [];
    const { beside, weekly: least, full } = limit.makeUp;
    return owed.flatMap(({ minutes }) => [beside + minutes, least + minutes, full + minutes]);
  });
}

/** Where the free time before the record's end may be counted from: in each span of the trailing free or riding ones. */
function restStarts(record: HoursRecord, at: Instant, seatMost = 0): readonly Instant[] {
  const starts = [at];
  for (let i = record.spans.length - 1; i >= 0; i--) {
    const last = record.spans[i];
    if (last === undefined || !["off", "berth", "meal", "riding", "personal"].includes(last.is)) break;
    starts.push(last.from);
    // Of a ride before the berth, the last part alone may be free.
    if (last.is === "riding") starts.push(instant(Math.max(last.from, last.to - seatMost)));
  }
  return starts;
}

/** More parting rests than fit into the longest rest that a rule asks for. */
const RECENT_RESTS = 8;

/** A rest, a cycle or a fortnight has ended by then, whatever came before. */
const LOOK_AHEAD_DAYS = 15;

/**
 * The instants at which something that was not allowed can become so while the person is off duty: a rest reaches a
 * length that a rule names, a day of the calendar begins, a period ends.
 */
function candidates(verdict: Verdict, at: Instant): readonly Instant[] {
  const { rules, record, calendar } = verdict;
  const lengths = [
    ...rules.limits.flatMap(lengthsOfLimit),
    ...pairLengths(rules, verdict),
    ...makeUpLengths(verdict, at),
    rules.travel ?? 0,
  ];
  const found = new Set<Instant>([at]);
  for (const start of restStarts(record, at, rules.seat?.most))
    for (const length of lengths) found.add(forward(start, length));
  const day = calendar.dayOf(at);
  const moved = deferralLengths(rules);
  for (const start of [...restStarts(record, at), calendar.startOf(day + 1)]) {
    for (const length of moved) found.add(forward(start, length));
  }
  for (let n = 1; n <= LOOK_AHEAD_DAYS; n++) found.add(calendar.startOf(day + n));
  for (const limit of rules.limits) {
    if (limit.kind === "rest") {
      // Work after a rest that was too short is open again once that rest would have been complete.
      const parting = verdict.rests.filter((rest) => partsIn(rest, limit));
      for (const { from } of parting.slice(-RECENT_RESTS)) found.add(forward(from, limit.requires));
      continue;
    }
    for (const since of limit.kind === "max" ? limit.since : []) {
      const from = verdict.shiftFrom;
      if (since.kind === "period" && from !== null) found.add(forward(from, since.minutes));
      if (since.kind === "dailyRest" && from !== null) found.add(forward(from, since.within));
    }
  }
  return [...found].filter((t) => t >= at).sort((a, b) => a - b);
}

/** How long the free time that ends with the record has lasted. */
function restAt(verdict: Verdict, at: Instant): Interval {
  const last = verdict.rests.at(-1);
  return last !== undefined && last.to === at ? last : { from: at, to: at };
}

/** Whether one minute of `is` at `at`, after time off until then, breaks nothing, whichever rests are paired. */
function allows(
  record: HoursRecord,
  { rules, calendar, breaches: before }: Verdict,
  at: Instant,
  is: "duty" | "driving",
  known: Instant,
  asks: (limit: Limit) => boolean = () => true,
): boolean {
  const tried = recordThen(record, span(at, forward(at, 1), is));
  return judgeReadings(tried, rules, calendar, { knownUntil: known }).all.every(
    ({ breaches }) =>
      failed(breaches, known) <= failed(before, known) &&
      !breaches.some(({ limit, to, bites }) => bites <= at && to > at && asks(limit)),
  );
}

/** Whether a call at the record's end would follow a complete rest under every limit that asks for one. */
function restedAt(verdict: Verdict, at: Instant): boolean {
  const rest = restAt(verdict, at);
  const { shift, limits } = verdict.rules;
  const last = verdict.shifts.at(-1);
  const fresh =
    shift === null || shift.kind === "period" || (last !== undefined && last.from === at && last.anchor === at);
  const enough = limits.every((limit) => !isBeforeWork(limit) || rest.to - rest.from >= limit.requires);
  return fresh && enough;
}

/**
 * A weekly rest that has to be taken is proposed regular, because a reduced one must be made up for: the end of the
 * regular one, or `at` where the rest is not a weekly one or was not due.
 */
function proposed(record: HoursRecord, verdict: Verdict, at: Instant, known: Instant): Instant {
  const { rules } = verdict;
  const weekly = rules.limits.find((limit) => limit.kind === "rest" && limit.afterShorter === true);
  const rest = restAt(verdict, at);
  if (weekly?.kind !== "rest" || rest.to - rest.from < weekly.parting) return at;
  const just = instant(rest.from + weekly.parting - 1);
  // What makes up for an earlier weekly rest is due as well, and no reason to take one.
  const due = (limit: Limit): boolean => limit.kind !== "makeUp";
  const until = recordThen(record, span(known, just, "off"));
  if (just < known || allows(until, verdict, just, "duty", known, due)) return at;
  return instant(Math.max(at, rest.from + weekly.requires));
}

/** The earliest next call and next drive after a record. */
export interface NextCalls {
  readonly earliestNextCall: Instant | null;
  readonly earliestNextDrive: Instant | null;
}

interface Asked {
  /** The record's end: at rest from then on. */
  readonly known: Instant;
  readonly resting: "off" | "berth";
  /** No rest can have begun before this. */
  readonly restFrom: Instant;
}

/** Whether `is` may begin at `at`, off duty until then, under one rule set: a call needs its rest, the wheel only its limits. */
function mayBegin({ known, restFrom, resting }: Asked, verdict: Verdict, at: Instant, is: "duty" | "driving"): boolean {
  const { rules, record, calendar } = verdict;
  if (is === "duty" && at - restFrom < leastRest(rules)) return false;
  const rested = recordThen(record, span(known, at, resting));
  if (!allows(rested, verdict, at, is, known)) return false;
  const weekly = rules.limits.some((limit) => limit.kind === "rest" && limit.afterShorter === true);
  if (is === "driving" && !weekly) return true;
  const then = judgeRecord(rested, rules, calendar, { knownUntil: known });
  return (is === "driving" || restedAt(then, at)) && proposed(record, then, at, known) === at;
}

/** What is searched: the end of the record, and the instants at which something can become lawful. */
function searched(
  verdicts: readonly Verdict[],
): { readonly known: Instant; readonly restFrom: Instant; readonly times: readonly Instant[] } | null {
  const record = verdicts[0]?.record;
  const known = record === undefined ? null : endOf(record);
  if (record === undefined || known === null) return null;
  const times = [...new Set(verdicts.flatMap((verdict) => candidates(verdict, known)))].sort((a, b) => a - b);
  return { known, restFrom: instant(Math.min(...restStarts(record, known))), times };
}

/**
 * The earliest lawful call and the earliest lawful minute at the wheel under all the verdicts' rules at once, if the
 * person is off duty from the record's end on. Null where there is no record, or nothing in the next 15 days.
 */
export function nextCallSearch(verdicts: readonly Verdict[]): NextCalls {
  const search = searched(verdicts);
  if (search === null) return { earliestNextCall: null, earliestNextDrive: null };
  const asked: Asked = { ...search, resting: "off" };
  const first = (is: "duty" | "driving"): Instant | null =>
    search.times.find((at) => verdicts.every((verdict) => mayBegin(asked, verdict, at, is))) ?? null;
  return { earliestNextCall: first("duty"), earliestNextDrive: first("driving") };
}

/** The earliest lawful minute at the wheel if the person stays in the berth from the record's end on. */
export function driveFromBerth(verdicts: readonly Verdict[]): Instant | null {
  const search = searched(verdicts);
  if (search === null) return null;
  const asked: Asked = { ...search, resting: "berth" };
  return search.times.find((at) => verdicts.every((verdict) => mayBegin(asked, verdict, at, "driving"))) ?? null;
}
