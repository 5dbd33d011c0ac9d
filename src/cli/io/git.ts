/** What Git has stored: files as they were at a revision, and its index; loaded only where one of them is asked for. */
import { execFileSync } from "node:child_process";
import { basename, dirname, resolve } from "node:path";
import { type GitIndex, IoError, systemCodeOf } from "./io.ts";
import { nameFrom } from "./paths.ts";

/** No plan is as large; what is longer is refused by its reader anyway. */
const MOST_BYTES = 8 << 20;

/**
 * Reads files as they were at `revision`, beside `plan` and below. Throws an IoError with Git's own reason. Git is started
 * without a shell, and reads the stored bytes: no filter or viewer that the repository names is run.
 */
export function filesAt(revision: string, plan: string): (path: string) => Uint8Array {
  const cwd = dirname(plan);
  return (path) => {
    const name = `./${nameFrom(cwd, path)}`;
    try {
      return execFileSync("git", ["cat-file", "blob", `${revision}:${name}`], {
        cwd,
        maxBuffer: MOST_BYTES,
        stdio: ["ignore", "pipe", "pipe"],
        env: { ...process.env, LC_ALL: "C" },
      });
    } catch (error) {
      throw new IoError(path, reasonOf(error, basename(path)));
    }
  };
}

/** More than all plans of a repository together have, bytes. */
const MOST_INDEX_BYTES = 512 << 20;

/** Reads the index of the repository that `cwd` lies in; a hook's own index (`GIT_INDEX_FILE`) is the one read. Throws an IoError. */
export function gitIndex(cwd: string): GitIndex {
  const git = (words: readonly string[], input?: string): Buffer => {
    try {
      return execFileSync("git", words, {
        cwd,
        maxBuffer: MOST_INDEX_BYTES,
        stdio: [input === undefined ? "ignore" : "pipe", "pipe", "pipe"],
        env: { ...process.env, LC_ALL: "C" },
        ...(input === undefined ? {} : { input }),
      });
    } catch (error) {
      throw new IoError("the Git index", reasonOf(error, "the index"));
    }
  };
  const root = git(["rev-parse", "--show-toplevel"]).toString().replace(/\n$/u, "");
  const names = (words: readonly string[]): readonly string[] => git(words).toString().split("\0").slice(0, -1);
  const staged = names(["diff", "--cached", "--name-only", "--no-renames", "--no-ext-diff", "-z"]);
  const entries = names(["ls-files", "--full-name", "--stage", "-z", "--", ":/"]).flatMap((line) => {
    const [, mode = "", object = "", stage = "", name = ""] = /^(\d+) ([0-9a-f]+) (\d)\t([\s\S]+)$/u.exec(line) ?? [];
    return stage === "0" ? [[resolve(root, name), { object, regular: mode.startsWith("100") }] as const] : [];
  });
  return {
    changed: new Set(staged.map((name) => resolve(root, name))),
    entries: new Map(entries),
    contents: (objects) =>
      objects.length === 0 ? [] : batch(git(["cat-file", "--batch"], `${objects.join("\n")}\n`), objects),
  };
}

/** Cuts Git's answer, `object type size`, the bytes and a line end for each, into the bytes. */
function batch(answer: Buffer, objects: readonly string[]): readonly Uint8Array[] {
  let at = 0;
  return objects.map((object) => {
    const end = answer.indexOf("\n", at);
    const size = /^[0-9a-f]+ blob (\d+)$/u.exec(answer.toString("latin1", at, Math.max(at, end)))?.[1];
    if (size === undefined) throw new IoError("the Git index", `${object} cannot be read`);
    const bytes = answer.subarray(end + 1, end + 1 + Number(size));
    at = end + 2 + Number(size);
    return bytes;
  });
}

/** Git's first line of complaint, or why it could not be started. */
function reasonOf(error: unknown, name: string): string {
  if (systemCodeOf(error) === "ENOENT") return "Git is not installed";
  if (systemCodeOf(error) === "ENOBUFS") return `${name} is too large there`;
  const said = typeof error === "object" && error !== null && "stderr" in error ? String(error.stderr) : "";
  const [first = ""] = said.split("\n");
  return first.replace(/^fatal: /u, "") || "Git could not read it";
}
