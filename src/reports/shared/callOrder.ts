/** The one order of people in everything that is read: by call. */
import type { PersonDay } from "../../day/day.ts";

/** The earliest call first, ties in plan order, whoever is not called last. */
export const inOrderOfCalls = (people: readonly PersonDay[]): readonly PersonDay[] =>
  people.toSorted((a, b) => (a.call ?? Number.MAX_SAFE_INTEGER) - (b.call ?? Number.MAX_SAFE_INTEGER));
