/**
 * The process's own streams, each set up only when it is needed and only as far: what Node does for a stream costs a
 * tenth of a start, and a file or a pipe is written as well without it.
 */
import * as fs from "node:fs";
import { codeOf } from "./errorCode.ts";
import type { Input, Output } from "./io.ts";

/** What a closed pipe raises: the reader has gone, which is no failure of ours. */
const CLOSED: ReadonlySet<string> = new Set(["EPIPE", "EOF", "ERR_STREAM_DESTROYED", "ERROR_NO_DATA"]);

/** Whether a descriptor is surely no terminal: a file, a pipe, or what discards everything. */
function isPlain(descriptor: number): boolean {
  if (process.platform === "win32") return false;
  try {
    const stats = fs.fstatSync(descriptor);
    return stats.isFile() || stats.isFIFO() || stats.isSocket() || stats.rdev === fs.statSync("/dev/null").rdev;
  } catch {
    return false;
  }
}

const once = <T>(make: () => T): (() => T) => {
  let made: { readonly value: T } | null = null;
  return () => {
    made ??= { value: make() };
    return made.value;
  };
};

/** Writes at once what the descriptor takes; gives the rest where it is full for now. A closed one takes everything. */
function writeNow(descriptor: number, text: string): Uint8Array {
  let rest: Uint8Array = Buffer.from(text);
  try {
    while (rest.length > 0) rest = rest.subarray(fs.writeSync(descriptor, rest));
  } catch (error) {
    const code = codeOf(error);
    if (CLOSED.has(code)) return new Uint8Array();
    if (code !== "EAGAIN") throw error;
  }
  return rest;
}

/** Standard output (1) or error (2). */
export function outputOf(descriptor: 1 | 2): Output {
  const plain = once(() => isPlain(descriptor));
  const stream = once(() => {
    const made = descriptor === 1 ? process.stdout : process.stderr;
    // Without a listener a write into a closed pipe ends the process with a stack.
    return made.on("error", (error) => {
      if (!CLOSED.has(codeOf(error))) throw error;
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
    for await (const part of process.stdin) parts.push(part);
    return Buffer.concat(parts);
  },
};
