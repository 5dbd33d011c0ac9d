/** The line under every report that carries a caution, and how to tell one. */
import type { Finding } from "../findings/finding.ts";

/** The line under every list of cautions: what the program is not. */
export const DEFERRAL = "A planning aid; local law, the contract and licensed people decide.";

const PREFIX = "caution-";

/** Fatigue at the wheel, which `hours` finds from sleep and clock: published figures of groups, no limits of law. */
const FATIGUE: ReadonlySet<string> = new Set(["night-driving", "short-sleep-at-wheel", "awake-too-long-at-wheel"]);

/** Cautions are the findings whose code begins so, and fatigue at the wheel. */
export const isCaution = ({ code }: Pick<Finding, "code">): boolean => code.startsWith(PREFIX) || FATIGUE.has(code);
