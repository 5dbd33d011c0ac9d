/** Holds the exact engine against the minute-by-minute reading, on random logs. */
import { describe, expect, it } from "vitest";
import { judge } from "../../../src/hours/judge.ts";
import { pairedEarliest } from "../../../src/hours/pairing.ts";
import { HOUSE_DEFAULTS } from "../../../src/hours/rules/house.ts";
import { ruleSet } from "../../../src/hours/rules/index.ts";
import type { RuleOptions } from "../../../src/hours/rules/options.ts";
import type { LogSpan } from "../../../src/hours/spans.ts";
import { runs } from "../../fuzz.ts";
import { calendar, minutesOf, randomLog, randomOf } from "./logs.ts";
import type { Marks, Pairing } from "./minutes.ts";
import { NAIVE, optionsFor } from "./sets.ts";

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

function judged(
  spans: readonly LogSpan[],
  name: string,
  options: RuleOptions,
  pairing: Pairing,
): Record<string, string> {
  const named = ruleSet(name, options, HOUSE_DEFAULTS);
  if (named === null) throw new Error(name);
  const rules = pairing === "latest" ? named : pairedEarliest(named);
  const start = spans[0]?.from ?? 0;
  const end = spans.at(-1)?.to ?? start;
  const { breaches } = judge({ spans, before: [] }, rules, calendar(options.dayStarts / 60));
  const marks: Marks = new Map();
  for (const { limit, from, to } of breaches) {
    const bits = marks.get(limit.id) ?? new Uint8Array(end - start);
    bits.fill(1, Math.max(0, from - start), Math.min(end - start, to - start));
    marks.set(limit.id, bits);
  }
  return marked(marks);
}

const story = (spans: readonly LogSpan[]): string =>
  spans
    .map(
      ({ from, to, is, in: vehicle }) =>
        `${from - (spans[0]?.from ?? 0)}-${to - (spans[0]?.from ?? 0)} ${is}${vehicle === "light" ? "*" : ""}`,
    )
    .join(", ");

/** In the usual run 2,000 logs a rule set, and a little run of the other reading of the berth's pairs. */
const COUNT: Readonly<Record<Pairing, number>> = { latest: runs(2000, 100_000), earliest: runs(200, 20_000) };

/** One test a rule set. */
export function agreeOn(names: readonly string[], pairing: Pairing): void {
  const count = COUNT[pairing];
  describe(`the engine and a minute-by-minute reading agree, rests paired with the ${pairing} that fits`, () => {
    for (const name of names) {
      it(`${name}: ${count} logs`, { timeout: 3_600_000 }, () => {
        const naive = NAIVE.get(name);
        if (naive === undefined) throw new Error(name);
        for (let seed = 1; seed <= count; seed++) {
          const random = randomOf(seed * 7919);
          const options = optionsFor(name, random);
          const spans = randomLog(random);
          const expected = marked(naive(minutesOf(spans, options.dayStarts / 60), options, pairing));
          const got = judged(spans, name, options, pairing);
          if (JSON.stringify(got) !== JSON.stringify(expected)) {
            expect(got, `seed ${seed} ${JSON.stringify(options)}: ${story(spans)}`).toEqual(expected);
          }
        }
      });
    }
  });
}
