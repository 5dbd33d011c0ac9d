/** A value of a plan together with its path: its text, the items of a list, the entries of a map. */
import type { PlanPath } from "../../findings/finding.ts";
import type { PlanNode } from "./tree.ts";

/** A value and where it stands. */
export interface Item {
  readonly node: PlanNode;
  readonly path: PlanPath;
}

/** The author's characters of a value that is a word, a number or a text; null for any other. */
export function textOf(item: Item | null): string | null {
  if (item === null || item.node.kind !== "scalar" || item.node.value === null) return null;
  return item.node.text.trim().normalize("NFC");
}

/** The items of a list, each with its path; a value that is no list is a list of one. */
export function itemsOf(item: Item | null): readonly Item[] {
  if (item === null) return [];
  if (item.node.kind !== "list") return [item];
  return item.node.items.map((node, index) => ({ node, path: [...item.path, index] }));
}

/** The entries of a map, keyed by own ids. */
export function entriesOf(item: Item | null): readonly (Item & { readonly key: string })[] {
  if (item?.node.kind !== "map") return [];
  return [...item.node.entries].map(([key, { value }]) => ({ key, node: value, path: [...item.path, key] }));
}
