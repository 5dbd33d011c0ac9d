/**
 * How much the tests notice: changes one operator, bound or constant of a folder at a time and runs the tests that reach it
 * (`npm run mutate -- day,roads 40 1 day roads`: folders below `src`, mutants drawn of each, seed, then the tests to ask; all if
 * none are named). Files or lines of the folders in place of a number, `chance/chain.ts,fuel.ts:69`, have all their mutants tried.
 *
 * The tools that do this need a compiler's interface that the TypeScript of this project has not. Here all tests and what they
 * import are compiled once into one file and run once with counters; a mutant is one place of that file. `mutateRun.mjs` loads
 * the changed file and runs the tests that reached the place, then those that reached its source file, and stops at the first
 * that fails. A mutant that no test notices has survived; one that never ends counts as noticed. With DAYWRIGHT_COUNTED=FILE
 * what each test reaches is kept there, and only test files that are new or changed are counted again.
 */
import { spawn } from "node:child_process";
import { createHash } from "node:crypto";
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { SourceMap } from "node:module";
import { tmpdir } from "node:os";
import { join, relative } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { build } from "esbuild";

const root = fileURLToPath(new URL("..", import.meta.url));
const [folders = "time", count = "40", seed = "1", ...only] = process.argv.slice(2);

/** Milliseconds of one core: a test slower than that is left out, and so are further tests of a mutant after that much. */
const SLOWEST = 3000;
const ENOUGH = 6_000;
/** Milliseconds after which a test that has not ended never will; ten times as long without a change. */
const SILENCE = 60_000;

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

/** Test files, or those below the given paths, without those that start programs, replace modules or are random and long. */
function testFiles() {
  return readdirSync(join(root, "tests"), { recursive: true })
    .map((name) => name.replaceAll("\\", "/"))
    .filter((name) => name.endsWith(".test.ts") && !name.startsWith("hostile/"))
    .filter((name) => only.length === 0 || only.some((path) => name.startsWith(path)))
    .filter((name) => !/child_process|\bvi\b/u.test(readFileSync(join(root, "tests", name), "utf8")))
    .sort();
}

