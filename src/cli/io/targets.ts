/** Which files `check` is to read: names as they are, folders and patterns as the plans in them, in a fixed order. */
import { resolve } from "node:path";
import { isLog } from "../../index.ts";
import type { CheckTarget } from "../check/pool.ts";
import type { Invocation } from "../command.ts";
import { usage } from "../exit.ts";
import type { Io } from "./io.ts";
import { readSource } from "./source.ts";

/** Folders deeper than this are not entered: a loop of links would have no end. */
const DEEPEST = 16;

/** Files in the order of the arguments, those of a folder in code point order. Throws a usage failure where a pattern finds nothing. */
export const targetsOf = (io: Io, args: readonly string[]): readonly CheckTarget[] =>
  args.flatMap((argument) => {
    if (argument === "-") return [{ name: argument, found: false }];
    if (io.list(resolve(io.cwd, argument)) !== null) return filesBelow(io, argument, isYaml, DEEPEST);
    if (!/[*?]/u.test(argument) || io.realpath(resolve(io.cwd, argument)) !== null)
      return [{ name: argument, found: false }];
    const matches = matching(io, argument);
    if (matches.length === 0) throw usage(`no file matches \`${argument}\``);
    return matches;
  });

const isYaml = (name: string): boolean => /\.ya?ml$/u.test(name);
const hidden = (name: string): boolean => name.startsWith(".") || name === "node_modules/";

function filesBelow(io: Io, folder: string, wanted: (name: string) => boolean, deep: number): readonly CheckTarget[] {
  const base = folder.endsWith("/") ? folder : `${folder}/`;
  return (io.list(resolve(io.cwd, folder)) ?? []).flatMap((name) => {
    if (hidden(name)) return [];
    const path = base === "./" ? name : `${base}${name}`;
    if (name.endsWith("/")) return deep > 0 ? filesBelow(io, path, wanted, deep - 1) : [];
    return wanted(path) ? [{ name: path, found: true }] : [];
  });
}

/** The arguments with folders and patterns as the days' plans and the logs in them. Throws where there are none. */
export async function plansIn({ io, args }: Pick<Invocation, "io" | "args">): Promise<readonly string[]> {
  const found: string[] = [];
  for (const { name, found: listed } of targetsOf(io, args)) {
    if (!listed) {
      found.push(name);
      continue;
    }
    const source = await readSource(io, name, null);
    // One that cannot be read says so.
    if (!source.ok || isDayPlan(source.text) || (await isLog(source.text))) found.push(name);
  }
  if (found.length === 0) throw usage(`no plan in ${args.join(" ")}`);
  return found;
}

/** `*` and `?` within a name, `**` over folders: for shells that leave patterns alone. */
function matching(io: Io, pattern: string): readonly CheckTarget[] {
  const plain = pattern.slice(0, pattern.search(/[*?]/u));
  const folder = plain.slice(0, plain.lastIndexOf("/") + 1);
  const source = pattern
    .split(/(\*\*\/|\*\*|\*|\?)/u)
    .map((part) => GLOBS.get(part) ?? part.replace(/[.+^${}()|[\]\\]/gu, "\\$&"))
    .join("");
  const expression = new RegExp(`^${source}$`, "u");
  return filesBelow(io, folder === "" ? "./" : folder, (name) => expression.test(name), DEEPEST);
}

const GLOBS: ReadonlyMap<string, string> = new Map([
  ["**/", "(?:.*/)?"],
  ["**", ".*"],
  ["*", "[^/]*"],
  ["?", "[^/]"],
]);

/** Whether a text found in a folder is the plan of a day: what days share has no date, a log no plan. */
export const isDayPlan = (text: string): boolean => /^daywright\s*:/mu.test(text) && /^date\s*:/mu.test(text);
