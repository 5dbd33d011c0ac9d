/** The finding for a text that is no map of keys: empty, or something else. */
import type { Finding } from "../../findings/finding.ts";
import { planEmpty, planNotMap } from "../findings.ts";
import { kindOf } from "../shape/issues.ts";
import type { SourceText } from "./source.ts";
import type { PlanNode } from "./tree.ts";

/** The finding for a text that is no map of keys. */
export function noMap(tree: PlanNode, source: SourceText): Finding {
  const at = { span: source.span(tree.start, tree.end) };
  return tree.kind === "scalar" && tree.value === null
    ? planEmpty.raise({}, at)
    : planNotMap.raise({ found: kindOf(tree) }, at);
}
