/** Writes dist/NOTICES.txt: the licence of every package that the built program contains, as their authors ask. */
import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";

/** The folders of the packages that the program and the library contain, as the bundler found them. */
async function bundledFolders(root) {
  const { build } = await import("esbuild");
  const { metafile } = await build({
    absWorkingDir: root,
    entryPoints: [join("src", "cli", "main.ts"), join("src", "index.ts")],
    bundle: true,
    splitting: true,
    write: false,
    metafile: true,
    format: "esm",
    platform: "node",
    outdir: "dist",
    logLevel: "error",
  });
  const folders = Object.keys(metafile.inputs).flatMap(
    (path) => /^.*node_modules\/(?:@[^/]+\/)?[^/]+/.exec(path)?.[0] ?? [],
  );
  return [...new Set(folders)];
}

/** The text of a package's licence; where it ships none, what its package.json names. */
function licenceOf(folder) {
  const { name, version, license, author } = JSON.parse(readFileSync(join(folder, "package.json"), "utf8"));
  const file = readdirSync(folder).find((one) => /^licen[cs]e(?:-mit)?(?:\.(?:md|txt))?$/i.test(one));
  const by = typeof author === "string" ? author : (author?.name ?? "");
  const text =
    file === undefined ? `${license}${by === "" ? "" : `, ${by}`}` : readFileSync(join(folder, file), "utf8");
  return { title: `${name} ${version}`, text: text.trim() };
}

/** All licences, in the order of the names. */
export async function writeNotices(root, dist) {
  const folders = await bundledFolders(root);
  const licences = folders.map((folder) => licenceOf(join(root, folder)));
  const sorted = licences
    .sort((a, b) => (a.title < b.title ? -1 : 1))
    .map(({ title, text }) => `${title}\n\n${text}\n`);
  const head = "Daywright contains these packages, under their licences.\n";
  writeFileSync(join(dist, "NOTICES.txt"), [head, ...sorted].join(`\n${"-".repeat(78)}\n\n`));
}
