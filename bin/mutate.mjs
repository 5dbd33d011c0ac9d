/**
 * How much the tests notice: changes one operator, bound or constant of a folder at a time and runs the tests that import it
 * (`node bin/mutate.mjs time 40 1`: folder below `src`, mutants drawn, seed). A mutant that no test notices has survived.
 *
 * The tools that do this need a compiler's interface that the TypeScript of this project has not. Here the tests and what they
 * import are compiled once into one file; a mutant is one place of that file, which `mutateRun.mjs` loads and runs. It stops
 * at the first test that fails; a mutant that runs ten times as long as the unchanged file counts as noticed.
 */
import { spawn } from "node:child_process";
import { mkdtempSync, readdirSync, readFileSync, rmSync, symlinkSync } from "node:fs";
import { SourceMap } from "node:module";
import { tmpdir } from "node:os";
import { join, relative } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { build } from "esbuild";

const root = fileURLToPath(new URL("..", import.meta.url));
const [folder = "time", count = "40", seed = "1", ...only] = process.argv.slice(2);

/** Folders of `tests` that are related to a folder of `src`, its own first. */
const RELATED = {
  time: ["time", "world/time"],
  day: ["day", "cases/chain", "cases/facts"],
  "day/facts": ["day", "cases/facts", "agreement/logging", "agreement/now"],
  hours: ["hours", "cases/hours", "world/hours", "world/timecard"],
  power: ["power", "cases/power", "world/batteries"],
  roads: ["roads", "world/roads", "cases/fuel"],
  "plan/values": ["plan", "everyday", "cases/contract"],
  repair: ["repair", "cases/cures"],
};

/** Folders whose tests run through the whole program; for mutants that the related tests do not notice. */
const WIDER = ["cases", "changes", "authoring", "views", "sheet", "everyday"];

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

/** Test files of a folder or of a path without its ending; those that start programs or replace modules are left out. */
function testsIn(path) {
  const all = readdirSync(join(root, "tests"), { recursive: true }).map((name) => name.replaceAll("\\", "/"));
  const own = all.filter(
    (name) => name.endsWith(".test.ts") && (name.startsWith(`${path}/`) || name.startsWith(`${path}.`)),
  );
  return own.sort().filter((name) => {
    const text = readFileSync(join(root, "tests", name), "utf8");
    return !/child_process|\bvi\b/u.test(text);
  });
}

/** Tests know where they are (`import.meta.url` would be the compiled file's), and random ones run a tenth as often. */
const forMutants = {
  name: "for-mutants",
  setup({ onLoad }) {
    onLoad({ filter: /[\\/]tests[\\/]fuzz\.ts$/ }, () => ({
      contents: "export const runs = (normal) => Math.ceil(normal / 10);",
    }));
    onLoad({ filter: /[\\/]tests[\\/].*\.ts$/ }, ({ path }) => ({
      contents: readFileSync(path, "utf8").replaceAll("import.meta.url", JSON.stringify(pathToFileURL(path).href)),
      loader: "ts",
    }));
  },
};

async function compiled(tests, outfile) {
  const list = tests.map((name) => `[${JSON.stringify(name)}, () => import("./tests/${name}")]`);
  await build({
    stdin: { contents: `export const files = [${list.join(",\n")}];`, resolveDir: root, loader: "js" },
    bundle: true,
    format: "esm",
    platform: "node",
    packages: "external",
    alias: { vitest: join(root, "bin", "mutateExpect.mjs") },
    external: [join(root, "bin", "mutateExpect.mjs")],
    plugins: [forMutants],
    sourcemap: "external",
    outfile,
    logLevel: "error",
  });
  return {
    text: readFileSync(outfile, "utf8"),
    map: new SourceMap(JSON.parse(readFileSync(`${outfile}.map`, "utf8"))),
  };
}

