/** Holds the exact engine against the minute-by-minute reading, on random logs. */
import { describe, expect, it } from "vitest";
import { choosing, judgeReadings } from "../../../src/hours/count/pairing.ts";
import type { LogSpan } from "../../../src/hours/count/spans.ts";
import { type Breach, judgeRecord } from "../../../src/hours/judge/judge.ts";
import type { RuleSet } from "../../../src/hours/rules/rule.ts";
import { runs } from "../../fuzz.ts";
import { calendar, minutesOf, randomLog, randomOf, randomWeeks } from "./logs.ts";
import type { Marks } from "./minutes.ts";
import { engineSet, everyWay, MOST_WAYS, NAIVE, type Naive, optionsFor, type TriedOptions } from "./sets.ts";

/** Breaches as runs of minutes from the log's start, by limit. */
function marked(marks: Marks): Record<string, string> {
  const found: Record<string, string> = {};
  for (const [limit, bits] of [...marks].sort(([a], [b]) => (a < b ? -1 : 1))) {
    const runsFound: string[] = [];
    for (let i = 0; i < bits.length; i++) {
      if (bits[i] !== 1) continue;
      const from = i;
      while (bits[i] === 1) i++;
      runsFound.push(`${from}-${i}`);
    }
    if (runsFound.length > 0) found[limit] = runsFound.join(" ");
  }
  return found;
}

function marksOf(breaches: readonly Breach[], spans: readonly LogSpan[]): Marks {
  const start = spans[0]?.from ?? 0;
  const end = spans.at(-1)?.to ?? start;
  const marks: Marks = new Map();
  for (const { limit, from, to } of breaches) {
    const bits = marks.get(limit.id) ?? new Uint8Array(end - start);
    bits.fill(1, Math.max(0, from - start), Math.min(end - start, to - start));
    marks.set(limit.id, bits);
  }
  return marks;
}

const judged = (spans: readonly LogSpan[], rules: RuleSet): Record<string, string> =>
  marked(marksOf(judgeRecord({ spans, before: [] }, rules, calendar(rules.dayStarts / 60)).breaches, spans));

const story = (spans: readonly LogSpan[]): string =>
  spans
    .map(
      ({ from, to, is, in: vehicle }) =>
        `${from - (spans[0]?.from ?? 0)}-${to - (spans[0]?.from ?? 0)} ${is}${vehicle === "light" ? "*" : ""}`,
    )
    .join(", ");

/** In the usual run 2,000 logs a rule set; in the fuzz 88,000, shared among the eight sets, and the weeks besides. */
const COUNT = runs(2000, 11_000);
const minutesIn = (marks: Marks): number =>
  [...marks.values()].reduce((sum, bits) => sum + bits.filter((bit) => bit === 1).length, 0);

/** A random log under a rule set with random options. */
class Case {
  readonly options: TriedOptions;
  readonly spans: readonly LogSpan[];
  private readonly rules: RuleSet;
  private readonly naive: Naive;
  private readonly seed: number;

  constructor(name: string, seed: number, log = randomLog) {
    const naive = NAIVE.get(name);
    const random = randomOf(seed * 7919);
    this.options = optionsFor(name, random);
    this.spans = log(random);
    if (naive === undefined) throw new Error(name);
    this.rules = engineSet(name, this.options);
    this.naive = naive;
    this.seed = seed;
  }

  /** Compares every way to pair; returns the most minutes in breach, and how many ways there were. */
  agrees(): { readonly most: number; readonly ways: number } {
    const ways = everyWay(this.naive, minutesOf(this.spans, this.options.dayStarts / 60), this.options);
    for (const { passed, marks } of ways) {
      const expected = marked(marks);
      const got = judged(this.spans, choosing(this.rules, passed));
      if (JSON.stringify(got) === JSON.stringify(expected)) continue;
      expect(got, `seed ${this.seed} ${JSON.stringify(this.options)} ${passed}: ${story(this.spans)}`).toEqual(
        expected,
      );
    }
    return { most: Math.max(...ways.map(({ marks }) => minutesIn(marks))), ways: ways.length };
  }

  /** Minutes in breach by the engine's strictest way to pair. */
  strictest(): number {
    const days = calendar(this.options.dayStarts / 60);
    const { strictest } = judgeReadings({ spans: this.spans, before: [] }, this.rules, days);
    return minutesIn(marksOf(strictest.breaches, this.spans));
  }
}

/** One test a rule set: every way to pair rests where several fit, and the strictest of them. */
export function agreeOn(names: readonly string[]): void {
  describe("the engine and a minute-by-minute reading agree, whichever rests are paired", () => {
    for (const name of names) {
      it(`${name}: ${COUNT} logs`, { timeout: 3_600_000 }, () => {
        let several = 0;
        for (let seed = 1; seed <= COUNT; seed++) {
          const one = new Case(name, seed);
          const { most, ways } = one.agrees();
          if (ways === 1 || ways === MOST_WAYS) continue;
          several += 1;
          // The 16-hour day may be used once in 7 days: there the stretches between full rests hang together.
          if (!one.options.sixteenHour) expect(one.strictest(), `seed ${seed}, ${ways} ways`).toBe(most);
        }
        if (SPLIT.has(name)) expect(several).toBeGreaterThan(COUNT / 500);
      });
    }
  });
}

/** The rule sets under which two rests may stand in for one. */
const SPLIT: ReadonlySet<string> = new Set(["us-property", "us-passenger", "ca-south"]);

/** Logs of weeks are long. */
const WEEKS = runs(400, 12_000);

/** The same over weeks, until what a week left owed is due. */
export function agreeOverWeeks(name: string): void {
  it(`${name}: the engine and a minute-by-minute reading agree over up to five weeks, ${WEEKS} logs`, {
    timeout: 3_600_000,
  }, () => {
    for (let seed = 1; seed <= WEEKS; seed++) new Case(name, seed, randomWeeks).agrees();
  });
}
