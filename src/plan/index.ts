/** The plan: its text read into checked, typed values, each with its place in the text. The only importer of yaml and zod. */
export { acceptMistakes } from "./accepted.ts";
export { type ChainReading, readChain } from "./chain.ts";
export { applyEdits, type Edit, type Edited, type EditOptions, parseEdit, pruned, states } from "./edit/edit.ts";
export type { FileReading, PlanFiles } from "./files.ts";
export { codes } from "./findings.ts";
export { type PlanReading, type ReadOptions, readPlan, STDIN } from "./load.ts";
export { dotted, parsePathText } from "./pathtext.ts";
export type * from "./plan.ts";
export { planSchema } from "./schema.ts";
