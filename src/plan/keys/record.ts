/** What a log and a vehicle both state of the record: who shares the wheel, and when its days begin. */
import type { FieldsOf } from "../read/fields.ts";
import { type Declarations, entry } from "../shape/form.ts";
import { clock, oneOrTwo } from "../shape/leaves.ts";

/** The keys that a vehicle and the options of a log have in common. */
export const recordKeys = {
  drivers: [
    oneOrTwo("a number of drivers"),
    "2 claims that two share the wheel: multi-manning (561/2006 Art 8(5)), a team's berth split (SOR/2005-313 s. 19); its conditions are printed",
    { example: "2" },
  ],
  dayStarts: [
    clock,
    "the clock time at which the carrier's days begin (49 CFR 395.8, SOR/2005-313 s. 1); midnight if none is stated",
  ],
} as const satisfies Declarations;

/** The same as a form of its own. */
export const recordForm = entry("a vehicle or the options of a log", {}, recordKeys);

/** What those keys say. */
export interface RecordKeys {
  /** Null where not stated: no second driver is claimed. */
  readonly drivers: 1 | 2 | null;
  /** Minutes after midnight, 0 to 1439; null where not stated. */
  readonly dayStarts: number | null;
}

/** Reads those keys. */
export function readRecordKeys(fields: FieldsOf<typeof recordForm>): RecordKeys {
  const starts = fields.get("dayStarts");
  // A day that begins at 24:00 is the next one from 00:00 on.
  return {
    drivers: fields.get("drivers"),
    dayStarts: starts === null ? null : starts % 1440,
  };
}
