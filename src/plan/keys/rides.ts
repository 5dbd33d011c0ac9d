/** `rides`: legs by others: flight, taxi, shuttle. */

import { windowBackwards } from "../findings.ts";
import type { Id, Ride } from "../plan.ts";
import type { Fields } from "../read/fields.ts";
import { entry } from "../shape/form.ts";
import { id, length, text, time, who } from "../shape/leaves.ts";
import { mistaken } from "../values/parsed.ts";

export const rideForm = entry(
  "a ride: { from: airport, to: home, leave: 16:35 local, arrive: 20:10 local, who: [wren] }",
  {
    from: [id, "where it leaves"],
    to: [id, "where it arrives"],
    leave: [time, "when it leaves; `local` is the clock of `from`"],
    arrive: [time, "when it arrives; `local` is the clock of `to`"],
    who: [who, "who rides"],
  },
  {
    lead: [length, "to be there this long before it leaves"],
    by: [text, "air, taxi, shuttle, …; air raises the rules for carrying batteries"],
  },
);

type RideFields = Fields<(typeof rideForm.keys)[number]>;

export function readRide(fields: RideFields, rideId: Id): Ride | null {
  const [from, to] = [fields.id("from", "place"), fields.id("to", "place")];
  const [leave, arrive] = [fields.time("leave", from), fields.time("arrive", to)];
  const rest = {
    id: rideId,
    path: fields.path,
    who: fields.who("who") ?? [],
    leadMinutes: fields.length("lead") ?? 0,
    by: fields.text("by"),
  };
  if (from === null || to === null || leave === null || arrive === null) return null;
  if (arrive <= leave) {
    const said = fields.text("arrive") ?? "";
    const facts = { from: fields.text("leave") ?? "", to: said, nextDay: `${said} +1d` };
    fields.reading.take(
      fields.at("arrive"),
      mistaken((c) => windowBackwards.raise(facts, c)),
    );
  }
  return { ...rest, from, to, leave, arrive };
}
