/** The list of changes against an older version, for any report that is asked `--since`. */

import type { Changes } from "../../changes/between.ts";
import type { Day } from "../../day/day.ts";
import type { Say } from "../../findings/finding.ts";
import type { Id } from "../../plan/plan.ts";
import type { ZoneId } from "../../time/units.ts";
import type { Block } from "../shared/view.ts";
import { sheetInput } from "../sheet/input.ts";
import { changesSection } from "../sheet/open.ts";

/** A day and what changed in it since it was told. */
export interface SinceRequest {
  /** The newer day. */
  readonly day: Day;
  readonly changes: Changes;
  readonly say: Say;
  readonly desk: ZoneId | null;
  readonly person: Id | null;
  /** Without addresses and telephone numbers. */
  readonly redact: boolean;
}

/** A heading and what changed for whom; one sentence where nothing did. */
export function sinceBlocks(request: SinceRequest): readonly Block[] {
  const facts = { sun: null, sunAltitude: null, batteries: null, gear: null, cautions: null, notJudged: [] };
  const section = changesSection(sheetInput({ ...request, facts, findings: [] }));
  return section === null ? [] : [{ kind: "heading", text: section.title }, ...section.blocks];
}
