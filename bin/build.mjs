/**
 * Builds dist/: a few scripts of many parts, each set up when a command first asks for it, and V8 code caches for each usual
 * command, made by running it once (`npm run build`; `--if-stale` builds only if a source is newer; `--single` also makes one file of it all).
 *
 * Every file is written under another name and renamed, so that a program started meanwhile finds the old or the new one.
 */
import { execFileSync } from "node:child_process";
import { createHash } from "node:crypto";
import {
  copyFileSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { buildLibrary, buildTypes } from "./buildLibrary.mjs";
import { firstScript, furtherScript, partsOf } from "./buildScripts.mjs";
import { buildSingle } from "./buildSingle.mjs";
import { writeNotices } from "./notices.mjs";

const root = fileURLToPath(new URL("..", import.meta.url));
const dist = join(root, "dist");
const PROGRAM = "daywright";
const bundle = join(dist, `${PROGRAM}.cjs`);
const SMALLEST = join(root, "fixtures", "smallest.yaml");
const DEMO = join(root, "fixtures", "days", "2027-01-20.yaml");

/** The commands that people run daily, each with the words that make its cache. */
const USUAL = [
  ["help", "--help"],
  ...["check", "calls", "hours", "power", "drives", "light", "signal", "kit", "sheet"].map((name) => [
    name,
    name,
    DEMO,
  ]),
  ["explain", "explain", "rest-too-short"],
];

/** The solver stays a file of its own beside its WebAssembly file, and is loaded only by the exact search. */
const SOLVER = { "highs.cjs": "highs.js", "highs.wasm": "highs.wasm" };

/** The scripts, each with the command whose parts it holds as far as none before it does; what is left goes into one more. */
const SCRIPTS = [
  ["", ["--help"]],
  ["check", ["check", SMALLEST]],
];

/** Large, and needed only for a mistake in a plan. */
const MISTAKES = /^\.\/zod-/;

/** Names of the parts that a command runs, asked of a script that holds all of them. */
function partsRun(script, command) {
  const target = `${script}.json`;
  execFileSync(process.execPath, [join(root, "bin", "partsRun.js"), script, target, ...command], { stdio: "ignore" });
  const names = JSON.parse(readFileSync(target, "utf8"));
  rmSync(target);
  return new Set(names);
}

/** The parts by the script that they go into; the first is the one that every command loads. */
function scriptsOf(parts, whole) {
  const groups = SCRIPTS.map(([name, command]) => ({ name, run: partsRun(whole, command) }));
  groups.push({ name: "mistakes", run: new Set(parts.map(({ name }) => name).filter((name) => MISTAKES.test(name))) });
  groups.push({ name: "more", run: new Set(parts.map(({ name }) => name)) });
  const left = new Set(parts);
  return groups.map(({ name, run }) => {
    const own = [...left].filter((part) => run.has(part.name));
    for (const part of own) left.delete(part);
    return { name, parts: own };
  });
}

/** Makes one command's caches; a command that fails has none and is compiled as it runs. */
function warm(fresh, [name, ...command]) {
  execFileSync(process.execPath, [join(root, "bin", "warm.js"), fresh, name, ...command], { stdio: "ignore" });
}

export async function build() {
  mkdirSync(dist, { recursive: true });
  for (const [name, from] of Object.entries(SOLVER)) {
    const fresh = join(dist, `fresh-${process.pid}-${name}`);
    copyFileSync(join(root, "node_modules", "highs", "build", from), fresh);
    renameSync(fresh, join(dist, name));
  }
  await buildLibrary(root, dist);
  const parts = await partsOf(root, dist);
  const start = `fresh-${process.pid}`;
  const fresh = join(dist, `${start}.cjs`);
  try {
    writeFileSync(fresh, stamped(firstScript(parts, []), ""));
    const [first, ...further] = scriptsOf(parts, fresh);
    const texts = [firstScript(first.parts, further), ...further.map((group) => furtherScript(group.parts))];
    const hash = createHash("sha256").update(texts.join("")).digest("hex").slice(0, 16);
    writeFileSync(fresh, stamped(texts[0], hash));
    for (const [at, { name }] of further.entries())
      writeFileSync(join(dist, `${start}.${name}.cjs`), stamped(texts[at + 1], hash));
    for (const command of USUAL) warm(fresh, command);
    settle(start);
  } finally {
    for (const file of readdirSync(dist)) if (file.startsWith(`${start}.`)) rmSync(join(dist, file));
  }
}

/** Twenty letters before a script that caches made for it repeat. */
const stamped = (text, hash) => `/*${hash.padEnd(16, "0")}*/${text}`;

/** Puts the fresh files in place, and removes what belongs to no build any more. */
function settle(start) {
  const made = new Map(
    readdirSync(dist)
      .filter((name) => name.startsWith(`${start}.`))
      .map((name) => [name, name.replace(start, PROGRAM)]),
  );
  const kept = new Set(["index.js", "single", "types", ...Object.keys(SOLVER), ...made.values()]);
  for (const [name, settled] of made) renameSync(join(dist, name), join(dist, settled));
  for (const name of readdirSync(dist)) if (!kept.has(name) && !name.startsWith("fresh-")) rmSync(join(dist, name));
}

const newest = (path) =>
  statSync(path).isDirectory()
    ? Math.max(0, ...readdirSync(path).map((name) => newest(join(path, name))))
    : statSync(path).mtimeMs;

/** Whether the bundle is missing or older than what it is made of. */
export function isStale() {
  if (!existsSync(bundle)) return true;
  const sources = ["src", "bin", "package-lock.json"].map((name) => newest(join(root, name)));
  return Math.max(...sources) > statSync(bundle).mtimeMs;
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const always = !process.argv.includes("--if-stale");
  if (always || isStale()) await build();
  const single = process.argv.includes("--single");
  if (always || single) {
    buildTypes(root, dist);
    await writeNotices(root, dist);
  }
  if (single) buildSingle(dist);
}
