/** `rides`: legs by others: flight, taxi, shuttle. */

import { entry, type FieldsOf, type ModelOf } from "../shape/entry.ts";
import { flag, turned } from "../shape/form.ts";
import { length, text } from "../shape/leaves.ts";
import { idOf, whoOrNone } from "../shape/named.ts";
import { isForward, time } from "../shape/spans.ts";
import type { Entity, Id } from "../terms.ts";

/** A ride of the section `rides`. */
export const rideForm = entry(
  "a ride: { from: airport, to: home, leave: 16:35 local, arrive: 20:10 local, who: [wren] }",
  {
    from: [idOf("place"), "where it leaves", { example: "airport" }],
    to: [idOf("place"), "where it arrives", { example: "home" }],
    leave: [time, "when it leaves; `local` is the clock of `from`", { local: "from" }],
    arrive: [time, "when it arrives; `local` is the clock of `to`", { local: "to" }],
    who: [whoOrNone, "who rides"],
  },
  {
    lead: [turned(length, (lead) => lead ?? 0), "to be there this long before it leaves", { as: "leadMinutes" }],
    by: [text, "air, ferry, taxi, shuttle, …; air raises the rules for carrying batteries", { example: "air" }],
    bunk: [flag, "whether they have a bunk, on a ferry", { byDefault: "false" }],
  },
);

/** A leg by others; `by` is a word of the crew's own, of which `air` and `ferry` have a meaning. */
export type Ride = Entity & ModelOf<typeof rideForm>;

/** Reads a ride; null where an end or a time is missing. */
export function readRide(fields: FieldsOf<typeof rideForm>, rideId: Id): Ride | null {
  const ride = fields.entity(rideId);
  if (ride !== null) isForward(fields, "leave", "arrive");
  return ride;
}
