/** The version before an edit, judged like the edited one: of `--since`, else the file without the edits of `--set`. */
import type { Judged } from "../../index.ts";
import { type Invocation, ownText } from "../command.ts";
import { usage } from "../exit.ts";
import { readSource } from "../io/source.ts";
import { type LoadedPlan, loadSource } from "./load.ts";
import { judgeLoaded } from "./planCommand.ts";
import { olderPlan } from "./since.ts";

/** Null where nothing is edited. Throws a usage failure for `--set` without a file. */
export async function beforeEdit(loaded: LoadedPlan, invocation: Invocation): Promise<Judged | null> {
  const since = ownText(invocation, "since");
  if (since !== null) return judgeLoaded(await olderPlan(loaded, invocation, since), invocation);
  if (invocation.options.set.length === 0) return null;
  if (loaded.file === null) throw usage("a comparison with --set needs a plan that is a file", "name the plan's file");
  const options = { ...invocation.options, set: [] };
  const source = await readSource(invocation.io, loaded.file, options.name);
  const plain = await loadSource({ ...invocation, options }, source);
  return plain.ok ? judgeLoaded(plain, invocation) : null;
}
