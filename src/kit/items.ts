/** Everything that is carried: pieces of kit, packs, chargers; and where each is as a day begins. */
import type { Day } from "../day/day.ts";
import type { PlanPath } from "../findings/finding.ts";
import type { Id, Piece, Plan } from "../plan/plan.ts";

/** A piece, pack or charger as something carried. */
export interface KitItem {
  readonly id: Id;
  /** What it is listed under: the group of a pack, else the id itself. */
  readonly group: Id;
  readonly count: number;
  /** The vehicle or place the plan puts it in. */
  readonly in: Id;
  readonly path: PlanPath;
}

/** One item a bay where pieces of one kind start in several: `cam.car`, `cam.van`. */
export const piecesOf = (piece: Piece): readonly KitItem[] =>
  piece.bays.size < 2
    ? [{ ...piece, group: piece.id }]
    : [...piece.bays].map(([bay, count]) => ({
        ...{ id: `${piece.id}.${bay}`, group: piece.id, count, in: bay, path: piece.path },
      }));

/** Pieces, packs and chargers, in plan order. */
export const kitItems = (plan: Plan): readonly KitItem[] => [
  ...[...plan.kit.values()].flatMap(piecesOf),
  ...[...plan.packs.values()].map((pack) => ({ ...pack, count: 1 })),
  ...[...plan.chargers.values()].map((charger) => ({ ...charger, group: charger.id, count: 1 })),
];

/** True where the day's own file says where the item is, and not only what all days share. */
function isStatedToday(plan: Plan, item: KitItem): boolean {
  const span = plan.source.locate([...item.path, "in"]);
  return span === null || plan.file === null || span.file === plan.file;
}

/**
 * Where each item is as the day begins: where the day's own file puts it, else where the day before left it, else where
 * the shared file puts it.
 */
export function startsOf({ plan }: Day, before: ReadonlyMap<Id, Id>): ReadonlyMap<Id, Id> {
  return new Map(
    kitItems(plan).map((item) => [item.id, isStatedToday(plan, item) ? item.in : (before.get(item.id) ?? item.in)]),
  );
}
