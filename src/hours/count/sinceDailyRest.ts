/** The daily rest inside each 24 h (30 h with two drivers): Regulation (EC) 561/2006 Art 4(g), 8(2) to 8(5). */
import { type Instant, instant } from "../../time/units.ts";
import type { Since } from "../rules/rule.ts";
import { type CountingInput, type CountingPeriod, firstWork, plainPeriod } from "./countingPeriods.ts";
import { joinedRests } from "./joinedRests.ts";
import { type RestRun, restMinutes } from "./reading.ts";

type DailySince = Extract<Since, { kind: "dailyRest" }>;

/** The minutes of a rest that lie before `until`. */
const minutesUntil = (run: RestRun, until: number): number => {
  const late = Math.max(0, run.to - until);
  return restMinutes(run) - late;
};

/** What the daily rests of a record make: the periods, and how many reduced ones are left at its end. */
export interface DailyRests {
  readonly periods: readonly CountingPeriod[];
  readonly reducedLeft: number;
  /** Rests that were too short and yet ended the count of driving. In order. */
  readonly short: readonly RestRun[];
}

/** One walk over the rests of a record. */
class Walk {
  readonly periods: CountingPeriod[] = [];
  readonly short: RestRun[] = [];
  reducedTaken = 0;
  readonly #since: DailySince;
  readonly #rests: readonly RestRun[];
  /** The end of the last work in the record. */
  readonly #worksUntil: Instant;
  #anchor: Instant;
  #from: Instant;
  #rested = false;
  #firstPart = false;
  /** Until when a rest that was too short would have lasted. */
  #owedUntil: Instant | null = null;

  constructor(input: CountingInput, since: DailySince) {
    const start = firstWork(input);
    this.#since = since;
    this.#rests = joinedRests(input.reading, input.rules.ferry, since.regular);
    const last = input.reading.rests.at(-1);
    this.#worksUntil = last !== undefined && last.to === input.end ? last.from : input.end;
    this.#anchor = start;
    this.#from = start;
  }

  /** The least rest that ends the running day. */
  shortest(): number {
    const { times, reduced, regular } = this.#since;
    return this.#firstPart || this.reducedTaken < times ? reduced : regular;
  }

  push(to: Instant): void {
    const owed = this.#owedUntil;
    if (owed !== null && owed > this.#from && to > this.#from) {
      const until = instant(Math.min(owed, to));
      this.periods.push({ ...plainPeriod(this.#from, until, this.#rested), anchor: this.#anchor, allows: 0 });
      this.#from = until;
      if (until === to) return;
    }
    const { within, times, clause } = this.#since;
    const none = this.#since.reduced < this.#since.regular && this.reducedTaken >= times && !this.#firstPart;
    const named = none ? { clause } : {};
    const whole = { ...plainPeriod(this.#from, to, this.#rested), anchor: this.#anchor, ...named };
    this.periods.push({ ...whole, allows: within - this.shortest() });
    this.#from = to;
  }

  run(): void {
    for (const rest of this.#rests) this.#rest(rest);
  }

  #rest(run: RestRun): void {
    if (run.to <= this.#anchor) return;
    const { firstPart } = this.#since;
    if (restMinutes(run) >= this.shortest()) this.#full(run);
    else if (restMinutes(run) >= this.#since.endsCount && this.#isLast(run)) this.#cutShort(run);
    else if (firstPart !== null && restMinutes(run) >= firstPart && !this.#firstPart) {
      this.push(run.to);
      this.#firstPart = true;
    }
  }

  /** Whether no daily rest comes in time after one that is too short: it is then the day's, and no mere break. */
  #isLast(run: RestRun): boolean {
    const { firstPart, reduced, within } = this.#since;
    const need = firstPart === null ? this.shortest() : reduced;
    const latest = this.#anchor + within - need;
    const next = this.#rests.find((rest) => rest.from > run.from && restMinutes(rest) >= need);
    if (next !== undefined && next.from <= latest) return false;
    return this.#worksUntil > latest && this.#worksUntil > run.to;
  }

  #full(run: RestRun): void {
    const { weekly, within, regular } = this.#since;
    this.#until(run);
    const inside = minutesUntil(run, this.#anchor + within);
    if (restMinutes(run) >= weekly) this.reducedTaken = 0;
    else if (!this.#firstPart && inside < regular) this.reducedTaken += 1;
    this.#begin(run.to, null);
  }

  /** What is missing is counted once: before the rest, where it began too late, else straight after it. */
  #cutShort(run: RestRun): void {
    const latest = this.#anchor + this.#since.within - this.shortest();
    const late = Math.max(0, run.from - latest);
    const missing = Math.max(0, this.shortest() - restMinutes(run) - late);
    this.#until(run);
    this.short.push(run);
    this.#begin(run.to, instant(run.to + missing));
  }

  #begin(at: Instant, owedUntil: Instant | null): void {
    this.#anchor = at;
    this.#rested = true;
    this.#firstPart = false;
    this.#owedUntil = owedUntil;
  }

  /** The day up to a rest's end; work that may interrupt the rest counts at the wheel and delays nothing. */
  #until(run: RestRun): void {
    const { interruptions = [] } = run;
    if (interruptions.length === 0) {
      this.push(run.to);
      return;
    }
    this.push(run.from);
    const whole = { ...plainPeriod(this.#from, run.to, this.#rested), anchor: this.#anchor };
    this.periods.push({ ...whole, allows: this.#since.within * 2 });
    this.#from = run.to;
  }
}

/**
 * Counting periods from daily rest to daily rest; `allows` is how long after the last rest the next must begin. It grows when a
 * first part has been taken, so such a day makes two periods with one anchor. A rest that is too short but of `endsCount`
 * minutes or more ends the day as well (Commission decision of 7 June 2011): what it lacks is a breach, once.
 */
export function dailyRests(input: CountingInput, since: DailySince): DailyRests {
  const walk = new Walk(input, since);
  walk.run();
  walk.push(instant(Math.max(walk.periods.at(-1)?.to ?? firstWork(input), input.end)));
  return { periods: walk.periods, reducedLeft: Math.max(0, since.times - walk.reducedTaken), short: walk.short };
}

/** The counting periods between daily rests. */
export const periodsSinceDailyRest = (input: CountingInput, since: DailySince): readonly CountingPeriod[] =>
  dailyRests(input, since).periods;
