/** The older plan that `--since` names: another file, or the same one at a Git revision. */
import { resolve } from "node:path";
import { answers } from "../../index.ts";
import type { Invocation } from "../command.ts";
import { EXIT, Failure, usage } from "../exit.ts";
import { type Io, IoError } from "../io/io.ts";
import { nearFiles } from "../io/nearFiles.ts";

/** Loads it by `load`; `file` is the plan whose older state is asked for. Throws a usage failure for what names neither. */
export async function loadOlder<T>(
  file: string | null,
  invocation: Invocation,
  older: string,
  load: (invocation: Invocation, argument: string) => Promise<T>,
): Promise<T> {
  const { io } = invocation;
  if (older === "-" || io.realpath(resolve(io.cwd, older)) !== null) return load(unedited(invocation), older);
  return loadRevision(file, invocation, older, load);
}

/** Loads the same plan as it was at a revision of Git. */
export async function loadRevision<T>(
  file: string | null,
  invocation: Invocation,
  revision: string,
  load: (invocation: Invocation, argument: string) => Promise<T>,
): Promise<T> {
  if (file === null) throw usage(`--since ${revision}: no such file`, "a revision needs a plan that is a file");
  const own = unedited(invocation);
  return load({ ...own, io: await ioAt(own.io, revision, file) }, file);
}

/** The older plan is looked at only: what a routing server answers for it is not kept. */
const unedited = (invocation: Invocation): Invocation => ({
  ...invocation,
  options: { ...invocation.options, set: [], now: null, clock: null, person: null },
  io: { ...invocation.io, writeFile: () => undefined },
});

/** The outside with every file as it stands in the index: what is about to be committed. */
export const ioStaged = (io: Io, file: string): Promise<Io> => ioAt(io, "", file);

/** The outside with every file as it was at a revision; the empty one is the index. */
async function ioAt(io: Io, revision: string, file: string): Promise<Io> {
  if (revision.startsWith("-")) throw usage(`--since ${revision}: that is no revision`);
  const plan = resolve(io.cwd, file);
  const readFile = await io.filesAt(revision, plan);
  try {
    readFile(plan);
  } catch (error) {
    if (!(error instanceof IoError)) throw error;
    const reason = `no such file, and no revision of that name with ${file} (${error.reason})`;
    const { planUnreadable } = await answers();
    const finding = planUnreadable.raise({ file: revision, reason, near: nearFiles(io, revision) });
    throw new Failure(EXIT.input, `--since ${revision}: ${reason}`, "--since HEAD~1", finding);
  }
  // A file that was there then may be gone by now.
  return { ...io, readFile, realpath: (path) => io.realpath(path) ?? path };
}
