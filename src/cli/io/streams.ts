/**
 * The process's own streams, each set up only when it is needed and only as far: what Node does for a stream costs a
 * tenth of a start, and a file or a pipe is written as well without it.
 */
import * as fs from "node:fs";
import { once } from "../../lists.ts";
import { EXIT } from "../exit.ts";
import { type Input, IoError, type Output, systemCodeOf } from "./io.ts";
import { MOST_BYTES } from "./readFile.ts";

/** What a closed pipe raises: the reader has gone, which is no failure of ours. */
const CLOSED: ReadonlySet<string> = new Set(["EPIPE", "EOF", "ERR_STREAM_DESTROYED", "ERROR_NO_DATA"]);

const STREAMS = { 0: () => process.stdin, 1: () => process.stdout, 2: () => process.stderr } as const;

/** Whether a descriptor is no terminal. A stream is asked only where it is neither file nor pipe: making one takes time. */
function isPlain(descriptor: 0 | 1 | 2): boolean {
  if (process.platform === "win32") return false;
  try {
    const stats = fs.fstatSync(descriptor);
    return stats.isFile() || stats.isFIFO() || stats.isSocket() || STREAMS[descriptor]().isTTY !== true;
  } catch {
    return false;
  }
}

const NAMES = { 1: "standard output", 2: "standard error" } as const;

/** Why a stream takes nothing more, in plain words. */
const REFUSED: ReadonlyMap<string, string> = new Map([
  ["ENOSPC", "no space left"],
  ["EIO", "the device failed"],
  ["EFBIG", "the file would become too large"],
  ["EDQUOT", "no space left for this user"],
  ["EBADF", "it is closed"],
]);

/** Writes at once what the descriptor takes; gives the rest where it is full for now. A closed one takes everything. */
function writeNow(descriptor: 1 | 2, text: string): Uint8Array {
  let rest: Uint8Array = Buffer.from(text);
  try {
    while (rest.length > 0) rest = rest.subarray(fs.writeSync(descriptor, rest));
  } catch (error) {
    const code = systemCodeOf(error);
    if (CLOSED.has(code)) return new Uint8Array();
    if (code !== "EAGAIN") throw new IoError(NAMES[descriptor], REFUSED.get(code) ?? code);
  }
  return rest;
}

/** A last line on standard error; one that is full or closed takes nothing. */
function writeError(text: string): void {
  try {
    fs.writeSync(2, text);
  } catch {
    // There is nowhere left to say it.
  }
}

/** Standard output (1) or error (2). A write throws an IoError where the stream refuses it. */
export function outputOf(descriptor: 1 | 2): Output {
  const plain = once(() => isPlain(descriptor));
  const stream = once(() => {
    const made = STREAMS[descriptor]();
    // Without a listener a write into a closed pipe ends the process with a stack.
    return made.on("error", (error) => {
      const code = systemCodeOf(error);
      if (CLOSED.has(code)) return;
      process.exitCode = EXIT.input;
      if (descriptor === 1) writeError(`error: cannot write standard output: ${REFUSED.get(code) ?? code}\n`);
    });
  });
  // A full pipe is left to the stream, which waits; what follows must then not overtake it.
  let waiting = false;
  return {
    write(text) {
      const rest = plain() && !waiting ? writeNow(descriptor, text) : Buffer.from(text);
      if (rest.length === 0) return;
      waiting = true;
      stream().write(rest);
    },
    get isTty() {
      return !plain() && stream().isTTY === true;
    },
    get columns() {
      return !plain() && stream().isTTY === true ? (stream().columns ?? null) : null;
    },
  };
}

/** Standard input, loaded only by a command that reads it. */
export const standardInput: Input = {
  get isTty() {
    return !isPlain(0) && process.stdin.isTTY === true;
  },
  async read() {
    const parts: Uint8Array[] = [];
    let size = 0;
    for await (const part of process.stdin) {
      parts.push(part);
      size += part.length;
      // Whoever reads it refuses what is longer.
      if (size > MOST_BYTES) break;
    }
    return Buffer.concat(parts);
  },
};
