/** The rest that a call needs under each rule set, and the rest that a log ends with, minute by minute. */
import { european, shortestRest } from "./europe.ts";
import { american, BERTH, type Minutes, OFF } from "./minutes.ts";
import { houseStatus } from "./others.ts";
import type { TriedOptions } from "./sets.ts";

/** Free minutes at the end of a log. */
function trailing(status: Uint8Array): number {
  let n = 0;
  while (n < status.length && (status[status.length - 1 - n] === OFF || status[status.length - 1 - n] === BERTH)) n++;
  return n;
}

type Rest = (m: Minutes, options: TriedOptions) => { readonly had: number; readonly needed: number };

const RESTS: ReadonlyMap<string, Rest> = new Map<string, Rest>([
  ["us-property", (m) => ({ had: trailing(american(m, 600, true)), needed: 600 })],
  ["us-passenger", (m) => ({ had: trailing(american(m, 480, false)), needed: 480 })],
  ["us-production", (m) => ({ had: trailing(american(m, 600, false)), needed: 480 })],
  ["ca-south", (m) => ({ had: trailing(american(m, 480, false)), needed: 480 })],
  ["eu", (m, { drivers }) => ({ had: trailing(european(m, false)), needed: shortestRest(m, drivers) })],
  ["eu-working-time", (m) => ({ had: trailing(european(m, true)), needed: 660 })],
  ["gb-domestic", () => ({ had: 0, needed: 0 })],
  ["house", (m) => ({ had: trailing(houseStatus(m)), needed: 600 })],
]);

/** Whether a log ends with a rest after which someone may be called to a new shift. */
export function endsRested(name: string, m: Minutes, options: TriedOptions): boolean {
  const rest = RESTS.get(name)?.(m, options);
  if (rest === undefined) throw new Error(name);
  return rest.had >= rest.needed;
}
