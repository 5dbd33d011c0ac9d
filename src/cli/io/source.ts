/** The text of a plan: from a file or standard input, UTF-8, with the files that it names beside it. */
import { isUtf8 } from "node:buffer";
import { dirname, resolve } from "node:path";
import type { FileReading, PlanFiles } from "../../index.ts";
import { usage } from "../exit.ts";
import { type Io, IoError } from "./io.ts";
import { nearFiles } from "./nearFiles.ts";
import { isBelow, slashed } from "./paths.ts";
import { MOST_BYTES } from "./readFile.ts";

/** A plan's name in the answer, its text and the bytes it was read from; or why it could not be read. */
export type ReadSource =
  | { readonly ok: true; readonly file: string | null; readonly text: string; readonly bytes: Uint8Array }
  /** `near`: files that the name may stand for. */
  | { readonly ok: false; readonly file: string | null; readonly reason: string; readonly near: readonly string[] };

/** Reads `argument`, `-` being standard input; `name` is what that is called. Throws a usage failure at a terminal. */
export async function readSource(io: Io, argument: string, name: string | null): Promise<ReadSource> {
  if (argument !== "-") return readNamed(io, argument);
  if (io.stdin.isTty)
    throw usage("`-` reads a plan from standard input, which is a terminal here", "name a file, or use a pipe");
  const file = name === null ? null : slashed(name);
  return decoded(file, await io.stdin.read());
}

function readNamed(io: Io, path: string): ReadSource {
  const file = slashed(path);
  try {
    return decoded(file, io.readFile(resolve(io.cwd, path)));
  } catch (error) {
    if (error instanceof IoError) return { ok: false, file, reason: error.reason, near: nearFiles(io, path) };
    throw error;
  }
}

function decoded(file: string | null, bytes: Uint8Array): ReadSource {
  if (bytes.length > MOST_BYTES)
    return { ok: false, file, reason: "it is larger than 4 MiB, which no plan is", near: [] };
  if (!isUtf8(bytes)) return { ok: false, file, reason: notUtf8(bytes), near: [] };
  const text = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength).toString("utf8");
  return { ok: true, file, text, bytes };
}

/** Why bytes are no text of ours; the two marks are those with which UTF-16 begins. */
function notUtf8([first, second]: Uint8Array): string {
  const utf16 = (first === 0xff && second === 0xfe) || (first === 0xfe && second === 0xff);
  return `it is ${utf16 ? "UTF-16" : "not UTF-8"} text; save it as UTF-8`;
}

/** The files that a plan names, never outside its folder, links followed. */
export const planFiles = (io: Io): PlanFiles => ({
  read(path, within): FileReading {
    const wanted = resolve(io.cwd, path);
    io.inputs.add(wanted);
    const real = io.realpath(wanted);
    const folder = io.realpath(resolve(io.cwd, within));
    if (real === null || folder === null) return { kind: "missing", near: nearBelow(io, path, folder) };
    if (!isBelow(folder, real)) return { kind: "outside" };
    const source = readNamed(io, real);
    return source.ok ? { kind: "text", text: source.text } : { kind: "unreadable", reason: source.reason };
  },
});

/** Near names, but none of a folder that the plan may not look into. */
function nearBelow(io: Io, path: string, folder: string | null): readonly string[] {
  const beside = io.realpath(dirname(resolve(io.cwd, path)));
  return folder !== null && beside !== null && isBelow(folder, beside) ? nearFiles(io, path) : [];
}
