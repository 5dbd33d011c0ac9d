/** The mistakes that can be in a plan's text: the catalogue entries of `src/plan`. */
import type { AnyEntry } from "../findings/finding.ts";
import * as log from "./findings/log.ts";
import { orderLoop } from "./findings/loop.ts";
import * as sense from "./findings/sense.ts";
import * as text from "./findings/text.ts";
import * as values from "./findings/values.ts";

export * from "./findings/log.ts";
export * from "./findings/loop.ts";
export * from "./findings/sense.ts";
export * from "./findings/text.ts";
export * from "./findings/values.ts";

export const codes: readonly AnyEntry[] = [
  ...[text, values, sense, log].flatMap((group) => Object.values(group).map(({ entry }) => entry)),
  orderLoop.entry,
];
