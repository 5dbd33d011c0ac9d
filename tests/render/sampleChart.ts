/** A winter day's chart with every kind of bar, for the drawing tests: 20 January 2027, Chicago clock. */
import type { Bar, Chart } from "../../src/reports/shared/view.ts";
import { type Instant, instant, type ZoneId } from "../../src/time/units.ts";

const MIDNIGHT = Date.UTC(2027, 0, 20, 6) / 60_000;

/** `at(4, 30)` is 04:30 Chicago. */
export const at = (hour: number, minute = 0): Instant => instant(MIDNIGHT + hour * 60 + minute);

const bar = (style: Bar["style"], from: Instant, to: Instant, text = ""): Bar => ({ style, from, to, text });

export const sampleChart = (changes: Partial<Chart> = {}): Chart => ({
  kind: "chart",
  title: "The day",
  description: "Who does what from 03:30 to 19:00 Chicago.",
  from: at(3, 30),
  to: at(19),
  zone: "America/Chicago" as ZoneId,
  lanes: [
    {
      label: "sky",
      bars: [
        bar("night", at(3, 30), at(7, 7), "dark"),
        bar("twilight", at(7, 7), at(7, 40)),
        bar("day", at(7, 40), at(16, 50), "daylight"),
        bar("twilight", at(16, 50), at(17, 25)),
        bar("night", at(17, 25), at(19), "dark"),
      ],
    },
    {
      label: "hits",
      bars: [
        bar("hit", at(6), at(6, 3)),
        bar("hit", at(6, 30), at(6, 33)),
        bar("hit", at(7), at(7, 3)),
        bar("hit", at(11), at(11, 5)),
        bar("hit", at(17), at(17, 3)),
      ],
      marks: [
        { at: at(6), text: "dawn.1" },
        { at: at(6, 30), text: "dawn.2" },
        { at: at(7), text: "dawn.3" },
        { at: at(11), text: "noon" },
        { at: at(17), text: "evening" },
      ],
    },
    {
      label: "wren",
      bars: [
        bar("rest", at(3, 30), at(4)),
        bar("duty", at(4), at(4, 15), "loading"),
        bar("drive", at(4, 15), at(5, 5), "wagon"),
        bar("duty", at(5, 5), at(8), "dawn"),
        bar("wait", at(8), at(9, 30), "wait"),
        bar("ride", at(9, 30), at(10, 20), "truck"),
        bar("duty", at(10, 20), at(18, 30)),
      ],
    },
    {
      label: "brick.1",
      bars: [bar("use", at(5, 40), at(7, 13)), bar("charge", at(8), at(10)), bar("window", at(10), at(12))],
      curve: [
        { at: at(3, 30), share: 1 },
        { at: at(5, 40), share: 1 },
        { at: at(7, 13), share: 0.35 },
        { at: at(8), share: 0.35 },
        { at: at(10), share: 0.95 },
        { at: at(19), share: 0.95 },
      ],
    },
  ],
  ...changes,
});
