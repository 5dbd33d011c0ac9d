/** The plan: its text read into checked, typed values, each with its place in the text. The only importer of yaml and zod. */

export { type ChainReading, readChain } from "./chain/chain.ts";
export { type OnePlanReading, type PlanOrigin, readOnePlan, STDIN } from "./chain/load.ts";
export { applyEdits, type Edited, parseEdit, pruned, states } from "./edit/edit.ts";
export type { Edit, EditOptions } from "./edit/splice.ts";
export type * from "./plan.ts";
export { planSchema, sharedSchema } from "./schema.ts";
export { acceptMistakes } from "./sense/accepted.ts";
export type { FileReading, PlanFiles } from "./text/files.ts";
export { dotted, parsePathText } from "./text/pathtext.ts";
