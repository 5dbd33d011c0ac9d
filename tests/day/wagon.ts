/** A crew of two with one wagon between home, pier and cove: what the readings of the Day are shown on. */
import { at, type Description, dayOf } from "./make.ts";

export const CREW: Description["crew"] = { wren: { drives: ["wagon"] }, ilse: {} };
export const ROADS: Description["roads"] = { "home pier": [30, 40], "pier cove": [20, 25], "home cove": [45, 60] };
export const HIT = (clock: string, more: object = {}) => ({ at: at(clock), forMinutes: 5, in: "pier", ...more });

/** One wagon from home to the pier (and on) and home. */
export const day = (
  more: Partial<Description>,
  stops: Description["runs"][string]["stops"] = ["home", "pier", "home"],
) => dayOf({ crew: CREW, roads: ROADS, runs: { wagon: { stops } }, ...more });
