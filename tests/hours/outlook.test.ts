/** Next call, next drive and the end of driving, held against the minute-by-minute reading of the continued log. */
import { describe, expect, it } from "vitest";
import type { LogSpan } from "../../src/hours/count/spans.ts";
import { judgeRecord } from "../../src/hours/judge/judge.ts";
import { drivingMustStopAt, nextCallSearch } from "../../src/hours/judge/nextCallSearch.ts";
import { instant } from "../../src/time/index.ts";
import { runs } from "../fuzz.ts";
import { endsRested } from "./naive/calls.ts";
import { calendar, minutesOf, randomLog, randomOf, randomWeeks } from "./naive/logs.ts";
import type { Marks, Minutes } from "./naive/minutes.ts";
import { engineSet, everyWay, latest, NAIVE, type Naive, optionsFor, type TriedOptions } from "./naive/sets.ts";

const COUNT = runs(60, 3000);

const spanOf = (from: number, to: number, is: LogSpan["is"]): LogSpan => ({
  from: instant(from),
  to: instant(to),
  is,
  in: "commercial",
  pause: false,
});

/** A random log with its rules, and what the plain reading says of ways to go on from its end. */
class Case {
  readonly told: string;
  readonly options: TriedOptions;
  readonly spans: readonly LogSpan[];
  readonly start: number;
  readonly end: number;
  readonly random: () => number;
  private readonly name: string;
  /** Limits whose breaches in the log hang on what follows it. */
  private readonly hanging: readonly string[];
  private readonly naive: Naive;
  private readonly before: number;

  constructor(name: string, seed: number, log: typeof randomLog) {
    this.name = name;
    this.random = randomOf(seed * 104_729);
    // The late release that voids the 16-hour day is a fact of the whole shift, known only afterwards.
    this.options = { ...optionsFor(name, this.random), sixteenHour: false };
    this.spans = log(this.random);
    const home = this.options.homeHour || this.options.homeTwoHours;
    this.hanging = [
      ...(this.options.deferral ? ["ca-south.day-off"] : []),
      ...(home ? ["eu.driving", "eu.week"] : []),
      // A long break becomes the day's rest where none comes in time.
      "eu.daily-rest",
    ];
    const naive = NAIVE.get(name);
    const [start, end] = [this.spans[0]?.from, this.spans.at(-1)?.to];
    if (naive === undefined || start === undefined || end === undefined) throw new Error(name);
    this.naive = naive;
    this.start = start;
    this.end = end;
    this.before = this.shortBefore(naive(this.minutes([]), this.options));
    this.told = `seed ${seed} ${JSON.stringify(this.options)}`;
  }

  /** The earliest minute from `end` on at which driving without a stop breaks something. */
  stop(): number {
    const bites: number[] = [];
    const marks = this.naive(
      this.minutes([spanOf(this.end, this.end + 2880, "driving")]),
      this.options,
      latest(),
      bites,
    );
    // A day short of free time is marked whole; what counts is the minute that makes it so.
    const days = new Set(bites);
    const broken = (i: number): boolean =>
      [...marks].some(([limit, bits]) => (limit === "ca-south.day-off" ? days.has(i) : bits[i] === 1));
    let at = this.end;
    while (!broken(at - this.start)) at++;
    // The longer the drive, the less is left of the day: once it takes too much it always does.
    while (this.takesFromBefore(at)) at -= this.takesFromBefore(at - 30) ? 30 : 1;
    return at;
  }

  /** Whether driving until `to` leaves a day before it short that was to be made up for. */
  private takesFromBefore(to: number): boolean {
    if (this.hanging.length === 0) return false;
    const marks = this.naive(this.minutes([spanOf(this.end, to, "driving")]), this.options);
    return this.shortBefore(marks) > this.before;
  }

  /** Whether one minute of `is` at `at`, off duty until then, is lawful; a call needs its rest, too. */
  lawful(at: number, is: "duty" | "driving"): boolean {
    const off = at > this.end ? [spanOf(this.end, at, "off")] : [];
    // Which rests are a pair is left open: it has to be lawful whichever are.
    for (const { marks } of everyWay(this.naive, this.minutes([...off, spanOf(at, at + 1, is)]), this.options)) {
      if ([...marks.values()].some((bits) => bits[at - this.start] === 1)) return false;
      if (this.shortBefore(marks) > this.before) return false;
    }
    return is === "driving" || endsRested(this.name, this.minutes(off), this.options);
  }

  /** Since when the person has been free, and so whether a weekly rest is proposed in full although less would do. */
  proposesWeekly(at: number): boolean {
    const worked = this.spans.findLast(({ is }) => !["off", "berth", "meal"].includes(is))?.to ?? this.start;
    return this.name === "eu" && at - worked >= 1440;
  }

  private minutes(more: readonly LogSpan[]): Minutes {
    return minutesOf([...this.spans, ...more], this.options.dayStarts / 60);
  }

  /** Minutes of the log itself in breach of what hangs on what follows: a day made up for by the next, a run home to a rest. */
  private shortBefore(marks: Marks): number {
    const inLog = (limit: string): Uint8Array =>
      (marks.get(limit) ?? new Uint8Array()).subarray(0, this.end - this.start);
    return this.hanging.reduce((sum, limit) => sum + inLog(limit).filter((bit) => bit === 1).length, 0);
  }
}

/** Holds the first lawful call, the first lawful drive and the end of driving against the plain reading of one log. */
function hold(name: string, one: Case): void {
  const { options, spans, end, told } = one;
  const rules = engineSet(name, options);
  const days = calendar(options.dayStarts / 60);
  const record = { spans, before: [] };
  const verdict = judgeRecord(record, rules, days);
  const { earliestNextCall, earliestNextDrive } = nextCallSearch([verdict]);
  for (const [is, first] of [
    ["driving", earliestNextDrive],
    ["duty", earliestNextCall],
  ] as const) {
    if (first === null) throw new Error(`${told}: never`);
    expect(one.lawful(first, is), `${told}: ${is} at +${first - end} is lawful`).toBe(true);
    if (one.proposesWeekly(first)) continue;
    const earlier = Array.from({ length: 6 }, () => end + Math.floor(one.random() * (first - end)));
    for (const at of [first - 1, ...earlier].filter((t) => t >= end && t < first)) {
      expect(one.lawful(at, is), `${told}: ${is} at +${first - end}, but +${at - end} is lawful, too`).toBe(false);
    }
  }
  const stop = drivingMustStopAt(verdict);
  if (stop !== null && stop >= end) expect(stop - end, `${told}: driving on`).toBe(one.stop() - end);
}

describe("off duty from the end of a log on", () => {
  for (const name of NAIVE.keys()) {
    it(`${name}: ${COUNT} times the first lawful call, the first lawful drive, the end of driving`, {
      timeout: 3_600_000,
    }, () => {
      for (let seed = 1; seed <= COUNT; seed++) hold(name, new Case(name, seed, randomLog));
    });
  }

  it(`eu: ${COUNT} times the same after weeks`, { timeout: 3_600_000 }, () => {
    for (let seed = 1; seed <= COUNT; seed++) hold("eu", new Case("eu", seed, randomWeeks));
  });
});
