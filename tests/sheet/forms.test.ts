/** The hostile plan in the forms that print the sheet's report; page, calendar and message have tests of their own. */
import { describe, expect, it } from "vitest";
import { toCsv } from "../../src/render/forms/csv.ts";
import { toJson } from "../../src/render/forms/json.ts";
import { toMarkdown } from "../../src/render/forms/markdown.ts";
import { toText } from "../../src/render/forms/text.ts";
import { widthOf } from "../../src/render/text/fit.ts";
import { sheetOf, sheetReport } from "../../src/reports/sheet/index.ts";
import { plainStyle } from "../render/plainStyle.ts";
import { FORMULAS, hostileInput } from "./hostile.ts";

const report = (word?: string) => sheetReport(sheetOf(hostileInput(word)));
const CONTROLS = /[\p{Cc}\p{Zl}\p{Zp}\p{Bidi_Control}]/u;

describe("a hostile plan", () => {
  it("drives no terminal", async () => {
    const short = "\u202Egnp.exe \u001b]52;c;aGk=\u0007 a\r\nb";
    for (const [width, word] of [
      [null, undefined],
      [80, short],
      [40, short],
    ] as const) {
      const text = await toText(report(word), { ...plainStyle, width });
      expect(text.replaceAll("\n", "")).not.toMatch(CONTROLS);
    }
  });

  it("adds no markup, no link and no mention to Markdown", () => {
    const outside = toMarkdown(report())
      .split(/^`{3,}$/mu)
      .filter((_, part) => part % 2 === 0)
      .join("\n");
    // Boxes to tick, and links to a map that we make ourselves.
    const theirs = outside
      .replace(/^- \[ \] /gmu, "")
      .replace(/(?<!\\)\[((?:[^[\]\\]|\\.)*)\]\(<(?:geo:[-\d.,]+|tel:\+?\d+)>\)/gu, "$1");
    expect(theirs.replaceAll("\n", "")).not.toMatch(CONTROLS);
    expect(theirs.match(/.{0,40}(?<!\\)[<>[\]`].{0,20}/gu) ?? []).toEqual([]);
    expect(theirs).not.toMatch(/@(?!\u2060)/u);
  });

  it("starts no formula in a spreadsheet", () => {
    for (const word of FORMULAS) {
      for (const line of toCsv(report(word), { bom: false }).split("\r\n")) {
        for (const field of line.match(/"(?:[^"]|"")*"|[^,]+/gu) ?? []) {
          const text = field.startsWith('"') ? field.slice(1) : field;
          if (!/^-?\d+(?:\.\d+)?$/u.test(text)) expect(text).not.toMatch(/^[=+\-@\t\r]/u);
        }
      }
    }
  });

  it("comes back from JSON as it was, and puts nothing on a terminal", () => {
    const text = toJson(report().data);
    expect(text.replaceAll("\n", "")).not.toMatch(CONTROLS);
    expect(JSON.stringify(JSON.parse(text))).toBe(JSON.stringify(report().data));
  });
});

describe("tables", () => {
  it("line up with wide and with combining letters", async () => {
    for (const word of ["日本語の名前", "Zu\u0308rich", "e\u0301te\u0301", "🚚 lorry"]) {
      const lines = (await toText(report(word), { ...plainStyle, width: 80 })).split("\n");
      for (const line of lines) expect(widthOf(line)).toBeLessThanOrEqual(80);
      const head = lines.findIndex((line) => /^hit /iu.test(line));
      const column = widthOf((lines[head] ?? "").split("On air")[0] ?? "");
      const rows = lines.slice(head + 2, head + 8).filter((line) => /^(?:dawn|noon|evening)/u.test(line));
      expect(rows.length).toBeGreaterThan(2);
      for (const row of rows) expect([...row].slice(column, column + 5).join("")).toMatch(/^\d\d:\d\d$/u);
    }
  });
});
