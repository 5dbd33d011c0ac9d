/**
 * Holds the direction of imports and the prohibitions of the pure middle, by reading the sources: which folder may import
 * which folder and which package, and what no engine may touch (clock, environment, files, terminal, locale, chance).
 */
import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";

const src = fileURLToPath(new URL("../src/", import.meta.url));

/** A row of the table of layers in DEVELOPERS.md: what a folder may import besides itself. */
interface Layer {
  readonly folders: readonly string[];
  /** For `import type` alone. */
  readonly types: readonly string[];
  /** Null for any. */
  readonly packages: readonly string[] | null;
  /** Those of the packages that one file alone may import. */
  readonly oneFile: readonly string[];
}

const quoted = (cell: string): readonly string[] => [...cell.matchAll(/`([^`]+)`/gu)].map(([, name = ""]) => name);

/** Reads the table; "all above" stands for every row before it. */
function layersIn(document: string): ReadonlyMap<string, Layer> {
  const rows = document.slice(document.indexOf("| folder | does |")).split("\n\n")[0]?.split("\n").slice(2) ?? [];
  const layers = new Map<string, Layer>();
  for (const row of rows) {
    const [, name = "", , imports = "", packages = ""] = row.split("|").map((cell) => cell.trim());
    const [own = "", types = ""] = imports.split("types of");
    const [allowed = "", except = ""] = own.split("except");
    const above = allowed.includes("all above") ? [...layers.keys()] : [];
    const left = new Set(quoted(except));
    layers.set(quoted(name)[0] ?? row, {
      folders: [...above, ...quoted(allowed)].filter((folder) => !left.has(folder)),
      types: quoted(types),
      packages: packages === "any" ? null : quoted(packages).map((one) => one.replace("*", "")),
      oneFile: quoted(packages).flatMap((one) => (one.endsWith("*") ? [one.slice(0, -1)] : [])),
    });
  }
  return layers;
}

const LAYERS = layersIn(readFileSync(fileURLToPath(new URL("../DEVELOPERS.md", import.meta.url)), "utf8"));

/** Packages that live in one file, so that what they cost and how they fail is in one place. */
const ONE_FILE = [...LAYERS.values()].flatMap(({ oneFile }) => oneFile);

/** Only `cli` may: it is the edge where the program meets the machine. */
const MACHINE = [
  /\bprocess\s*\./,
  /\bconsole\s*\./,
  /\bDate\.now\b/,
  /\bnew Date\(\s*\)/,
  /\bperformance\s*\./,
  /\bIntl\s*\./,
  /\.toLocale[A-Z]\w*\(/,
  /\.localeCompare\(/,
  /\bMath\.random\b/,
  /\bfetch\(/,
  /\bset(?:Timeout|Interval|Immediate)\(/,
];

/** Not of any folder: imports nothing, and everyone may import it. */
const SHARED = ["lists.ts"];

interface Source {
  readonly path: string;
  readonly folder: string;
  readonly text: string;
}

const withoutComments = (text: string): string =>
  text.replaceAll(/\/\*[\s\S]*?\*\//g, "").replaceAll(/(^|[\s;{}(),])\/\/.*$/gm, "$1");

/** The layer of a file under src: the longest name of a row that it lies in, else its folder. */
function layerOf(path: string): string {
  const rows = [...LAYERS.keys()].filter((name) => path === name || path.startsWith(`${name}/`));
  return rows.sort((a, b) => b.length - a.length)[0] ?? path.split("/")[0] ?? "";
}

const sources: readonly Source[] = readdirSync(src, { recursive: true, encoding: "utf8" })
  .map((path) => path.replaceAll("\\", "/"))
  .filter((path) => path.endsWith(".ts"))
  .sort()
  .map((path) => ({
    path,
    folder: layerOf(path),
    text: withoutComments(readFileSync(`${src}${path}`, "utf8")),
  }));

interface Imported {
  readonly from: Source;
  readonly to: string;
  readonly typeOnly: boolean;
}

const STATIC = /^(?:import|export)\s+(type\s)?(?:[\w*{}\s,$]+\sfrom\s+)?"([^"]+)"/gm;
const LATE = /\bimport\(\s*"([^"]+)"\s*\)/g;

const imports: readonly Imported[] = sources.flatMap((from) => [
  ...[...from.text.matchAll(STATIC)].map(([, type, to = ""]) => ({ from, to, typeOnly: type !== undefined })),
  ...[...from.text.matchAll(LATE)].map(([, to = ""]) => ({ from, to, typeOnly: false })),
]);

/** The folder under src that a relative import reaches; null for a package. */
function folderOf({ from, to }: Imported): string | null {
  if (!to.startsWith(".")) return null;
  return layerOf(new URL(to, `file:///${from.path}`).pathname.slice(1));
}

