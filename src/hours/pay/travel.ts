/** Travel away from home over night under the Fair Labor Standards Act: 29 CFR 785.39 and 785.41. */

import { type Instant, instant } from "../../time/units.ts";
import type { LogSpan } from "../spans.ts";

/** A stretch of the clock, minutes after midnight. */
export interface NormalHours {
  readonly fromMinute: number;
  readonly toMinute: number;
}

/**
 * The minutes of a span that are worktime. Riding as a passenger counts inside the normal working hours, on days off, too
 * (785.39); whoever drives is working (785.41). `minuteOfDay` reads the clock of the place where the trip began.
 */
export function worktimeMinutes(span: LogSpan, normal: NormalHours, minuteOfDay: (at: Instant) => number): number {
  if (span.is === "off" || span.is === "berth" || span.is === "meal" || span.is === "personal") return 0;
  if (span.is !== "riding") return span.to - span.from;
  let counted = 0;
  for (let at = span.from; at < span.to; at = instant(at + 1)) {
    const minute = minuteOfDay(at);
    if (minute >= normal.fromMinute && minute < normal.toMinute) counted += 1;
  }
  return counted;
}
