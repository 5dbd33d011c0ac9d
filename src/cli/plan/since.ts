/** `--since OLD`: what changed against an older plan of the same day, another file or this one at a Git revision. */
import { type Day, judge } from "../../index.ts";
import { type Invocation, ownText } from "../command.ts";
import { EXIT, Failure } from "../exit.ts";
import { type LoadedPlan, type LoadFailure, loadPlan } from "./load.ts";
import { loadOlder, loadRevision } from "./older.ts";

/** The day of `--since`; null where the flag is not given. */
export async function olderDay(loaded: LoadedPlan, invocation: Invocation): Promise<Day | null> {
  const older = ownText(invocation, "since");
  if (older === null) return null;
  const before = await olderPlan(loaded, invocation, older);
  return (await judge(before, { topics: [], patience: invocation.options.patience })).day;
}

/** The plan that `older` names, read without edits; one that cannot be read is a failure. */
export async function olderPlan(loaded: LoadedPlan, invocation: Invocation, older: string): Promise<LoadedPlan> {
  return read(await loadOlder(loaded.file, invocation, older, loadPlan), older);
}

/** The plan as it was at a revision of Git, whatever file may have the revision's name. */
export async function planAt(loaded: LoadedPlan, invocation: Invocation, revision: string): Promise<LoadedPlan> {
  return read(await loadRevision(loaded.file, invocation, revision, loadPlan), revision);
}

function read(before: LoadedPlan | LoadFailure, older: string): LoadedPlan {
  if (before.ok) return before;
  const [first] = before.findings;
  throw new Failure(
    EXIT.input,
    `--since ${older}: ${first?.sentence(before.say) ?? "it is no plan"}`,
    `daywright check ${before.file ?? older}`,
    first ?? null,
  );
}
