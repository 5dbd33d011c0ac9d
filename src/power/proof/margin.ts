/** Goal 2: raises the threshold; where the fast way stops, the exact one decides, if it is asked to. */
import { type Effort, isPatient, marginRounds } from "../fast/effort.ts";
import type { PackPath } from "../fast/packPath.ts";
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
  const half = bisectFast(one, from, target, effort);
  if (marginOf(half) >= target - SAME_WH) return { paths: half, foundWh: marginOf(half), boundWh: one.ceilingWh };
  if (!isPatient(effort)) return { paths: half, foundWh: marginOf(half), boundWh: one.ceilingWh };
  return bisectExactly(one, half, target, effort);
}

/** Takes out the packs that keep too little and puts them back, for a margin of the target first and then of halves. */
function bisectFast(one: Case, from: readonly PackPath[], target: number, effort: Effort): readonly PackPath[] {
  let best = from;
  let high = target;
  let middle = target;
  for (let n = 0; n < HALVES && high - marginOf(best) > 0.5; n++) {
    const keeps = (path: PackPath): boolean => path.marginWh >= middle - SAME_WH;
    const start = best.map((path) => (keeps(path) ? path : null));
    const verdict = askFast(one, middle - SAME_WH, marginRounds(effort), start);
    if (verdict.kind === "yes") best = verdict.paths;
    else high = middle;
    middle = (marginOf(best) + high) / 2;
  }
  return best;
}

/** Margins that the fast way is asked for. */
const HALVES = 5;

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
