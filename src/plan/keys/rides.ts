/** `rides`: legs by others: flight, taxi, shuttle. */

import type { Id, Ride } from "../plan.ts";
import { type FieldsOf, refuseBackwards } from "../read/fields.ts";
import { entry, flag } from "../shape/form.ts";
import { idOf, length, text, time, who } from "../shape/leaves.ts";

/** A ride of the section `rides`. */
export const rideForm = entry(
  "a ride: { from: airport, to: home, leave: 16:35 local, arrive: 20:10 local, who: [wren] }",
  {
    from: [idOf("place"), "where it leaves", { example: "airport" }],
    to: [idOf("place"), "where it arrives", { example: "home" }],
    leave: [time, "when it leaves; `local` is the clock of `from`"],
    arrive: [time, "when it arrives; `local` is the clock of `to`"],
    who: [who, "who rides"],
  },
  {
    lead: [length, "to be there this long before it leaves"],
    by: [text, "air, ferry, taxi, shuttle, …; air raises the rules for carrying batteries", { example: "air" }],
    bunk: [flag, "whether they have a bunk, on a ferry", { byDefault: "false" }],
  },
);

type RideFields = FieldsOf<typeof rideForm>;

/** Reads a ride; null where an end or a time is missing. */
export function readRide(fields: RideFields, rideId: Id): Ride | null {
  const [from, to] = [fields.id("from"), fields.id("to")];
  const [leave, arrive] = [fields.time("leave", from), fields.time("arrive", to)];
  const rest = {
    id: rideId,
    path: fields.path,
    who: fields.who("who") ?? [],
    leadMinutes: fields.get("lead") ?? 0,
    by: fields.text("by"),
    bunk: fields.get("bunk"),
  };
  if (from === null || to === null || leave === null || arrive === null) return null;
  if (arrive <= leave) {
    refuseBackwards(fields.reading, fields.at("arrive"), fields.text("leave") ?? "", fields.text("arrive") ?? "");
  }
  return { ...rest, from, to, leave, arrive };
}
