/** Holds the names of the sources: one exported name, one meaning; and each has its sentence. */
import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";

const src = fileURLToPath(new URL("../src/", import.meta.url));

/** The same thing in each of several folders: an engine's entry. */
const ONE_A_FOLDER = new Set(["assess"]);

interface Exported {
  readonly name: string;
  readonly file: string;
  readonly line: number;
  /** Whether a doc comment stands above it, or the declaration itself has a title or a summary. */
  readonly documented: boolean;
}

/** Findings and commands say what they are in their own `title` and `summary`. */
const SAYS_ITSELF = /= (?:define|mistake|missed|breach|planCommand)[<(]|: CommandFile = /;

const DECLARED = /^export (?:async )?(?:abstract )?(?:const|function\*?|class|interface|type|enum) (\w+)/;

/** What a file declares and exports; the overloads of a function are one name. */
function exportedOf(file: string): readonly Exported[] {
  const lines = readFileSync(`${src}${file}`, "utf8").split("\n");
  const found = lines.flatMap((text, index): Exported[] => {
    const name = DECLARED.exec(text)?.[1];
    const documented = SAYS_ITSELF.test(text) || (lines[index - 1] ?? "").trimEnd().endsWith("*/");
    return name === undefined ? [] : [{ name, file, line: index + 1, documented }];
  });
  return found.filter(({ name }, index) => found.findIndex((other) => other.name === name) === index);
}

const EXPORTED = readdirSync(src, { recursive: true, encoding: "utf8" })
  .filter((name) => name.endsWith(".ts"))
  .map((name) => name.replaceAll("\\", "/"))
  .sort()
  .flatMap(exportedOf);

describe("an exported name", () => {
  it("means one thing", () => {
    const files = new Map<string, string[]>();
    for (const { name, file } of EXPORTED) files.set(name, [...(files.get(name) ?? []), file]);
    const twice = [...files].filter(([name, where]) => where.length > 1 && !ONE_A_FOLDER.has(name));
    expect(Object.fromEntries(twice)).toEqual({});
  });

  it("has its sentence", () => {
    const bare = EXPORTED.filter(({ documented }) => !documented);
    expect(bare.map(({ file, line, name }) => `${file}:${line} ${name}`)).toEqual([]);
  });

  it("of a large project is found at all", () => {
    expect(EXPORTED.length).toBeGreaterThan(1000);
  });
});
