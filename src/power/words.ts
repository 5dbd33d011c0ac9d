/** How cures and energies are worded, in findings and in the report. */
import type { Say } from "../findings/finding.ts";
import type { Cure } from "./cures.ts";

/** `16.2 Wh`. */
export const whText = (wh: number): string => `${wh.toFixed(1)} Wh`;

/** `41 %`. */
export const percentText = (share: number): string => `${Math.round(share * 100)} %`;

/** `a swap at 21:40 Chicago at Birch Point Lodge (Wren Aalto)`. */
export function cureText(cure: Cure, say: Say): string {
  const name = say.name(cure.id);
  switch (cure.kind) {
    case "touch":
      return `a swap ${cure.edits.some((edit) => edit.startsWith("rules.bedAfter")) ? "before bed, " : ""}at ${cure.at === null ? "another moment" : say.time(cure.at, cure.id)} at ${name} (${cure.who.map((id) => say.name(id)).join(" or ")})`;
    case "hands":
      return `${cure.who.map((id) => say.name(id)).join(" or ")} at ${name}, too`;
    case "standby":
      return `${name} off between hits`;
    case "slot":
      return `one slot more on ${name}`;
    case "charger":
      return `a charger in ${name}`;
    case "pack":
      return `one ${name} more at ${percentText(cure.share ?? 1)}`;
  }
}

/** `--set packs.brick.count=4 --set 'packs.brick.charge=[100%, 20%]'`: as it is typed in a shell. */
export const setText = (edits: readonly string[]): string =>
  edits.map((edit) => `--set ${/^[\w.=%-]+$/.test(edit) ? edit : `'${edit}'`}`).join(" ");
