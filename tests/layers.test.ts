/**
 * Holds the direction of imports and the prohibitions of the pure middle, by reading the sources: which folder may import
 * which folder and which package, and what no engine may touch (clock, environment, files, terminal, locale, chance).
 */
import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";

const src = fileURLToPath(new URL("../src/", import.meta.url));

/** A sentence of the layer map: what a folder may import beside itself. `types` are for `import type` alone. */
interface Layer {
  readonly folders: readonly string[];
  readonly types?: readonly string[];
  readonly packages?: readonly string[];
}

/** The rule sets lie below the plan, whose keys take their names, claims and weeks from them. */
const RULES = "hours/rules";

const BELOW_TOPICS = ["time", "findings", RULES, "plan", "legs", "day"];
/** In the order in which topics are judged; each may take the results of those before it, and build on their geometry. */
const TOPICS = ["sky", "hours", "signal", "power", "kit", "cautions", "roads"];
const topic = (name: string, packages: readonly string[] = []): [string, Layer] => [
  name,
  { folders: [...BELOW_TOPICS, ...TOPICS.slice(0, TOPICS.indexOf(name))], packages },
];

const LAYERS = new Map<string, Layer>([
  ["time", { folders: [], packages: ["luxon"] }],
  ["findings", { folders: ["time"], types: ["plan", "day"] }],
  [RULES, { folders: ["time"] }],
  ["plan", { folders: ["time", "findings", RULES], packages: ["yaml", "zod"] }],
  ["legs", { folders: ["time", "findings", "plan", RULES], packages: ["geographiclib-geodesic"] }],
  ["day", { folders: ["time", "findings", "plan", "legs", RULES] }],
  topic("sky", ["astronomy-engine"]),
  topic("hours"),
  topic("signal", ["geographiclib-geodesic"]),
  topic("power", ["highs"]),
  topic("kit"),
  topic("cautions"),
  topic("roads"),
  ["authoring", { folders: BELOW_TOPICS }],
  ["reports", { folders: [...BELOW_TOPICS, ...TOPICS] }],
  ["library", { folders: [...BELOW_TOPICS, ...TOPICS, "authoring", "reports"] }],
  [
    "render",
    {
      folders: ["time", "findings"],
      types: ["reports", "plan"],
      packages: ["chalk", "cli-table3", "fast-string-width", "fast-wrap-ansi", "ical-generator", "qr", "node:crypto"],
    },
  ],
]);

/** Packages that live in one file, so that what they cost and how they fail is in one place. */
const ONE_FILE = ["luxon", "highs", "astronomy-engine", "ical-generator", "qr", "cli-table3", "chalk"];

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

/** The folder of a file under src; the rule sets are a layer of their own. */
const layerOf = (path: string): string => (path.startsWith(`${RULES}/`) ? RULES : (path.split("/")[0] ?? ""));

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
  { from: /^findings\/catalogue\.ts$/, to: /\/findings\.ts$/ },
  // Relief is judged after the Day, by the real rule sets.
  { from: /^roads\/relief\//, to: /^\.\.\/\.\.\/hours\// },
];

function refusal(imported: Imported): string | null {
  const { from, to, typeOnly } = imported;
  if (ARROWS.some((arrow) => arrow.from.test(from.path) && arrow.to.test(to))) return null;
  const layer = LAYERS.get(from.folder);
  if (layer === undefined) return null;
  const folder = folderOf(imported);
  const allowed =
    folder === null
      ? (layer.packages ?? []).includes(packageOf(to))
      : [from.folder, ...SHARED, ...layer.folders, ...(typeOnly ? (layer.types ?? []) : [])].includes(folder);
  return allowed ? null : `${from.path} imports ${typeOnly ? "types of " : ""}${to}`;
}

describe("the layers", () => {
  it("are the folders of src", () => {
    const folders = [...new Set(sources.filter(({ path }) => path.includes("/")).map(({ folder }) => folder))];
    expect(folders.filter((folder) => folder !== "cli" && !LAYERS.has(folder))).toEqual([]);
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
