/** Whether what a plan accepts exists, and may be accepted: asked only of a plan that accepts anything. */
import type { AnyEntry, Finding } from "../findings/finding.ts";
import { nearest } from "../findings/nearest.ts";
import { acceptLaw, acceptUnknown } from "./findings.ts";
import type { Plan } from "./plan.ts";

/** The mistakes in `accept`. `catalogue` holds all codes (`findings/catalogue.ts`). */
export function acceptMistakes(plan: Plan, catalogue: ReadonlyMap<string, AnyEntry>): readonly Finding[] {
  return plan.accept.flatMap(({ code: named, path }) => {
    const entry = catalogue.get(named);
    if (entry !== undefined && entry.law !== true) return [];
    const at = { path: [...path, "code"], span: plan.source.locate([...path, "code"]) };
    return entry === undefined
      ? acceptUnknown.raise({ named, near: nearest(named, catalogue.keys()) }, at)
      : acceptLaw.raise({ named }, at);
  });
}
