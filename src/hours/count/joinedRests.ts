/** Rests that getting on and off a ferry interrupts: Regulation (EC) No 561/2006 Art 9(1), SOR/2005-313 s. 17. */
import type { Interval } from "../../time/units.ts";
import type { FerryRule } from "../rules/rule.ts";
import { type RestRun, restMinutes, type SpanReading } from "./reading.ts";

/** The rests from the `first` to the `last` of them as one. */
function joined(rests: readonly RestRun[]): RestRun | null {
  const [first, last] = [rests[0], rests.at(-1)];
  if (first === undefined || last === undefined) return null;
  const interruptions = rests.slice(1).map((rest, i) => ({ from: rests[i]?.to ?? rest.from, to: rest.from }));
  const berth = rests.map((rest) => rest.berth).reduce((a, b) => (b.to - b.from > a.to - a.from ? b : a));
  return { from: first.from, to: last.to, berth, night: rests.some(({ night }) => night), interruptions };
}

const inside = ({ from, to }: Interval, whole: Interval): boolean => from >= whole.from && to <= whole.to;

/**
 * The rests of a reading, where fewer than `least` minutes in one piece do not do: rests round a crossing are one if they
 * make `least` together and no more comes between them than the law allows. One that is long enough alone stays alone.
 */
export function joinedRests(
  { rests, crossings }: SpanReading,
  { interrupted }: FerryRule,
  least: number,
): readonly RestRun[] {
  if (interrupted === null || crossings.length === 0) return rests;
  const done: RestRun[] = [];
  for (let i = 0; i < rests.length; i++) {
    const alone = rests[i];
    if (alone === undefined) break;
    let whole: RestRun = alone;
    for (let more = 1; more <= interrupted.times && restMinutes(whole) < least; more++) {
      const group = rests.slice(i, i + 1 + more);
      const next = joined(group);
      if (next === null || group.length <= more) break;
      const between = next.to - next.from - restMinutes(next);
      if (between > interrupted.minutes || group.some((rest) => rest.to - rest.from >= least)) break;
      whole = next;
    }
    const { interruptions = [] } = whole;
    const holds = restMinutes(whole) >= least && crossings.some((crossing) => inside(crossing, whole));
    if (interruptions.length > 0 && holds) {
      done.push(whole);
      i += interruptions.length;
    } else done.push(alone);
  }
  return done;
}
