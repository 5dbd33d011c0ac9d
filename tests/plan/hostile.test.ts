/** Plans as someone might send them to do harm, and garbage: never an exception, always a finding within the text. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Finding } from "../../src/findings/finding.ts";
import { readChain, readOnePlan } from "../../src/plan/index.ts";
import { findingLines } from "../../src/render/text/findingText.ts";
import { findingView } from "../../src/reports/shared/findingView.ts";
import { plainWording } from "../../src/reports/shared/wording.ts";
import { runs } from "../fuzz.ts";
import { plainStyle } from "../render/plainStyle.ts";
import { everything, smallest } from "./plans.ts";

const read = async (text: string): Promise<readonly Finding[]> =>
  (await readOnePlan(text, { file: "day.yaml" })).findings;
const codes = async (text: string): Promise<readonly string[]> => (await read(text)).map(({ code }) => code);

/** Every span lies in the text, and the finding can be printed on lines without any control character. */
function expectSound(text: string, findings: readonly Finding[]): void {
  const lines = text.split(/\r\n|[\r\n]/);
  for (const finding of findings) {
    if (finding.span !== null) {
      const { line, column, length, text: shown } = finding.span;
      expect(lines[line - 1]).toBe(shown);
      expect(column).toBeGreaterThan(0);
      expect(column - 1 + length).toBeLessThanOrEqual(shown.length);
    }
    for (const printed of findingLines(findingView(finding, plainWording), plainStyle))
      expect(printed).not.toMatch(/\p{Cc}|\p{Bidi_Control}/u);
  }
}

describe("ids that are words of the language", () => {
  test.each(["constructor", "toString", "hasOwnProperty", "valueOf", "prototype"])(
    "%s is an id like others",
    async (id) => {
      const text = smallest.replaceAll("wagon", id);
      const { plan, findings } = await readOnePlan(text, { file: null });
      expect(findings).toEqual([]);
      expect([...(plan?.vehicles.keys() ?? [])]).toEqual([id]);
      expect(plan?.crew.get("wren")?.drives).toEqual([id]);
    },
  );

  test("__proto__ is told as no id, and changes nothing", async () => {
    expect(await codes(smallest.replaceAll("wagon", "__proto__"))).toEqual(["id-bad"]);
    expect(await codes(smallest.replace("{ role: reporter }", "{ __proto__: { role: camera } }"))).toEqual([
      "key-unknown",
    ]);
    expect(await codes(`${smallest}__proto__: { polluted: true }\n`)).toEqual(["key-unknown"]);
    expect(Object.hasOwn(Object.prototype, "polluted")).toBe(false);
  });
});

describe("text that nests deep", () => {
  test.each([
    ["brackets", "[".repeat(850)],
    ["many brackets", "[".repeat(200_000)],
    ["brackets closed in comments alone", "[ #]\n".repeat(3000)],
    ["braces", "{a: ".repeat(5000)],
    ["dashes", "- ".repeat(60_000)],
    ["question marks", "? ".repeat(5000)],
    ["lines", Array.from({ length: 700 }, (_, i) => `${" ".repeat(i)}a:`).join("\n")],
    ["quotes before brackets", `a: [x ' ${"[".repeat(3000)}`],
  ])("%s", async (_, text) => {
    expect(await codes(text)).toEqual(["plan-too-large"]);
  });
});

describe("a value of 60,000 signs", () => {
  // Each takes milliseconds; a pattern that takes time with the square of the length takes seconds, and 250,000 signs a minute.
  const LENGTH = 60_000;
  const fills = [" ", "-", "1 ", "a,", "1, ", "’ ", "(", "a:", "+1d ", "every "];
  test.each(fills)("of %j, in every kind of key, is read fast", async (fill) => {
    const long = `"1${fill.repeat(LENGTH / fill.length)}x"`;
    const begin = performance.now();
    for (const [key, text] of [
      ["date", smallest.replace("2027-01-20", long)],
      ["at", smallest.replace('"07:00"', long)],
      ["for", smallest.replace("3 min", long)],
      ["drive", smallest.replace("35 min", long)],
      ["drives", smallest.replace("drives: wagon", `drives: ${long}`)],
      ["coordinates", smallest.replace("-90.82", long)],
      ["a list", smallest.replace("[lodge, pier, lodge]", long)],
      ["a flag", smallest.replace("-90.82]", `-90.82], mains: ${long}`)],
      ["a word", smallest.replace("-90.82]", `-90.82], signal: ${long}`)],
      ["a zone", smallest.replace("America/Chicago", long)],
      ["a key", `${smallest}? ${long}\n: 2\n`],
    ] as const)
      expect([key, (await read(text)).length > 0]).toEqual([key, true]);
    expect(performance.now() - begin).toBeLessThan(6000);
  });

  test("a line of 200,000 letters is shown around its mark", async () => {
    const [finding] = await read(`${smallest}${"k".repeat(200_000)}: 1\n`);
    const lines = finding === undefined ? [] : findingLines(findingView(finding, plainWording), plainStyle);
    expect(lines.length).toBeGreaterThan(0);
    expect(lines.join("\n").length).toBeLessThan(1000);
  });
});

