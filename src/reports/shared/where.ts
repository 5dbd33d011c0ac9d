/** A position in a plan's text, and the lengths that a chain is made of, as JSON states them. */
import type { DayTerm } from "../../day/day.ts";
import { inFile, type PlanPath, type Span } from "../../findings/finding.ts";
import { dotted } from "../../plan/text/pathtext.ts";
import { kept, object } from "./columns.ts";
import type { DayView } from "./dayView.ts";
import { iso, type Kind, orNull, said, text, whole } from "./kinds.ts";
import { isoEnds } from "./stamps.ts";

/** A place in a text; the plan's file stands for a text without a name. */
export interface Spot {
  readonly path: PlanPath | null;
  readonly span: Span | null;
  readonly file: string | null;
}

const spot = object<Spot, unknown>({
  // Positions in a text without a name are those of `<stdin>`.
  file: kept(orNull(text), ({ span, file }) =>
    span === null || (file === null && span.file.startsWith("<")) ? file : span.file,
  ),
  line: kept(orNull(whole), ({ span }) => inFile(span)?.line ?? null),
  column: kept(orNull(whole), ({ span }) => inFile(span)?.column ?? null),
  path: kept(said(orNull(text), "as --set takes it"), ({ path }) => (path === null ? null : dotted(path))),
});

/** Where in which text; null for what is nowhere. */
export const where: Kind<Spot | null, unknown> = orNull(spot);

export const spotOf = (path: PlanPath | null, span: Span | null, file: string | null): Spot | null =>
  path === null && span === null ? null : { path, span, file };

/** A path of the day's plan. */
export const planSpot = (path: PlanPath | null, { day: { plan } }: DayView): Spot | null =>
  path === null ? null : spotOf(path, plan.source.locate(path), plan.file);

/** A stretch of a row of stretches, with both ends as text. */
export interface Stretch<T> {
  readonly one: T;
  readonly from: string;
  readonly to: string;
}

/** A row of stretches with the ends that `isoEnds` tells. */
export const stretches = <T extends Parameters<typeof isoEnds>[1][number]>(
  row: readonly T[],
  { day }: DayView,
): readonly Stretch<T>[] => {
  const ends = isoEnds(day.plan, row);
  return row.flatMap((one, at) => (ends[at] === undefined ? [] : [{ one, ...ends[at] }]));
};

/** One length in a chain; terms add up. */
export const term = object<Stretch<DayTerm>, DayView>({
  name: kept(text, ({ one }) => one.name),
  from: kept(iso, ({ from }) => from),
  to: kept(iso, ({ to }) => to),
  minutes: kept(whole, ({ one }) => one.minutes),
  where: kept(where, ({ one }, view) => planSpot(one.where, view)),
});
