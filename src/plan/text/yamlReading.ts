/** What reading a text as YAML gives. */
import type { Finding } from "../../findings/finding.ts";
import type { PlanNode } from "./tree.ts";

/** The tree of a text and what is wrong with it. */
export interface YamlReading {
  /** Null where the text cannot be read or is too large; empty text is a null scalar. */
  readonly tree: PlanNode | null;
  readonly findings: readonly Finding[];
}
