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
  // The older plan is looked at only: what a routing server answers for it is not kept.
  const io: Io = { ...invocation.io, writeFile: () => undefined };
  const options = { ...invocation.options, set: [], now: null, clock: null, person: null };
  if (older === "-" || io.realpath(resolve(io.cwd, older)) !== null) return load({ ...invocation, options, io }, older);
  if (file === null) throw usage(`--since ${older}: no such file`, "a revision needs a plan that is a file");
  return load({ ...invocation, options, io: await ioAt(io, older, file) }, file);
}

/** The outside with every file as it was at a revision. */
async function ioAt(io: Io, revision: string, file: string): Promise<Io> {
  if (revision.startsWith("-")) throw usage(`--since ${revision}: that is no revision`);
  const plan = resolve(io.cwd, file);
  const readFile = await io.filesAt(revision, plan);
  try {
    readFile(plan);
  } catch (error) {
    if (!(error instanceof IoError)) throw error;
    const reason = `neither a file nor a revision that has ${file}: ${error.reason}`;
    const { planUnreadable } = await answers();
    const finding = planUnreadable.raise({ file: revision, reason, near: nearFiles(io, revision) });
    throw new Failure(EXIT.input, `--since ${revision}: ${reason}`, "--since HEAD~1", finding);
  }
  // A file that was there then may be gone by now.
  return { ...io, readFile, realpath: (path) => io.realpath(path) ?? path };
}