describe("characters that drive a terminal", () => {
  test.each([
    ["ESC as it is", 'title: "a \u001b[2J b"'],
    ["ESC spelled", 'title: "a \\e]52;c;aGk=\\a b"'],
    ["NUL", "title: a\u0000b"],
    ["backspace", "title: a\bb"],
    ["C1", "title: a\u009b31mb"],
    ["a byte order mark inside", "title: a\ufeffb"],
  ])("%s", async (_, line) => {
    const text = smallest.replace("crew:", `${line}\ncrew:`);
    const findings = await read(text);
    expect(new Set(findings.map(({ code }) => code))).toEqual(new Set(["control-character"]));
    expectSound(text, findings);
  });

  test("marks that turn the reading direction are shown as marks", async () => {
    const text = smallest.replace("reporter", "\u202erotroper").replace("pier, lodge]", "pi\u202eer, lodge]");
    const findings = await read(text);
    expect(findings.map(({ code }) => code)).toEqual(["id-unknown"]);
    expectSound(text, findings);
    expect(findingLines(findingView(findings[0] as Finding, plainWording), plainStyle)[0]).toContain("<202E>");
  });

  test("wide characters keep the carets under their spot", async () => {
    const text = smallest.replace("pier, lodge]", "港口, lodge]");
    const [, line = "", carets = ""] = (await read(text)).flatMap((finding) =>
      findingLines(findingView(finding, plainWording), plainStyle),
    );
    // Two columns for each of the two characters (Unicode Standard Annex 11).
    expect(carets.trim()).toBe("^^^^");
    expect(carets.indexOf("^")).toBe(line.indexOf("港"));
  });
});

describe("texts made to be slow", () => {
  const nested = (count: number): string => smallest.replace("[lodge, pier, lodge]", "[".repeat(count));
  test.each([
    ["deep", nested(200_000)],
    ["deep and closed", smallest.replace("[lodge, pier, lodge]", `${"[".repeat(40)}${"]".repeat(40)}`)],
    ["many values", smallest.replace("[lodge, pier, lodge]", `[${"a, ".repeat(20_000)}b]`)],
    ["many keys", `${smallest}lines:\n${Array.from({ length: 9000 }, (_, index) => `  k${index}: {}`).join("\n")}\n`],
    ["large", `${smallest}# ${"x".repeat(300_000)}\n`],
    ["laughing", `${smallest}title: &a [x, x]\nlines: { b: &b [*a, *a], c: [*b, *b] }\n`],
  ])("%s is refused", async (_, text) => {
    const findings = await read(text);
    expect(findings.length).toBeGreaterThan(0);
    expect(findings.length).toBeLessThan(22);
    expectSound(text, findings);
  });

  test("long values are refused before any pattern looks at them", async () => {
    const long = "9".repeat(60_000);
    const text = smallest
      .replace("35 min", long)
      .replace('"07:00"', `"${long}"`)
      .replace("[46.60, -90.88]", `[${long}, 1]`);
    const findings = await read(text);
    expect(findings.map(({ code }) => code)).toEqual(["value-bad", "length-bad", "time-bad"]);
    for (const finding of findings) expect(finding.sentence(plainWording).length).toBeLessThan(150);
  });
});

const pieces = fc.constantFrom(
  ..." \t\n\r:-[]{}\"'#&*!|>%@`,?\\",
  "  ",
  ": ",
  "- ",
  "hits:",
  "at: ",
  "07:00",
  "é",
  "港",
  "\u202e",
  "\u0000",
  "\ufeff",
  "wagon",
  "{}",
  "off",
  "0500",
  "---\n",
  "...\n",
  "<<: ",
  "~",
  "null",
);

const mutation = fc.record({
  at: fc.double({ min: 0, max: 1, noNaN: true }),
  cut: fc.integer({ min: 0, max: 12 }),
  add: fc.array(pieces, { maxLength: 4 }).map((list) => list.join("")),
});

const mutated = (text: string, changes: readonly { at: number; cut: number; add: string }[]): string =>
  changes.reduce((now, { at, cut, add }) => {
    const from = Math.floor(at * now.length);
    return now.slice(0, from) + add + now.slice(from + cut);
  }, text);

describe("garbage", () => {
  test("made of a plan by small changes", async () => {
    const plans = fc.constantFrom(smallest, everything);
    await fc.assert(
      fc.asyncProperty(plans, fc.array(mutation, { minLength: 1, maxLength: 4 }), async (plan, changes) => {
        const text = mutated(plan, changes);
        const { plans: read, findings } = await readChain(text, { file: "day.yaml" });
        expect(read === null).toBe(findings.some(({ level }) => level === "error"));
        expectSound(text, findings);
      }),
      { seed: 20270120, numRuns: runs(120, 20_000) },
    );
  });

  test("made of signs", async () => {
    await fc.assert(
      fc.asyncProperty(fc.array(pieces, { maxLength: 40 }), async (parts) => {
        const text = parts.join("");
        const findings = await read(text);
        expect(findings.length).toBeGreaterThan(0);
        expectSound(text, findings);
      }),
      { seed: 20270120, numRuns: runs(200, 50_000) },
    );
  });

  test("is told the same each time", async () => {
    await fc.assert(
      fc.asyncProperty(fc.array(mutation, { maxLength: 3 }), async (changes) => {
        const text = mutated(smallest, changes);
        const told = async (): Promise<unknown> => {
          const { plan, findings } = await readOnePlan(text, { file: "day.yaml" });
          return JSON.stringify([plan?.hits.size, plan?.rules, findings]);
        };
        expect(await told()).toBe(await told());
      }),
      { seed: 20270120, numRuns: runs(60, 5000) },
    );
  });
});
