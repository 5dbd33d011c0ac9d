/** A position in a plan's text, and the lengths that a chain is made of, as JSON states them. */
import type { DayTerm } from "../../day/day.ts";
import { inFile, type PlanPath, type Span } from "../../findings/finding.ts";
import { dotted } from "../../plan/text/pathtext.ts";
import { kept, object } from "./columns.ts";
import type { DayView } from "./dayView.ts";
import { isoKind, type Kind, orNull, said, textKind, wholeKind } from "./kinds.ts";
import { isoEnds } from "./stamps.ts";

/** A place in a text; the plan's file stands for a text without a name. */
export interface TextSpot {
  readonly path: PlanPath | null;
  readonly span: Span | null;
  readonly file: string | null;
}

const spot = object<TextSpot, unknown>()({
  // Positions in a text without a name are those of `<stdin>`.
  file: kept(orNull(textKind), ({ span, file }) =>
    span === null || (file === null && span.file.startsWith("<")) ? file : span.file,
  ),
  line: kept(orNull(wholeKind), ({ span }) => inFile(span)?.line ?? null),
  column: kept(orNull(wholeKind), ({ span }) => inFile(span)?.column ?? null),
  path: kept(said(orNull(textKind), "as --set takes it"), ({ path }) => (path === null ? null : dotted(path))),
});

/** Where in which text; null for what is nowhere. */
export const where: Kind<TextSpot | null, unknown> = orNull(spot);

/** Where in a text something stands; null where that is not known. */
export const textSpotOf = (path: PlanPath | null, span: Span | null, file: string | null): TextSpot | null =>
  path === null && span === null ? null : { path, span, file };

/** A path of the day's plan. */
export const planSpot = (path: PlanPath | null, { day: { plan } }: DayView): TextSpot | null =>
  path === null ? null : textSpotOf(path, plan.source.locate(path), plan.file);

/** A stretch of a row of stretches, with both ends as text. */
export interface StretchTexts<T> {
  readonly one: T;
  readonly from: string;
  readonly to: string;
}

/** A row of stretches with the ends that `isoEnds` tells. */
export const stretches = <T extends Parameters<typeof isoEnds>[1][number]>(
  row: readonly T[],
  { day }: DayView,
): readonly StretchTexts<T>[] => {
  const ends = isoEnds(day.plan, row);
  return row.flatMap((one, at) => (ends[at] === undefined ? [] : [{ one, ...ends[at] }]));
};

/** One length in a chain; terms add up. */
export const termKind = object<StretchTexts<DayTerm>, DayView>()({
  name: kept(textKind, ({ one }) => one.name),
  from: isoKind,
  to: isoKind,
  minutes: kept(wholeKind, ({ one }) => one.minutes),
  where: kept(where, ({ one }, view) => planSpot(one.where, view)),
});
