/** Cautions as a report shows them: one line each with its source, and the line that says who decides. */
import { DEFERRAL, isCaution } from "../cautions/deferral.ts";
import type { Finding, Say } from "../findings/finding.ts";
import type { Block, Cell } from "./view.ts";

const TONES = { error: "bad", warning: "warn", note: "plain" } as const;

/** The cautions among some findings; no block at all where there is none. */
export function cautionBlocks(findings: readonly Finding[], say: Say): readonly Block[] {
  const cautions = findings.filter(isCaution);
  if (cautions.length === 0) return [];
  const items = cautions.map((own): Cell => {
    const { title, clause } = own.source ?? { title: "", clause: null };
    const source = title === "" ? "" : ` [${title}${clause === null ? "" : `, ${clause}`}]`;
    return { text: `${own.sentence(say)}${source}`, tone: TONES[own.level] };
  });
  return [{ kind: "heading", text: "Cautions" }, { kind: "list", items }, deferralLine()];
}

/** Under every report that carries a caution, however it shows it. */
export const deferralLine = (): Block => ({ kind: "line", cells: [{ text: DEFERRAL, tone: "muted" }] });
