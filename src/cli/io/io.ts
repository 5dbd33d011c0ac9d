/** Everything the program may touch outside itself, as one object; tests pass one of their own. */

import type { WorkerPool } from "../check/pool.ts";
import type { Fetch } from "./request.ts";

/** A stream to write to; `columns` null where it is no terminal. */
export interface Output {
  write(text: string): void;
  readonly isTty: boolean;
  /** Columns of the terminal; null where it is none. */
  readonly columns: number | null;
}

/** A stream to read from. */
export interface Input {
  readonly isTty: boolean;
  /** Everything until the end. */
  read(): Promise<Uint8Array>;
}

/** Thrown by reads and writes; `reason` is a few plain words. */
export class IoError extends Error {
  readonly path: string;
  readonly reason: string;

  constructor(path: string, reason: string) {
    super(`${path}: ${reason}`);
    this.path = path;
    this.reason = reason;
  }
}

/** The code of a failure of the system: `ENOENT`; empty for any other failure. */
export const systemCodeOf = (error: unknown): string =>
  typeof error === "object" && error !== null && "code" in error ? String(error.code) : "";

/** The bytes of each file that a run read; null where it could not be. */
export type Seen = ReadonlyMap<string, Uint8Array | null>;

/** Git's index as files. */
export interface GitIndex {
  /** Files that the commit adds, changes or removes, by absolute path; a renamed one under both names. */
  readonly changed: ReadonlySet<string>;
  /** Every file of the index, by absolute path: its stored object, and whether it is a regular file. */
  readonly entries: ReadonlyMap<string, { readonly object: string; readonly regular: boolean }>;
  /** The stored bytes of many objects at once, in their order. Throws an IoError. */
  contents(objects: readonly string[]): readonly Uint8Array[];
}

/** The machine as commands see it: streams, files, clock, environment. */
export interface Io {
  readonly stdout: Output;
  readonly stderr: Output;
  readonly stdin: Input;
  readonly env: Readonly<Record<string, string | undefined>>;
  readonly cwd: string;
  /** Milliseconds since 1970; only for waits and progress, never for an answer. */
  now(): number;
  /** The bytes of a regular file, cut after more than any plan has. Throws an IoError. */
  readFile(path: string): Uint8Array;
  /** The bytes that a file has, without reading it; 0 where it cannot be had. */
  size(path: string): number;
  /** Every file that this run has read or looked for, by absolute path: none of them is ever an output. */
  readonly inputs: Set<string>;
  /**
   * Writes all of `text` or nothing: beside the file first, then in its place, its mode and links kept. `over` are the bytes
   * that must stand there still. Throws an IoError.
   */
  writeFile(path: string, text: string, options: { readonly replace: boolean; readonly over?: Uint8Array }): void;
  /** Asks a question at the terminal; the answer, `preset` where only return is pressed. Never called without a terminal. */
  ask(question: string, preset: string): Promise<string>;
  /** The path without links; null where nothing is there. */
  realpath(path: string): string | null;
  /** The same text for two paths that lead to one file, over links of either kind; null where nothing is there. */
  identity(path: string): string | null;
  /** A reader of files as they were at a Git revision, beside `plan` and below; it throws an IoError. */
  filesAt(revision: string, plan: string): Promise<(path: string) => Uint8Array>;
  /** What Git is about to commit in the repository that a folder lies in. Rejects with an IoError. */
  gitIndex(folder: string): Promise<GitIndex>;
  /** Waits until a file holds other bytes than these and has settled; false where none ever will. */
  changed(seen: Seen, within: number | null): Promise<boolean>;
  /** Threads to check many plans on; null where there are none. */
  workers(): Promise<WorkerPool | null>;
  /** Asks a server; only one that the plan names. */
  readonly fetch: Fetch;
  /** Names in a folder, in code point order, `/` behind those of folders; null for what is no folder. */
  list(path: string): readonly string[] | null;
}
