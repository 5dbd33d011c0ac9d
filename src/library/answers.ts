/** How an outcome is put into words: its words, the head and the place of each finding, the order of findings, the JSON envelope. */
import type { Day } from "../day/day.ts";
import type { Wording } from "../findings/finding.ts";
import type { Plan } from "../plan/plan.ts";
import type { FindingForm, PlanHead } from "../reports/shared/envelope.ts";
import { findingZone } from "../reports/shared/stamps.ts";

export { joinAlike } from "../findings/together.ts";
export { CONTRACT, envelope, envelopes, findingJson } from "../reports/shared/envelope.ts";
export { commandFailed, planUnreadable, wrongUsage } from "../reports/shared/findings.ts";
export { findingView, redacting } from "../reports/shared/findingView.ts";
export { counts, isShown, worstFirst } from "../reports/shared/order.ts";
export { redactedFinding, withoutContacts } from "../reports/shared/redact.ts";
export { plainWording, wordingOf } from "../reports/shared/wording.ts";

/** What the envelope says of a plan. */
export const headOf = ({ title, date, clock }: Plan, file: string | null): PlanHead => ({ file, title, date, clock });

/** What the envelope says of a text that is no valid plan. */
export const headOfText = (file: string | null): PlanHead => ({ file, title: null, date: null, clock: null });

/** How findings of a computed day are written: each instant on the clock of where it happens. */
export const formOf = (day: Day, say: Wording, file: string | null): FindingForm => ({
  say,
  zoneAt: (at, finding) => findingZone(day, at, finding),
  locate: (path) => day.plan.source.locate(path),
  file,
});

/** How findings are written where no day is computed: instants in UTC, no lines of the plan behind a chain. */
export const formOfText = (say: Wording, file: string | null): FindingForm => ({
  say,
  zoneAt: () => null,
  locate: () => null,
  file,
});
