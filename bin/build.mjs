/**
 * Builds dist/: one CommonJS script of many parts, each set up when a command first asks for it, and a V8 code cache for
 * each usual command, made by running it once (`npm run build`; `--if-stale` builds only if a source is newer; `--single` also makes one file of it all).
 *
 * Every file is written under another name and renamed, so that a program started meanwhile finds the old or the new one.
 */
import { execFileSync } from "node:child_process";
import { createHash } from "node:crypto";
import { copyFileSync, existsSync, mkdirSync, readdirSync, renameSync, rmSync, statSync, writeFileSync } from "node:fs";
import { basename, join } from "node:path";
import { fileURLToPath } from "node:url";
import { buildLibrary, buildTypes } from "./buildLibrary.mjs";
import { buildSingle } from "./buildSingle.mjs";
import { writeNotices } from "./notices.mjs";

const root = fileURLToPath(new URL("..", import.meta.url));
const dist = join(root, "dist");
const bundle = join(dist, "daywright.cjs");
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

/** Parts in a file of their own, since they are large and a sound plan never needs them. */
const APART = /^zod-/;

/**
 * Commander loads Node's child processes for commands that are programs of their own, which ours never are; loading them
 * costs a tenth of a start.
 */
const noChildren = {
  name: "no-children",
  setup(build) {
    build.onResolve({ filter: /^node:child_process$/ }, ({ importer }) =>
      importer.includes("commander") ? { path: "none", namespace: "no-children" } : undefined,
    );
    build.onLoad({ filter: /./, namespace: "no-children" }, () => ({ contents: "module.exports = {};" }));
  },
};

/** The program as modules cut where a command imports late, each then turned into a CommonJS part. */
async function partsOf() {
  const { build: bundleWith, transform } = await import("esbuild").catch(() => {
    throw new Error("the build needs the development packages: run npm ci without --omit=dev");
  });
  const common = {
    platform: "node",
    target: "node20",
    charset: "ascii",
    minifySyntax: true,
    minifyIdentifiers: true,
    minifyWhitespace: true,
    legalComments: "none",
  };
  const { outputFiles } = await bundleWith({
    ...common,
    absWorkingDir: root,
    entryPoints: [join("src", "cli", "main.ts")],
    outdir: dist,
    bundle: true,
    splitting: true,
    write: false,
    format: "esm",
    external: ["highs"],
    plugins: [noChildren],
    logLevel: "warning",
  });
  // A late import of a part must become a plain call: a cached script has no module loader behind it.
  const asPart = { ...common, format: "cjs", supported: { "dynamic-import": false } };
  const made = outputFiles.map(async ({ path, text }) => ({
    name: basename(path),
    code: `function (exports, require, module) {\n${escaped((await transform(text, asPart)).code)}}`,
  }));
  return Promise.all(made);
}

/** `charset: "ascii"` leaves regular expressions as they are; the launcher reads one byte a character. */
const escaped = (code) =>
  code.replace(/[\u0080-\uffff]/g, (unit) => `\\u${unit.charCodeAt(0).toString(16).padStart(4, "0")}`);

/** One script: a function over all parts, each of them a function that nobody compiles before somebody asks for it. */
const packed = (parts) => `(function (exports, require, module) {
const parts = {
${parts.map(({ name, code }) => `${JSON.stringify(`./${name}`)}: ${code}`).join(",\n")}
};
const loaded = new Map();
function part(name) {
  const known = loaded.get(name);
  if (known) return known.exports;
  if (name === "highs") return require("./highs.cjs");
  if (!name.startsWith("./")) return require(name);
  const module = { exports: {} };
  loaded.set(name, module);
  const body = Object.hasOwn(parts, name) ? parts[name] : require(name + ".cjs");
  body(module.exports, part, module);
  return module.exports;
}
module.exports = part("./main.js");
})
`;

/** Makes one command's cache; a command that fails has none and is compiled as it runs. */
function warm(fresh, [name, ...command]) {
  const target = `${fresh}.${name}.cache`;
  execFileSync(process.execPath, [join(root, "bin", "warm.js"), fresh, target, ...command], { stdio: "ignore" });
}

export async function build() {
  mkdirSync(dist, { recursive: true });
  for (const [name, from] of Object.entries(SOLVER)) {
    const fresh = join(dist, `fresh-${process.pid}-${name}`);
    copyFileSync(join(root, "node_modules", "highs", "build", from), fresh);
    renameSync(fresh, join(dist, name));
  }
  await buildLibrary(root, dist);
  const parts = await partsOf();
  const apart = parts.filter(({ name }) => APART.test(name));
  for (const { name, code } of apart)
    writeFileSync(join(dist, `${name}.cjs`), `"use strict";\nmodule.exports = ${code};\n`);
  const text = packed(parts.filter((part) => !apart.includes(part)));
  const stamp = createHash("sha256").update(text).digest("hex").slice(0, 16);
  const fresh = join(dist, `fresh-${process.pid}.cjs`);
  writeFileSync(fresh, `/*${stamp}*/${text}`);
  try {
    for (const command of USUAL) warm(fresh, command);
    settle(basename(fresh), new Set(apart.map(({ name }) => `${name}.cjs`)));
  } finally {
    for (const file of readdirSync(dist)) if (file.startsWith(basename(fresh))) rmSync(join(dist, file));
  }
}

/** Puts the fresh files in place, and removes what belongs to no bundle any more. */
function settle(fresh, apart) {
  const made = new Set(readdirSync(dist).filter((name) => name.startsWith(fresh)));
  const kept = new Set([
    "index.js",
    "single",
    "types",
    ...Object.keys(SOLVER),
    ...apart,
    ...[...made].map((name) => name.replace(fresh, basename(bundle))),
  ]);
  for (const name of made) renameSync(join(dist, name), join(dist, name.replace(fresh, basename(bundle))));
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
