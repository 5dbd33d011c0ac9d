/**
 * Names that are read from right to left, and numbers with their units, in what a terminal prints. Isolates are of UAX 9
 * (Unicode Bidirectional Algorithm, 2.4): they have no width of their own.
 */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { bound, widthOf, wrapText } from "../../src/render/text/fit.ts";
import { isolate } from "../../src/render/text/printable.ts";
import { ran } from "../cli/fakeIo.ts";

const PLAN = readFileSync(new URL("../../fixtures/cases/sheet/uni.yaml", import.meta.url), "utf8");
const MARKS = /[\u2068\u2069]/gu;

describe("isolates", () => {
  it.each([
    ["ring עמר now", "ring \u2068עמר\u2069 now"],
    ["عمر بن عبد 04:30", "\u2068عمر بن عبد\u2069 04:30"],
    // two cells of a table stay two
    ["عمر  ليلى", "\u2068عمر\u2069  \u2068ليلى\u2069"],
    ["عمر, ليلى", "\u2068عمر\u2069, \u2068ليلى\u2069"],
    ["Wren 04:30 春 é", "Wren 04:30 春 é"],
  ])("%s", (text, marked) => {
    expect(isolate(text)).toBe(marked);
  });

  it.each([80, 120])("on a terminal of %d columns each has its pair, and no line is wider", async (columns) => {
    for (const command of ["sheet", "calls", "hours"]) {
      const { out } = await ran([command, "x.yaml", "--quiet"], { files: { "x.yaml": PLAN }, columns });
      const lines = out.split("\n");
      expect(lines.some((line) => line.includes("\u2068"))).toBe(true);
      for (const line of lines) {
        expect(line.split("\u2068").length).toBe(line.split("\u2069").length);
        expect(/[\u0590-\u08ff]/u.test(line.replace(/\u2068[^\u2069]*\u2069/gu, ""))).toBe(false);
        expect(widthOf(line.replace(MARKS, ""))).toBeLessThanOrEqual(columns);
      }
      // The columns of a table stand where they stand without the marks.
      const heads = lines.filter((line) => /^-{20,}$/u.test(line));
      for (const rule of heads) expect(rule.length).toBeLessThanOrEqual(columns);
    }
  });

  it("Markdown and the chat have them as well", async () => {
    for (const form of ["markdown", "chat", "ics"]) {
      const { out } = await ran(["sheet", "x.yaml", "--quiet", "--format", form], { files: { "x.yaml": PLAN } });
      expect(out).toContain("\u2068");
    }
    const data = await ran(["sheet", "x.yaml", "--quiet", "--json"], { files: { "x.yaml": PLAN } });
    expect(MARKS.test(data.out)).toBe(false);
  });
});

describe("a number and its unit", () => {
  it("stay on one line where they fit", () => {
    expect(wrapText("rented wagon (6200 lb) needs ice", 18)).toEqual(["rented wagon", "(6200 lb) needs", "ice"]);
    expect(wrapText("Lead: Wren +1 555 0101", 20)).toEqual(["Lead: Wren", "+1 555 0101"]);
    expect(wrapText("10 km", 3)).toEqual(["10", "km"]);
  });

  it("are no words that only begin like a unit", () => {
    expect(bound("2 homes, 3 minutes, 4 lb")).toBe("2 homes, 3 minutes, 4\u00a0lb");
  });
});
