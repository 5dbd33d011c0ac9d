/** Mistyped keys of a plan's own level: read as they were meant, so that only the name is reported, not all that needs it. */
import type { Finding } from "../../findings/finding.ts";
import { slipOf } from "../../findings/nearest.ts";
import { keyUnknown } from "../findings.ts";
import { planForm } from "../read/sections.ts";
import { whereText } from "../shape/issues.ts";
import { otherWord } from "../shape/synonyms.ts";
import { type MapEntry, type MapNode, spanOf } from "./tree.ts";

/** The tree with the keys that were meant. A key that the file has already is never meant by another. */
export function rightlyNamed(root: MapNode): { readonly tree: MapNode; readonly findings: readonly Finding[] } {
  const known: readonly string[] = planForm.keys;
  const findings: Finding[] = [];
  const entries = new Map<string, MapEntry>();
  for (const [key, entry] of root.entries) {
    const free = known.filter((one) => !root.entries.has(one) && !entries.has(one));
    // `lives` are hits, not `lines`: another word for a section comes before a slip.
    const near = known.includes(key) ? null : (otherWord(key, free) ?? slipOf(key, free));
    entries.set(near ?? key, entry);
    if (near === null) continue;
    const facts = { key, where: whereText([]), near, missing: null, known, elsewhere: [] };
    findings.push(keyUnknown.raise(facts, { span: spanOf(entry.key), path: [key] }));
  }
  return { tree: { ...root, entries }, findings };
}