/** `yaml` of `yaml/util`, `@scope/name` of a scoped one; Node's own keep their name. */
const packageOf = (to: string): string =>
  to
    .split("/")
    .slice(0, to.startsWith("@") ? 2 : 1)
    .join("/");

/** Files with an arrow of their own, each with its reason. */
const ARROWS: readonly { readonly from: RegExp; readonly to: RegExp }[] = [
  // The list of every topic's codes; nothing but `explain` and the documentation asks for it.
  { from: /^findings\/catalogue\.ts$/, to: /\/findings\w*\.ts$/ },
  // Relief is judged after the Day, by the real rule sets.
  { from: /^roads\/relief\//, to: /^\.\.\/\.\.\/hours\// },
];

function refusal(imported: Imported): string | null {
  const { from, to, typeOnly } = imported;
  if (ARROWS.some((arrow) => arrow.from.test(from.path) && arrow.to.test(to))) return null;
  const layer = LAYERS.get(from.folder);
  if (layer === undefined) return `${from.path} is in no layer`;
  const folder = folderOf(imported);
  const allowed =
    folder === null
      ? layer.packages === null || layer.packages.includes(packageOf(to))
      : [from.folder, ...SHARED, ...layer.folders, ...(typeOnly ? layer.types : [])].includes(folder);
  return allowed ? null : `${from.path} imports ${typeOnly ? "types of " : ""}${to}`;
}

describe("the layers", () => {
  it("are the folders of src, each in the table, and the table names no other", () => {
    const found = new Set(sources.map(({ folder }) => folder));
    expect([...found].sort()).toEqual([...LAYERS.keys()].sort());
  });

  it("import only what the map allows", () => {
    expect(imports.flatMap((imported) => refusal(imported) ?? [])).toEqual([]);
  });

  it("share what imports nothing", () => {
    expect(imports.flatMap(({ from, to }) => (SHARED.includes(from.path) ? [to] : []))).toEqual([]);
  });

  it("name files with their suffix", () => {
    const bare = imports.filter(({ to }) => to.startsWith(".") && !to.endsWith(".ts"));
    expect(bare.map(({ from, to }) => `${from.path} imports ${to}`)).toEqual([]);
  });

  it.each(ONE_FILE)("keep %s in one file", (name) => {
    const users = new Set(
      imports.filter(({ to, typeOnly }) => packageOf(to) === name && !typeOnly).map(({ from }) => from.path),
    );
    expect(users.size, [...users].join(", ")).toBeLessThanOrEqual(1);
  });

  it("leave commander to cli", () => {
    const users = imports.filter(({ to }) => to === "commander").map(({ from }) => from.folder);
    expect(users.filter((folder) => folder !== "cli")).toEqual([]);
  });
});

describe("the pure middle", () => {
  it.each(MACHINE.map((pattern) => [pattern.source, pattern] as const))("never uses %s", (_, pattern) => {
    const users = sources.filter(({ folder, text }) => folder !== "cli" && pattern.test(text));
    expect(users.map(({ path }) => path)).toEqual([]);
  });

  it("reaches Node only for hashes", () => {
    const users = imports.filter(
      ({ from, to }) => from.folder !== "cli" && to.startsWith("node:") && to !== "node:crypto",
    );
    expect(users.map(({ from, to }) => `${from.path} imports ${to}`)).toEqual([]);
  });
});

describe("this test", () => {
  it("sees imports of every form", () => {
    const text =
      'import a from "b";\nimport type { C } from "../c.ts";\nexport {\n  d,\n} from "./d.ts";\nimport "e";\nawait import("f");';
    expect([...text.matchAll(STATIC)].map(([, type, to]) => [type?.trim(), to])).toEqual([
      [undefined, "b"],
      ["type", "../c.ts"],
      [undefined, "./d.ts"],
      [undefined, "e"],
    ]);
    expect([...text.matchAll(LATE)].map(([, to]) => to)).toEqual(["f"]);
  });

  it("refuses an arrow that points back", () => {
    const from: Source = { path: "time/zone.ts", folder: "time", text: "" };
    expect(refusal({ from, to: "../plan/plan.ts", typeOnly: true })).toBe(
      "time/zone.ts imports types of ../plan/plan.ts",
    );
    expect(refusal({ from, to: "./civil.ts", typeOnly: false })).toBeNull();
    expect(refusal({ from, to: "zod", typeOnly: false })).toBe("time/zone.ts imports zod");
    expect(
      refusal({ from: { ...from, folder: "kit", path: "kit/a.ts" }, to: "../power/index.ts", typeOnly: true }),
    ).toBeNull();
    expect(
      refusal({ from: { ...from, folder: "power", path: "power/a.ts" }, to: "../kit/index.ts", typeOnly: true }),
    ).not.toBeNull();
  });
});
