/**
 * Builds dist/: one CommonJS bundle, whose parts initialise when a command first asks for them, and a V8 code cache for each
 * usual command, made by running it once (`npm run build`; `--if-stale` builds only where a source is newer).
 *
 * Every file is written under another name and renamed, so that a program started meanwhile finds the old or the new one.
 */
import { execFileSync } from "node:child_process";
import { createHash } from "node:crypto";
import { existsSync, mkdirSync, readdirSync, renameSync, rmSync, statSync, writeFileSync } from "node:fs";
import { basename, join } from "node:path";
import { fileURLToPath } from "node:url";

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

/** Packages that stay outside: the solver brings its own WebAssembly file and is loaded only by the exact search. */
const OUTSIDE = ["highs"];

async function compile() {
  const { build: bundleWith } = await import("esbuild");
  const made = await bundleWith({
    absWorkingDir: root,
    entryPoints: [join(root, "src", "cli", "main.ts")],
    bundle: true,
    write: false,
    platform: "node",
    target: "node20",
    format: "cjs",
    charset: "ascii",
    minifySyntax: true,
    minifyWhitespace: true,
    legalComments: "none",
    external: OUTSIDE,
    // Without it esbuild leaves `import("highs")` to the module loader, which a cached script does not have.
    supported: { "dynamic-import": false },
    logLevel: "warning",
  });
  return made.outputFiles[0].text;
}

/** Makes one command's cache; a command that fails has none and is compiled as it runs. */
function warm(fresh, [name, ...command]) {
  const target = `${fresh}.${name}.cache`;
  execFileSync(process.execPath, [join(root, "bin", "warm.js"), fresh, target, ...command], { stdio: "inherit" });
}

export async function build() {
  mkdirSync(dist, { recursive: true });
  const text = await compile();
  const stamp = createHash("sha256").update(text).digest("hex").slice(0, 16);
  const fresh = join(dist, `fresh-${process.pid}.cjs`);
  writeFileSync(fresh, `/*${stamp}*/${text}`);
  try {
    for (const command of USUAL) warm(fresh, command);
    for (const file of readdirSync(dist).filter((name) => name.startsWith(basename(fresh)))) {
      renameSync(join(dist, file), join(dist, file.replace(basename(fresh), basename(bundle))));
    }
  } finally {
    for (const file of readdirSync(dist)) if (file.startsWith(basename(fresh))) rmSync(join(dist, file));
  }
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
  if (!process.argv.includes("--if-stale") || isStale()) await build();
}
