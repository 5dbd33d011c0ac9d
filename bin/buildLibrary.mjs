/** Builds the library for programs of others: one module whose parts are set up when they are first needed, and its types. */
import { execFileSync } from "node:child_process";
import { existsSync, readdirSync, readFileSync, renameSync, rmSync, statSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";

/** `dist/index.js`; the solver is the file beside it. */
export async function buildLibrary(root, dist) {
  const { build } = await import("esbuild");
  const { outputFiles } = await build({
    absWorkingDir: root,
    entryPoints: [join("src", "index.ts")],
    bundle: true,
    write: false,
    format: "esm",
    platform: "node",
    target: "node20",
    minifySyntax: true,
    legalComments: "none",
    plugins: [solverBeside],
    // Packages written for CommonJS ask for Node's own modules by `require`.
    banner: { js: 'import { createRequire } from "node:module";\nconst require = createRequire(import.meta.url);' },
    logLevel: "warning",
  });
  const fresh = join(dist, `fresh-${process.pid}.js`);
  writeFileSync(fresh, outputFiles[0].text);
  renameSync(fresh, join(dist, "index.js"));
}

const solverBeside = {
  name: "solver-beside",
  setup: (build) => build.onResolve({ filter: /^highs$/ }, () => ({ path: "./highs.cjs", external: true })),
};

/** `dist/types`, a file for each source that the public face reaches. */
export function buildTypes(root, dist) {
  const types = join(dist, "types");
  const config = join(dist, `fresh-${process.pid}.json`);
  const compilerOptions = {
    noEmit: false,
    declaration: true,
    emitDeclarationOnly: true,
    rootDir: "../src",
    outDir: "types",
    typeRoots: ["../node_modules/@types"],
  };
  rmSync(types, { recursive: true, force: true });
  const settings = { extends: "../tsconfig.json", compilerOptions, include: [], files: ["../src/index.ts"] };
  writeFileSync(config, JSON.stringify(settings));
  try {
    const tsc = join(root, "node_modules", "typescript", "bin", "tsc");
    execFileSync(process.execPath, [tsc, "-p", config], { cwd: root, stdio: "inherit" });
  } finally {
    rmSync(config);
  }
  prune(types);
}

/** What checks shapes inside is no part of the library's types, and its package is not there to be resolved. */
const ZOD = /import type \* as zod from "zod";/;
const WITHOUT_ZOD = "declare namespace zod {\n    const schema: unknown;\n    type ZodType = unknown;\n}";

const IMPORT = /(\bfrom |\bimport\()"(\.[^"]+)\.ts"/g;

/** Keeps the files that `index.d.ts` leads to, each import by the name that every resolution mode takes. */
function prune(types) {
  const kept = new Set();
  const next = [join(types, "index.d.ts")];
  for (let file = next.pop(); file !== undefined; file = next.pop()) {
    if (kept.has(file)) continue;
    kept.add(file);
    const text = readFileSync(file, "utf8");
    for (const [, , path] of text.matchAll(IMPORT)) next.push(join(dirname(file), `${path}.d.ts`));
    writeFileSync(file, text.replaceAll(IMPORT, '$1"$2.js"').replace(ZOD, WITHOUT_ZOD));
  }
  for (const name of readdirSync(types, { recursive: true })) {
    const path = join(types, name);
    if (existsSync(path) && statSync(path).isFile() && !kept.has(path)) rmSync(path);
  }
}
