/** The kinds and keys of a whole plan, section by section, so that only the forms of sections it has are made. */
import { nearest } from "../findings/nearest.ts";
import { keyMissing } from "./findings.ts";
import type { Reading } from "./read/reading.ts";
import { planForm } from "./read/sections.ts";
import { sectionsWith } from "./reference.ts";
import { type HomesOf, shapeMistakes, unknownKey, whereText } from "./shape/issues.ts";
import { keySpan } from "./text/tree.ts";

/** Tests all sections; what does not fit is reported by `reportMisfits`. */
export function checkShapes(reading: Reading): void {
  const { root, findings } = reading;
  const missing = planForm.required.filter((key) => !root.entries.has(key));
  const meant = new Set<string>();
  for (const [key, { value }] of root.entries) {
    const section = planForm.fields.get(key);
    if (section !== undefined) reading.fit({ node: value, path: [key] }, section.form);
    else {
      const pair = nearest(
        key,
        missing.filter((one) => !meant.has(one)),
      );
      if (pair !== null) meant.add(pair);
      findings.push(unknownKey(root, [key], planForm.keys, pair, sectionsWith));
    }
  }
  for (const key of missing) {
    if (meant.has(key)) continue;
    // Only the version of the format has one value that is right.
    const example = key === "daywright" ? "1" : null;
    const first = [...root.entries].find(([, own]) => own.key.source === root.source)?.[0] ?? key;
    const at = { path: [key], span: keySpan(root, [first]) };
    findings.push(keyMissing.raise({ key, where: whereText([]), example }, at));
  }
}

/** Words what did not fit; `homesOf` says where keys of the file belong. Loads zod, which a sound plan never needs. */
export async function reportMisfits(reading: Reading, homesOf: HomesOf): Promise<void> {
  if (reading.misfits.length === 0) return;
  const z = await import("zod");
  // Compiled checkers pay only for many checks of one schema. Must precede every schema.
  z.config({ jitless: true });
  for (const { spot, form } of reading.misfits)
    reading.findings.push(...shapeMistakes(z, reading.root, spot, form, homesOf));
}
