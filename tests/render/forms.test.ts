/** Markdown, CSV, JSON, lines for editors and SARIF: hostile text stays text in each, and each reads back. */
import { describe, expect, it } from "vitest";
import {
  type CheckedPlan,
  ndjsonHeader,
  ndjsonLines,
  sarifResults,
  toSarif,
  unixLines,
} from "../../src/render/forms/check.ts";
import { toCsv } from "../../src/render/forms/csv.ts";
import { toJson } from "../../src/render/forms/json.ts";
import { markdownText, toMarkdown } from "../../src/render/forms/markdown.ts";
import { parseCsv } from "./parseCsv.ts";
import { HOSTILE, reportOf, sampleFinding, say, tableOf } from "./values.ts";

const CONTROLS = /[\p{Cc}\p{Bidi_Control}\u2028\u2029]/u;

describe("markdown", () => {
  it("escapes markup, HTML, entities, table cells and mentions (CommonMark 0.31 2.4)", () => {
    expect(markdownText("<b>&amp; *a* _b_ `c` [d](e) | # @here\n> x")).toBe(
      "\\<b\\>\\&amp; \\*a\\* \\_b\\_ \\`c\\` \\[d\\]\\(e\\) \\| \\# @\u2060here \\> x",
    );
  });

  it("makes no link of an address in a text (GitHub Flavored Markdown 6.9, autolinks)", () => {
    expect(markdownText("http://x.example, www.x.example")).toBe("http:\u2060//x.example, www\u2060.x.example");
  });

  it("keeps a hostile cell within its row", () => {
    const text = toMarkdown(reportOf([tableOf([[HOSTILE, "=1", "|"]])]));
    const lines = text.trimEnd().split("\n");
    expect(lines).toHaveLength(3);
    expect(lines[2]?.match(/(?<!\\)\|/gu)).toHaveLength(4);
    expect(lines[2]).not.toMatch(CONTROLS);
  });

  it("writes only links that we made", () => {
    const blocks = [{ kind: "line", cells: [{ text: "pier", link: "geo:46.81,-90.82" }, { text: "[x](y)" }] }] as const;
    expect(toMarkdown(reportOf(blocks))).toBe("[pier](<geo:46.81,-90.82>)\\[x\\]\\(y\\)\n");
  });
});

describe("csv", () => {
  it("ends records with CRLF and quotes as RFC 4180 says", () => {
    const text = toCsv(reportOf([tableOf([["a,b", 'say "hi"', "two\nlines"]])]), { bom: false });
    expect(text).toBe('C0,C1,C2\r\n"a,b","say ""hi""","two\nlines"\r\n');
    expect(parseCsv(text)).toEqual([
      ["C0", "C1", "C2"],
      ["a,b", 'say "hi"', "two\nlines"],
    ]);
  });

  it.each(["=1+1", "+1", "-1", "@x", "\t=1", "\r=1", " =1", "|cmd", "\u200b=1"])(
    "defuses text that a spreadsheet would run: %j",
    (text) => {
      const [, row] = parseCsv(toCsv(reportOf([tableOf([[text, "1", "2"]])]), { bom: false }));
      expect(row?.[0]?.startsWith("'")).toBe(true);
    },
  );

  it("keeps a negative number a number, and gives null as nothing", () => {
    const table = tableOf([["x", "y", "z"]]);
    const cells = [
      { text: "-5 min", raw: -5 },
      { text: "–", raw: null },
      { text: "04:00", raw: "2027-01-20T04:00-06:00" },
    ];
    expect(toCsv(reportOf([{ ...table, rows: [cells] }]), { bom: true })).toBe(
      "\uFEFFC0,C1,C2\r\n-5,,2027-01-20T04:00-06:00\r\n",
    );
  });
});

describe("json", () => {
  it("reads back as the same value and holds nothing that a terminal acts on", () => {
    const value = { text: HOSTILE, more: "\u0085\u009b\u200f\u061c\u2066" };
    const text = toJson(value);
    expect(JSON.parse(text)).toEqual(value);
    expect(text.replaceAll("\n", "")).not.toMatch(CONTROLS);
    expect(text.endsWith("}\n")).toBe(true);
  });
});

const plan = (file: string | null, findings = [sampleFinding()]): CheckedPlan => ({
  file,
  ok: false,
  findings,
  notJudged: ["kit"],
  say,
  json: (finding) => ({ code: finding.code }),
});

describe("forms of check", () => {
  it("prints the line that editors parse", () => {
    expect(unixLines(plan("day.yaml"))).toBe(
      "day.yaml:14:13: error: wren has 8 h 15 min of rest; this plan needs 10 h [rest-too-short]\n",
    );
    expect(unixLines(plan(null, [{ ...sampleFinding(), span: null }]))).toMatch(/^<stdin>:1:1: error: /u);
  });

  it("streams a header, then one record a line", () => {
    const records = `${ndjsonHeader(1)}${ndjsonLines(plan("day.yaml"))}`
      .trimEnd()
      .split("\n")
      .map((line) => JSON.parse(line));
    expect(records).toEqual([
      { daywright: 1, command: "check", record: "header" },
      { record: "finding", plan: "day.yaml", finding: { code: "rest-too-short" } },
      { record: "plan", plan: "day.yaml", ok: false, findings: 1, notJudged: ["kit"] },
    ]);
  });

  it("names a file by a URI in which `?` and `#` are of its name (RFC 3986 2.2)", () => {
    const log = JSON.parse(
      toSarif(
        { version: "1", title: () => "x" },
        sarifResults(plan("a b/day?#1.yaml", [{ ...sampleFinding(), span: null }])),
      ),
    );
    const { uri } = log.runs[0].results[0].locations[0].physicalLocation.artifactLocation;
    expect(uri).toBe("a%20b/day%3F%231.yaml");
  });

  it("states SARIF 2.1.0 with region, rule and suppression (OASIS SARIF 2.1.0, 3.27, 3.30, 3.35)", () => {
    const span = { file: "a b/day.yaml", line: 14, column: 13, length: 5, text: "      call: 05:30" };
    const findings = [
      { ...sampleFinding(), span },
      { ...sampleFinding(), accepted: "agreed" },
    ];
    const log = JSON.parse(
      toSarif({ version: "1", title: () => "less rest" }, sarifResults(plan("day.yaml", findings))),
    );
    const [run] = log.runs;
    expect(log.version).toBe("2.1.0");
    expect(run.tool.driver.rules).toEqual([{ id: "rest-too-short", shortDescription: { text: "less rest" } }]);
    expect(run.results[0]).toEqual({
      ruleId: "rest-too-short",
      level: "error",
      message: { text: "wren has 8 h 15 min of rest; this plan needs 10 h; try: call wren at 07:15 or later" },
      locations: [
        {
          physicalLocation: {
            artifactLocation: { uri: "a%20b/day.yaml" },
            region: { startLine: 14, startColumn: 13, endColumn: 18 },
          },
        },
      ],
    });
    expect(run.results[1].suppressions).toEqual([{ kind: "inSource", status: "accepted", justification: "agreed" }]);
  });
});
