/** A flight does not wait: how long before it somebody must be there is asked for, as nothing else in the plan says it. */
import { leadUnstated } from "../findings.ts";
import type { Body } from "../read/body.ts";
import type { Reading } from "../read/reading.ts";
import { nodeAt } from "../text/tree.ts";

/** Says of each flight without `lead` that its people are planned to come as it leaves. */
export function checkFlights(reading: Reading, { rides }: Pick<Body, "rides">): void {
  for (const { id, by, leadMinutes, path } of rides.values()) {
    if (by !== "air" || leadMinutes > 0 || nodeAt(reading.root, [...path, "lead"]) !== null) continue;
    reading.mistake(path, (c) => leadUnstated.raise({ ride: id }, c));
  }
}
