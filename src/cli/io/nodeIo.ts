/** The real files, streams and environment behind `Io`. */

import * as fs from "node:fs";
import { usage } from "../exit.ts";
import { type Io, IoError, systemCodeOf } from "./io.ts";
import { readFile } from "./readFile.ts";
import { outputOf, standardInput } from "./streams.ts";
import { writeFile } from "./writeFile.ts";

/** Plain words for the failures that people meet; the system's code for the rest. */
const REASONS: ReadonlyMap<string, string> = new Map([
  ["ENOENT", "no such file"],
  ["EISDIR", "this is a folder"],
  ["ENOTDIR", "part of the path is not a folder"],
  ["EACCES", "permission denied"],
  ["EPERM", "permission denied"],
  ["EEXIST", "there is already a file"],
  ["ENOSPC", "no space left"],
  ["EROFS", "this file system is read-only"],
  ["ENAMETOOLONG", "the name is too long"],
  ["ELOOP", "links that lead in a circle"],
  ["ENXIO", "it is not a regular file"],
]);

function attempt<T>(path: string, action: () => T): T {
  try {
    return action();
  } catch (error) {
    const code = systemCodeOf(error);
    if (code === "") throw error;
    throw new IoError(path, REASONS.get(code) ?? code);
  }
}

/** The machine that Node gives. */
export function nodeIo(): Io {
  const inputs = new Set<string>();
  return {
    inputs,
    stdout: outputOf(1),
    stderr: outputOf(2),
    stdin: standardInput,
    env: process.env,
    cwd: process.cwd(),
    now: () => performance.timeOrigin + performance.now(),
    readFile(path) {
      inputs.add(path);
      return attempt(path, () => readFile(path));
    },
    size(path) {
      try {
        return fs.statSync(path).size;
      } catch {
        return 0;
      }
    },
    writeFile: (path, text, { replace, over }) =>
      attempt(path, () => writeFile(path, text, over ?? (replace ? "anything" : "nothing"))),
    async ask(question, preset) {
      const { default: input } = await import("@inquirer/input");
      try {
        return await input({ message: question, default: preset }, { output: process.stderr });
      } catch (error) {
        // Ctrl-C, or an input that ends.
        if (error instanceof Error && error.name === "ExitPromptError") throw usage("the questions were broken off");
        throw error;
      }
    },
    realpath(path) {
      try {
        return fs.realpathSync(path);
      } catch {
        return null;
      }
    },
    identity(path) {
      try {
        const { dev, ino } = fs.statSync(path, { bigint: true });
        return `${dev} ${ino}`;
      } catch {
        return null;
      }
    },
    filesAt: async (revision, plan) => (await import("./git.ts")).filesAt(revision, plan),
    gitIndex: async (folder) => (await import("./git.ts")).gitIndex(folder),
    changed: async (seen, within) => (await import("./watchFiles.ts")).changed(seen, within),
    workers: async () => (await import("../check/workerPool.ts")).workerPool(process.argv[1]),
    // Only the property of the global: Node loads what is behind it at the first look.
    fetch: (url, options) => fetch(url, options),
    list: listFolder,
  };
}

function listFolder(path: string): readonly string[] | null {
  try {
    const names = fs.readdirSync(path, { withFileTypes: true }).map((entry) => {
      const folder = entry.isDirectory();
      return folder ? `${entry.name}/` : entry.name;
    });
    return names.sort((a, b) => (a < b ? -1 : 1));
  } catch {
    return null;
  }
}