/** Whether a place of a line lies in a text between quotes. */
const quoted = (line, at) => (line.slice(0, at).replace(/\\./gu, "").match(/["'`]/gu) ?? []).length % 2 === 1;

/** Every mutant of the compiled lines that come from the folder. */
function mutantsOf({ text, map }, target) {
  let offset = 0;
  return text.split("\n").flatMap((line, n) => {
    const start = offset;
    offset += line.length + 1;
    return CHANGES.flatMap(([pattern, change]) =>
      [...line.matchAll(pattern)].flatMap((found) => {
        const from = map.findEntry(n, found.index);
        const file = relative(
          root,
          join(root, from.originalSource?.replace(/^(?:\.\.\/)+.*?(?=src\/)/u, "") ?? ""),
        ).replaceAll("\\", "/");
        if (!file.startsWith(`${target}/`) || quoted(line, found.index)) return [];
        const put = typeof change === "string" ? change : change(found[0]);
        const is = line.slice(0, found.index) + put + line.slice(found.index + found[0].length);
        const at = start + found.index;
        return [
          {
            at,
            length: found[0].length,
            put,
            where: `${file}:${from.originalLine + 1}`,
            was: line.trim(),
            is: is.trim(),
          },
        ];
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

const scratch = mkdtempSync(join(tmpdir(), "daywright-mutants-"));
symlinkSync(join(root, "node_modules"), join(scratch, "node_modules"));
const bundle = join(scratch, "all.mjs");

/** A process that runs mutants; null where it ended or was silent for too long. */
function runner() {
  const child = spawn(process.execPath, ["--max-old-space-size=1500", join(root, "bin", "mutateRun.mjs"), bundle], {
    cwd: root,
    stdio: ["pipe", "pipe", "ignore"],
    env: { ...process.env, TZ: "Pacific/Apia", NODE_ENV: "test", NODE_EXTRA_CA_CERTS: "" },
  });
  let waiting = null;
  let text = "";
  child.stdout.on("data", (bytes) => {
    text += bytes;
    const end = text.indexOf("\n");
    if (end < 0) return;
    const line = text.slice(0, end);
    text = text.slice(end + 1);
    waiting?.(JSON.parse(line));
  });
  child.on("exit", () => waiting?.(null));
  const ask = (question, limit) =>
    new Promise((settle) => {
      const timer = setTimeout(() => settle(null), limit);
      waiting = (answer) => {
        clearTimeout(timer);
        settle(answer);
      };
      child.stdin.write(`${JSON.stringify(question)}\n`);
    });
  return { ask, end: () => child.kill("SIGKILL") };
}

const related = only.length > 0 ? only : (RELATED[folder] ?? [folder.split("/")[0]]);
const near = new Set(related.flatMap(testsIn));
const tests = [...new Set([...near, ...(only.length > 0 ? [] : WIDER.flatMap(testsIn))])];
const program = await compiled(tests, bundle);
const all = mutantsOf(program, `src/${folder}`);
const some = drawn(all, Number(count), Number(seed));

/** Milliseconds of one core. Slower test files are left out, or a folder would take hours; the score is the lower for it. */
const SLOWEST = 4000;

let now = runner();
const begin = Date.now();
const plain = await now.ask({ files: tests, through: true }, 1_200_000);
if (plain === null) throw new Error("the tests do not end without any change");
/** Ten times as long and more, for the process starts anew after some. */
const limit = 10 * (Date.now() - begin) + 20_000;
const slow = plain.took.filter(([, ms]) => ms > SLOWEST);
for (const [name, why] of [...plain.left, ...slow])
  process.stderr.write(`left out ${name}: ${String(why).slice(0, 160)}\n`);
/** Related files first, quick ones before slow ones: most mutants are noticed there. */
const order = plain.took
  .filter((one) => !slow.includes(one))
  .sort(([one, a], [two, b]) => Number(near.has(two)) - Number(near.has(one)) || a - b)
  .map(([name]) => name);
process.stderr.write(`${order.length} test files, ${all.length} mutants\n`);

let noticed = 0;
for (const [n, { at, length, put, where, was, is }] of some.entries()) {
  const answer = await now.ask({ files: order, at, length, put }, limit);
  if (answer === null || n % 10 === 9) {
    now.end();
    now = runner();
  }
  if (answer === null || answer.failed !== null) {
    noticed++;
    process.stderr.write(`noticed ${where}: ${answer?.failed.slice(0, 160) ?? "no end"}\n`);
  } else process.stdout.write(`survived ${where}\n  - ${was}\n  + ${is}\n`);
}
now.end();
rmSync(scratch, { recursive: true });
process.stdout.write(`${folder}: ${noticed} of ${some.length} mutants noticed (${all.length} in all, seed ${seed})\n`);
