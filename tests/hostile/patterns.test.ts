/**
 * Every pattern written in `src` is read over rows of one sign, short and four times as long. Where it takes far more than four
 * times as long, its cost grows faster than the text: it is named below with what keeps its texts short, or it is mended.
 */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, it } from "vitest";
import { growing } from "./growing.ts";

/** Patterns whose cost grows with the square of a row of blanks or digits, and why no such row reaches them. */
const BOUNDED: Readonly<Record<string, string>> = {
  "/^([-+\\d.,]+(?:\\s?%)?)(?:\\s+(?:at\\s+)?(.+))?$/": "what is logged has one blank for each row of them",
  "/^(\\S+)(?:\\s+(?:(?:since|at)\\s+)?(.+))?$/": "what is logged has one blank for each row of them",
  "/\\s+(?:to|-|–)\\s+/": "what is logged has one blank for each row of them",
  "/,?\\s+(?:yesterday|last night|the (?:evening|day|night) before|today|tonight)\\b.*$/i":
    "an answer at a terminal, whose line has 4,096 signs at most",
  "/\\s*[,;]\\s*|\\s+-\\s+/": "plainSigns leaves 200 signs",
  "/^(\\s*(?:- )?)([A-Za-z][\\w-]*): +([^\"'{[|>#&*!\\s].*: .*|[^\"'{[|>#&*!\\s].*:)$/": "lines of 1,000 signs at most",
  "/\\s+#.*$/": "lines of 1,000 signs at most",
  "/[\\r\\n]+$/": "a line has one line end",
  "/(\\d[\\d.,]*?)\\s*(?:([a-z]+)\\.?,?|$)/gi": "values of 64 signs at most",
  "/(?<=^\\s*|[:,[{-]\\s*)[\\u00a0\\u2000-\\u200a\\u202f\\u3000]/": "the first 1,000 signs of a line",
  "/(?<=^\\s*)[*\\u2022\\u00b7](?=\\s)/": "the first 1,000 signs of a line",
  "/(?<=^\\s*)[\\u2010-\\u2015\\u2212](?=\\s)/": "the first 1,000 signs of a line",
  "/(?<=^\\s*|[\\s[{,])[\\u00ab\\u2018\\u201a\\u201c-\\u201f]/": "the first 1,000 signs of a line",
  "/^[\"']\\s*|\\s*[\"']$/g": "plainWord leaves 200 signs",
};

/** A literal where an expression may begin. */
const LITERAL = /(?:^|[=(,:!&|?{};[]|return|=>)\s*\/((?:[^/\\[\n]|\\.|\[(?:[^\]\\\n]|\\.)*\])+)\/([dgimsuvy]*)/gm;
function patternsOfSource(): ReadonlyMap<string, string> {
  const files = readdirSync("src", { recursive: true, encoding: "utf8" }).filter((file) => file.endsWith(".ts"));
  const found = new Map<string, string>();
  for (const file of files) {
    const text = readFileSync(join("src", file), "utf8").replace(/^\s*(?:\/?\*|\/\/).*$/gmu, "");
    for (const [, body = "", flags = ""] of text.matchAll(LITERAL)) {
      try {
        found.set(String(new RegExp(body, flags)), file);
      } catch {
        // A division and what stands behind it.
      }
    }
  }
  return found;
}

const compiled = (literal: string): RegExp => {
  const end = literal.lastIndexOf("/");
  return new RegExp(literal.slice(1, end), literal.slice(end + 1));
};

it("no pattern takes more than its share of a longer text", { timeout: 300_000 }, () => {
  const all = patternsOfSource();
  expect(all.size).toBeGreaterThan(250);
  const found = [...all].flatMap(([literal, file]) => {
    const sign = Object.hasOwn(BOUNDED, literal) ? null : growing(compiled(literal));
    return sign === null ? [] : [`${file}: ${literal}: ${sign}`];
  });
  expect(found).toEqual([]);
});

it("what is named as bounded is still there", () => {
  const all = patternsOfSource();
  expect(Object.keys(BOUNDED).filter((literal) => !all.has(literal))).toEqual([]);
});
