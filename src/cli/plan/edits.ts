/** `--set path=value`: the plan's text with edits that are tried, the file untouched. */

import type { Finding } from "../../findings/finding.ts";
import { applyEdits, type Edit, type Plan, parseEdit, readPlan } from "../../plan/index.ts";
import { plainSay } from "../../reports/shared/wording.ts";
import { type Failure, usage } from "../exit.ts";
import type { Io } from "../io/io.ts";
import { planFiles } from "../io/source.ts";

/** The edited text. Throws a usage failure for an edit that cannot be read, or leads nowhere. */
export async function editedText(io: Io, file: string | null, text: string, set: readonly string[]): Promise<string> {
  const edits = set.map(editOf);
  const { plan } = await readPlan(text, { file, files: planFiles(io) });
  const made = applyEdits(text, edits, plan === null ? { file } : { file, ids: (section) => idsOf(plan, section) });
  if (made.text !== null) return made.text;
  throw refusal(made.findings);
}

function editOf(text: string): Edit {
  const { edit, findings } = parseEdit(text);
  if (edit === null) throw refusal(findings);
  return edit;
}

function refusal([finding]: readonly Finding[]): Failure {
  if (finding === undefined) throw new Error("an edit was refused without a word");
  return usage(`--set: ${finding.sentence(plainSay)}`, finding.hint(plainSay));
}

/** The ids of a section of the plan, with all it uses; groups of hits and packs, too. */
function idsOf(plan: Plan, section: string): readonly string[] {
  const sections: Readonly<Record<string, ReadonlyMap<string, unknown>>> = {
    crew: plan.crew,
    vehicles: plan.vehicles,
    places: plan.places,
    hits: plan.hits,
    tasks: plan.tasks,
    runs: plan.runs,
    rides: plan.rides,
    kit: plan.kit,
    packs: plan.packs,
    chargers: plan.chargers,
    paths: plan.paths,
    lines: plan.lines,
    contracts: plan.contracts,
    history: plan.history,
  };
  const entries = Object.hasOwn(sections, section) ? sections[section] : undefined;
  if (entries === undefined) return [];
  const groups = [...plan.groups].filter(([, members]) => entries.has(members[0] ?? ""));
  return [...entries.keys(), ...groups.map(([id]) => id)];
}
