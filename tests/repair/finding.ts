/** A finding that says no more than is asked of it. */
import type { Finding } from "../../src/findings/finding.ts";

export const finding = (more: Partial<Finding> = {}): Finding => ({
  ...{ code: "hit-missed", level: "error", law: false, facts: {}, chain: [], shortMinutes: null, who: null },
  ...{ at: null, path: null, span: null, related: [], source: null, accepted: null, shared: null },
  ...{ sentence: () => "", label: () => null, hint: () => null, ...more },
});
