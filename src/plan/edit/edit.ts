/**
 * Edits of a plan's text: a path and the new value, for `--set`, `log` and `repair` alike.
 *
 * Only the characters of the value change: comments, order, quotes, flow style and line ends stay as they are, byte for
 * byte, and an edit can be taken back by the edits it returns.
 */
import type { Finding, PlanPath } from "../../findings/finding.ts";
import { editNowhere, editPathBad, editValueBad } from "../findings.ts";
import { noMap } from "../shape/issues.ts";
import { dotted, parsePathText } from "../text/pathtext.ts";
import { sourceText } from "../text/source.ts";
import { type MapNode, nearestNode } from "../text/tree.ts";
import { readYaml } from "../text/yaml.ts";
import { type Edit, type EditOptions, inserted, removed, replaced, type Splice } from "./splice.ts";
import { placeOf, wholePath } from "./where.ts";

/** An edited text; null where the edit cannot be made. */
export interface Edited {
  /** The new text; null where an edit cannot be made. */
  readonly text: string | null;
  readonly findings: readonly Finding[];
  /** The edits that take these back, in order, byte for byte; but what was removed comes back as the last of its map. */
  readonly undo: readonly Edit[];
}

/** Reads `hits.noon.at=12:30`; an empty value removes the entry. */
export function parseEdit(text: string): { readonly edit: Edit | null; readonly findings: readonly Finding[] } {
  const equals = text.indexOf("=");
  const path = equals < 0 ? null : parsePathText(text.slice(0, equals).trim());
  if (path === null) {
    const near = text
      .slice(0, Math.max(0, equals))
      .trim()
      .replace(/[/\\:>\s]+/g, ".");
    const facts = { path: text.slice(0, 200), near: parsePathText(near) === null ? null : near };
    return { edit: null, findings: [editPathBad.raise(facts)] };
  }
  const value = text.slice(equals + 1).trim();
  return { edit: { path, value: value === "" ? null : value }, findings: [] };
}

/** Applies edits one after another. The text must be a readable map; what is wrong with it is reported elsewhere. */
export function applyEdits(text: string, edits: readonly Edit[], options: EditOptions): Edited {
  let now = text;
  const undo: Edit[] = [];
  for (const edit of edits) {
    const made = applyOne(now, edit, options);
    if (!made.ok) return { text: null, findings: made.findings, undo: [] };
    now = made.text;
    undo.unshift(made.undo);
  }
  return { text: now, findings: [], undo };
}

/** Whether a text itself (not a file it uses) has something at a path. */
export function states(text: string, path: PlanPath, file: string | null): boolean {
  const root = mapOf(text, file);
  return root.ok && nearestNode(root.tree, path).depth === path.length;
}

/** `path`, or the highest above it that holds nothing else: what to remove so that no empty map stays. */
export function pruned(text: string, path: PlanPath, file: string | null): PlanPath {
  const root = mapOf(text, file);
  if (!root.ok) return path;
  let top = path;
  while (top.length > 1) {
    const parent = nearestNode(root.tree, top.slice(0, -1)).node;
    if (parent.kind !== "map" || parent.entries.size !== 1) return top;
    top = top.slice(0, -1);
  }
  return top;
}

type Made =
  | { readonly ok: true; readonly text: string; readonly undo: Edit }
  | { readonly ok: false; readonly findings: readonly Finding[] };

function applyOne(text: string, edit: Edit, options: EditOptions): Made {
  const root = mapOf(text, options.file);
  if (!root.ok) return root;
  const path = wholePath(root.tree, edit.path, options.ids ?? null);
  const place = placeOf(root.tree, path, edit.path, isWholeEntry(path, edit) ? { ...options, create: true } : options);
  if (!place.ok) return { ok: false, findings: [place.finding] };
  if (edit.value === null && place.depth < path.length) {
    const facts = { path: dotted(edit.path), at: dotted(path.slice(0, place.depth + 1)), near: null, known: [] };
    return { ok: false, findings: [editNowhere.raise(facts, { path })] };
  }
  if (edit.value !== null && edit.exact !== true && !isValue(edit.value)) {
    return { ok: false, findings: [editValueBad.raise({ value: edit.value.slice(0, 200) })] };
  }
  const splice = spliceOf(text, root.tree, path, place.depth, edit);
  const made = `${text.slice(0, splice.start)}${splice.text}${text.slice(splice.end)}`;
  const check = mapOf(made, options.file);
  // A text that was put in as it is has its own mistakes, such as a key twice.
  if (!check.ok && edit.exact === true) return check;
  if (!check.ok) return { ok: false, findings: [editValueBad.raise({ value: edit.value ?? dotted(path) })] };
  return { ok: true, text: made, undo: splice.undo };
}

function mapOf(
  text: string,
  file: string | null,
): { ok: true; tree: MapNode } | { ok: false; findings: readonly Finding[] } {
  const source = sourceText(file ?? "<stdin>", text);
  const { tree, findings } = readYaml(source);
  if (tree?.kind === "map" && findings.length === 0) return { ok: true, tree };
  return { ok: false, findings: tree === null || tree.kind === "map" ? findings : [...findings, noMap(tree, source)] };
}

/** Whether an edit writes all of an entry: then it may be a new one. A single key of an entry that is not there is a slip. */
const isWholeEntry = (path: PlanPath, { value }: Edit): boolean =>
  path.length === 2 && value?.trim().startsWith("{") === true;

/** Whether a text is one value when it stands between commas of a flow map. */
function isValue(value: string): boolean {
  const { tree, findings } = readYaml(sourceText("", `{ a: ${value} , b: 1 }`));
  if (findings.length > 0 || tree?.kind !== "map" || /[\r\n]/.test(value)) return false;
  return [...tree.entries.keys()].join(" ") === "a b" && !/(^|\s)#/.test(value.replace(/"[^"]*"|'[^']*'/g, ""));
}

/** `depth` is how far the path leads in the text as it is. */
function spliceOf(text: string, root: MapNode, path: PlanPath, depth: number, edit: Edit): Splice {
  if (edit.value === null) return removed(text, root, path);
  if (depth === path.length) return replaced(text, root, path, edit.value, edit.exact === true);
  return inserted(text, root, path, depth, edit.value, edit.exact === true);
}
