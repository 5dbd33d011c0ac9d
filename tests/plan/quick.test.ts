/** The quick reading of everyday YAML against the YAML parser: the same tree, places included, or none. */
import { readdirSync, readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { quickTree } from "../../src/plan/quick.ts";
import { type SourceText, sourceText } from "../../src/plan/source.ts";
import type { PlanNode } from "../../src/plan/tree.ts";
import { readYaml } from "../../src/plan/yaml.ts";
import { runs } from "../fuzz.ts";
import { everything, smallest } from "./plans.ts";

const folder = (name: string): readonly (readonly [string, string])[] => {
  const url = new URL(`../../fixtures/${name}/`, import.meta.url);
  return readdirSync(url)
    .filter((file) => file.endsWith(".yaml"))
    .map((file) => [`${name}/${file}`, readFileSync(new URL(file, url), "utf8")]);
};

const texts = [...folder("plans"), ...folder("days"), ...folder("errors")];

/** A tree as plain data, with the text that each node covers. */
function told(node: PlanNode): unknown {
  const place = [node.start, node.end];
  if (node.kind === "list") return { place, items: node.items.map(told) };
  if (node.kind === "scalar") return { place, value: node.value, text: node.text, quoted: node.quoted };
  return { place, entries: [...node.entries].map(([name, { key, value }]) => [name, told(key), told(value)]) };
}

/** True where the quick reading took the text; then the parser took it too, and they say the same. */
function agrees(source: SourceText): boolean {
  const quick = quickTree(source);
  if (quick === null) return false;
  const { tree, findings } = readYaml(source);
  expect(findings).toEqual([]);
  expect(told(quick)).toEqual(tree === null ? null : told(tree));
  return true;
}

describe("the quick reading", () => {
  test("takes the plans of the design and the demo", () => {
    for (const [name, text] of texts) {
      const taken = agrees(sourceText(name, text));
      if (!name.startsWith("errors/")) expect([name, taken]).toEqual([name, true]);
    }
  });

  test.each([
    ["a list in its key's column", "a:\n- b\n- c\nd: 1\n", true],
    ["a list of maps", "a:\n  - b: 1\n    c: 2\n  - d: [1, 2]\n", true],
    ["comments anywhere", "# x\na: 1 # y\n\n  # z\nb:   # w\n  c: 'd # e'\n# end\n", true],
    ["an hour and a date", "a: 05:00\nb: 2027-01-20\nc: 2027-01-20T05:00-06:00\n", true],
    ["numbers", "a: 0500\nb: 1.10\nc: -14\nd: +3\ne: 007\n", true],
    ["an empty map and list", "a: {}\nb: []\n", true],
    ["a word over two lines", "a: b\n  c\n", false],
    ["an empty value", "a:\nb: 1\n", false],
    ["null", "a: ~\nb: null\n", false],
    ["an escape", 'a: "b\\tc"\n', false],
    ["a block of text", "a: |\n  b\n", false],
    ["a flow map over two lines", "a: { b: 1,\n  c: 2 }\n", false],
    ["other numbers", "a: 0x10\n", false],
    ["exponents", "a: 1e3\n", false],
    ["infinity", "a: .inf\n", false],
    ["a pair in a list", "a: [b: c]\n", false],
    ["a key twice", "a: 1\na: 2\n", false],
    ["a tag", "a: !b c\n", false],
    ["an anchor", "a: &b c\n", false],
    ["a directive", "%YAML 1.1\n---\na: 1\n", false],
    ["carriage returns", "a: 1\r\n", false],
    ["no end of line", "a: 1", false],
    ["a sign where a comment would need a blank", "a: {}#\n", false],
    ["nothing", "", false],
  ])("%s", (_, text, taken) => {
    expect(agrees(sourceText("", text))).toBe(taken);
  });

  test("never says otherwise than the parser", () => {
    const pieces = fc.constantFrom(
      ..." \n:-[]{}\"'#&*!|>%@`,?~.+=<0123e",
      ...[
        "  ",
        ": ",
        "- ",
        ", ",
        " #",
        "\n  ",
        "a",
        "a: ",
        "b:",
        "é",
        "true",
        "null",
        "0x",
        ".5",
        "1.",
        "5:00",
        "{ ",
        " }",
        "\n- ",
      ],
    );
    const change = fc.record({
      at: fc.double({ min: 0, max: 1, noNaN: true }),
      cut: fc.integer({ min: 0, max: 6 }),
      add: fc.array(pieces, { maxLength: 3 }).map((list) => list.join("")),
    });
    const small =
      "a: b\nc:\n  d: [1, x y]\n  e: { f: 05:00, g: 'h' }\ni:\n  - j: 1\n    k: l # m\n  - n\no:\n- p\n- q\n";
    const text = fc.constantFrom(small, small, small, smallest, everything);
    let taken = 0;
    fc.assert(
      fc.property(text, fc.array(change, { minLength: 1, maxLength: 3 }), (plan, changes) => {
        const changed = changes.reduce((now, { at, cut, add }) => {
          const from = Math.floor(at * now.length);
          return now.slice(0, from) + add + now.slice(from + cut);
        }, plan);
        if (agrees(sourceText("", changed))) taken += 1;
      }),
      { seed: 20270120, numRuns: runs(1500, 200_000) },
    );
    expect(taken).toBeGreaterThan(150);
  });

  test("takes texts made of signs only as the parser does", () => {
    const signs = fc.constantFrom(..."a: \n-[]{},'\"#1.", ": ", "\n", "- ", "a:", "\n  ");
    fc.assert(
      fc.property(fc.array(signs, { maxLength: 24 }), (parts) => {
        agrees(sourceText("", `${parts.join("")}\n`));
      }),
      { seed: 20270120, numRuns: runs(3000, 400_000) },
    );
  });
});
