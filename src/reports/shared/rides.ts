/** The vehicles that a person rides or drives in a day. */
import type { Day } from "../../day/day.ts";
import type { Id } from "../../plan/plan.ts";

/** The ids of the drives on which someone rides. */
export const ridesOf = (day: Day, person: Id): ReadonlySet<Id> =>
  new Set(
    day.moves.filter((move) => move.driver === person || move.riders.includes(person)).map((move) => move.vehicle),
  );
