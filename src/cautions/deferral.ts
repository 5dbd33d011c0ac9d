/** The line under every report that carries a caution, and how to tell one. */
import type { Finding } from "../findings/finding.ts";

export const DEFERRAL = "a planning aid; local law, the contract and licensed people decide";

const PREFIX = "caution-";

/** Cautions are the findings whose code begins so. */
export const isCaution = (finding: Pick<Finding, "code">): boolean => finding.code.startsWith(PREFIX);
