/** Edits of a plan's text that leave its comments and its order as they were. */
import type { Finding } from "../findings/finding.ts";
import { applyEdits, parseEdit } from "../plan/edit/edit.ts";
import type { Edit } from "../plan/edit/request.ts";
import { readPlan } from "../plan/index.ts";
import type { Plan } from "../plan/plan.ts";
import type { PlanFiles } from "../plan/text/files.ts";

export { pruned, states } from "../plan/edit/edit.ts";
export { applyEdits };

/** An edited text, or (null) the findings that say why an edit cannot be made. */
export interface EditedText {
  readonly text: string | null;
  readonly findings: readonly Finding[];
}

/** Makes the edits (`hits.dawn.at=07:10`) in a plan's text; one that names a section's id may name those of files it uses. */
export async function editPlan(
  text: string,
  written: readonly string[],
  { file, files }: { readonly file: string | null; readonly files?: PlanFiles },
): Promise<EditedText> {
  const made: Edit[] = [];
  for (const one of written) {
    const { edit, findings } = parseEdit(one);
    if (edit === null) return { text: null, findings };
    made.push(edit);
  }
  const { plan } = await readPlan(text, { file, ...(files === undefined ? {} : { files }) });
  return applyEdits(text, made, plan === null ? { file } : { file, ids: (section) => idsOf(plan, section) });
}

/** The ids of a section of the plan with all that it uses, groups of hits and packs included; none for another word. */
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
