/** `check --staged`: the plans that a commit touches, with all that they use and follow, as the index has them. */
import { basename, resolve } from "node:path";
import { EXIT, Failure } from "../exit.ts";
import { type GitIndex, type Io, IoError } from "../io/io.ts";
import { isBelow, nameFrom } from "../io/paths.ts";
import { isDayPlan } from "../io/targets.ts";
import type { CheckTarget } from "./pool.ts";

const YAML = /\.ya?ml$/u;

/** The plans to check and the outside as the index has it. */
export interface Staged {
  readonly targets: readonly CheckTarget[];
  readonly io: Io;
}

/** The plans of days that the commit touches; only those at or below `names` where some are given. Throws a failure without Git. */
export async function stagedPlans(io: Io, names: readonly string[]): Promise<Staged> {
  const cwd = io.realpath(io.cwd) ?? io.cwd;
  const index = await indexOf(io, cwd);
  const plans = [...index.entries].filter(([path, { regular }]) => regular && YAML.test(path));
  const contents = index.contents(plans.map(([, { object }]) => object));
  const texts = new Map(plans.map(([path], at) => [path, Buffer.from(contents[at] ?? []).toString("utf8")]));
  const wanted = names.map((name) => resolve(cwd, name));
  const touched = touchedBy(index.changed, texts);
  const targets = [...texts]
    .filter(([path, text]) => touched.has(path) && isDayPlan(text))
    .filter(([path]) => wanted.length === 0 || wanted.some((one) => isBelow(one, path)))
    .map(([path]) => ({ name: nameFrom(cwd, path), found: true }));
  return { targets: targets.sort((a, b) => (a.name < b.name ? -1 : 1)), io: ioOf({ ...io, cwd }, index) };
}

async function indexOf(io: Io, cwd: string): Promise<GitIndex> {
  try {
    return await io.gitIndex(cwd);
  } catch (error) {
    if (!(error instanceof IoError)) throw error;
    throw new Failure(EXIT.input, `--staged: ${error.reason}`, "run it inside a Git repository");
  }
}

/**
 * The files changed, and every plan that names one of them, or one that does: what it uses or follows is another file then.
 * A name is looked for anywhere in the text, so that a plan may be checked once too often but never too little.
 */
function touchedBy(changed: ReadonlySet<string>, texts: ReadonlyMap<string, string>): ReadonlySet<string> {
  const touched = new Set(changed);
  for (let names = [...changed]; names.length > 0; ) {
    const looked = names.map((path) => basename(path));
    names = [...texts].flatMap(([path, text]) =>
      !touched.has(path) && looked.some((name) => text.includes(name)) ? [path] : [],
    );
    for (const path of names) touched.add(path);
  }
  return touched;
}

/** Files as the index has them; nothing is written. */
function ioOf(io: Io, { entries, contents }: GitIndex): Io {
  const folders = new Set<string>();
  for (const path of entries.keys())
    for (let at = path.lastIndexOf("/"); at > 0; at = path.lastIndexOf("/", at - 1)) folders.add(path.slice(0, at));
  return {
    ...io,
    readFile(path) {
      const entry = entries.get(path);
      if (entry === undefined) throw new IoError(path, "no such file in what is to be committed");
      if (!entry.regular) throw new IoError(path, "it is not a regular file");
      return contents([entry.object])[0] ?? new Uint8Array();
    },
    writeFile: () => undefined,
    realpath: (path) => (entries.has(path) || folders.has(path) ? path : null),
    list: () => null,
  };
}
