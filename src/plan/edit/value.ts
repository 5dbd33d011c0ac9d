/** What a plan says at a path, as it is written: in the day's own text, else in the file that the plan's value comes from. */
import type { PlanPath } from "../../findings/finding.ts";
import type { Plan } from "../plan.ts";
import { sourceText } from "../text/source.ts";
import { nearestNode } from "../text/tree.ts";
import { readYaml } from "../text/yaml.ts";

/** The value on one line; null where nothing is stated there. */
export function valueText(text: string, path: PlanPath, plan: Pick<Plan, "file" | "source">): string | null {
  const { tree } = readYaml(sourceText(plan.file ?? "", text));
  if (tree?.kind === "map") {
    const { node, depth } = nearestNode(tree, path);
    if (depth === path.length) return oneLine(text.slice(node.start, node.end));
  }
  return sharedText(path, plan);
}

const oneLine = (text: string): string =>
  text
    .split("\n")
    .map((line) => line.trim())
    .filter((line) => line !== "")
    .join(" ");

/** A value of a file that the plan uses: only where its key stands right before it. */
function sharedText(path: PlanPath, { source }: Pick<Plan, "source">): string | null {
  const span = source.locate(path);
  const key = String(path.at(-1));
  if (
    span === null ||
    !span.text
      .slice(0, span.column - 1)
      .trimEnd()
      .endsWith(`${key}:`)
  )
    return null;
  return oneLine(span.text.slice(span.column - 1, span.column - 1 + span.length));
}
