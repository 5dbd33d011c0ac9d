/** Where tomorrow's gear begins: what today's own text puts elsewhere than where the day leaves it is written anew. */
import { type Edit, type Id, type Plan, states } from "../plan/index.ts";

/** The vehicle or place where each piece, pack and charger ends the day. */
export type GearEnds = ReadonlyMap<Id, Id>;

/** Edits of `in` of pieces, packs and chargers that end the day elsewhere than the plan's own text puts them. */
export function gearEdits(plan: Plan, text: string, ends: GearEnds): readonly Edit[] {
  const isOwn = (path: Edit["path"]): boolean => states(text, path, plan.file);
  const endOf = (id: Id, stated: Id): Id => {
    const end = ends.get(id);
    return end !== undefined && (plan.vehicles.has(end) || plan.places.has(end)) ? end : stated;
  };
  const moved = (path: Edit["path"], id: Id, stated: Id): readonly Edit[] =>
    endOf(id, stated) === stated || !isOwn(path) ? [] : [{ path, value: endOf(id, stated) }];
  const pieces = [...plan.kit.values()].flatMap((piece): readonly Edit[] => {
    const path = ["kit", piece.id, "in"];
    if (piece.bays.size < 2) return moved(path, piece.id, piece.in);
    const counts = new Map<Id, number>();
    for (const [bay, count] of piece.bays) {
      const end = endOf(`${piece.id}.${bay}`, bay);
      counts.set(end, (counts.get(end) ?? 0) + count);
    }
    const isSame = [...piece.bays].every(([bay, count]) => counts.get(bay) === count);
    const value = `{ ${[...counts].map(([bay, count]) => `${bay}: ${count}`).join(", ")} }`;
    return isSame || !isOwn(path) ? [] : [{ path, value }];
  });
  const packs = [...new Set([...plan.packs.values()].map(({ group }) => group))].flatMap((group) => {
    const single = (id: Id): Edit["path"] => ["packs", group, "own", id, "in"];
    const all = [...plan.packs.values()].filter((pack) => pack.group === group);
    const [alone, together] = [all.filter(({ id }) => isOwn(single(id))), all.filter(({ id }) => !isOwn(single(id)))];
    const places = new Set(together.map((pack) => endOf(pack.id, pack.in)));
    const [first] = together;
    const shared = !isOwn(["packs", group, "in"]) || first === undefined;
    return [
      ...alone.flatMap((pack) => moved(single(pack.id), pack.id, pack.in)),
      ...(shared
        ? []
        : places.size === 1
          ? moved(["packs", group, "in"], first.id, first.in)
          : together.flatMap((pack): readonly Edit[] => {
              const end = endOf(pack.id, pack.in);
              return end === pack.in ? [] : [{ path: single(pack.id), value: end }];
            })),
    ];
  });
  const chargers = [...plan.chargers.values()].flatMap((one) => moved(["chargers", one.id, "in"], one.id, one.in));
  return [...pieces, ...packs, ...chargers];
}
