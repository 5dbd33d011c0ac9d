/** What an edit of a plan's text is. */
import type { PlanPath } from "../../findings/finding.ts";

/** One value to be put in, replaced or removed. */
export interface Edit {
  readonly path: PlanPath;
  /** YAML as it would be typed in braces: `12:30`, `[lodge, pier]`, `{ at: lodge }`; null removes the entry. */
  readonly value: string | null;
  /** Put in as it is, with the blanks before it: how an edit is taken back. */
  readonly exact?: boolean;
}

/** The ids that the plan, with all it uses, has in a section. */
export type SectionIds = (section: string) => readonly string[];

/** What edits are made with. */
export interface EditOptions {
  /** For messages. */
  readonly file: string | null;
  /** What the plan knows beyond this text (from the files it uses): those entries may be laid over. */
  readonly ids?: SectionIds;
  /** Entries that no one knows may be made, as `log` makes those of `actual`. */
  readonly create?: boolean;
}
