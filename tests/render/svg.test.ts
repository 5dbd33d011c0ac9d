import { describe, expect, it } from "vitest";
import { toSvg } from "../../src/render/forms/svg.ts";
import type { Block, Report } from "../../src/reports/shared/view.ts";
import { clockText, lengthText } from "../../src/time/index.ts";
import { sampleChart } from "./sampleChart.ts";

const say = { clock: clockText, length: lengthText, name: (id: string) => id, time: () => "" };
const report = (blocks: readonly Block[]): Report => ({ command: "light", blocks, data: null, findings: [], say });

/** Tags opened and closed as XML asks; throws at the first that is not. */
function wellFormed(svg: string): number {
  const open: string[] = [];
  for (const [, closing, name, empty] of svg.matchAll(/<(\/?)([a-zA-Z]+)(?:\s+[\w:-]+="[^"<]*")*\s*(\/?)>/gu)) {
    if (closing === "/") expect(open.pop()).toBe(name);
    else if (empty !== "/") open.push(name ?? "");
  }
  expect(open).toEqual([]);
  expect(svg.replaceAll(/<\/?[a-zA-Z]+(?:\s+[\w:-]+="[^"<]*")*\s*\/?>/gu, "")).not.toMatch(/[<>]/u);
  expect(svg).not.toMatch(/&(?!(?:amp|lt|gt|quot|#39);)/u);
  return svg.length;
}

describe("charts in a file of their own", () => {
  it("stand under each other with ids of their own, as XML", () => {
    const svg = toSvg(report([sampleChart(), sampleChart({ title: "Second" })]));
    expect(wellFormed(svg)).toBeGreaterThan(0);
    expect(svg.match(/role="img"/gu)).toHaveLength(2);
    const ids = [...svg.matchAll(/ id="([^"]+)"/gu)].map(([, id]) => id);
    expect(new Set(ids).size).toBe(ids.length);
    expect(svg.startsWith('<svg xmlns="http://www.w3.org/2000/svg"')).toBe(true);
    expect(svg.endsWith("</svg>\n")).toBe(true);
    const tops = [...svg.matchAll(/class="chart" y="(\d+)" width="100%" height="(\d+)"/gu)].map(([, y, height]) => [
      Number(y),
      Number(height),
    ]);
    expect((tops[0]?.[0] ?? 0) + (tops[0]?.[1] ?? 0)).toBeLessThan(tops[1]?.[0] ?? 0);
  });

  it("say so where there is nothing to draw", () => {
    const svg = toSvg(report([{ kind: "heading", text: "no chart" }]));
    expect(svg).toContain("Nothing to draw.");
    expect(wellFormed(svg)).toBeGreaterThan(0);
  });

  it("stay XML, without a script, whatever the plan says", () => {
    const svg = toSvg(
      report([sampleChart({ title: "<script>x</script>&'\"]]>", lanes: [{ label: "\u0007\u202e<a>", bars: [] }] })]),
    );
    expect(wellFormed(svg)).toBeGreaterThan(0);
    expect(svg).not.toMatch(/<script|<a>/u);
  });
});
