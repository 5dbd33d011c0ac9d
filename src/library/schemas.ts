/** The JSON Schemas of plans, logs and reports. */
import { described, schemaOf } from "../reports/index.ts";
import type { Json } from "../reports/shared/view.ts";

/**
 * The JSON Schema (draft 7, or 2020-12 of a report) of a file that people write (`plan`, `shared`, `log`) or of a report's JSON (`calls`, `hours`, …); null
 * for a name that has none. `schemaNames` lists them.
 *
 * @example
 * ```ts
 * import { schema, schemaNames } from "daywright";
 *
 * console.log((await schemaNames()).includes("plan"), (await schema("plan")) !== null, await schema("nothing")); // true true null
 * ```
 */
export async function schema(name: string): Promise<Json | null> {
  if (name === "plan") return plainJson(await (await import("../plan/index.ts")).planSchema());
  if (name === "shared") return plainJson(await (await import("../plan/index.ts")).sharedSchema());
  if (name === "log") return plainJson(await (await import("../plan/schema.ts")).logSchema());
  return schemaOf(name);
}

/** Every name that `schema` knows. */
export const schemaNames = async (): Promise<readonly string[]> => ["plan", "shared", "log", ...described()];

/** Through JSON text, since what makes a schema promises no more than an object. */
const plainJson = (made: object): Json => JSON.parse(JSON.stringify(made));
