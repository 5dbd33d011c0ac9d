/** A chart of more people than fit a page of paper: several drawings, none longer than a page, no lane lost. */
import { describe, expect, it } from "vitest";
import { htmlBlock } from "../../src/render/html/blocks.ts";
import { plainWording } from "../../src/reports/shared/wording.ts";
import { sampleChart } from "./sampleChart.ts";

const html = (lanes: number, label: (at: number) => string): string =>
  htmlBlock(
    sampleChart({ lanes: Array.from({ length: lanes }, (_, at) => ({ label: label(at), bars: [] })) }),
    plainWording,
    "day-0",
  );
const heights = (text: string): readonly number[] =>
  [...text.matchAll(/<svg class="chart" width="100%" height="([\d.]+)"/g)].map(([, height]) => Number(height));

describe("a chart of many lanes", () => {
  // Letter is 11 in high, 279.4 mm; less the page's margins of 9 and 11 mm 259.4 mm, at 96 pixels an inch 980.
  it.each([
    [24, 1],
    [25, 2],
    [42, 2],
    [49, 3],
    [0, 1],
  ])("of %i lanes is %i drawings of a page at most", (lanes, drawings) => {
    const text = html(lanes, (at) => `Person number ${at}`);
    expect(heights(text)).toHaveLength(drawings);
    for (const height of heights(text)) expect(height).toBeLessThan(980);
    expect(text.match(/class="lane"/g) ?? []).toHaveLength(lanes);
    const ids = [...text.matchAll(/ id="([^"]+)"/g)].map(([, id]) => id);
    expect(new Set(ids).size).toBe(ids.length);
  });
});
