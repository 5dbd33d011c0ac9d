/** `--set path=value`: the plan's text with edits that are tried, the file untouched. */
import { answers, edits } from "../../index.ts";
import { usage } from "../exit.ts";
import type { Io } from "../io/io.ts";
import { planFiles } from "../io/source.ts";

/**
 * The edited text. A text that cannot be read comes back as it is, since reading it says why. Throws a usage failure for
 * an edit that cannot be read, or leads nowhere.
 */
export async function editedText(io: Io, file: string | null, text: string, set: readonly string[]): Promise<string> {
  const { editPlan } = await edits();
  const made = await editPlan(text, set, { file, files: planFiles(io) });
  if (made.text !== null) return made.text;
  const [finding] = made.findings;
  if (finding === undefined) throw new Error("an edit was refused without a word");
  if (!finding.code.startsWith("edit-")) return text;
  const { plainWording } = await answers();
  throw usage(`--set: ${finding.sentence(plainWording)}`, finding.hint(plainWording));
}
