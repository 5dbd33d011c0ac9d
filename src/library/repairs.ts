/** Ways out of what is wrong with a day, as they are searched and as they are shown. */
import type { Finding, Wording } from "../findings/finding.ts";
import { valueText } from "../plan/edit/value.ts";
import { dotted } from "../plan/index.ts";
import { type JudgeEdits, type Repair, repairable, repairsOf } from "../repair/index.ts";
import type { RepairsShown } from "../reports/repair/shown.ts";
import type { Judged } from "../reports/shared/judged.ts";

/** Which findings to repair, in which text. */
export interface RepairOptions {
  /** What is to be repaired, worst first. */
  readonly targets: readonly Finding[];
  /** The text that the day was read from. */
  readonly text: string;
  /** Judges the plan with edits made: `tryEdits`. */
  readonly judge: JudgeEdits;
  /** Repairs that are shown. */
  readonly most: number;
  /** Multiplies the counted budget of the search. */
  readonly patience: number;
  progress?(judged: number, best: Repair | null): void;
}

/** The repairs found, and what a view shows of them. */
export interface FoundRepairs {
  /** Best first. */
  readonly repairs: readonly Repair[];
  /** What a report shows of them. */
  readonly shown: RepairsShown;
}

/** Searches repairs of a judged day. */
export async function searchRepairs(judged: Judged, options: RepairOptions): Promise<FoundRepairs> {
  const { targets, text, judge, most } = options;
  const able = repairable(targets);
  const found = able.length === 0 ? null : await repairsOf({ now: judged, text, targets: able }, judge, options);
  const repairs = found?.repairs ?? [];
  const { plan } = judged.day;
  const shown = repairs.slice(0, most).map((one) => ({
    ...one,
    edits: one.edits.map(({ path, value }) => ({
      path: dotted(path),
      old: valueText(text, path, plan),
      new: value,
    })),
  }));
  const beyond = targets.filter((finding) => !able.includes(finding));
  return { repairs, shown: { repairs: shown, targets, beyond, proof: found?.proof ?? null, written: null } };
}

/** One line of a repair while the search goes on: `found: hits.noon.path=cell (clears skyline-blocks)`. */
export function repairLine({ edits, clears }: Repair, say: Wording): string {
  const made = edits.map(({ path, value }) => `${dotted(path)}=${value ?? ""}`).join(", ");
  const gone = [...new Set(clears.map(({ code, who }) => (who === null ? code : `${code} ${say.name(who)}`)))];
  return `found: ${made} (clears ${gone.join(", ")})`;
}
