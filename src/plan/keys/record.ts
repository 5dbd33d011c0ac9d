/** What a log and a vehicle both state of the record: who shares the wheel, and when its days begin. */
import type { Declarations } from "../shape/entry.ts";
import { turned } from "../shape/form.ts";
import { clock, oneOrTwo } from "../shape/leaves.ts";

/** The keys that a vehicle and the options of a log have in common. */
export const recordKeys = {
  drivers: [
    oneOrTwo("a number of drivers"),
    "2 claims that two share the wheel: multi-manning (561/2006 Art 8(5)), a team's berth split (SOR/2005-313 s. 19); its conditions are printed",
    { example: "2" },
  ],
  dayStarts: [
    // Minutes after midnight, 0 to 1439: a day that begins at 24:00 is the next one from 00:00 on.
    turned(clock, (starts) => (starts === null ? null : starts % 1440)),
    "the clock time at which the carrier's days begin (49 CFR 395.8, SOR/2005-313 s. 1); midnight if none is stated",
  ],
} as const satisfies Declarations;
