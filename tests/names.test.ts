/** Names that a file hands out: each is one thing only in the whole program, and a line says what it is. */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { expect, it } from "vitest";
import { groupBy } from "../src/lists.ts";

const src = fileURLToPath(new URL("../src/", import.meta.url));

interface Exported {
  readonly name: string;
  readonly file: string;
  readonly documented: boolean;
}

/** What a file exports by a declaration of its own; a function that is declared several times counts once. */
function exportsOf(file: string): readonly Exported[] {
  const lines = readFileSync(join(src, file), "utf8").split("\n");
  const found = new Map<string, Exported>();
  for (const [at, line] of lines.entries()) {
    const [, name] = /^export (?:async )?(?:const|function|interface|type|class)\*? (\w+)/.exec(line) ?? [];
    if (name === undefined || found.has(name)) continue;
    // A finding says it in its title.
    const documented = lines[at - 1]?.endsWith("*/") === true || /findings/i.test(file);
    found.set(name, { name, file, documented });
  }
  return [...found.values()];
}

const all = readdirSync(src, { recursive: true, encoding: "utf8" })
  .filter((file) => file.endsWith(".ts"))
  .flatMap(exportsOf);

it("are said", () => {
  expect(all.length).toBeGreaterThan(1000);
  expect(all.filter(({ documented }) => !documented).map(({ file, name }) => `${file}: ${name}`)).toEqual([]);
});

it("mean one thing; `assess` is what each topic is asked by", () => {
  const files = groupBy(all, ({ name }) => name);
  expect([...files].filter(([name, places]) => places.length > 1 && name !== "assess").map(([name]) => name)).toEqual(
    [],
  );
});
