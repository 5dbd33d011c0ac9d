/** `--since OLD`: what changed against an older plan of the same day, another file or this one at a Git revision. */
import type { Day } from "../../index.ts";
import { type Invocation, ownText } from "../command.ts";
import { EXIT, Failure } from "../exit.ts";
import { type LoadedPlan, loadPlan } from "./load.ts";
import { loadOlder } from "./older.ts";

/** Null where the flag is not given. The older plan is read without edits; one that cannot be is a failure. */
export async function olderDay(loaded: LoadedPlan, invocation: Invocation): Promise<Day | null> {
  const older = ownText(invocation, "since");
  if (older === null) return null;
  const before = await loadOlder(loaded.file, invocation, older, loadPlan);
  if (!before.ok) {
    const [first] = before.findings;
    throw new Failure(
      EXIT.input,
      `--since ${older}: ${first?.sentence(before.say) ?? "it is no plan"}`,
      `daywright check ${before.file ?? older}`,
      first ?? null,
    );
  }
  return before.day;
}
