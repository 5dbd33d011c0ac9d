/** What changed between two versions of a day, who must know it by when, and what is found that was not before. */
import type { Finding } from "../findings/finding.ts";
import { differenceOf } from "../repair/likeness.ts";
import type { Instant } from "../time/units.ts";
import { type Change, compareThings } from "./between.ts";
import { engineThings, type Version } from "./engines.ts";
import { type PersonChange, peopleOf } from "./people.ts";

export type { Version } from "./engines.ts";
export type { PersonChange } from "./people.ts";

/** What differs between two versions of a day, with what each person must be told and by when. */
export interface DayChanges {
  readonly fromRevision: number | null;
  readonly toRevision: number | null;
  readonly changes: readonly Change[];
  /** Everyone, by when they must be told; those for whom nothing changes last. */
  readonly people: readonly PersonChange[];
  readonly found: readonly Finding[];
  readonly gone: readonly Finding[];
  /** The earliest moment by which somebody must be told; null where no one must. */
  readonly decideBy: Instant | null;
}

/** Compares two versions of one day that were judged alike. */
export function dayChanges(older: Version, newer: Version): DayChanges {
  const { fromRevision, toRevision, changes } = compareThings(
    { day: older.day, more: engineThings(older) },
    { day: newer.day, more: engineThings(newer) },
  );
  const people = peopleOf(older, newer, changes);
  const { gone, brought } = differenceOf(older.findings, newer.findings);
  return {
    fromRevision,
    toRevision,
    changes,
    people,
    found: brought,
    gone,
    decideBy: people.find(({ tellBy }) => tellBy !== null)?.tellBy ?? null,
  };
}
