/** The one order of people in everything that is read: by call. */
import type { PersonDay } from "../../day/day.ts";
import type { Id } from "../../plan/plan.ts";

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
