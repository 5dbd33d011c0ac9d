/** What `repair` found, in the shape that its report shows. */
import type { Finding } from "../../findings/finding.ts";
import type { Repair, RepairProof } from "../../repair/index.ts";

/** One edit as it is printed. */
export interface EditView {
  readonly path: string;
  /** Null where the plan says nothing there. */
  readonly old: string | null;
  /** Null where the entry goes. */
  readonly new: string | null;
}

/** A repair as a view shows it. */
export interface RepairView extends Pick<Repair, "clears" | "eases" | "brings" | "standing" | "left"> {
  readonly edits: readonly EditView[];
}

/** All that `repair` shows. */
export interface RepairsShown {
  /** Best first. */
  readonly repairs: readonly RepairView[];
  /** What was to be repaired. */
  readonly targets: readonly Finding[];
  /** Of these, what no edit of a plan may help against. */
  readonly beyond: readonly Finding[];
  /** Null where nothing was searched. */
  readonly proof: RepairProof | null;
  /** What `--write` did, in words; null without it. */
  readonly written: string | null;
}

/** No search was made. */
export const NOTHING_SEARCHED: RepairsShown = { repairs: [], targets: [], beyond: [], proof: null, written: null };
