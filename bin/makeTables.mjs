/**
 * Makes the tables of what stands as one file in a folder: output forms, commands, pages of the manual, rule sets, reports
 * (`npm run tables`). With `--check` it writes nothing and fails where a committed table differs.
 *
 * A file is found by what it exports: the declaration that `declares` knows. Rows are in the order of `place`, then by name.
 */
import { execFileSync } from "node:child_process";
import { mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { build } from "esbuild";

const root = fileURLToPath(new URL("..", import.meta.url));

const withDashes = (name) => name.replace(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`);
const quoted = (name) => (/^[a-z]\w*$/i.test(name) ? name : JSON.stringify(name));
const literal = (facts) =>
  Object.entries(facts)
    .filter(([, value]) => value !== undefined)
    .map(([key, value]) => `${key}: ${JSON.stringify(value)}`)
    .join(", ");
const imports = (rows) => rows.map(({ exported, file }) => `import { ${exported} } from "${file}";`);
const loads = ({ exported, file }, part = "") => `load: async () => (await import("${file}")).${exported}${part}`;

/** Each table: its folder, its file, what it takes, and its text from the rows. */
const TABLES = [
  {
    folder: "src/hours/rules/sets",
    target: "src/hours/rules/table.ts",
    empty: "export const RULE_SETS = {};",
    head: "Every rule set by its name, which is that of its file in `sets`.",
    declares: ({ make, threshold }) => make !== undefined && threshold !== undefined,
    text: (rows) => [
      'import type { RuleSetDeclaration } from "./declaration.ts";',
      ...imports(rows),
      "",
      "/** Every rule set by its id. */",
      "export const RULE_SETS = {",
      ...rows.map(({ name, exported }) =>
        withDashes(name) === exported ? `  ${name},` : `  ${quoted(withDashes(name))}: ${exported},`,
      ),
      "} as const satisfies Record<string, RuleSetDeclaration>;",
      "",
      "/** The id of a rule set. */",
      "export type RuleSetId = keyof typeof RULE_SETS;",
    ],
  },
  {
    folder: "src/reports",
    inside: "index",
    target: "src/reports/table.ts",
    empty: "export const REPORTS = {};",
    head: "Every report by its name, which is that of its folder: the topics that it needs; the rest is loaded when it is asked for.",
    declares: ({ make, topics }) => make !== undefined && topics !== undefined,
    text: (rows) => [
      'import type { Topic } from "./shared/judged.ts";',
      'import type { ReportMaker } from "./shared/report.ts";',
      "",
      "/** A report before it is loaded. */",
      "export interface ReportRow {",
      "  readonly topics: readonly Topic[];",
      "  readonly load: () => Promise<ReportMaker>;",
      "}",
      "",
      "/** All reports of a judged day. */",
      "export const REPORTS = {",
      ...rows.map((row) => `  ${row.name}: { ${literal({ topics: row.declared.topics })}, ${loads(row)} },`),
      "} satisfies Readonly<Record<string, ReportRow>>;",
    ],
  },
  {
    folder: "src/render/forms",
    target: "src/render/table.ts",
    empty: "export const FORMS = [];",
    head: "Every form of output: what its file declares, and its renderer, which is loaded when the form is asked for.",
    declares: ({ takes, suffixes }) => takes !== undefined && suffixes !== undefined,
    text: (rows) => [
      'import type { OutputForm } from "./form.ts";',
      "",
      "/** Every form, the usual one first. */",
      "export const FORMS: readonly OutputForm[] = [",
      ...rows.map((row) => {
        const { name, suffixes, commands, coordinates, takes, print } = row.declared;
        const facts = literal({ name, suffixes, commands, coordinates, takes });
        return `  { ${facts}${print === undefined ? "" : `, ${loads(row, ".print")}`} },`;
      }),
      "];",
    ],
  },
  {
    folder: "src/manual/pages",
    target: "src/manual/table.ts",
    empty: "export const PAGES = {};",
    head: "The pages of the manual by name: what help and completion need to know of them; the rest is loaded when it is asked for.",
    declares: ({ about, page }) => about !== undefined && page !== undefined,
    text: (rows) => [
      'import type { PageRow } from "./page.ts";',
      "",
      "/** Every page, in the order in which help lists them. */",
      "export const PAGES: Readonly<Record<string, PageRow>> = {",
      ...rows.map(
        (row) => `  ${quoted(row.declared.name)}: { ${literal({ about: row.declared.about })}, ${loads(row)} },`,
      ),
      "};",
    ],
  },
  {
    folder: "src/cli/commands",
    target: "src/cli/table.ts",
    empty: "export const COMMANDS = [];",
    head: "All commands.",
    declares: ({ build: builds, run }) => builds !== undefined && run !== undefined,
    text: (rows) => [
      'import type { CommandFile } from "./command.ts";',
      ...imports(rows),
      "",
      "/** All commands, in the order in which help lists them. */",
      "export const COMMANDS: readonly CommandFile[] = [",
      `  ${rows.map(({ exported }) => exported).join(", ")}`,
      "];",
    ],
  },
];

/** The files of a folder, or one file of each folder in it: a name and a path. */
function filesOf({ folder, inside }) {
  const entries = readdirSync(join(root, folder), { withFileTypes: true });
  if (inside === undefined)
    return entries
      .filter((entry) => entry.name.endsWith(".ts"))
      .map(({ name }) => ({ name: name.slice(0, -".ts".length), path: `${folder}/${name}` }));
  return entries
    .filter((entry) => entry.isDirectory())
    .filter(({ name }) => readdirSync(join(root, folder, name)).includes(`${inside}.ts`))
    .map(({ name }) => ({ name, path: `${folder}/${name}/${inside}.ts` }));
}

/** Stands in for each table while the files are compiled, so that a table that is wrong or absent can be made anew. */
const withoutTables = {
  name: "without tables",
  setup(compiling) {
    const empty = new Map(TABLES.map((table) => [join(root, table.target), table.empty]));
    compiling.onResolve({ filter: /table\.ts$/ }, ({ path, resolveDir }) => {
      const full = join(resolveDir, path);
      return empty.has(full) ? { path: full } : null;
    });
    compiling.onLoad({ filter: /table\.ts$/ }, ({ path }) => {
      const contents = empty.get(path);
      return contents === undefined ? null : { contents, loader: "ts" };
    });
  },
};

/** What all these files export, by their paths: compiled together and run once. */
async function exportsOf(paths) {
  const cache = join(root, "node_modules", ".cache");
  const outfile = join(cache, `tables-${process.pid}.mjs`);
  mkdirSync(cache, { recursive: true });
  try {
    await build({
      stdin: {
        contents: paths.map((path, at) => `export * as file${at} from "./${path}";`).join("\n"),
        resolveDir: root,
        loader: "ts",
      },
      bundle: true,
      packages: "external",
      platform: "node",
      format: "esm",
      outfile,
      plugins: [withoutTables],
      logLevel: "error",
    });
    const module = await import(pathToFileURL(outfile).href);
    return new Map(paths.map((path, at) => [path, module[`file${at}`]]));
  } finally {
    rmSync(outfile, { force: true });
  }
}

/** As the formatter wants it. */
const laidOut = (path, text) =>
  execFileSync(
    process.execPath,
    [join(root, "node_modules", "@biomejs", "biome", "bin", "biome"), "check", "--write", `--stdin-file-path=${path}`],
    { cwd: root, input: text, encoding: "utf8" },
  );

function tableText(table, files, exported) {
  const rows = files.flatMap(({ name, path }) => {
    const found = Object.entries(exported.get(path)).filter(
      ([, value]) => typeof value === "object" && value !== null && table.declares(value),
    );
    const from = table.target.slice(0, table.target.lastIndexOf("/") + 1);
    return found.map(([key, declared]) => ({ name, declared, exported: key, file: `./${path.slice(from.length)}` }));
  });
  const place = ({ declared }) => declared.place ?? 0;
  rows.sort((one, other) => place(one) - place(other) || (one.name < other.name ? -1 : 1));
  return laidOut(table.target, `/** ${table.head} Made by \`npm run tables\`. */\n${table.text(rows).join("\n")}\n`);
}

/** Every table as it should stand, by its path. */
export async function tables() {
  const files = new Map(TABLES.map((table) => [table, filesOf(table)]));
  const exported = await exportsOf([...files.values()].flat().map(({ path }) => path));
  return new Map(TABLES.map((table) => [table.target, tableText(table, files.get(table), exported)]));
}

const textOf = (path) => {
  try {
    return readFileSync(join(root, path), "utf8");
  } catch {
    return null;
  }
};

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const stale = [...(await tables())].filter(([path, text]) => textOf(path) !== text);
  const checks = process.argv.includes("--check");
  for (const [path, text] of stale) {
    if (!checks) writeFileSync(join(root, path), text);
    process.stderr.write(checks ? `${path} is not as \`npm run tables\` makes it\n` : `wrote ${path}\n`);
  }
  if (checks && stale.length > 0) process.exitCode = 1;
}
