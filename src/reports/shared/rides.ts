/** The vehicles that a person rides or drives in a day. */
import type { Day, Move } from "../../day/day.ts";
import type { Id } from "../../plan/plan.ts";

/** Who is carried by a move: its riders, and on a ferry, which nobody drives, everyone aboard. */
export const carriedBy = ({ leg, driver, riders }: Move): readonly Id[] =>
  leg.ferry === undefined ? riders : [driver, ...riders];

/** The ids of the drives on which someone rides. */
export const ridesOf = (day: Day, person: Id): ReadonlySet<Id> =>
  new Set(
    day.moves.filter((move) => move.driver === person || move.riders.includes(person)).map((move) => move.vehicle),
  );
