/** The lines under a report that say how far it goes. */
import { DEFERRAL } from "../../cautions/deferral.ts";
import type { Block } from "./view.ts";

/** Under every report that carries a caution or a judgement of law, however it shows it. */
export const deferralLine = (): Block => ({ kind: "line", cells: [{ text: DEFERRAL, tone: "muted" }] });

/** Topics that nothing judged; no line where all were. */
export const notJudgedLines = (topics: readonly string[]): readonly Block[] =>
  topics.length === 0
    ? []
    : [{ kind: "line", cells: [{ text: `Not judged yet: ${topics.join(", ")}`, tone: "warn" }] }];
