/**
 * The program as a few scripts of parts: esbuild cuts the modules where a command imports late, and each piece becomes a
 * function that is run when somebody first asks for it.
 *
 * What one part takes from another are plain constants: the getters of a usual CommonJS module cost a tenth of a small check.
 */
import { builtinModules } from "node:module";
import { basename, join } from "node:path";

/** The solver is a file of its own. */
const SOLVER = "highs";

const OUTSIDE = new Set([SOLVER, ...builtinModules, ...builtinModules.map((name) => `node:${name}`)]);

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

/**
 * cli-table3 measures each cell several times with a package that looks for emoji by a very long pattern. It is only ever given
 * plain ASCII (src/render/text/table.ts), which is as wide as it is long.
 */
const plainWidths = {
  name: "plain-widths",
  setup(build) {
    build.onResolve({ filter: /^string-width$/ }, ({ importer }) =>
      importer.includes("cli-table3") ? { path: "none", namespace: "plain-widths" } : undefined,
    );
    build.onLoad({ filter: /./, namespace: "plain-widths" }, () => ({
      contents: "module.exports = (text) => text.length;",
    }));
  },
};

/** The parts of the program, each with its name and the body of its function, in which `$part` and `$late` give others. */
export async function partsOf(root, dist) {
  const { build } = await import("esbuild").catch(() => {
    throw new Error("the build needs the development packages: run npm ci without --omit=dev");
  });
  const { outputFiles } = await build({
    platform: "node",
    target: "node20",
    charset: "ascii",
    minifySyntax: true,
    minifyIdentifiers: true,
    minifyWhitespace: true,
    legalComments: "none",
    absWorkingDir: root,
    entryPoints: [join("src", "cli", "main.ts")],
    outdir: dist,
    bundle: true,
    splitting: true,
    write: false,
    format: "esm",
    external: [SOLVER],
    plugins: [noChildren, plainWidths],
    logLevel: "warning",
  });
  const parts = outputFiles.map(({ path, text }) => partOf(`./${basename(path)}`, text));
  refuseCircles(parts);
  return parts;
}

/** `import a, { b as c } from "x"`, `import * as d from "x"` or `import "x"`, as esbuild prints them. */
const IMPORT =
  /(?<=^|[;}\n])import\s*(?:([\w$]+)\s*,?)?\s*(?:\{([^}]*)\}|\*\s*as\s+([\w$]+))?\s*(?:from)?\s*"([^"]+)";?/g;
const EXPORT = /(?<=^|[;}\n])export\s*(?:\{([^}]*)\}|default ([^;]+));?\s*$/;

const renamed = (list, between) => list.trim().replace(/([\w$]+) as ([\w$]+)/g, `$1${between}$2`);

/** A module's text as the body of a function: what it imports as constants, what it exports as what it returns. */
function partOf(name, text) {
  const needs = [];
  const taken = [];
  const body = text.replace(IMPORT, (whole, own, named, all, from) => {
    const ours = from.startsWith("./");
    // A text that only looks like an import of something else is left as it is.
    if (!ours && !OUTSIDE.has(from)) return whole;
    if (ours) needs.push(from);
    const part = `$part(${JSON.stringify(from)})`;
    if (own !== undefined) taken.push(ours ? `const{default:${own}}=${part};` : `const ${own}=${part};`);
    if (named !== undefined) taken.push(`const{${renamed(named, ":")}}=${part};`);
    if (all !== undefined) taken.push(`const ${all}=${part};`);
    if (own === undefined && named === undefined && all === undefined) taken.push(`${part};`);
    return "";
  });
  const given = EXPORT.exec(body);
  const [, list, single] = given ?? [];
  const exported =
    single === undefined ? (list ?? "").split(",").filter(Boolean).map(inObject).join(",") : `default:${single}`;
  const rest = given === null ? body : body.slice(0, given.index);
  const late = rest.replace(/(?<![\w$.])import\(/g, "$late(");
  return { name, needs, code: escaped(`${taken.join("")}${late}\nreturn{${exported}}`) };
}

function inObject(entry) {
  const [from, to] = entry.trim().split(" as ");
  return `${to ?? from}:${from}`;
}

/** `charset: "ascii"` leaves regular expressions as they are; the launcher reads one byte a character. */
const escaped = (code) =>
  code.replace(/[\u0080-\uffff]/g, (unit) => `\\u${unit.charCodeAt(0).toString(16).padStart(4, "0")}`);

/** A part that is asked for while it is run has nothing to give yet. Throws for parts that need each other. */
function refuseCircles(parts) {
  const needs = new Map(parts.map((part) => [part.name, part.needs]));
  const done = new Set();
  const visit = (name, above) => {
    if (above.includes(name)) throw new Error(`parts need each other: ${[...above, name].join(" ")}`);
    if (done.has(name)) return;
    done.add(name);
    for (const need of needs.get(name) ?? []) visit(need, [...above, name]);
  };
  for (const { name } of parts) visit(name, []);
}

const listed = (parts) => parts.map(({ name, code }) => `${JSON.stringify(name)}(){${code}}`).join(",\n");

const whereOf = (further) =>
  Object.fromEntries(further.flatMap(({ name, parts }) => parts.map((part) => [part.name, name])));

/**
 * The first script: its parts, and in which script the others are. Its function takes `require` and what gives a further script by
 * its name, and gives what the program exports.
 */
export const firstScript = (parts, further) => `(function (require, $further) {
const $parts = {
${listed(parts)}
};
const $scripts = ${JSON.stringify(whereOf(further))};
const $loaded = new Map();
function $made(name) {
  if (name === "${SOLVER}") return require("./${SOLVER}.cjs");
  if (!name.startsWith("./")) return require(name);
  if (!Object.hasOwn($parts, name)) Object.assign($parts, $further($scripts[name])($part, $late, require));
  return $parts[name]();
}
function $part(name) {
  const known = $loaded.get(name);
  if (known !== undefined) return known;
  const made = $made(name);
  $loaded.set(name, made);
  return made;
}
async function $late(name) {
  const made = $part(name);
  return name.startsWith("./") ? made : { __proto__: made, default: made };
}
return { ...$part("./main.js"), loaded: $loaded };
})
`;

/** A further script: its function takes what parts call and gives the parts by name. */
export const furtherScript = (parts) => `(function ($part, $late, require) {
return {
${listed(parts)}
};
})
`;
