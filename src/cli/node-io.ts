/** The real files, streams and environment behind `Io`. */
import * as fs from "node:fs";
import { basename, dirname, join } from "node:path";
import { type Input, type Io, IoError, type Output } from "./io.ts";

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
]);

/** What a closed pipe raises: the reader has gone, which is no failure of ours. */
const CLOSED: ReadonlySet<string> = new Set(["EPIPE", "EOF", "ERR_STREAM_DESTROYED", "ERROR_NO_DATA"]);

const codeOf = (error: unknown): string =>
  typeof error === "object" && error !== null && "code" in error ? String(error.code) : "";

function attempt<T>(path: string, action: () => T): T {
  try {
    return action();
  } catch (error) {
    const code = codeOf(error);
    if (code === "") throw error;
    throw new IoError(path, REASONS.get(code) ?? code);
  }
}

export function nodeIo(): Io {
  return {
    stdout: outputOf(process.stdout),
    stderr: outputOf(process.stderr),
    stdin: inputOf(process.stdin),
    env: process.env,
    cwd: process.cwd(),
    now: () => performance.timeOrigin + performance.now(),
    readFile: (path) => attempt(path, () => fs.readFileSync(path)),
    writeFile: (path, text, { replace }) => attempt(path, () => writeWhole(path, text, replace)),
    realpath(path) {
      try {
        return fs.realpathSync(path);
      } catch {
        return null;
      }
    },
    list: listFolder,
  };
}

function outputOf(stream: NodeJS.WriteStream): Output {
  // Without a listener a write into a closed pipe ends the process with a stack.
  stream.on("error", (error) => {
    if (!CLOSED.has(codeOf(error))) throw error;
  });
  return {
    write: (text) => {
      stream.write(text);
    },
    isTty: stream.isTTY === true,
    columns: stream.isTTY === true ? (stream.columns ?? null) : null,
  };
}

/** Standard input is opened only by a command that reads it. */
function inputOf(stream: NodeJS.ReadStream): Input {
  return {
    isTty: stream.isTTY === true,
    async read() {
      const parts: Uint8Array[] = [];
      for await (const part of stream) parts.push(part);
      return Buffer.concat(parts);
    },
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

/** A rename or a link within the folder is all or nothing; a link keeps pointing at its file, and the mode stays. */
function writeWhole(path: string, text: string, replace: boolean): void {
  const there = fs.existsSync(path);
  const target = there ? fs.realpathSync(path) : path;
  const mode = there ? fs.statSync(target).mode & 0o7777 : 0o666;
  // `wx` refuses a name that another run of ours took; its number keeps two runs apart.
  const beside = join(dirname(target), `.${basename(target)}.${process.pid}`);
  try {
    fs.writeFileSync(beside, text, { flag: "wx", mode });
    if (there) fs.chmodSync(beside, mode);
    if (replace) fs.renameSync(beside, target);
    else placeNew(beside, target);
  } finally {
    fs.rmSync(beside, { force: true });
  }
}

/** Unlike a rename, a link fails where a file is, also one that appeared a moment ago; some file systems know no links. */
function placeNew(beside: string, target: string): void {
  try {
    fs.linkSync(beside, target);
  } catch (error) {
    if (codeOf(error) === "EEXIST") throw error;
    fs.copyFileSync(beside, target, fs.constants.COPYFILE_EXCL);
  }
}
