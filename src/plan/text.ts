/** A plan's text to its tree: quickly where it is everyday YAML, else with the parser, which is loaded only then. */
import { quickTree } from "./quick.ts";
import type { SourceText } from "./source.ts";
import type { YamlReading } from "./yaml.ts";

export async function readText(source: SourceText): Promise<YamlReading> {
  const tree = quickTree(source);
  if (tree !== null) return { tree, findings: [] };
  const { readYaml } = await import("./yaml.ts");
  return readYaml(source);
}