/** Tests know where they are (`import.meta.url` would be the compiled file's), and random ones run a fifth as often. */
const forMutants = {
  name: "for-mutants",
  setup({ onLoad }) {
    onLoad({ filter: /[\\/]tests[\\/]fuzz\.ts$/ }, () => ({
      contents: "export const runs = (normal) => Math.ceil(normal / 5);",
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

/** Every mutant of the compiled lines that are no comment, with its source file below `src`. */
function mutantsOf({ text, map }) {
  let offset = 0;
  return text.split("\n").flatMap((line, n) => {
    const start = offset;
    offset += line.length + 1;
    if (/^\s*(?:\*|\/[/*])/u.test(line)) return [];
    return CHANGES.flatMap(([pattern, change]) =>
      [...line.matchAll(pattern)].flatMap((found) => {
        const from = map.findEntry(n, found.index);
        const path = from.originalSource?.replace(/^(?:\.\.\/)+.*?(?=src\/)/u, "") ?? "";
        const file = relative(root, join(root, path)).replaceAll("\\", "/");
        if (!file.startsWith("src/") || quoted(line, found.index)) return [];
        const put = typeof change === "string" ? change : change(found[0]);
        const is = line.slice(0, found.index) + put + line.slice(found.index + found[0].length);
        const at = start + found.index;
        const where = `${file}:${from.originalLine + 1}`;
        return [{ at, length: found[0].length, put, file, where, was: line.trim(), is: is.trim() }];
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

/** What is to be tried of the mutants of a folder: a number of them, or all of some files or lines. */
function chosen(own, folder) {
  if (!/[a-z]/u.test(count)) return drawn(own, Number(count), Number(seed));
  const named = new Set(count.split(",").map((name) => `src/${folder}/${name}`));
  return own.filter(({ file, where }) => named.has(file) || named.has(where));
}

const scratch = mkdtempSync(join(tmpdir(), "daywright-mutants-"));
symlinkSync(join(root, "node_modules"), join(scratch, "node_modules"));
const bundle = join(scratch, "all.mjs");

/** A process that runs mutants; null where it ended or was silent for too long. */
function runner(silence = SILENCE) {
  const child = spawn(process.execPath, ["--max-old-space-size=1500", join(root, "bin", "mutateRun.mjs"), bundle], {
    cwd: root,
    stdio: ["pipe", "pipe", "ignore"],
    env: { ...process.env, TZ: "Pacific/Apia", NODE_ENV: "test", NODE_EXTRA_CA_CERTS: "" },
  });
  let settle = () => undefined;
  /** Called with what a test file has given while others still run. */
  let onLine = null;
  let timer;
  let text = "";
  const watch = () => {
    clearTimeout(timer);
    timer = setTimeout(() => settle(null), silence);
  };
  child.stdout.on("data", (bytes) => {
    watch();
    text += bytes;
    const lines = text.split("\n");
    text = lines.pop() ?? "";
    for (const line of lines.filter((one) => one !== "")) {
      const said = JSON.parse(line);
      if (said.name === undefined) settle(said);
      else onLine?.(said);
    }
  });
  child.on("exit", () => settle(null));
  const ask = async (question, each = null) => {
    onLine = each;
    watch();
    const answer = await new Promise((done) => {
      settle = done;
      child.stdin.write(`${JSON.stringify(question)}\n`);
    });
    clearTimeout(timer);
    return answer;
  };
  return { ask, end: () => child.kill("SIGKILL") };
}

const program = await compiled(testFiles(), bundle);
const all = mutantsOf(program);
const places = [...new Set(all.map(({ at }) => at))].sort((a, b) => a - b);
const keys = keysOf(places);
const placesFile = join(scratch, "places.json");
writeFileSync(placesFile, JSON.stringify(places));

/** A compiled line without what other files change in it: figures at the ends of names, and so whether a name is said twice. */
function bareLine(line) {
  return line.replace(/\d/gu, "").replace(/\b(\w+): \1\b/gu, "$1");
}

/** Names of places that outlive changes elsewhere: source file, bare line, and a number. */
function keysOf(ats) {
  const mutants = new Map(all.map((one) => [one.at, one]));
  const seen = new Map();
  return ats.map((at) => {
    const { file, was } = mutants.get(at);
    const name = `${file} ${bareLine(was)}`;
    seen.set(name, (seen.get(name) ?? 0) + 1);
    return `${name} ${seen.get(name)}`;
  });
}

const keptFile = process.env["DAYWRIGHT_COUNTED"];
const hashOf = (name) =>
  createHash("sha1")
    .update(readFileSync(join(root, "tests", name)))
    .digest("hex");

/**
 * What every test reaches, by numbers in `places`; counted now where it is not known. What is kept names places by their keys:
 * those that the tests of this run do not load stay known for the next.
 */
async function counted() {
  const kept =
    keptFile !== undefined && existsSync(keptFile)
      ? JSON.parse(readFileSync(keptFile, "utf8"))
      : { keys: [], loaded: [], files: {} };
  const files = new Map(
    Object.entries(kept.files).filter(
      ([name, { hash }]) => hash === (existsSync(join(root, "tests", name)) ? hashOf(name) : ""),
    ),
  );
  const every = [...new Set([...kept.keys, ...keys])];
  const place = new Map(keys.map((key, n) => [key, n]));
  const number = new Map(every.map((key, n) => [key, n]));
  const here = (numbers) => numbers.flatMap((n) => place.get(every[n]) ?? []);
  const named = (numbers) => numbers.map((n) => number.get(keys[n]));
  const before = new Set(kept.keys);
  const atLoad = new Set(kept.loaded);
  const fresh = testFiles().filter((name) => !files.has(name));
  const keep = () => {
    if (keptFile !== undefined)
      writeFileSync(keptFile, JSON.stringify({ keys: every, loaded: [...atLoad], files: Object.fromEntries(files) }));
  };
  if (fresh.length > 0) {
    const child = runner(10 * SILENCE);
    const done = await child.ask({ counted: placesFile, files: fresh }, ({ name, tests: own, left, loaded }) => {
      for (const [what, why] of left) process.stderr.write(`left out ${what}: ${why.slice(0, 160)}\n`);
      process.stderr.write(`counted ${name}\n`);
      files.set(name, { hash: hashOf(name), tests: own.map((one) => ({ ...one, reached: named(one.reached) })) });
      for (const one of named(loaded)) atLoad.add(one);
      keep();
    });
    child.end();
    if (done === null) throw new Error("the tests do not end without any change");
  }
  const now = new Set(testFiles());
  const tests = [...files].flatMap(([name, one]) => (now.has(name) ? one.tests : []));
  return {
    tests: tests.map((one) => ({ ...one, reached: new Set(here(one.reached)), kills: 0 })),
    loaded: new Set(here([...atLoad])),
    fresh: new Set(kept.keys.length === 0 ? [] : keys.flatMap((key, n) => (before.has(key) ? [] : [n]))),
  };
}

/** Where the tests of a folder lie: the last of its names that `tests` has. */
const near = (file) => `${file.split("/").at(1)}/`;

/** Tests that reach a place, or its file, in the order in which they are asked: [test file, number in it]. */
function testsFor(mutant, { tests, loaded, fresh }) {
  const place = places.indexOf(mutant.at);
  const inFile = new Set(all.filter(({ file }) => file === mutant.file).map(({ at }) => places.indexOf(at)));
  const reach = ({ reached }) => {
    if (reached.has(place)) return 0;
    return [...inFile].some((one) => reached.has(one)) ? 1 : 2;
  };
  const kept = tests.filter((one) => one.ms <= SLOWEST).map((one) => ({ ...one, reach: reach(one) }));
  const used = kept.filter((one) => one.reach === 0);
  // Of a line that is newer than the counts of some tests, those are asked that reach its file.
  if (used.length === 0 && !loaded.has(place) && !fresh.has(place)) return [];
  const first = ({ file, reach: r, kills }) =>
    r * 4 + (kills > 0 ? 0 : 2) + (file.startsWith(near(mutant.file)) ? 0 : 1);
  const order = kept
    .filter((one) => one.reach < 2 || (loaded.has(place) && one.file.startsWith(near(mutant.file))))
    .sort((a, b) => first(a) - first(b) || a.ms - b.ms);
  let sum = 0;
  return order.filter((one) => {
    sum += one.ms;
    return sum <= ENOUGH || (one.reach === 0 && sum <= 2 * ENOUGH);
  });
}

const known = await counted();
let now = runner();
for (const { file, name, ms } of known.tests.filter((one) => one.ms > SLOWEST))
  process.stderr.write(`left out for its ${ms} ms ${file}: ${name}\n`);
process.stderr.write(`${known.tests.length} tests of ${known.tests.reduce((sum, { ms }) => sum + ms, 0)} ms\n`);

let asked = 0;

/** The answer of the runner, which begins anew after a change that never ended, and after ten. */
async function answerOf(question) {
  const answer = await now.ask(question);
  if (answer === null || ++asked % 10 === 0) {
    now.end();
    now = runner();
  }
  return answer;
}

/** What the tests say of a mutant, which of them noticed it, and all that were asked. */
async function askedOf(mutant) {
  const { at, length, put } = mutant;
  const order = testsFor(mutant, known);
  const question = { run: order.map(({ file, index }) => [file, index]), at, length, put };
  const answer = order.length === 0 ? { failed: null } : await answerOf(question);
  const killer = known.tests.find(({ file, index }) => file === answer?.by?.[0] && index === answer?.by?.[1]);
  return [answer, killer, order];
}

/** Whether a test that noticed something holds without a change; asked once. */
async function holdsUnchanged(test) {
  test.holds ??= (await answerOf({ run: [[test.file, test.index]] }))?.failed === null;
  return test.holds;
}

for (const folder of folders.split(",")) {
  const own = all.filter(({ file }) => file.startsWith(`src/${folder}/`));
  const some = chosen(own, folder);
  let noticed = 0;
  for (const mutant of some) {
    const { where, was, is } = mutant;
    let [answer, killer, order] = await askedOf(mutant);
    // A test that fails without any change notices nothing: what it reaches was counted before it failed.
    while (killer !== undefined && !(await holdsUnchanged(killer))) {
      process.stderr.write(`left out ${killer.file} ${killer.name}: it fails without a change\n`);
      known.tests = known.tests.filter((one) => one !== killer);
      [answer, killer, order] = await askedOf(mutant);
    }
    if (answer === null || answer.failed !== null) {
      noticed++;
      if (killer !== undefined) killer.kills++;
      process.stderr.write(`noticed ${where}: ${answer?.failed.slice(0, 160) ?? "no end"}\n`);
    } else
      process.stdout.write(
        `survived ${where} (${order.length || "no"} test${order.length === 1 ? "" : "s"})\n  - ${was}\n  + ${is}\n`,
      );
  }
  process.stdout.write(
    `${folder}: ${noticed} of ${some.length} mutants noticed (${own.length} in all, ${/[a-z]/u.test(count) ? count : `seed ${seed}`})\n`,
  );
}
now.end();
rmSync(scratch, { recursive: true });
