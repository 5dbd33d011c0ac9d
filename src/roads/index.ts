/**
 * Will we make it, who drives, who sleeps?
 *
 * `legsOf` (before the Day) says how long every leg takes and how sure that is; `assess` (after it) the chance to be in
 * position for each hit, the fuel, the waits; `gapsOf` how far one can go between two hits; `proposeRelief` who drives.
 */

export { type Wait, waitsOf } from "../cautions/waits.ts";
export type { Leg, LegBasis, Legs } from "../legs/leg.ts";
export { legKey } from "../legs/leg.ts";
export { legsOf, NO_ANSWERS, type RoutedAnswer, type RoutedAnswers } from "../legs/legs.ts";
export { assess, type Onward, type RoadsResult } from "./assess.ts";
export { type GapPlace, gapsOf } from "./gaps.ts";
export type { ReliefProposal } from "./relief/propose.ts";
