/**
 * `uses`: what all days share, laid under the day's own file. Entry by entry and field by field; whatever a field holds,
 * a list above all, is replaced whole; the day's file wins; `odo: off` drops an entry.
 */
import type { Finding } from "../../findings/finding.ts";
import { nearest } from "../../findings/nearest.ts";
import { offNothing } from "../findings.ts";
import { type MapEntry, type MapNode, type PlanNode, spanOf } from "../text/tree.ts";

/** Sections and their entries are merged; below them a field is one value. */
const MERGED_LEVELS = 3;

/** Keys that only the day's own file can say. */
const OWN = ["id"];

/** The day over what it shares. */
export function merged(shared: MapNode, day: MapNode): MapNode {
  const entries = new Map([...shared.entries].filter(([key]) => !OWN.includes(key)));
  return mergedAt({ ...shared, entries }, day, MERGED_LEVELS);
}

function mergedAt(shared: MapNode, day: MapNode, levels: number): MapNode {
  const entries = new Map<string, MapEntry>(shared.entries);
  for (const [key, own] of day.entries) {
    const base = shared.entries.get(key)?.value;
    const both = levels > 1 && base?.kind === "map" && own.value.kind === "map";
    entries.set(key, both ? { key: own.key, value: mergedAt(base, own.value, levels - 1) } : own);
  }
  return { ...day, entries };
}

const isOff = (node: PlanNode): boolean => node.kind === "scalar" && node.value === "off" && !node.quoted;

/**
 * The tree without the entries that `off` drops. One that drops nothing is a mistake, because its id is mistyped or what
 * it meant is gone. `shared` is the tree below the day, null where it uses none.
 */
export function withoutDropped(root: MapNode, shared: MapNode | null): { tree: MapNode; findings: readonly Finding[] } {
  const findings: Finding[] = [];
  const sections = [...root.entries].map(([name, section]): [string, MapEntry] => {
    const { value } = section;
    if (value.kind !== "map") return [name, section];
    const base = shared?.entries.get(name)?.value;
    const known = base?.kind === "map" ? base.entries : new Map<string, MapEntry>();
    const kept = [...value.entries].filter(([, entry]) => !isOff(entry.value));
    for (const [key, entry] of value.entries) {
      if (!isOff(entry.value) || known.has(key)) continue;
      const facts = { key, section: name, near: nearest(key, known.keys()) };
      findings.push(offNothing.raise(facts, { path: [name, key], span: spanOf(entry.key) }));
    }
    return [name, { ...section, value: { ...value, entries: new Map(kept) } }];
  });
  return { tree: { ...root, entries: new Map(sections) }, findings };
}
