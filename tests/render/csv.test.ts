/** CSV of findings and tables with hostile text in every column that a plan can fill. */
import { describe, expect, it } from "vitest";
import { findingsCsvHead, findingsCsvRows, toCsv } from "../../src/render/forms/csv.ts";
import { reportOf, sampleFinding, say, tableOf } from "./values.ts";

/** OWASP, "CSV Injection": a cell that begins so may be run. `%` and `|` are ours, for readers that take macros and commands. */
const STARTS = ["=", "+", "-", "@", "|", "%"] as const;

describe("csv", () => {
  it.each(STARTS)("defuses a cell, a heading and every text of a finding that begin with %s", (start) => {
    const text = `${start}1`;
    const table = tableOf([[text, "1", "2"]]);
    const columns = table.columns.map((column) => ({ ...column, label: text }));
    expect(toCsv(reportOf([{ ...table, columns }]), { bom: false })).toBe(
      `'${text},'${text},'${text}\r\n'${text},1,2\r\n`,
    );
    const finding = {
      ...sampleFinding(),
      who: text,
      accepted: text,
      span: { file: text, line: 14, column: 1, length: 1, text: "" },
      sentence: () => text,
      hint: () => text,
    };
    const t = `'${text}`;
    expect(findingsCsvRows({ file: text, findings: [finding], say })).toBe(
      `${t},error,rest-too-short,${t},${t},${t},14,${t},${t}\r\n`,
    );
  });

  it("shows controls and marks that turn the reading direction, line by line", () => {
    const text = toCsv(reportOf([tableOf([["a\u001b]52;c\u0007\nb\u202ec", "1", "2"]])]), { bom: false });
    expect(text).toBe('C0,C1,C2\r\n"a<1B>]52;c<07>\nb<202E>c",1,2\r\n');
  });

  it("quotes blanks at the ends, which readers take away from a bare value", () => {
    const text = toCsv(reportOf([tableOf([[" a", "b ", "c d"]])]), { bom: false });
    expect(text).toBe('C0,C1,C2\r\n" a","b ",c d\r\n');
  });

  it("heads the findings with as many names as a record has values", () => {
    const head = findingsCsvHead({ bom: true });
    expect(head).toBe("\uFEFFplan,level,code,message,who,file,line,hint,accepted\r\n");
    const row = findingsCsvRows({ file: null, findings: [{ ...sampleFinding(), span: null, who: null }], say });
    // The sentence holds no comma, so nothing is quoted.
    expect(row.split(",")).toHaveLength(9);
    expect(row).toMatch(/^,error,rest-too-short,[^,]+,,,,[^,]+,\r\n$/u);
  });
});
