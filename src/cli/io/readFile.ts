/** Reads regular files only, and of each no more than any plan has: a device or an endless pipe ends nothing. */
import * as fs from "node:fs";
import { IoError } from "./io.ts";

/** More than any plan has, bytes; what is larger is refused by whoever reads it. */
export const MOST_BYTES = 4 << 20;

/** What the shell opened for the program (`<(…)`): no file, but somebody writes into it. */
const HANDED_OVER = /^\/(?:dev\/stdin|(?:dev|proc\/self)\/fd\/\d+)$/u;

/**
 * The bytes of a file, at most one more than `MOST_BYTES`. Throws an IoError for what is no regular file, and Node's own
 * error where the file system refuses. Opened without waiting, since a pipe that no one writes to would wait for ever.
 */
export function readFile(path: string): Buffer {
  const handedOver = HANDED_OVER.test(path);
  const file = fs.openSync(path, handedOver ? "r" : fs.constants.O_RDONLY | (fs.constants.O_NONBLOCK ?? 0));
  try {
    const stats = fs.fstatSync(file);
    if (stats.isDirectory()) throw new IoError(path, "this is a folder");
    if (!stats.isFile() && !(handedOver && (stats.isFIFO() || stats.isSocket())))
      throw new IoError(path, "it is not a regular file");
    return readUpTo(file, stats.isFile() ? Math.min(stats.size, MOST_BYTES) + 1 : MOST_BYTES + 1);
  } finally {
    fs.closeSync(file);
  }
}

/** Reads until the end or until there are `most` bytes; a file may be longer by now than it said. */
function readUpTo(file: number, most: number): Buffer {
  const parts: Buffer[] = [];
  for (let size = 0; size < most; ) {
    const part = Buffer.allocUnsafe(Math.min(most - size, 1 << 16));
    const count = fs.readSync(file, part, 0, part.length, null);
    if (count === 0) break;
    parts.push(part.subarray(0, count));
    size += count;
  }
  return parts.length === 1 && parts[0] !== undefined ? parts[0] : Buffer.concat(parts);
}
