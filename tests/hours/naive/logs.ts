/** Random logs: 1 to 16 days over clock changes, with lengths that meet the rules' own numbers to the minute. */

import { calendarOf } from "../../../src/hours/count/calendar.ts";
import type { LogSpan } from "../../../src/hours/count/spans.ts";
import { instant, zone } from "../../../src/time/index.ts";
import type { Minutes } from "./minutes.ts";

/** A small seeded generator (mulberry32), so that a failing log can be had again. */
export function randomOf(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), state | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

const known = zone("America/Chicago");
if (known === null) throw new Error("no zone");

/** Two weeks round each clock change of 2026, and a plain summer. */
const STARTS = ["2026-02-26", "2026-10-20", "2026-06-01"].map((date) => Date.parse(`${date}T06:00Z`) / 60_000);

const LIMITS = [120, 180, 240, 360, 420, 480, 540, 600, 660];
const SHORT = [5, 14, 15, 16, 29, 30, 31, 44, 45, 46, 60, 90, 115, 150, 200, 270, 330];
const LONG = [780, 840, 960, 1440, 2040, 2160, 2700, 4320];

const pick = <T>(random: () => number, from: readonly T[]): T => from[Math.floor(random() * from.length)] as T;

function lengthOf(random: () => number): number {
  const kind = random();
  if (kind < 0.45) return pick(random, SHORT);
  if (kind < 0.9) return pick(random, LIMITS) + pick(random, [-1, 0, 0, 1]);
  return 1 + Math.floor(random() * 500);
}

const REST: readonly LogSpan["is"][] = ["off", "off", "berth", "berth", "off"];
const WORK: readonly LogSpan["is"][] = [
  "driving",
  "driving",
  "driving",
  "duty",
  "duty",
  "riding",
  "standby",
  "meal",
  "personal",
];

/** A log of spans that follow each other. */
export function randomLog(random: () => number): LogSpan[] {
  const start = pick(random, STARTS) + Math.floor(random() * 3 * 1440);
  // Short logs more often than long ones: they find as much in less time.
  const end = start + 1440 * (1 + Math.floor(16 * random() ** 3));
  const spans: LogSpan[] = [];
  let rested = random() < 0.8;
  for (let at = start; at < end; ) {
    const resting: boolean = rested || random() < 0.25;
    const is: LogSpan["is"] = resting ? pick(random, REST) : pick(random, WORK);
    let length = lengthOf(random);
    if (rested)
      length =
        random() < 0.15
          ? pick(random, LONG) + pick(random, [-1, 0, 1])
          : pick(random, LIMITS.slice(4)) + pick(random, [-1, 0, 0, 1]);
    if (is === "driving") length = Math.min(length, 400);
    spans.push({
      from: instant(at),
      to: instant(at + length),
      is,
      in: random() < 0.12 ? "light" : "commercial",
      pause: false,
    });
    at += length;
    rested = !resting && random() < 0.22;
  }
  return spans;
}

/** Lengths of weekly rests, full and short, and of what makes up for a short one: 9 h or 45 h and 21, 15 or 1 h. */
const WEEKLY = [1440, 1440, 1800, 2160, 2640, 2700, 2700, 2700, 2760, 2880, 3600, 3960, 4140, 5400, 10080];
/** The least that will do, or less: nothing is left to make up with. */
const SCARCE = [1440, 1500, 2700, 2700, 2701];
const MADE_UP = [600, 1440, 1800, 3060];

/** A log of two to five weeks with shifts, nights and weekly rests, most of them lawful: what is owed comes due in it. */
export function randomWeeks(random: () => number): LogSpan[] {
  const start = pick(random, STARTS) + Math.floor(random() * 7 * 1440);
  const end = start + 1440 * (12 + Math.floor(22 * random()));
  const [weekly, madeUp, wheel] = [random() < 0.6 ? SCARCE : WEEKLY, 0.15 * random(), random()];
  const spans: LogSpan[] = [];
  let at = start;
  const add = (is: LogSpan["is"], length: number): void => {
    spans.push({ from: instant(at), to: instant(at + length), is, in: "commercial", pause: false });
    at += length;
  };
  const about = (length: number): number => length + pick(random, [-1, 0, 0, 0, 1]);
  const shift = (): void => {
    for (let left = pick(random, [1, 60, 300, 540, 600, 630, 660, 780]); left > 0; left -= 270) {
      const length = Math.min(left, 270);
      add(random() < wheel ? "driving" : "duty", length);
      if (left > length) add("off", pick(random, [15, 30, 45, 45, 180]));
    }
  };
  if (random() < 0.8) add("off", about(pick(random, weekly)));
  while (at < end) {
    const shifts = pick(random, [1, 2, 3, 4, 5, 5, 6, 7]);
    for (let n = 0; n < shifts; n++) {
      if (n > 0) add("off", about(pick(random, random() < madeUp ? MADE_UP : [540, 660, 660, 720, 840])));
      shift();
    }
    add("off", about(pick(random, weekly)));
  }
  return spans;
}

/** Day numbers by the host's own time zone data, one look-up an hour. */
const format = new Intl.DateTimeFormat("en-CA", {
  timeZone: "America/Chicago",
  year: "numeric",
  month: "2-digit",
  day: "2-digit",
  hour: "2-digit",
  hourCycle: "h23",
});
const hoursSeen = new Map<number, { readonly day: number; readonly hour: number }>();
function hourAt(minute: number): { readonly day: number; readonly hour: number } {
  const key = Math.floor(minute / 60);
  const seen = hoursSeen.get(key);
  if (seen !== undefined) return seen;
  const parts = new Map(format.formatToParts(key * 3_600_000).map(({ type, value }) => [type, value]));
  const date = Date.UTC(Number(parts.get("year")), Number(parts.get("month")) - 1, Number(parts.get("day")));
  const found = { day: date / 86_400_000, hour: Number(parts.get("hour")) };
  hoursSeen.set(key, found);
  return found;
}

/** The calendar day of a minute, days beginning at `startHour`. */
export function dayAt(minute: number, startHour: number): number {
  const { day, hour } = hourAt(minute);
  return hour < startHour ? day - 1 : day;
}

export function minutesOf(spans: readonly LogSpan[], startHour: number): Minutes {
  const start = spans[0]?.from ?? 0;
  const length = (spans.at(-1)?.to ?? start) - start;
  const is = new Array<string>(length);
  const light = new Array<boolean>(length);
  for (const span of spans) {
    is.fill(span.is, span.from - start, span.to - start);
    light.fill(span.in === "light", span.from - start, span.to - start);
  }
  const day = new Int32Array(length);
  for (let i = 0; i < length; i++) {
    day[i] = i > 0 && (start + i) % 60 !== 0 ? (day[i - 1] ?? 0) : dayAt(start + i, startHour);
  }
  return { length, is, light, day };
}

/** Minutes in a calendar day: 23 or 25 hours at a clock change. */
const lengths = new Map<string, number>();
export function dayLength(day: number, startHour: number): number {
  const key = `${day} ${startHour}`;
  const seen = lengths.get(key);
  if (seen !== undefined) return seen;
  let hours = 0;
  for (let h = (day - 1) * 24; h < (day + 3) * 24; h++) if (dayAt(h * 60, startHour) === day) hours += 1;
  lengths.set(key, hours * 60);
  return hours * 60;
}

export const calendar = (startHour: number) => calendarOf(known, startHour * 60);
