/**
 * How much the tests notice: changes one operator, bound or constant of a folder at a time and runs the tests that import it
 * (`node bin/mutate.mjs time 40 1`: folder below `src`, mutants drawn, seed). A mutant that no test notices has survived.
 *
 * The tools that do this need a compiler's interface that the TypeScript of this project has not. Each mutant lives in a copy of the
 * tree, so that nothing here is changed; a run longer than ten times the unchanged one counts as noticed.
 */
import { spawnSync } from "node:child_process";
import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";

const root = fileURLToPath(new URL("..", import.meta.url));
const [folder = "time", count = "40", seed = "1", ...tests] = process.argv.slice(2);

/** What is written where something else stood; a mutant is one of them at one place. */
const CHANGES = [
  [/ < /gu, " <= "],
  [/ <= /gu, " < "],
  [/ > /gu, " >= "],
  [/ >= /gu, " > "],
  [/ === /gu, " !== "],
  [/ !== /gu, " === "],
  [/ && /gu, " || "],
  [/ \|\| /gu, " && "],
  [/ \+ (?=[\w(])/gu, " - "],
  [/ - (?=[\w(])/gu, " + "],
  [/ \* /gu, " / "],
  [/ \/ (?=[\w(])/gu, " * "],
  [/\bMath\.min\b/gu, "Math.max"],
  [/\bMath\.max\b/gu, "Math.min"],
  [/\bMath\.ceil\b/gu, "Math.floor"],
  [/\bMath\.floor\b/gu, "Math.ceil"],
  [/\breturn true\b/gu, "return false"],
  [/\breturn false\b/gu, "return true"],
  [/(?<=[=(,<>] )\d+(?=[;,)\s])/gu, (digits) => String(Number(digits) + 1)],
  [/\.some\(/gu, ".every("],
  [/\.every\(/gu, ".some("],
];

const filesIn = (path) =>
  readdirSync(join(root, path), { withFileTypes: true }).flatMap((one) => {
    const own = `${path}/${one.name}`;
    return one.isDirectory() ? filesIn(own) : one.name.endsWith(".ts") ? [own] : [];
  });

/** Places of code: comments, imports and types have none. */
function mutantsOf(file) {
  const text = readFileSync(join(root, file), "utf8");
  const lines = text.split("\n");
  return lines.flatMap((line, n) => {
    if (/^\s*(?:\*|\/\/|\/\*|import |export (?:type|interface)|readonly |type |interface )/u.test(line)) return [];
    return CHANGES.flatMap(([pattern, change]) =>
      [...line.matchAll(pattern)].map((found) => {
        const put = typeof change === "string" ? change : change(found[0]);
        const fresh = line.slice(0, found.index) + put + line.slice(found.index + found[0].length);
        return { file, line: n + 1, was: line.trim(), is: fresh.trim(), text: lines.with(n, fresh).join("\n") };
      }),
    );
  });
}

/** The same draw for the same seed. */
function drawn(all, number, from) {
  const left = [...all];
  let state = from >>> 0;
  return Array.from({ length: Math.min(number, all.length) }, () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return left.splice(Math.floor((state / 2 ** 32) * left.length), 1)[0];
  });
}

const target = `src/${folder}`;
const files = target.endsWith(".ts") ? [target] : filesIn(target);
const all = files.flatMap(mutantsOf);
const scratch = mkdtempSync(join(tmpdir(), "daywright-mutants-"));
for (const name of ["src", "tests", "fixtures", "package.json", "tsconfig.json", "bin"])
  cpSync(join(root, name), join(scratch, name), { recursive: true });
for (const name of ["node_modules", "dist"]) symlinkSync(join(root, name), join(scratch, name));
const { NODE_EXTRA_CA_CERTS: _, ...env } = process.env;

/** Whether the tests pass: those named, else the folder's own. */
function pass(limit) {
  const where = tests.length > 0 ? tests : [`tests/${folder.split("/")[0]}`];
  const vitest = join(root, "node_modules", "vitest", "vitest.mjs");
  const words = ["run", "--config=tests/vitest.config.ts", `--root=${scratch}`, "--maxWorkers=1", "--bail=1", ...where];
  const begin = Date.now();
  const { status } = spawnSync(process.execPath, [vitest, ...words], {
    cwd: scratch,
    env,
    stdio: "ignore",
    timeout: limit,
  });
  return { passed: status === 0, took: Date.now() - begin };
}

const plain = pass(undefined);
if (!plain.passed) throw new Error("the tests fail without any change");
const limit = 10 * plain.took + 10_000;
let noticed = 0;
const some = drawn(all, Number(count), Number(seed));
for (const { file, line, was, is, text } of some) {
  writeFileSync(join(scratch, file), text);
  if (pass(limit).passed) process.stdout.write(`survived ${file}:${line}\n  - ${was}\n  + ${is}\n`);
  else noticed++;
  writeFileSync(join(scratch, file), readFileSync(join(root, file)));
}
rmSync(scratch, { recursive: true });
process.stdout.write(`${folder}: ${noticed} of ${some.length} mutants noticed (${all.length} in all, seed ${seed})\n`);
