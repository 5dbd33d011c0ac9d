/** What every form of a value is, whatever it means: which nodes fit it, and its schema. */
import type * as zod from "zod";
import type { PlanNode } from "../text/tree.ts";

/** The library, loaded by whoever asks for a schema. */
export type Zod = typeof zod;

/** What kind of value stands behind a key. */
export interface Form {
  /** As in "takes …": `a list of ids`. */
  readonly wanted: string;
  /** A value as a plan writes it, where the form alone tells one. */
  readonly example?: string;
  /** The forms of the values inside it, if it has some. */
  readonly parts?: readonly Form[];
  /** Whether its parts stand between square brackets. */
  readonly list?: true;
  fits(node: PlanNode): boolean;
  /** `described`: with what the JSON Schema says besides the kinds. */
  schema(z: Zod, described: boolean): zod.ZodType;
}
