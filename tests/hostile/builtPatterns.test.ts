/**
 * Patterns that `src` puts together from parts, as they are when the program runs: each `new RegExp` of the source is seen at
 * work, and read over rows of one sign like those that are written out.
 */
import { spawnSync } from "node:child_process";
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join, relative } from "node:path";
import { build } from "esbuild";
import { expect, it } from "vitest";
import { SMALLEST } from "../cli/plans.ts";
import { growing } from "./growing.ts";

/** Where patterns are made from what whoever runs the program types: it is read over names of files, 255 signs at most. */
const TYPED = "src/cli/io/targets.ts";
const BUILT = /new RegExp\(/g;

/** Ice with its thickness, a name that is read from the right, a figure with its unit. */
const PLAN = SMALLEST.replace("crew:", 'crew:\n  tamar: { role: camera, name: "אבג דהו" }').replace(
  /pier: *\{/,
  "pier: { hazards: [ice 12-17 in], ",
);

/** Command lines that between them make every pattern. */
const LINES: readonly (readonly string[])[] = [
  ["sheet", "day.yaml", "--width", "40", "--redact"],
  ["sheet", "day.yaml", "--format", "html", "--redact"],
  ["check", "day.yaml", "--ascii", "--redact", "--set", "crew.wren.phone=1"],
  ["check", "bad.yaml", "--redact"],
  ["check", "*.yaml"],
];

/** Bundles the program so that each pattern that it makes is written to a file, behind the place where it is made. */
async function recording(folder: string): Promise<readonly string[]> {
  const places: string[] = [];
  await build({
    stdin: {
      contents:
        'import "./src/authoring/start.ts"; import { main } from "./src/cli/main.ts"; main(process.argv.slice(2));',
      resolveDir: ".",
    },
    bundle: true,
    platform: "node",
    format: "cjs",
    external: ["highs"],
    outfile: join(folder, "program.cjs"),
    logLevel: "silent",
    plugins: [
      {
        name: "built",
        setup(own) {
          own.onLoad({ filter: /[\\/]src[\\/].*\.ts$/ }, ({ path }) => {
            const file = relative(".", path);
            let count = 0;
            const contents = readFileSync(path, "utf8").replace(BUILT, () => {
              count += 1;
              places.push(`${file} ${count}`);
              return `globalThis.builtPattern("${file} ${count}", `;
            });
            return { contents, loader: "ts" };
          });
        },
      },
    ],
  });
  writeFileSync(
    join(folder, "record.cjs"),
    `globalThis.builtPattern = (place, ...given) => {
      const made = new RegExp(...given);
      require("node:fs").appendFileSync(process.env.PATTERNS, JSON.stringify([place, made.source, made.flags]) + "\\n");
      return made;
    };`,
  );
  return places;
}

it("no pattern that is put together takes more than its share of a longer text", { timeout: 300_000 }, async () => {
  // Beside the packages, so that what stays outside the bundle is found.
  const folder = mkdtempSync(join("node_modules", ".patterns-"));
  try {
    const places = await recording(folder);
    const files = readdirSync("src", { recursive: true, encoding: "utf8" }).filter((file) => file.endsWith(".ts"));
    const inSource = files.flatMap((file) => [...readFileSync(join("src", file), "utf8").matchAll(BUILT)]);
    expect(places.length).toBe(inSource.length);
    writeFileSync(join(folder, "day.yaml"), PLAN);
    writeFileSync(join(folder, "bad.yaml"), `${SMALLEST}crew: { wren: { phone: "1 }\n`);
    const record = join(process.cwd(), folder, "patterns");
    for (const line of LINES)
      spawnSync(process.execPath, ["-r", "./record.cjs", "./program.cjs", ...line], {
        cwd: folder,
        env: { ...process.env, PATTERNS: record },
        input: "",
      });
    const made = new Map<string, RegExp>();
    const seen = new Set<string>();
    for (const line of readFileSync(record, "utf8").trim().split("\n")) {
      const [place, source, flags]: readonly string[] = JSON.parse(line);
      seen.add(place ?? "");
      if (!place?.startsWith(TYPED)) made.set(`${place}: ${source}`, new RegExp(source ?? "", flags));
    }
    expect(places.filter((place) => !seen.has(place))).toEqual([]);
    expect(
      [...made].flatMap(([name, pattern]) => {
        const sign = growing(pattern);
        return sign === null ? [] : [`${name}: ${sign}`];
      }),
    ).toEqual([]);
  } finally {
    rmSync(folder, { recursive: true });
  }
});
