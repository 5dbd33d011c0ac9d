/** Every example in the library's doc comments runs against the built library, and prints what its remarks say. */
import { execFileSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { dirname } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";

const root = new URL("../../", import.meta.url);
const library = new URL("dist/index.js", root).href;
const source = ["src/index.ts", "src/library/schemas.ts"]
  .map((name) => readFileSync(new URL(name, root), "utf8"))
  .join("\n");
const DEMO = fileURLToPath(new URL("fixtures/days/2027-01-20.yaml", root));

/** The code of each `@example`, with the name of what it stands before. */
const examples = [...source.matchAll(/@example\n \* ```ts\n([\s\S]*?) \* ```\n \*\/\n(.*)/gu)].map(
  ([, body = "", next = ""]) => ({
    name: /(?:function|const) (\w+)/u.exec(next)?.[1] ?? "the library",
    code: body.replaceAll(/^ \* ?/gmu, ""),
  }),
);

/** What a script with this code prints; `text` and a reader of files are there as a caller would have them. */
function printed(code: string): string {
  const before = [
    `import { readFileSync } from "node:fs";`,
    `const text = readFileSync(${JSON.stringify(DEMO)}, "utf8");`,
    `const files = { read: (path) => ({ kind: "text", text: readFileSync(path, "utf8") }) };`,
    `const file = ${JSON.stringify(DEMO)};`,
  ];
  const script = [...before, code.replaceAll('from "daywright"', `from ${JSON.stringify(library)}`)].join("\n");
  return execFileSync(process.execPath, ["--input-type=module", "-e", script], {
    cwd: dirname(DEMO),
    encoding: "utf8",
  }).trim();
}

describe("the examples of the library", () => {
  it("stand at every function of the main way", () => {
    expect(examples.map(({ name }) => name)).toEqual([
      "the library",
      "readPlan",
      "solveDay",
      "judge",
      "tryEdits",
      "makeReport",
      "schema",
    ]);
  });

  it.each(examples.map(({ name, code }) => [name, code] as const))("run: %s", (_, code) => {
    const output = printed(code);
    const promised = [...code.matchAll(/console\.log\(.*\); \/\/ (.*)$/gmu)].map(([, said]) => said);
    if (promised.length > 0) expect(output.split("\n")).toEqual(promised);
    else expect(JSON.parse(output)).toHaveProperty("people");
  });

  it("needs a file reader for a plan that uses other files", () => {
    const code = [
      'import { readPlan } from "daywright";',
      "const alone = await readPlan(text, { file });",
      "console.log(alone.ok, alone.findings[0].code);",
      "console.log((await readPlan(text, { file, files })).ok);",
    ].join("\n");
    expect(printed(code).split("\n")).toEqual(["false file-missing", "true"]);
  });
});
