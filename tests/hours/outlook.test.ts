/** Next call, next drive and the end of driving, held against the minute-by-minute reading of the continued log. */
import { describe, expect, it } from "vitest";
import { judge } from "../../src/hours/judge.ts";
import { drivingMustStopAt, outlook } from "../../src/hours/outlook.ts";
import { HOUSE_DEFAULTS } from "../../src/hours/rules/house.ts";
import { ruleSet } from "../../src/hours/rules/index.ts";
import type { LogSpan } from "../../src/hours/spans.ts";
import { instant } from "../../src/time/index.ts";
import { runs } from "../fuzz.ts";
import { calendar, minutesOf, randomLog, randomOf } from "./naive/logs.ts";
import { NAIVE, optionsFor } from "./naive/sets.ts";

const SETS = ["us-property", "us-passenger", "us-production", "ca-south", "eu", "gb-domestic", "house"];
const COUNT = runs(60, 3000);

const spanOf = (from: number, to: number, is: LogSpan["is"]): LogSpan => ({
  from: instant(from),
  to: instant(to),
  is,
  in: "commercial",
  pause: false,
});

describe("off duty from the end of a log on", () => {
  for (const name of SETS) {
    it(`${name}: the first lawful minute at the wheel is the first`, { timeout: 3_600_000 }, () => {
      for (let seed = 1; seed <= COUNT; seed++) {
        const random = randomOf(seed * 104_729);
        // The late release that voids the 16-hour day is a fact of the whole shift, known only afterwards.
        const options = { ...optionsFor(name, random), sixteenHour: false };
        const spans = randomLog(random);
        const rules = ruleSet(name, options, HOUSE_DEFAULTS);
        const naive = NAIVE.get(name);
        const end = spans.at(-1)?.to;
        const start = spans[0]?.from;
        if (rules === null || naive === undefined || end === undefined || start === undefined) throw new Error(name);
        const hour = options.dayStarts / 60;
        const lawful = (at: number): boolean => {
          const rested = at > end ? [spanOf(end, at, "off")] : [];
          const tried = [...spans, ...rested, spanOf(at, at + 1, "driving")];
          return [...naive(minutesOf(tried, hour), options).values()].every((bits) => bits[at - start] !== 1);
        };
        const record = { spans, before: [] };
        const verdict = judge(record, rules, calendar(hour));
        const { earliestNextDrive: first } = outlook(record, [verdict], calendar(hour));
        if (first === null) throw new Error(`seed ${seed}: never`);
        const told = `seed ${seed} ${JSON.stringify(options)} at +${first - end}`;
        expect(lawful(first), `${told} is lawful`).toBe(true);
        // A weekly rest is proposed regular although a reduced one would do.
        const resting = spans.findLast(({ is }) => !["off", "berth", "meal"].includes(is))?.to ?? start;
        const proposed = name === "eu" && first - resting >= 1440;
        const earlier = [first - 1, ...Array.from({ length: 6 }, () => end + Math.floor(random() * (first - end)))];
        for (const at of earlier)
          if (at >= end && at < first && !proposed) expect(lawful(at), `${told}, but +${at - end} is, too`).toBe(false);
        const stop = drivingMustStopAt(record, verdict, calendar(hour));
        if (stop === null || stop < end || name === "ca-south") continue;
        const on = naive(minutesOf([...spans, spanOf(end, end + 2880, "driving")], hour), options);
        let bites = end;
        while ([...on.values()].every((bits) => bits[bites - start] !== 1)) bites++;
        expect(stop - end, `seed ${seed} ${JSON.stringify(options)}: driving on`).toBe(bites - end);
      }
    });
  }
});
