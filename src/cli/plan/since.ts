/** `--since OLD`: what changed against an older plan of the same day, another file or this one at a Git revision. */
import { resolve } from "node:path";
import type { Day } from "../../index.ts";
import { type Invocation, ownText } from "../command.ts";
import { EXIT, Failure, usage } from "../exit.ts";
import { type Io, IoError } from "../io/io.ts";
import { type LoadedPlan, type LoadFailure, loadPlan } from "./load.ts";

/** Null where the flag is not given. The older plan is read without edits; one that cannot be is a failure. */
export async function olderDay(loaded: LoadedPlan, invocation: Invocation): Promise<Day | null> {
  const older = ownText(invocation, "since");
  if (older === null) return null;
  const before = await loadOlder(loaded.file, invocation, older);
  if (!before.ok) {
    const [first] = before.findings;
    throw new Failure(
      EXIT.input,
      `--since ${older}: ${first?.sentence(before.say) ?? "it is no plan"}`,
      `daywright check ${before.file ?? older}`,
    );
  }
  return before.day;
}

async function loadOlder(
  file: string | null,
  invocation: Invocation,
  older: string,
): Promise<LoadedPlan | LoadFailure> {
  // The older plan is looked at only: what a routing server answers for it is not kept.
  const io: Io = { ...invocation.io, writeFile: () => undefined };
  const options = { ...invocation.options, set: [], now: null, clock: null, person: null };
  if (older === "-" || io.realpath(resolve(io.cwd, older)) !== null)
    return loadPlan({ ...invocation, options, io }, older);
  if (file === null) throw usage(`--since ${older}: no such file`, "a revision needs a plan that is a file");
  return loadPlan({ ...invocation, options, io: await ioAt(io, older, file) }, file);
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
    const message = `--since ${revision}: neither a file, nor a revision that has ${file}: ${error.reason}`;
    throw new Failure(EXIT.input, message, "--since HEAD~1");
  }
  // A file that was there then may be gone by now.
  return { ...io, readFile, realpath: (path) => io.realpath(path) ?? path };
}
