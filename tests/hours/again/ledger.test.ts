/** What is known of someone before a day, from random spans, a release and totals in `history`: each minute looked at by itself. */
import { expect, it } from "vitest";
import { computeDay, type Day, NOTHING_BEFORE } from "../../../src/day/index.ts";
import { calendarOf } from "../../../src/hours/count/calendar.ts";
import { ledgerOf } from "../../../src/hours/judge/ledger.ts";
import type { HistorySpan } from "../../../src/plan/plan.ts";
import { type Instant, instant } from "../../../src/time/units.ts";
import { legsOf, makePlan } from "../../day/make.ts";
import { zoneNamed } from "../../day/parts.ts";
import { random } from "../../day/random.ts";
import { CREW, HIT, ROADS } from "../../day/wagon.ts";
import { runs } from "../../fuzz.ts";

const PLAN = makePlan({
  crew: CREW,
  roads: ROADS,
  hits: { dawn: HIT("08:00") },
  runs: { wagon: { stops: ["home", "pier", "home"] } },
});
const DAY = 1440;
const KINDS = ["off", "off", "berth", "duty", "driving", "ferry", "off", "riding"] as const;
const isFree = ({ is, bunk }: HistorySpan): boolean => is === "off" || is === "berth" || (is === "ferry" && bunk);

/** `off 600, driving 30`. */
function inRuns(minutes: readonly (string | null)[]): string {
  const edges = minutes.flatMap((is, n) => (n === 0 || is !== minutes[n - 1] ? [n] : []));
  return edges.map((from, n) => `${minutes[from]} ${(edges[n + 1] ?? minutes.length) - from}`).join(", ");
}

function bare(): Day {
  const { day } = computeDay(PLAN, legsOf(PLAN), NOTHING_BEFORE);
  if (day === null) throw new Error("no day");
  return day;
}

/** Spans in order up to about the call, some with a hole behind them; the last may reach beyond it. */
function randomSpans(dice: (below: number) => number, call: number): HistorySpan[] {
  const spans: HistorySpan[] = [];
  const whole = dice(3) === 0;
  let from = call - 2500 - dice(2500);
  while (from < call - 60) {
    const is = KINDS[dice(KINDS.length)] ?? "off";
    const to = from + 30 + dice(500);
    const bunk = is === "ferry" && dice(2) === 0;
    spans.push({ from: instant(from), to: instant(to), is, in: "commercial", path: [], bunk });
    from = whole ? to : ([to, to, to, to + 1, to + dice(300)][dice(5)] ?? to);
  }
  return spans;
}

it("is what a look at every minute finds: the last stretch without a hole, the holes, and the work before them by day", () => {
  const day = bare();
  const own = day.people.find(({ id }) => id === "wren")?.spans ?? [];
  const [call, end] = [own[0]?.from ?? 0, own.at(-1)?.to ?? 0];
  const utcDays = calendarOf(zoneNamed("UTC"), 0);
  const told = new Set<string>();
  for (let seed = 1; seed <= Math.max(60, runs(60, 5000)); seed++) {
    const dice = random(seed);
    const spans = randomSpans(dice, call);
    const until = spans.at(-1)?.to ?? instant(call);
    const released: Instant | null = [null, until, instant(until - 60), instant(until + 30)][dice(4)] ?? null;
    // Totals of three days, with which spans may share minutes.
    const dates = [1, 2, 3].map((back) => Math.floor(call / DAY) - back);
    const totals = dates.map((date) => ({ date, duty: 300 + dice(600), driving: dice(300) }));
    const iso = (date: number): string => new Date(date * DAY * 60_000).toISOString().slice(0, 10);
    const stated = totals.map(({ date, duty, driving }) => ({
      ...{ date: iso(date), dutyMinutes: duty, drivingMinutes: driving, path: [] },
    }));
    const history = new Map([
      ["wren", { path: ["history", "wren"], released, asleepMinutes: null, spans, totals: stated }],
    ]);

    const kindAt = (minute: number): string | null => {
      // Of two that share a minute the one that began first has it; rest ends where the day's work begins.
      const said = spans.find((one) => one.from <= minute && minute < one.to && (minute < call || !isFree(one)));
      if (said !== undefined) return isFree(said) && said.is === "ferry" ? "rest" : said.is;
      if (minute >= call) return own.find((one) => one.from <= minute && minute < one.to)?.is ?? null;
      return released !== null && until >= released && minute >= until ? "off" : null;
    };
    const minutes = new Map<number, string | null>();
    const finish = Math.max(end, ...spans.filter((one) => !isFree(one)).map((one) => one.to));
    for (let minute = spans[0]?.from ?? call; minute < finish; minute++) minutes.set(minute, kindAt(minute));
    let first = finish;
    while (minutes.get(first - 1) !== null && minutes.has(first - 1)) first--;
    const holes: [number, number][] = [];
    const worked = new Map<number, { duty: number; driving: number }>();
    const before = new Map<number, { duty: number; driving: number }>();
    for (const [minute, is] of minutes) {
      const last = holes.at(-1);
      if (is === null && last?.[1] === minute) last[1]++;
      else if (is === null) holes.push([minute, minute + 1]);
      if (is === null || is === "off" || is === "berth" || is === "rest") continue;
      for (const [where, fits] of [[worked, minute < until] as const, [before, minute < first] as const]) {
        if (!fits) continue;
        const date = Math.floor(minute / DAY);
        const sum = where.get(date) ?? { duty: 0, driving: 0 };
        where.set(date, sum);
        sum.duty++;
        if (is === "driving") sum.driving++;
      }
    }
    for (const { date, duty, driving } of totals) {
      const sum = before.get(date) ?? { duty: 0, driving: 0 };
      before.set(date, sum);
      sum.duty += Math.max(0, duty - (worked.get(date)?.duty ?? 0));
      sum.driving += Math.max(0, driving - (worked.get(date)?.driving ?? 0));
    }

    const ledger = ledgerOf([{ ...day, plan: { ...day.plan, history } }], "wren");
    expect(ledger.gaps, `seed ${seed}`).toEqual(holes.map(([from, to]) => ({ from, to })));
    const read: string[] = [];
    for (const { from, to, is, bunk } of ledger.spans) {
      expect(from, `seed ${seed}`).toBe(first + read.length);
      for (let minute: number = from; minute < to; minute++) read.push(is === "ferry" && bunk === true ? "rest" : is);
    }
    const known = [...minutes].flatMap(([minute, is]) => (minute < first ? [] : [is]));
    expect(inRuns(read), `seed ${seed}`).toEqual(inRuns(known));
    const sums = new Map<number, { duty: number; driving: number }>();
    for (const one of ledger.recordIn(utcDays).before) {
      const sum = sums.get(one.day) ?? { duty: 0, driving: 0 };
      sums.set(one.day, { duty: sum.duty + one.dutyMinutes, driving: sum.driving + one.drivingMinutes });
    }
    const some = [...sums].filter(([, { duty, driving }]) => duty + driving > 0).sort(([a], [b]) => a - b);
    const wanted = [...before].filter(([, { duty, driving }]) => duty + driving > 0).sort(([a], [b]) => a - b);
    expect(some, `seed ${seed}`).toEqual(wanted);
    told.add(holes.length > 0 ? "holes" : "no hole");
    told.add(released === null ? "not stated" : released === until ? "released with the last span" : "at another time");
  }
  expect(told.size).toBe(5);
});
