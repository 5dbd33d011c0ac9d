/** The fills of a chart's bars in SVG: a colour for the screen and a pattern that still differs in black and white. */
import type { BarStyle } from "./chart.ts";

interface Fill {
  /** The ground, behind the pattern; the name of its CSS variable is `--chart-<style>`. */
  readonly ground: string;
  /** What is drawn on an 8 by 8 tile. */
  readonly drawing: string;
}

const line = (points: string, width = 1.4): string =>
  `<path d="${points}" fill="none" stroke="var(--ink,#111)" stroke-width="${width}"/>`;
const dot = (x: number, y: number, radius: number): string =>
  `<circle cx="${x}" cy="${y}" r="${radius}" fill="var(--ink,#111)"/>`;

const RISING = "M-2 2L2 -2M0 8L8 0M6 10L10 6";
const FALLING = "M-2 6L2 10M0 0L8 8M6 -2L10 2";

const FILLS: Readonly<Record<BarStyle, Fill>> = {
  hit: { ground: "#b3261e", drawing: "" },
  drive: { ground: "#cfe0f5", drawing: line(RISING, 2) },
  ride: { ground: "#e6eef8", drawing: line("M0 2H8M0 6H8", 0.8) },
  ferry: { ground: "#d7eef0", drawing: line("M0 4Q2 1 4 4T8 4", 0.8) },
  duty: { ground: "#efe6d2", drawing: dot(2, 2, 0.9) + dot(6, 6, 0.9) },
  wait: { ground: "#f7f3ea", drawing: dot(4, 4, 0.7) },
  meal: { ground: "#fff", drawing: line("M2 0V8", 0.6) },
  rest: { ground: "transparent", drawing: "" },
  charge: { ground: "#d5ecd6", drawing: line("M2 0V8M6 0V8", 1) },
  use: { ground: "#f5dfc0", drawing: line(FALLING, 1.2) },
  window: { ground: "#ece2f3", drawing: line("M0 4H8", 1) },
  day: { ground: "#fdf3c4", drawing: "" },
  twilight: { ground: "#c9cfe0", drawing: line(RISING, 0.8) },
  night: { ground: "#5b6478", drawing: line(RISING, 1) + line(FALLING, 1) },
};

/** The id of the pattern of a style, in one chart. */
export const patternId = (id: string, style: BarStyle): string => `${id}-${style}`;

/** The `<pattern>` elements of the kinds of bar in use. */
export const patterns = (styles: readonly BarStyle[], id: string): string =>
  styles
    .map((style) => {
      const { ground, drawing } = FILLS[style];
      return (
        `<pattern id="${patternId(id, style)}" width="8" height="8" patternUnits="userSpaceOnUse">` +
        `<rect width="8" height="8" fill="var(--chart-${style},${ground})"/>${drawing}</pattern>`
      );
    })
    .join("");
