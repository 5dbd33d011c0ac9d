/** The mistakes that can be in a plan's text: the catalogue entries of `src/plan`. */
export * from "./findings/edits.ts";
export * from "./findings/files.ts";
export * from "./findings/log.ts";
export * from "./findings/loop.ts";
export * from "./findings/sense.ts";
export * from "./findings/text.ts";
export * from "./findings/times.ts";
export * from "./findings/values.ts";
