/** Where an edit applies: its path in full, and whether it leads to something that the plan has or may have. */
import type { Finding, PlanPath } from "../../findings/finding.ts";
import { nearest } from "../../findings/nearest.ts";
import { editNowhere } from "../findings.ts";
import { dotted } from "../pathtext.ts";
import { entryForms, planForm } from "../sections.ts";
import { child, type MapNode, nearestNode, type PlanNode } from "../tree.ts";
import type { EditOptions } from "./edit.ts";

/** Whether the plan, with all it uses, has an entry `id` in a section. */
export type Known = (section: string, id: string) => boolean;

/** The path with its section, where it begins with an id: `noon.at` for `hits.noon.at`. */
export function wholePath(root: MapNode, path: PlanPath, known: Known | null): PlanPath {
  const id = String(path[0]);
  if (planForm.keys.some((key) => key === id)) return path;
  const sections = Object.keys(entryForms).filter((section) => has(root, section, id) || known?.(section, id) === true);
  const [section, ...others] = sections;
  return section === undefined || others.length > 0 ? path : [section, ...path];
}

function has(root: MapNode, section: string, id: string): boolean {
  const node = child(root, section);
  return node !== null && child(node, id) !== null;
}

export type Place = { readonly ok: true; readonly depth: number } | { readonly ok: false; readonly finding: Finding };

/** How far `path` leads, or why what is missing of it may not be made. `asked` is the path as the user wrote it. */
export function placeOf(root: MapNode, path: PlanPath, asked: PlanPath, options: EditOptions): Place {
  const { node, depth } = nearestNode(root, path);
  if (depth === path.length) return { ok: true, depth };
  const missing = path.slice(0, depth + 1);
  if (canHold(node, path[depth]) && mayBeMade(path, depth, options)) return { ok: true, depth };
  const facts = { path: dotted(asked), at: dotted(missing), near: nearPath(node, path, depth) };
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

function mayBeMade(path: PlanPath, from: number, { known, create }: EditOptions): boolean {
  for (let depth = from; depth < path.length; depth++) {
    const key = String(path[depth]);
    if (keysAt(path, depth)?.includes(key) === false) return false;
    const isEntry = depth === 1 && Object.hasOwn(entryForms, String(path[0]));
    if (isEntry && create !== true && known?.(String(path[0]), key) !== true) return false;
  }
  return true;
}

/** The nearest path that the plan has or may have. */
function nearPath(node: PlanNode, path: PlanPath, depth: number): string | null {
  const there = node.kind === "map" ? [...node.entries.keys()] : [];
  const near = nearest(String(path[depth]), [...there, ...(keysAt(path, depth) ?? [])]);
  return near === null ? null : dotted([...path.slice(0, depth), near, ...path.slice(depth + 1)]);
}
