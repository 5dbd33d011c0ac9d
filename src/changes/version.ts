/** A version of a plan as it was judged; a judged day is one. */
import type { Day } from "../day/day.ts";
import type { Finding } from "../findings/finding.ts";
import type { HoursResult } from "../hours/index.ts";
import type { KitResult } from "../kit/index.ts";
import type { PowerResult } from "../power/index.ts";
import type { RoadsResult } from "../roads/index.ts";

/** A solved and judged day, with the days before it. */
export interface Version {
  readonly day: Day;
  readonly days: readonly Day[];
  readonly findings: readonly Finding[];
  readonly results: {
    readonly hours?: HoursResult;
    readonly power?: PowerResult;
    readonly kit?: KitResult;
    readonly roads?: RoadsResult;
  };
}
