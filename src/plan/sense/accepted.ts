/** Codes that a plan accepts and that no finding has. */
import type { AnyEntry, Finding } from "../../findings/finding.ts";
import { nearest } from "../../findings/nearest.ts";
import { acceptUnknown } from "../findings.ts";
import type { Plan } from "../plan.ts";

/** The mistakes in `accept`. `catalogue` holds all codes (`findings/catalogue.ts`). */
export function acceptMistakes(plan: Plan, catalogue: ReadonlyMap<string, AnyEntry>): readonly Finding[] {
  return plan.accept.flatMap(({ code: named, path }) => {
    if (catalogue.has(named)) return [];
    const at = { path: [...path, "code"], span: plan.source.locate([...path, "code"]) };
    return [acceptUnknown.raise({ named, near: nearest(named, catalogue.keys()) }, at)];
  });
}
