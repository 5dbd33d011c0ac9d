import { describe, expect, it } from "vitest";
import { BAR_LOOKS, groupMarks, tickHours, ticks } from "../../src/render/chart/chart.ts";
import { chartSvg } from "../../src/render/chart/svg.ts";
import { chartText } from "../../src/render/chart/text.ts";
import { widthOf } from "../../src/render/text/fit.ts";
import type { Chart, Lane } from "../../src/reports/shared/view.ts";
import { clockText, instant, type ZoneId } from "../../src/time/index.ts";
import { at, sampleChart } from "./sampleChart.ts";

const say = { clock: clockText };
const lane = (changes: Partial<Lane>): Lane => ({ label: "lane", bars: [], ...changes });

describe("a chart in characters", () => {
  it("never is wider than asked for, at any width and with wide letters", () => {
    const wide = sampleChart({
      lanes: sampleChart().lanes.map((one) => ({ ...one, label: `${one.label} 日本語の名前` })),
    });
    for (const chart of [sampleChart(), wide]) {
      for (let width = 40; width <= 160; width += 1) {
        for (const line of chartText(chart, say, { width, ascii: false }))
          expect(widthOf(line)).toBeLessThanOrEqual(width);
      }
    }
  });

  it("keeps to ASCII where asked, but for the words of the plan", () => {
    const text = chartText(sampleChart(), say, { width: 80, ascii: true }).join("\n").replaceAll("…", "");
    expect(text).toMatch(/^[\x20-\x7e\n]*$/u);
  });

  it("tells every kind of bar from every other without colour", () => {
    const looks = Object.values(BAR_LOOKS);
    expect(new Set(looks.map((look) => look.block)).size).toBe(looks.length);
    expect(new Set(looks.map((look) => look.ascii)).size).toBe(looks.length);
  });

  it("paints a short hit over the duty around it, and never loses it between columns", () => {
    const chart = sampleChart({
      lanes: [
        lane({
          bars: [
            { style: "hit", from: at(6), to: at(6, 1), text: "" },
            { style: "duty", from: at(5), to: at(9), text: "" },
          ],
        }),
      ],
    });
    for (const width of [40, 60, 80, 120]) {
      expect(chartText(chart, say, { width, ascii: true })[1]).toContain("#");
    }
  });

  it("puts bars and hours in the same columns", () => {
    const chart = sampleChart({ lanes: [lane({ bars: [{ style: "drive", from: at(12), to: at(13), text: "" }] })] });
    const [axis = "", bars = ""] = chartText(chart, say, { width: 80, ascii: true });
    expect(bars.indexOf(">")).toBe(axis.indexOf("12:00"));
  });

  it("draws a curve by height: full is the highest step, empty the lowest", () => {
    const curve = [
      { at: at(3, 30), share: 0 },
      { at: at(19), share: 1 },
    ];
    const chart = sampleChart({ lanes: [lane({ curve })] });
    const lines = chartText(chart, say, { width: 80, ascii: true });
    expect(lines[1]?.replace("lane ", "")).toMatch(/^0+1+2+3+4+5+6+7+8+9+$/u);
    expect(lines.at(-1)).toMatch(/^0 to 9 empty to full/);
    expect(chartSvg(chart, say, { id: "day" }).svg).toContain(">empty to full<");
    expect(chartText(sampleChart({ lanes: [lane({})] }), say, { width: 80, ascii: true }).at(-1)).not.toContain("full");
  });

  it("makes a lane's label and marks inert", () => {
    const chart = sampleChart({
      lanes: [lane({ label: "\u001b]0;x\u0007", marks: [{ at: at(6), text: "a\u202eb\nc" }] })],
    });
    const text = chartText(chart, say, { width: 80, ascii: false }).join("\n");
    expect(text).toContain("a<202E>b<0A>c");
    expect(text.replaceAll("\n", "")).not.toMatch(/[\p{Cc}\p{Bidi_Control}]/u);
  });
});

describe("the hours of the axis", () => {
  it("are the whole hours of the chart's clock", () => {
    expect(ticks(sampleChart(), say, 3).map((tick) => tick.label)).toEqual([
      "06:00",
      "09:00",
      "12:00",
      "15:00",
      "18:00",
    ]);
    expect(tickHours(sampleChart(), 7)).toBe(3);
    expect(tickHours(sampleChart(), 18, 3)).toBe(1);
  });

  // 7 November 2027, 02:00 daylight time becomes 01:00: US 15 U.S.C. 260a, first Sunday of November.
  it("show the repeated hour of the autumn night twice, each with its offset", () => {
    const from = instant(Date.UTC(2027, 10, 7, 5) / 60_000);
    const night = sampleChart({ from, to: instant(from + 300) });
    expect(ticks(night, say, 1).map((tick) => tick.label)).toEqual([
      "00:00",
      "01:00 UTC-05:00",
      "01:00 UTC-06:00",
      "02:00",
      "03:00",
      "04:00",
    ]);
  });

  // India keeps UTC+05:30 all year (tz database, Asia/Kolkata).
  it("fall on half hours of UTC where the clock does", () => {
    const chart: Chart = sampleChart({ zone: "Asia/Kolkata" as ZoneId });
    for (const tick of ticks(chart, say, 1)) expect(tick.at % 60).toBe(30);
  });
});

describe("marks", () => {
  it("join by first and last where they would be written over each other", () => {
    const hits = sampleChart().lanes[1] ?? lane({});
    expect(groupMarks(hits, () => 90).map((mark) => mark.text)).toEqual(["dawn.1 … dawn.3", "noon", "evening"]);
    expect(groupMarks(hits, () => 1)).toHaveLength(5);
  });
});

describe("a chart in SVG", () => {
  const svg = chartSvg(sampleChart(), say, { id: "day" }).svg;

  it("has a title and a description that its role names", () => {
    expect(svg).toContain('role="img" aria-labelledby="day-title day-desc"');
    expect(svg).toContain('<title id="day-title">The day</title>');
    expect(svg).toContain('<desc id="day-desc">Who does what');
  });

  it("gives every kind of bar a pattern of its own", () => {
    const drawn = [...svg.matchAll(/<pattern id="day-(\w+)"[^>]*>(.*?)<\/pattern>/gu)].map(([, style, inside]) => ({
      style,
      inside: inside?.replace(/fill="var\(--chart[^"]*"/u, ""),
    }));
    const solid = drawn
      .filter((one) => !one.inside?.includes("path") && !one.inside?.includes("circle"))
      .map((one) => one.style);
    expect(solid.sort()).toEqual(["day", "hit", "rest"]);
    const patterned = drawn.filter((one) => !solid.includes(one.style)).map((one) => one.inside);
    expect(new Set(patterned).size).toBe(patterned.length);
  });

  it("keeps every position inside the drawing and every id its own", () => {
    for (const [, share] of svg.matchAll(/ x1?="([\d.]+)%"/gu)) expect(Number(share)).toBeLessThanOrEqual(100);
    const ids = [...svg.matchAll(/ id="([^"]+)"/gu)].map(([, id]) => id);
    expect(new Set(ids).size).toBe(ids.length);
  });

  it("turns hostile labels into text", () => {
    const hostile = chartSvg(
      sampleChart({ title: "<script>x</script>", lanes: [lane({ label: '"><img onerror=x>' })] }),
      say,
      { id: "a" },
    ).svg;
    expect(hostile).not.toMatch(/<script|<img/u);
  });
});
