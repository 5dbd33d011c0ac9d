/** Every code that a finding can have, and what `explain` says of it. */

import { catalogue } from "../findings/catalogue.ts";
import { codesReport, explainReport } from "../reports/explain/index.ts";
import type { Report } from "../reports/shared/view.ts";
import { plainWording } from "../reports/shared/wording.ts";

export { catalogue };

/** One code at length; all codes, a line each, for null. Undefined for a code that does not exist. */
export async function explanation(code: string | null): Promise<Report | undefined> {
  const entries = await catalogue();
  if (code === null) return codesReport([...entries.values()], plainWording);
  const entry = entries.get(code);
  return entry === undefined ? undefined : explainReport(entry, plainWording);
}
