/** Files that a mistyped name may stand for: near names in its folder, or the same name in a near folder. */
import { basename, dirname, join, resolve } from "node:path";
import { editDistance } from "../../index.ts";
import type { Io } from "./io.ts";
import { slashed } from "./paths.ts";

const MOST = 3;

/** At most three, the nearest first, written as `path` is. */
export function nearFiles(io: Pick<Io, "list" | "realpath" | "cwd">, path: string): readonly string[] {
  const [folder, name] = [dirname(path), basename(path)];
  // A file of that very name is there and cannot be read: it is no slip of the pen.
  const names = io.list(resolve(io.cwd, folder))?.filter((one) => !one.endsWith("/") && one !== name);
  if (names !== undefined) return nearest(name, names).map((one) => slashed(join(folder, one)));
  const above = dirname(folder);
  const folders = (io.list(resolve(io.cwd, above)) ?? []).filter((one) => one.endsWith("/"));
  return nearest(`${basename(folder)}/`, folders)
    .map((one) => slashed(join(above, one, name)))
    .filter((one) => io.realpath(resolve(io.cwd, one)) !== null);
}

/** Two slips in a name of a day, which has ten letters that its neighbours share. */
function nearest(name: string, names: readonly string[]): readonly string[] {
  const least = Math.max(1, Math.floor(name.length / 5));
  const near = names.map((one) => ({
    one,
    by: one.startsWith(`${name}.`) ? 0 : editDistance(name.toLowerCase(), one.toLowerCase()),
  }));
  return near
    .filter(({ by }) => by <= least)
    .sort((a, b) => a.by - b.by)
    .slice(0, MOST)
    .map(({ one }) => one);
}
