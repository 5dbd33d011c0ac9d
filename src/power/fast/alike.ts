/** Packs that are alike: whichever of them takes which path is the same, so those named first in the plan are in use first. */
import type { ModelPack } from "../model.ts";
import type { Board } from "../proof/searchState.ts";
import type { PackPath } from "./packPath.ts";
import { placeIn } from "./toll.ts";

/** The same paths, shared out among packs that are alike in the order of the plan: who leaves its first place earlier comes first. */
export function inPlanOrder(board: Board, paths: readonly PackPath[]): readonly PackPath[] {
  const taken = new Map<string, PackPath[]>();
  for (const path of paths) {
    const kind = kindOf(board.model.packs[path.pack]);
    taken.set(kind, [...(taken.get(kind) ?? []), path]);
  }
  for (const group of taken.values()) group.sort((a, b) => compare(board, a, b));
  return paths.map(({ pack }) => {
    const next = taken.get(kindOf(board.model.packs[pack]))?.shift();
    if (next === undefined) throw new RangeError("no path is left for a pack");
    return { ...next, pack };
  });
}

/** The number of the first pack that is like it, for each pack. */
export function firstAlike({ packs }: Board["model"]): readonly number[] {
  const kinds = packs.map(kindOf);
  return kinds.map((kind) => kinds.indexOf(kind));
}

/** Everything of a pack but its name. */
function kindOf(pack: ModelPack | undefined): string {
  const { id: _, ...kind } = pack ?? { id: null };
  return JSON.stringify(kind);
}

function compare(board: Board, a: PackPath, b: PackPath): number {
  const start = placeIn(board, a, 0);
  for (let k = 0; k < board.spans; k++) {
    const [own, other] = [placeIn(board, a, k), placeIn(board, b, k)];
    if (own !== other) return own === start ? 1 : other === start ? -1 : own - other;
  }
  return a.pack - b.pack;
}
