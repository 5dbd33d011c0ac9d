/** People in reports: their order, the vehicles that they ride or drive, and where a vehicle stands at a moment. */
import { aboardOf, type Day, type Move, type PersonDay } from "../../day/day.ts";
import type { Id } from "../../plan/plan.ts";
import type { Instant } from "../../time/index.ts";

/** Who is carried by a move: its riders, and on a ferry, which no one drives, everyone aboard. */
export const carriedBy = ({ leg, driver, riders }: Move): readonly Id[] =>
  leg.ferry === undefined ? riders : [driver, ...riders];

/** The ids of the drives on which someone rides. */
export const ridesOf = (day: Day, person: Id): ReadonlySet<Id> =>
  new Set(day.moves.filter((move) => aboardOf(move).includes(person)).map((move) => move.vehicle));

/** The place; null on the road, and for a vehicle without a run. */
export function whereIs(day: Day, vehicle: Id, at: Instant): Id | null {
  const stops = day.stops.filter((stop) => stop.vehicle === vehicle);
  const there = stops.find(({ arrive, leave }) => (arrive === null || arrive <= at) && (leave === null || at < leave));
  return there?.place ?? null;
}

/** The earliest call first, ties in plan order, whoever is not called last. */
export const inOrderOfCalls = (people: readonly PersonDay[]): readonly PersonDay[] =>
  people.toSorted((a, b) => (a.call ?? Number.MAX_SAFE_INTEGER) - (b.call ?? Number.MAX_SAFE_INTEGER));

/** Rows about people in the order of the calls of these people; who is not among them comes last. */
export function rowsByCall<Row>(
  rows: readonly Row[],
  whoseRow: (row: Row) => Id,
  people: readonly PersonDay[],
): readonly Row[] {
  const ranks = new Map(inOrderOfCalls(people).map(({ id }, at) => [id, at]));
  const rank = (row: Row): number => ranks.get(whoseRow(row)) ?? ranks.size;
  return rows.toSorted((a, b) => rank(a) - rank(b));
}
