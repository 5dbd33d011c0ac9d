/** `--since OLD`: what changed against an older plan of the same day. */
import type { Changes } from "../reports/changes.ts";
import { type Invocation, ownText } from "./command.ts";
import { EXIT, Failure } from "./exit.ts";
import { type Opened, openPlan } from "./open.ts";

/** Null where the flag is not given. The older plan is read without edits; one that cannot be is a failure. */
export async function changesSince(opened: Opened, invocation: Invocation): Promise<Changes | null> {
  const older = ownText(invocation, "since");
  if (older === null) return null;
  const options = { ...invocation.options, set: [], now: null, clock: null, person: null };
  const before = await openPlan({ ...invocation, options }, older);
  if (!before.ok) {
    const [first] = before.findings;
    throw new Failure(
      EXIT.input,
      `--since ${older}: ${first?.sentence(before.say) ?? "it is no plan"}`,
      `daywright check ${older}`,
    );
  }
  const { changesBetween } = await import("../reports/changes.ts");
  return changesBetween(before.day, opened.day);
}
