/** Text: columns line up by an independent measure, nothing is lost, nothing in a plan reaches the terminal raw. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { toText } from "../../src/render/forms/text.ts";
import { fitTable, wrapText } from "../../src/render/text/fit.ts";
import { makePaint } from "../../src/render/text/paint.ts";
import { printable } from "../../src/render/text/printable.ts";
import type { TextStyle } from "../../src/render/text/style.ts";
import { findingView } from "../../src/reports/shared/findingView.ts";
import { plainStyle } from "./plainStyle.ts";
import { HOSTILE, reportOf, restTooShort, sampleFinding, say, tableOf } from "./values.ts";

const within = (width: number): TextStyle => ({ ...plainStyle, width });

/** Columns by UAX #11 for the letters used here: Han and kana two, combining marks none, all else one. */
const columnsOf = (text: string): number =>
  [...text.normalize("NFC")].reduce(
    (sum, one) =>
      sum + (/\p{M}/u.test(one) ? 0 : /[\p{Script=Han}\p{Script=Hiragana}\p{Script=Katakana}]/u.test(one) ? 2 : 1),
    0,
  );

describe("tables", () => {
  it("lines up columns of wide and combining letters (widths by UAX #11)", async () => {
    const rows = [
      ["wren", "1", "end"],
      ["日本語", "22", "end"],
      ["e\u0301lise", "333", "end"],
    ];
    const text = await toText(reportOf([tableOf(rows)]), plainStyle);
    const lines = text.trimEnd().split("\n");
    expect(lines).toHaveLength(5);
    for (const line of lines.slice(2)) expect(columnsOf(line.slice(0, line.indexOf("end")))).toBe(13);
  });

  it("keeps everything where there is no width", async () => {
    const long = "x".repeat(500);
    expect(await toText(reportOf([tableOf([[long, "1", long]])]), plainStyle)).toMatch(/x{500} {3}1 {2}x{500}\n$/u);
  });

  it("leaves out the most spare column first, then wraps without losing a letter", () => {
    const table = tableOf([["abcdefghij", "12", "one two three four"]], [0, 2, 0]);
    const dropped = fitTable(table, within(30));
    expect(dropped?.columns.map((column) => column.index)).toEqual([0, 2]);
    const wrapped = fitTable(table, within(20));
    expect(wrapped?.rows[0]?.[1]?.lines.join(" ")).toBe("one two three four");
    expect(wrapped?.rows[0]?.[1]?.lines.length).toBeGreaterThan(1);
  });

  it("says which columns are left out, and the width at which they are there", async () => {
    const columns = [
      { label: "Vehicle", align: "left" as const },
      { label: "Leave, CT", align: "left" as const },
      { label: "ET", align: "left" as const, of: "Leave", spare: 2 },
      { label: "Likely", align: "right" as const, spare: 1 },
    ];
    const table = { ...tableOf([]), columns, rows: [["wagon", "05:15", "06:15", "35 min"].map((text) => ({ text }))] };
    // Vehicle 7, Leave, CT 9, ET 5, 35 min 6, and 2 between each: 33.
    const [whole, cut] = [await toText(reportOf([table]), within(33)), await toText(reportOf([table]), within(32))];
    expect(whole).not.toContain("left out");
    expect(cut.split("\n").slice(3).join(" ")).toBe(
      "left out at this width: leave ET; --width 33 or --json shows them ",
    );
    const city = { ...table, columns: columns.map((one) => (one.label === "ET" ? { ...one, label: "London" } : one)) };
    expect((await toText(reportOf([city]), within(32))).replaceAll("\n", " ")).toContain(
      "left out at this width: leave London;",
    );
    const narrow = await toText(reportOf([table]), within(20));
    expect(narrow.replaceAll("\n", " ")).toContain("left out at this width: leave ET, likely; --width 33 or --json");
    expect(await toText(reportOf([table]), plainStyle)).not.toContain("left out");
  });

  it("cuts a word that is wider than its column without losing a letter (日本語×3 in a narrow column)", () => {
    const table = tableOf([["日本語日本語日本語", "1", "x"]]);
    const fitted = fitTable(table, within(17));
    expect(fitted?.rows[0]?.[0]?.lines.join("")).toBe("日本語日本語日本語");
  });

  it("turns into a list where even wrapping does not fit", async () => {
    const text = await toText(reportOf([tableOf([["wren", "04:00", "lodge"]])]), within(16));
    expect(text).toBe("C0: wren\nC1: 04:00\nC2: lodge\n");
  });

  it("says a sentence where there are no rows", async () => {
    expect(await toText(reportOf([tableOf([])]), plainStyle)).toBe("Nothing here.\n");
  });

  it("stays within the width and keeps every letter, whatever the cells hold", async () => {
    const cell = fc.string({ unit: fc.constantFrom("a", "b", " ", "日", "e\u0301", "·"), maxLength: 30 });
    await fc.assert(
      fc.asyncProperty(
        fc.array(fc.tuple(cell, cell, cell), { minLength: 1, maxLength: 4 }),
        fc.integer({ min: 24, max: 60 }),
        async (rows, width) => {
          const text = await toText(reportOf([tableOf(rows)]), within(width));
          for (const line of text.split("\n")) expect(columnsOf(line)).toBeLessThanOrEqual(width);
          const letters = (from: string): string =>
            [...from.normalize("NFC")]
              .filter((one) => /[ab日é·]/u.test(one))
              .sort()
              .join("");
          expect(letters(text)).toBe(letters(rows.flat().join("")));
        },
      ),
      { numRuns: 60 },
    );
  });

  it("colours without moving a column", async () => {
    const table = tableOf([["wren", "1", "日本"]]);
    const toned = { ...table, rows: table.rows.map((row) => row.map((one) => ({ ...one, tone: "bad" as const }))) };
    const coloured = await toText(reportOf([toned]), { ...plainStyle, paint: makePaint() });
    expect(coloured).toContain("\u001b[31m");
    // biome-ignore lint/suspicious/noControlCharactersInRegex: the escapes of colours are what is taken off
    expect(coloured.replace(/\u001b\[\d+m/gu, "")).toBe(await toText(reportOf([table]), plainStyle));
  });
});

describe("untrusted text", () => {
  it("prints no control character and no bidi mark of a plan", async () => {
    const blocks = [
      { kind: "line", cells: [{ text: HOSTILE }] },
      { kind: "heading", text: HOSTILE },
      { kind: "list", items: [{ text: HOSTILE }] },
      { ...tableOf([[HOSTILE, HOSTILE, HOSTILE]]), title: HOSTILE },
      { kind: "findings", findings: [findingView({ ...sampleFinding(`05:30 ${HOSTILE}`), accepted: HOSTILE }, say)] },
    ] as const;
    for (const style of [plainStyle, within(40)]) {
      const text = await toText(reportOf(blocks), style);
      expect(text.replaceAll("\n", "")).not.toMatch(/[\p{Cc}\p{Bidi_Control}\u2028\u2029]/u);
    }
  });

  it("is the same when done twice", () => {
    fc.assert(
      fc.property(fc.string({ unit: "binary" }), (text) => printable(printable(text)) === printable(text)),
      { numRuns: 30 },
    );
  });
});

describe("findings", () => {
  it("tells where, what, why and what to try", async () => {
    const text = await toText(
      reportOf([{ kind: "findings", findings: [findingView(sampleFinding(), say)] }]),
      plainStyle,
    );
    expect(text).toBe(
      [
        "day.yaml:14:13: error: wren has 8 h 15 min of rest; this plan needs 10 h  (rest-too-short)",
        "      call: 05:30",
        "            ^^^^^ 8 h 15 min after the release",
        "  try: call wren at 07:15 or later",
        "",
      ].join("\n"),
    );
  });

  it("puts the carets under wide letters by their columns", async () => {
    const text = await toText(
      reportOf([{ kind: "findings", findings: [findingView(sampleFinding("日本: 05:30"), say)] }]),
      plainStyle,
    );
    expect(text).toContain("\n      日本: 05:30\n            ^^^^^ ");
  });

  it("prints the terms of a chain with their lengths and lines", async () => {
    const chain = [
      {
        name: "drive",
        from: sampleFinding().at ?? never(),
        to: sampleFinding().at ?? never(),
        minutes: 50,
        where: ["roads", 0],
      },
      { name: "park", from: sampleFinding().at ?? never(), to: sampleFinding().at ?? never(), minutes: 5, where: null },
    ];
    const finding = restTooShort.raise({ rest: 1, need: 2 }, { chain, shortMinutes: 45 });
    const text = await toText(reportOf([{ kind: "findings", findings: [findingView(finding, say)] }]), plainStyle);
    expect(text).toMatch(/drive {2}50 min {2}roads\.0\n.*park {3}5 min\n/u);
    expect(say.length(50)).toBe("50 min");
  });
});

function never(): never {
  throw new Error("the sample has an instant");
}

describe("a word that is too long for its column", () => {
  it("breaks behind its hyphens, and elsewhere only where a piece is too long as well", () => {
    expect(wrapText("rest-too-short (Tomas)", 12)).toEqual(["rest-too-", "short", "(Tomas)"]);
    expect(wrapText("awake-too-long-at-wheel", 10)).toEqual(["awake-too-", "long-at-", "wheel"]);
    expect(wrapText("x unprecedentedly-so", 8)).toEqual(["x", "unpreced", "entedly-", "so"]);
    expect(wrapText("--patience -14", 8)).toEqual(["--patien", "ce -14"]);
  });

  it("a word that fits a line stays whole", () => {
    expect(wrapText("clears rest-too-short", 16)).toEqual(["clears", "rest-too-short"]);
  });

  // 10 + 2 + 14 columns have room in 26; without a floor the wider column would lose columns until both are alike.
  it("columns with blanks give way before a word is torn", () => {
    const sample = tableOf([["rest-too-short", "one two three four five"]]);
    const table = { ...sample, columns: sample.columns.slice(0, 2).map((one) => ({ ...one, label: "x" })) };
    const fitted = fitTable(table, within(26));
    expect(fitted?.columns.map(({ width }) => width)).toEqual([14, 10]);
    expect(fitted?.rows[0]?.[0]?.lines).toEqual(["rest-too-short"]);
    // In 20 columns the code breaks behind hyphens: its longest piece, `short`, has five. 20 = 12 + 2 + 6.
    expect(fitTable(table, within(20))?.rows[0]?.map(({ lines }) => lines)).toEqual([
      ["rest-too-", "short"],
      ["one", "two", "three", "four", "five"],
    ]);
  });
});
