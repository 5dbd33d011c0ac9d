/** An `Io` in memory: files as a map, streams as text, so that a test needs no process. */
import { resolve } from "node:path";
import type { WorkerPool } from "../../src/cli/check/pool.ts";
import { type Io, IoError } from "../../src/cli/io/io.ts";
import { runCommandLine } from "../../src/cli/run.ts";

export interface FakeOptions {
  readonly files?: Readonly<Record<string, string>>;
  /** Text, or the bytes of a file that is none. */
  readonly stdin?: string | Uint8Array;
  readonly env?: Readonly<Record<string, string>>;
  /** Columns of standard output as a terminal; left out, it is none. */
  readonly columns?: number;
  readonly stdinIsTty?: boolean;
  /** What is answered to questions, in order; null where only return is pressed. */
  readonly answers?: readonly (string | null)[];
  /** What is saved while `--watch` waits, one save after another. */
  readonly saves?: readonly Readonly<Record<string, string>>[];
  /** Threads for `check`; none where left out. */
  readonly workers?: WorkerPool;
  /** What a server answers; none where left out. */
  readonly fetch?: Io["fetch"];
  /** Milliseconds since 1970; 0 where left out. */
  readonly now?: number;
  /** A file that cannot be written. */
  readonly unwritable?: string;
}

export interface Ran {
  readonly code: number;
  readonly out: string;
  readonly err: string;
  /** All files afterwards, by absolute path. */
  readonly files: ReadonlyMap<string, string>;
}

const CWD = "/plans";

/** Runs one command line over files in `/plans`. */
export async function ran(argv: readonly string[], options: FakeOptions = {}): Promise<Ran> {
  const files = new Map(Object.entries(options.files ?? {}).map(([name, text]) => [resolve(CWD, name), text]));
  const written = { out: "", err: "" };
  const code = await runCommandLine(argv, fakeIo(files, written, options));
  return { code, ...written, files };
}

const bytesOf = (content: string | Uint8Array): Uint8Array =>
  typeof content === "string" ? new TextEncoder().encode(content) : content;

function fakeIo(files: Map<string, string>, written: { out: string; err: string }, options: FakeOptions): Io {
  const isTty = options.columns !== undefined;
  const inputs = new Set<string>();
  const saves = [...(options.saves ?? [])];
  const answers = [...(options.answers ?? [])];
  return {
    stdout: {
      write: (text) => {
        written.out += text;
      },
      isTty,
      columns: options.columns ?? null,
    },
    stderr: {
      write: (text) => {
        written.err += text;
      },
      isTty,
      columns: options.columns ?? null,
    },
    stdin: { isTty: options.stdinIsTty ?? false, read: async () => bytesOf(options.stdin ?? "") },
    env: options.env ?? {},
    cwd: CWD,
    now: () => options.now ?? 0,
    inputs,
    readFile(path) {
      inputs.add(path);
      const text = files.get(path);
      if (text === undefined) throw new IoError(path, "no such file");
      return new TextEncoder().encode(text);
    },
    size: (path) => bytesOf(files.get(path) ?? "").length,
    ask: async (_question, preset) => answers.shift() ?? preset,
    writeFile(path, text, { replace, over }) {
      if (options.unwritable !== undefined && path === resolve(CWD, options.unwritable))
        throw new IoError(path, "there is no such folder");
      if (over !== undefined && !Buffer.from(over).equals(Buffer.from(files.get(path) ?? "")))
        throw new IoError(path, "it changed meanwhile");
      if (!replace && over === undefined && files.has(path)) throw new IoError(path, "there is already a file");
      files.set(path, text);
    },
    realpath: (path) => (files.has(path) || folderNames(files, path) !== null ? path : null),
    identity: (path) => (files.has(path) ? path : null),
    filesAt: async () => (path) => {
      throw new IoError(path, "no Git in tests");
    },
    gitIndex: (path) => Promise.reject(new IoError(path, "no Git in tests")),
    changed: async () => {
      const save = saves.shift();
      for (const [name, text] of Object.entries(save ?? {})) files.set(resolve(CWD, name), text);
      return save !== undefined;
    },
    workers: async () => options.workers ?? null,
    fetch: options.fetch ?? (() => Promise.reject(new Error("no network in tests"))),
    list: (path) => folderNames(files, path),
  };
}

function folderNames(files: ReadonlyMap<string, string>, path: string): readonly string[] | null {
  const base = path.endsWith("/") ? path : `${path}/`;
  const names = [...files.keys()].flatMap((file) => {
    if (!file.startsWith(base)) return [];
    const [first = "", ...rest] = file.slice(base.length).split("/");
    return [rest.length > 0 ? `${first}/` : first];
  });
  return names.length === 0 ? null : [...new Set(names)].sort();
}
