/** Names of files by the rules of a system: those of the one that this runs on, unless others are given. */
import * as own from "node:path";

/** `node:path` of this system, `node:path/posix` or `node:path/win32`. */
export type PathRules = Pick<typeof own.posix, "relative" | "resolve" | "sep" | "dirname" | "join" | "basename">;

/** A name as it is printed and kept: with `/` on every system. A backslash is a letter where it separates nothing. */
export const slashed = (name: string, { sep }: PathRules = own): string =>
  sep === "\\" ? name.replaceAll("\\", "/") : name;

/** How a file is named from a folder, with `/`; with its drive where it is on another one. */
export const nameFrom = (folder: string, file: string, rules: PathRules = own): string =>
  slashed(rules.relative(folder, file), rules);

/** Whether an absolute path lies in a folder, or is it. */
export function isBelow(folder: string, path: string, rules: PathRules = own): boolean {
  const below = rules.relative(folder, path);
  // A relative path that is absolute is on another drive.
  return below !== ".." && !below.startsWith(`..${rules.sep}`) && rules.resolve(below) !== below;
}
