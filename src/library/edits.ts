/** Edits of a plan's text that leave its comments and its order as they were. */
import type { Finding } from "../findings/finding.ts";
import { applyEdits, parseEdit, states } from "../plan/edit/edit.ts";
import type { Edit } from "../plan/edit/splice.ts";
import { readOnePlan } from "../plan/index.ts";
import type { Plan } from "../plan/plan.ts";
import type { PlanFiles } from "../plan/text/files.ts";
import { dropEntry } from "../repair/writing.ts";

export { pruned, states } from "../plan/edit/edit.ts";
export { applyEdits };

/** An edited text, or (null) the findings that say why an edit cannot be made. */
export interface EditedText {
  readonly text: string | null;
  readonly findings: readonly Finding[];
}

/**
 * Makes the edits (`hits.dawn.at=07:10`) in a plan's text; one that names a section's id may name those of files it uses.
 * `noon=off` takes an entry out with every list that names it.
 */
export async function editPlan(
  text: string,
  written: readonly string[],
  { file, files }: { readonly file: string | null; readonly files?: PlanFiles },
): Promise<EditedText> {
  const read = async (now: string): Promise<Plan | null> =>
    (await readOnePlan(now, { file, ...(files === undefined ? {} : { files }) })).plan;
  let now = text;
  let plan = await read(text);
  for (const one of written) {
    const { edit, findings } = parseEdit(one);
    if (edit === null) return { text: null, findings };
    const known = plan;
    const drop = edit.value === "off" && known !== null ? entryAt(known, edit.path) : null;
    const options = known === null ? { file } : { file, ids: (section: string) => idsOf(known, section) };
    const made = applyEdits(
      now,
      drop === null || known === null ? [edit] : (dropped(known, now, drop) ?? [edit]),
      options,
    );
    if (made.text === null) return made;
    now = made.text;
    if (drop === null) continue;
    plan = await read(now);
    // The file that the plan uses states it as well.
    if (plan === null || entryAt(plan, drop.path) === null) continue;
    const off = applyEdits(now, [{ path: drop.path, value: "off" }], { ...options, create: true });
    if (off.text === null) return off;
    now = off.text;
    plan = await read(now);
  }
  return { text: now, findings: [] };
}

interface EntryFound {
  readonly path: readonly [string, string];
  /** The hits or tasks that it makes; empty in other sections. */
  readonly ids: readonly string[];
}

/** The entry that `noon` or `hits.noon` names; null for what is none. */
function entryAt(plan: Plan, path: Edit["path"]): EntryFound | null {
  const [section, id] = path.length === 1 ? [null, String(path[0])] : [String(path[0]), String(path[1])];
  if (path.length > 2) return null;
  const found = SECTIONS.find((one) => (section === null || section === one) && idsOf(plan, one).includes(id));
  if (found === undefined) return null;
  const makes = found === "hits" || found === "tasks";
  return { path: [found, id], ids: makes ? (plan.groups.get(id) ?? [id]) : [] };
}

const dropped = (plan: Plan, text: string, { path, ids }: EntryFound): readonly Edit[] | null =>
  ids.length === 0
    ? [{ path, value: states(text, path, plan.file) ? null : "off" }]
    : dropEntry(plan, text, path[1], path, ids);

/** Sections of entries with ids, those first in which an id is looked for first. */
const SECTIONS = [
  ...(["hits", "tasks", "crew", "vehicles", "places", "runs", "rides", "kit", "packs"] as const),
  ...(["chargers", "paths", "lines", "contracts", "history"] as const),
];

/** The ids of a section of the plan with all that it uses, groups of hits and packs included; none for another word. */
function idsOf(plan: Plan, section: string): readonly string[] {
  const known = SECTIONS.find((one) => one === section);
  if (known === undefined) return [];
  const entries: ReadonlyMap<string, unknown> = plan[known];
  const groups = [...plan.groups].filter(([, members]) => entries.has(members[0] ?? ""));
  return [...entries.keys(), ...groups.map(([id]) => id)];
}
