/** Counting from a full rest, or from the first of two rests that stand in for one (49 CFR 395.1(g), SOR/2005-313 s. 18). */
import { type Instant, type Interval, lengthOf } from "../../time/units.ts";
import type { Since, Split } from "../rules/rule.ts";
import { type CountingInput, type CountingPeriod, firstWork, plainPeriod } from "./countingPeriods.ts";
import { joinedRests } from "./joinedRests.ts";
import { type RestRun, restMinutes } from "./reading.ts";

type RestSince = Extract<Since, { kind: "rest" }>;

/** A rest that may be one of a pair; `part` is what of it counts. */
interface Candidate {
  readonly part: Interval;
  readonly berthMinutes: number;
}

function candidateOf(run: RestRun, split: Split): Candidate | null {
  const part = split.longBerth === null ? run.berth : run;
  return lengthOf(part) >= split.each ? { part, berthMinutes: lengthOf(run.berth) } : null;
}

const pairs = (a: Candidate, b: Candidate, split: Split): boolean =>
  lengthOf(a.part) + lengthOf(b.part) >= split.sum &&
  (split.longBerth === null || Math.max(a.berthMinutes, b.berthMinutes) >= split.longBerth);

/** Two rests by their place in a list of candidates. */
interface Pair {
  readonly first: number;
  readonly second: number;
}

interface Paired {
  readonly pairs: readonly Pair[];
  /** For each rest that fits several earlier ones, in time order: how many. */
  readonly open: readonly number[];
}

/**
 * Pairs each rest with an earlier one that fits, never reaching back before the newest pair's first rest: one rest may
 * end a pair and begin the next. Where several fit, `choices` says which is taken; `pairing.ts` compares the readings.
 */
function pairUp(candidates: readonly Candidate[], split: Split, choices: readonly number[]): Paired {
  const found: Pair[] = [];
  const open: number[] = [];
  let earliest = 0;
  candidates.forEach((candidate, second) => {
    const fits = candidates.flatMap((other, first) =>
      first >= earliest && first < second && pairs(other, candidate, split) ? [first] : [],
    );
    const passed = fits.length > 1 ? (choices[open.length] ?? 0) : 0;
    if (fits.length > 1) open.push(fits.length);
    const first = fits.at(-1 - passed);
    if (first === undefined) return;
    found.push({ first, second });
    earliest = first + 1;
  });
  return { pairs: found, open };
}

const candidatesIn = (runs: readonly RestRun[], split: Split): readonly Candidate[] =>
  runs.flatMap((run) => candidateOf(run, split) ?? []);

/** More ways to pair the rests between two full ones than anyone has had; a bound, so that no log takes for ever. */
const MOST_WAYS = 64;

/** Every way to choose among these rests, the latest each time first. */
function waysOf(candidates: readonly Candidate[], split: Split): readonly (readonly number[])[] {
  const ways: (readonly number[])[] = [];
  const begun: (readonly number[])[] = [[]];
  for (let way = begun.pop(); way !== undefined && ways.length < MOST_WAYS; way = begun.pop()) {
    const done = way;
    const many = pairUp(candidates, split, done).open[done.length];
    if (many === undefined) ways.push(done);
    else for (let passed = many - 1; passed >= 0; passed--) begun.push([...done, passed]);
  }
  return ways;
}

/** Between each two full rests (or a full one and an end of the record): every way to pair the rests there. */
export function waysToPair(
  rests: readonly RestRun[],
  { minutes, split }: RestSince,
): readonly (readonly (readonly number[])[])[] {
  if (split === undefined) return [];
  const stretches: (readonly (readonly number[])[])[] = [];
  let runs: RestRun[] = [];
  for (const run of rests) {
    runs.push(run);
    if (lengthOf(run) < minutes) continue;
    stretches.push(waysOf(candidatesIn(runs, split), split));
    runs = [];
  }
  return [...stretches, waysOf(candidatesIn(runs, split), split)];
}

interface SplitPeriods {
  readonly periods: readonly CountingPeriod[];
  /** How many choices were made. */
  readonly chosen: number;
}

/** The periods between two full rests (or the record's ends): one more for each pair completed inside. */
function splitPeriods(
  whole: CountingPeriod,
  inside: readonly RestRun[],
  closing: RestRun | null,
  split: Split,
  choices: readonly number[],
): SplitPeriods {
  const candidates = candidatesIn(closing === null ? inside : [...inside, closing], split);
  const { pairs: found, open } = pairUp(candidates, split, choices);
  const partOf = (n: number): Interval | undefined => candidates[n]?.part;
  const closes = (part: Interval): boolean => closing !== null && part.from >= closing.from;
  const paired = new Set(found.flatMap(({ first, second }) => [first, second]));
  const rests = [...paired].sort((a, b) => a - b).flatMap((n) => partOf(n) ?? []);
  const periods: CountingPeriod[] = [];
  let from: Instant = whole.from;
  let anchor: Instant = whole.anchor;
  let rested = whole.rested;
  const push = (to: Instant): void => {
    const excluded = rests.filter((part) => part.from >= anchor && part.from < to);
    periods.push({ ...whole, from, to, anchor, rested, excluded });
  };
  for (const { first, second } of found) {
    const start = partOf(first);
    const end = partOf(second);
    if (start === undefined || end === undefined || closes(end)) continue;
    push(end.to);
    from = end.to;
    anchor = start.to;
    rested = true;
  }
  push(whole.to);
  return { periods, chosen: open.length };
}

/** Counting periods from rest to rest. */
export function periodsSinceRest(input: CountingInput, since: RestSince): readonly CountingPeriod[] {
  const rests = joinedRests(input.reading, input.rules.ferry, since.minutes);
  const periods: CountingPeriod[] = [];
  let from: Instant = firstWork(input);
  let rested = false;
  let inside: RestRun[] = [];
  let choices = since.split?.choices ?? [];
  const close = (to: Instant, closing: RestRun | null): void => {
    const whole = plainPeriod(from, to, rested);
    if (since.split === undefined) {
      periods.push(whole);
      return;
    }
    const split = splitPeriods(whole, inside, closing, since.split, choices);
    periods.push(...split.periods);
    choices = choices.slice(split.chosen);
  };
  for (const run of rests) {
    if (restMinutes(run) < since.minutes && !(since.orNight === true && run.night)) {
      inside.push(run);
      continue;
    }
    if (run.to > from) close(run.to, run);
    from = run.to;
    rested = true;
    inside = [];
  }
  close(from > input.end ? from : input.end, null);
  return periods;
}
