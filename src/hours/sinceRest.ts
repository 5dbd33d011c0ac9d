/** Counting from a full rest, or from the first of two rests that stand in for one (49 CFR 395.1(g), SOR/2005-313 s. 18). */
import type { Instant, Interval } from "../time/units.ts";
import { type Epoch, type EpochInput, firstWork, plainEpoch } from "./epoch.ts";
import type { RestRun } from "./reading.ts";
import type { Since, Split } from "./rule.ts";

type RestSince = Extract<Since, { kind: "rest" }>;

/** A rest that may be one of a pair; `part` is what of it counts. */
interface Candidate {
  readonly part: Interval;
  readonly berthMinutes: number;
}

const length = ({ from, to }: Interval): number => to - from;

function candidateOf(run: RestRun, split: Split): Candidate | null {
  const part = split.longBerth === null ? run.berth : run;
  return length(part) >= split.each ? { part, berthMinutes: length(run.berth) } : null;
}

const pairs = (a: Candidate, b: Candidate, split: Split): boolean =>
  length(a.part) + length(b.part) >= split.sum &&
  (split.longBerth === null || Math.max(a.berthMinutes, b.berthMinutes) >= split.longBerth);

/** Two rests by their place in a list of candidates. */
interface Pair {
  readonly first: number;
  readonly second: number;
}

/**
 * Pairs each rest with an earlier one that fits, never reaching back before the newest pair's first rest: one rest may
 * end a pair and begin the next. Where several fit, the split says which is taken; `pairing.ts` compares the readings.
 */
function pairUp(candidates: readonly Candidate[], split: Split): Pair[] {
  const found: Pair[] = [];
  let earliest = 0;
  candidates.forEach((candidate, second) => {
    const fits = (other: Candidate, first: number): boolean =>
      first >= earliest && first < second && pairs(other, candidate, split);
    const first = split.with === "earliest" ? candidates.findIndex(fits) : candidates.findLastIndex(fits);
    if (first < 0) return;
    found.push({ first, second });
    earliest = first + 1;
  });
  return found;
}

/** Whether some rest between two full ones could be paired with more than one earlier rest. */
export function pairingIsOpen(rests: readonly RestRun[], { minutes, split }: RestSince): boolean {
  if (split === undefined) return false;
  let candidates: Candidate[] = [];
  for (const run of rests) {
    const own = candidateOf(run, split);
    if (own !== null && candidates.filter((other) => pairs(other, own, split)).length > 1) return true;
    if (length(run) >= minutes) candidates = [];
    else if (own !== null) candidates.push(own);
  }
  return false;
}

/** The epochs between two full rests (or the record's ends): one more for each pair completed inside. */
function splitEpochs(whole: Epoch, inside: readonly RestRun[], closing: RestRun | null, split: Split): Epoch[] {
  const runs = closing === null ? inside : [...inside, closing];
  const candidates = runs.flatMap((run) => candidateOf(run, split) ?? []);
  const found = pairUp(candidates, split);
  const partOf = (n: number): Interval | undefined => candidates[n]?.part;
  const closes = (part: Interval): boolean => closing !== null && part.from >= closing.from;
  const paired = new Set(found.flatMap(({ first, second }) => [first, second]));
  const rests = [...paired].sort((a, b) => a - b).flatMap((n) => partOf(n) ?? []);
  const epochs: Epoch[] = [];
  let from: Instant = whole.from;
  let anchor: Instant = whole.anchor;
  let rested = whole.rested;
  const push = (to: Instant): void => {
    const excluded = rests.filter((part) => part.from >= anchor && part.from < to);
    epochs.push({ ...whole, from, to, anchor, rested, excluded });
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
  return epochs;
}

/** Epochs from rest to rest. */
export function restEpochs(input: EpochInput, since: RestSince): readonly Epoch[] {
  const { rests } = input.reading;
  const epochs: Epoch[] = [];
  let from: Instant = firstWork(input);
  let rested = false;
  let inside: RestRun[] = [];
  const close = (to: Instant, closing: RestRun | null): void => {
    const whole = plainEpoch(from, to, rested);
    if (since.split === undefined) epochs.push(whole);
    else epochs.push(...splitEpochs(whole, inside, closing, since.split));
  };
  for (const run of rests) {
    if (length(run) < since.minutes && !(since.orNight === true && run.night)) {
      inside.push(run);
      continue;
    }
    if (run.to > from) close(run.to, run);
    from = run.to;
    rested = true;
    inside = [];
  }
  close(from > input.end ? from : input.end, null);
  return epochs;
}
