/** The exact engine against the minute-by-minute reading, on random logs. */
import { describe, expect, it } from "vitest";
import { judge } from "../../src/hours/judge.ts";
import { HOUSE_DEFAULTS } from "../../src/hours/rules/house.ts";
import { ruleSet } from "../../src/hours/rules/index.ts";
import type { RuleOptions } from "../../src/hours/rules/options.ts";
import type { LogSpan } from "../../src/hours/spans.ts";
import { runs } from "../fuzz.ts";
import { calendar, minutesOf, randomLog, randomOf } from "./naive/logs.ts";
import type { Marks } from "./naive/minutes.ts";
import { NAIVE, optionsFor } from "./naive/sets.ts";

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

function judged(spans: readonly LogSpan[], name: string, options: RuleOptions): Record<string, string> {
  const rules = ruleSet(name, options, HOUSE_DEFAULTS);
  if (rules === null) throw new Error(name);
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

const COUNT = runs(2000, 100_000);

describe("the engine and a minute-by-minute reading agree", () => {
  for (const [name, naive] of NAIVE) {
    it(`${name}: ${COUNT} logs`, { timeout: 3_600_000 }, () => {
      for (let seed = 1; seed <= COUNT; seed++) {
        const random = randomOf(seed * 7919);
        const options = optionsFor(name, random);
        const spans = randomLog(random);
        const expected = marked(naive(minutesOf(spans, options.dayStarts / 60), options));
        const got = judged(spans, name, options);
        if (JSON.stringify(got) !== JSON.stringify(expected)) {
          expect(got, `seed ${seed} ${JSON.stringify(options)}: ${story(spans)}`).toEqual(expected);
        }
      }
    });
  }
});
