/** Where stretches in time order do not touch. */
import type { Interval } from "../../src/time/units.ts";

export const gaps = (spans: readonly Interval[]): readonly string[] =>
  spans.flatMap((span, index) => {
    const next = spans[index + 1];
    return next === undefined || next.from === span.to ? [] : [`${span.to} to ${next.from}`];
  });
