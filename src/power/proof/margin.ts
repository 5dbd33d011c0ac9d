/** Goal 2: raises the threshold; where the fast way stops, the exact one decides, if it is asked to. */
import { type Effort, isPatient, marginRounds, raiseRounds, searchWork } from "../fast/effort.ts";
import { withMoreMargin } from "../fast/fast.ts";
import type { PackPath } from "../fast/packPath.ts";
import { randomFrom } from "../fast/random.ts";
import { marginOf } from "../fast/seats.ts";
import { askExactly, askFast, type Case, SAME_WH } from "../question.ts";

/** Paths of the greatest margin found, Wh, and the bound on any. */
export interface Margin {
  readonly paths: readonly PackPath[];
  readonly foundWh: number;
  readonly boundWh: number;
}

/** A margin this close to its bound is the best. */
const CLOSE_WH = 0.002;

/** The most that every pack keeps above its reserve, found from the covering paths `from` and not sought beyond `enoughWh`. */
export async function bestMargin(
  one: Case,
  from: readonly PackPath[],
  enoughWh: number,
  effort: Effort,
): Promise<Margin> {
  const target = Math.min(one.ceilingWh, enoughWh);
  if (one.wanted.demands.length === 0 || marginOf(from) >= target - SAME_WH)
    return { paths: from, foundWh: marginOf(from), boundWh: one.ceilingWh };
  const begun = one.paths.desk.work;
  const half = climb(one, from, target, effort);
  if (effort.left !== undefined) effort.left.margin -= one.paths.desk.work - begun;
  if (marginOf(half) >= target - SAME_WH) return { paths: half, foundWh: marginOf(half), boundWh: one.ceilingWh };
  if (!isPatient(effort)) return { paths: half, foundWh: marginOf(half), boundWh: one.ceilingWh };
  return bisectExactly(one, half, target, effort);
}

/**
 * Takes out the packs that keep too little and puts them back: for a margin of the target first, then for more in steps that
 * double as long as they are found and halve where they are not. Ends where the work for margins is spent.
 */
function climb(one: Case, from: readonly PackPath[], target: number, effort: Effort): readonly PackPath[] {
  const { desk } = one.paths;
  const until = desk.work + searchWork(effort).margin;
  let best = from;
  let high = target;
  let marginWh = target;
  let step = FIRST_STEP_WH;
  for (let n = 0; n < ASKS && desk.work < until && high - marginOf(best) > CLOSE_ENOUGH_WH; n++) {
    const found =
      n === 0
        ? putBackFor(one, best, marginWh, marginRounds(effort), until)
        : raised(one, best, marginWh, { seed: n, rounds: raiseRounds(effort), until });
    if (found === null) high = marginWh;
    else best = found;
    if (n > 0) step = found === null ? step / 2 : 2 * step;
    marginWh = Math.min(marginOf(best) + step, (marginOf(best) + high) / 2);
  }
  return best;
}

interface Raising {
  readonly seed: number;
  readonly rounds: number;
  readonly until: number;
}

/** Paths with this margin from those of `best`, those that keep too little put back at once with some others; or null. */
const raised = (one: Case, best: readonly PackPath[], marginWh: number, { seed, rounds, until }: Raising) =>
  withMoreMargin({ paths: one.paths, marginWh: marginWh - SAME_WH, random: randomFrom(seed), rounds, until }, best);

function putBackFor(one: Case, best: readonly PackPath[], marginWh: number, rounds: number, until: number) {
  const floor = marginWh - SAME_WH;
  const from = best.map((path) => (path.marginWh >= floor ? path : null));
  const verdict = askFast(one, floor, rounds, { from, most: until - one.paths.desk.work });
  return verdict.kind === "yes" ? verdict.paths : null;
}

/** Margins that the fast way is asked for. */
const ASKS = 4;
/** By how much more margin is asked for at first. */
const FIRST_STEP_WH = 2;
/** A margin this close to one that was not found is not sought. */
const CLOSE_ENOUGH_WH = 1;

async function bisectExactly(one: Case, from: readonly PackPath[], target: number, effort: Effort): Promise<Margin> {
  let best = from;
  let bound = target;
  let high = target;
  let middle = target;
  for (let n = 0; n < 30 && high - marginOf(best) > CLOSE_WH; n++) {
    const verdict = await askExactly(one, middle - SAME_WH, effort);
    if (verdict.kind === "yes") best = verdict.paths;
    else high = middle;
    if (verdict.kind === "no") bound = Math.min(bound, middle);
    const low = marginOf(best);
    // After a find, the next question is whether that already is the best; after a no, the middle of what is left.
    middle = verdict.kind === "yes" ? Math.min(high, low + CLOSE_WH) : (low + high) / 2;
  }
  const reached = marginOf(best) >= target - SAME_WH;
  return { paths: best, foundWh: marginOf(best), boundWh: reached ? one.ceilingWh : Math.min(one.ceilingWh, bound) };
}
