/** Markdown in every place that a plan's text reaches; what a reader would take for markup is from CommonMark 0.31. */
import { describe, expect, it } from "vitest";
import { markdownText, toMarkdown } from "../../src/render/forms/markdown.ts";
import { findingView } from "../../src/reports/shared/findingView.ts";
import { sampleChart } from "./sampleChart.ts";
import { reportOf, sampleFinding, say, tableOf } from "./values.ts";

const HTML = "<b>x</b>";
const INERT = "\\<b\\>x\\</b\\>";

describe("markdown", () => {
  it("takes a number at the beginning for no item of a list (5.2)", () => {
    expect(markdownText("1. x")).toBe("1\\. x");
    expect(markdownText("at 7. x")).toBe("at 7. x");
  });

  it("escapes titles, headings, empty tables and findings", () => {
    const table = { ...tableOf([]), title: HTML, empty: HTML };
    const finding = { ...sampleFinding(), span: null, sentence: () => HTML, hint: () => HTML };
    const text = toMarkdown(
      reportOf([table, { kind: "heading", text: HTML }, { kind: "findings", findings: [findingView(finding, say)] }]),
    );
    expect(text).toBe(
      `## ${INERT}\n\n${INERT}\n\n## ${INERT}\n\n- **error**: ${INERT}; try: ${INERT} \\[rest\\-too\\-short\\]\n`,
    );
  });

  it("keeps an address inside its brackets (6.3: no line end, no unescaped < or >)", () => {
    const line = { kind: "line", cells: [{ text: "pier", link: "geo:1,2> [x](y\n<z" }] } as const;
    expect(toMarkdown(reportOf([line]))).toBe("[pier](<geo:1,2%3E%20[x](y%0A%3Cz>)\n");
  });

  it("ends a chart's block with more backticks than any run in it (4.5)", () => {
    const [first, ...lanes] = sampleChart().lanes;
    if (first === undefined) throw new Error("no lane");
    const drawn = (label: string): readonly string[] =>
      toMarkdown(reportOf([sampleChart({ title: HTML, lanes: [{ ...first, label }, ...lanes] })])).split("\n");
    const harmless = drawn("sky");
    expect(harmless[0]).toBe(`## ${INERT}`);
    expect(harmless.filter((line) => line.startsWith("```"))).toEqual(["```", "```"]);
    const hostile = drawn("````");
    expect(hostile.filter((line) => line.startsWith("`````"))).toEqual(["`````", "`````"]);
    expect(hostile.at(-2)).toBe("`````");
  });
});
