/** The daily rest inside each 24 h (30 h with two drivers): Regulation (EC) 561/2006 Art 4(g), 8(2) to 8(5). */
import type { Instant } from "../../time/units.ts";
import type { Since } from "../rules/rule.ts";
import { type Epoch, type EpochInput, firstWork, plainEpoch } from "./countingPeriods.ts";

type DailySince = Extract<Since, { kind: "dailyRest" }>;

/**
 * Epochs from daily rest to daily rest; `allows` is how long after the last rest the next must begin. It grows when a
 * first part has been taken, so such a day makes two epochs with one anchor.
 */
export function dailyRestEpochs(input: EpochInput, since: DailySince): readonly Epoch[] {
  const epochs: Epoch[] = [];
  let anchor: Instant = firstWork(input);
  let from: Instant = anchor;
  let rested = false;
  let reducedTaken = 0;
  let firstPart = false;
  const shortest = (): number => (firstPart || reducedTaken < since.times ? since.reduced : since.regular);
  const push = (to: Instant): void => {
    epochs.push({ ...plainEpoch(from, to, rested), anchor, allows: since.within - shortest() });
    from = to;
  };
  for (const run of input.reading.rests) {
    if (run.to <= anchor) continue;
    const length = run.to - run.from;
    if (length >= shortest()) {
      push(run.to);
      const inside = Math.min(run.to, anchor + since.within) - run.from;
      if (length >= since.weekly) reducedTaken = 0;
      else if (!firstPart && inside < since.regular) reducedTaken += 1;
      anchor = run.to;
      rested = true;
      firstPart = false;
    } else if (since.firstPart !== null && length >= since.firstPart && !firstPart) {
      push(run.to);
      firstPart = true;
    }
  }
  push(from > input.end ? from : input.end);
  return epochs;
}
