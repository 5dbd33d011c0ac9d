/** Where an edit applies: its path in full, and whether it leads to something that the plan has or may have. */
import type { Finding, PlanPath } from "../../findings/finding.ts";
import { nearest } from "../../findings/nearest.ts";
import { editNowhere } from "../findings.ts";
import { entryForms, planForm } from "../read/sections.ts";
import { dotted } from "../text/pathtext.ts";
import { child, type MapNode, nearestNode, type PlanNode } from "../text/tree.ts";
import type { EditOptions, SectionIds } from "./splice.ts";

/** The path with its section, where it begins with an id: `noon.at` for `hits.noon.at`. */
export function wholePath(root: MapNode, path: PlanPath, ids: SectionIds | null): PlanPath {
  const id = String(path[0]);
  if (planForm.keys.some((key) => key === id)) return path;
  const sections = Object.keys(entryForms).filter(
    (section) => has(root, section, id) || ids?.(section).includes(id) === true,
  );
  const [section, ...others] = sections;
  return section === undefined || others.length > 0 ? path : [section, ...path];
}

function has(root: MapNode, section: string, id: string): boolean {
  const node = child(root, section);
  return node !== null && child(node, id) !== null;
}

/** Where in a file an edit goes, or why it goes nowhere. */
export type EditPlace =
  | { readonly ok: true; readonly depth: number }
  | { readonly ok: false; readonly finding: Finding };

/** How far `path` leads, or why what is missing of it may not be made. `asked` is the path as the user wrote it. */
export function placeOf(root: MapNode, path: PlanPath, asked: PlanPath, options: EditOptions): EditPlace {
  const { node, depth } = nearestNode(root, path);
  if (depth === path.length) return { ok: true, depth };
  const missing = path.slice(0, depth + 1);
  if (canHold(node, path[depth]) && mayBeMade(path, depth, options)) return { ok: true, depth };
  const near = nearPath(root, path, options) ?? nearPath(root, asked, options);
  const wrong = wrongDepth(root, path, options);
  const known = near === null ? (keysAt(path, wrong) ?? []) : [];
  const facts = { path: dotted(asked), at: dotted(missing), near: near === null ? null : dotted(near), known };
  return { ok: false, finding: editNowhere.raise(facts, { path: missing }) };
}

/** A map takes any key, a list its next item, an empty value anything. */
function canHold(node: PlanNode, step: string | number | undefined): boolean {
  if (node.kind === "list") return step === node.items.length;
  return typeof step === "string" && (node.kind === "map" || node.value === null);
}

/** The keys that may stand at `depth` of a path; null where any may. */
function keysAt(path: PlanPath, depth: number): readonly string[] | null {
  if (depth === 0) return planForm.keys;
  const form = new Map(Object.entries(entryForms)).get(String(path[0]));
  return depth === 2 && form !== undefined ? form.keys : null;
}

function mayBeMade(path: PlanPath, from: number, { ids, create }: EditOptions): boolean {
  for (let depth = from; depth < path.length; depth++) {
    const key = String(path[depth]);
    if (keysAt(path, depth)?.includes(key) === false) return false;
    const isEntry = depth === 1 && Object.hasOwn(entryForms, String(path[0]));
    if (isEntry && create !== true && ids?.(String(path[0])).includes(key) !== true) return false;
  }
  return true;
}

/** The path with each step that leads nowhere put right by the nearest that does; null where one has none. */
function nearPath(root: MapNode, path: PlanPath, options: EditOptions): PlanPath | null {
  const found: (string | number)[] = [];
  const [first] = path;
  const known = stepsAt(root, [], options);
  // An edit may leave the section out: `noon.at`.
  if (typeof first === "string" && !known.includes(first) && nearest(first, known) === null) {
    const ids = Object.keys(entryForms).flatMap((section) =>
      stepsAt(root, [section], options).map((id) => ({ section, id })),
    );
    const near = nearest(
      first,
      ids.map(({ id }) => id),
    );
    const whole = ids.find(({ id }) => id === near);
    return whole === undefined ? null : nearPath(root, [whole.section, whole.id, ...path.slice(1)], options);
  }
  for (const [depth, step] of path.entries()) {
    const right = nearStep(root, found, step, options);
    // A new entry is near once its section is.
    if (right === null) return depth === 1 && options.create === true ? [...found, ...path.slice(1)] : null;
    found.push(right);
  }
  return found;
}

function nearStep(root: MapNode, above: PlanPath, step: string | number, options: EditOptions): string | number | null {
  const { node, depth } = nearestNode(root, above);
  if (depth === above.length && node.kind === "list") {
    const index = Number(step);
    return Number.isInteger(index) && index >= 0 && node.items.length > 0
      ? Math.min(index, node.items.length - 1)
      : null;
  }
  const known = stepsAt(root, above, options);
  return known.includes(String(step)) ? step : nearest(String(step), known);
}

/** The keys that stand, or may stand, below a path. */
function stepsAt(root: MapNode, above: PlanPath, { ids }: EditOptions): readonly string[] {
  const { node, depth } = nearestNode(root, above);
  const there = depth === above.length && node.kind === "map" ? [...node.entries.keys()] : [];
  const shared = above.length === 1 ? (ids?.(String(above[0])) ?? []) : [];
  return [...there, ...shared, ...(keysAt([...above, ""], above.length) ?? [])];
}

/** The depth of the first step that leads nowhere. */
function wrongDepth(root: MapNode, path: PlanPath, options: EditOptions): number {
  const wrong = path.findIndex((step, at) => !stepsAt(root, path.slice(0, at), options).includes(String(step)));
  return wrong < 0 ? path.length : wrong;
}
