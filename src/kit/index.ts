/**
 * Is every piece where it is needed? The position of all gear at every instant, what is missing and until when it could
 * be moved, and tonight's loading by vehicle.
 */

import type { Day } from "../day/day.ts";
import type { Finding } from "../findings/finding.ts";
import type { JudgeInput, Judgement } from "../findings/judgement.ts";
import { groupBy } from "../lists.ts";
import type { Id } from "../plan/plan.ts";
import type { SkyResult } from "../sky/index.ts";
import { piecesOutOfService, type TooFew, tooFew, tooFewFinding } from "./counts.ts";
import { kitLeftBehind, kitMissing } from "./findings.ts";
import { kitItems } from "./items.ts";
import { type Loading, loadingOf } from "./loading.ts";
import { type MissingItem, missingItems } from "./missing.ts";
import { type PackStays, type Track, trackKit } from "./track.ts";

export type { TooFew } from "./counts.ts";
export type { Loading } from "./loading.ts";
export type { MissingItem } from "./missing.ts";
export { type ItemStay, type KitMove, type Track, trackKit } from "./track.ts";

/** Where pieces are over the day, what is missing, what is loaded when. */
export interface KitResult {
  /** Null only where there is no day. */
  readonly track: Track | null;
  readonly missing: readonly MissingItem[];
  readonly tooFew: readonly TooFew[];
  readonly loading: readonly Loading[];
}

/** Of several pieces one is put where one lacks, the others stay: `{ car: 1, van: 1 }`. */
function splitFor({ plan }: Day, { item, holder, lastMove }: MissingItem): string | null {
  const piece = plan.kit.get(item);
  if (piece === undefined || piece.count < 2 || piece.bays.size > 1 || lastMove === null) return null;
  return `{ ${holder}: ${piece.count - 1}, ${lastMove.into}: 1 }`;
}

function missingFinding(day: Day, missing: MissingItem): Finding {
  const { item, activities, place, holder, isAt, lastMove } = missing;
  const first = activities[0] ?? "";
  const path = day.plan.hits.get(first)?.path ?? day.plan.tasks.get(first)?.path ?? ["hits"];
  const facts = {
    item,
    for: missing.for,
    activities,
    place,
    holder,
    isAt,
    lastMove: lastMove === null ? null : { at: lastMove.at },
    lastPlace: lastMove?.place ?? null,
    into: lastMove?.into ?? null,
    split: splitFor(day, missing),
  };
  return kitMissing.raise(facts, { path, at: missing.neededFrom, otherwise: missing.by === "usual" });
}

/** Items that end the day at a place where no vehicle and no bed is. */
function leftBehind(day: Day, track: Track): readonly Finding[] {
  const kept = new Set<Id | null>([
    ...[...day.plan.runs.values()].map((run) => run.stops.at(-1)?.place ?? null),
    ...day.people.map((person) => person.sleeps),
  ]);
  if (day.moves.length === 0) return [];
  const lying = kitItems(day.plan).flatMap(({ id }) => {
    const place = day.plan.places.get(track.ends.get(id) ?? "");
    return place === undefined || kept.has(place.id) ? [] : [{ id, place }];
  });
  return [...groupBy(lying, (own) => own.place).entries()].map(([place, items]) =>
    kitLeftBehind.raise({ items: items.map(({ id }) => id), place: place.id }, { path: place.path }),
  );
}

/** Judges the gear of the last day of the chain; what is dark comes from the sky, where packs are from their rotation. */
export function assess({ days }: JudgeInput, sky: SkyResult, packs: PackStays | null = null): Judgement<KitResult> {
  const day = days.at(-1);
  const track = trackKit(days, packs);
  if (day === undefined || track === null)
    return { result: { track, missing: [], tooFew: [], loading: [] }, findings: [] };
  const missing = missingItems(day, sky, track);
  const few = tooFew(day, sky, track);
  return {
    result: { track, missing, tooFew: few, loading: loadingOf(day, track) },
    findings: [
      ...missing.map((own) => missingFinding(day, own)),
      ...few.map((own) => tooFewFinding(day, own)),
      ...piecesOutOfService(day, sky),
      ...track.findings,
      ...leftBehind(day, track),
    ],
  };
}
