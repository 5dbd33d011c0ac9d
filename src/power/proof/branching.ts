/**
 * From fractions to a rotation: fix the path that the program uses most, price again, solve again, a few steps back where
 * that fails; at every step the fast rotation tries to finish what is fixed.
 */
import { coverAll } from "../fast/fast.ts";
import type { PackPath } from "../fast/packPath.ts";
import type { Random } from "../fast/random.ts";
import { lacking, pathsFit, totalMoves } from "../fast/seats.ts";
import { CLEAR, type MasterAnswer, type MasterQuery, solveMaster } from "./columnGeneration.ts";

/** What branching needs: chance and steps left. */
export interface DiveQuery extends Omit<MasterQuery, "fixed"> {
  readonly random: Random;
  /** Steps left, shared by the whole dive. */
  readonly steps: { left: number };
  /** Only a rotation with fewer moves than this will do. */
  readonly fewerThan: number;
}

/** Other paths tried at one step. */
const BRANCHES = 3;

/** A rotation under the program's guidance from its root answer on, or null where none was found. */
export function dive(query: DiveQuery, root: MasterAnswer): PackPath[] | null {
  const none: readonly null[] = query.paths.board.model.packs.map(() => null);
  return descend(query, none, root);
}

function descend(query: DiveQuery, fixed: readonly (PackPath | null)[], answer: MasterAnswer): PackPath[] | null {
  if (answer.kind !== "open" || answer.movesBound >= query.fewerThan) return null;
  const whole = finish(query, fixed, answer);
  if (whole !== null) return whole;
  // Of packs that are alike one is as good as another.
  const open = answer.shares.filter(({ path }) => fixed[path.pack] === null);
  const choices = [...new Map(open.toReversed().map((one) => [one.path.spots, one])).values()].toReversed();
  for (const { path } of choices.slice(0, BRANCHES)) {
    if (query.steps.left-- <= 0) return null;
    const next = fixed.map((one, pack) => (pack === path.pack ? path : one));
    const found = next.every((one) => one !== null)
      ? accept(query, next)
      : descend(query, next, solveMaster({ ...query, fixed: next }));
    if (found !== null) return found;
  }
  return null;
}

/** Takes what the program is sure of and lets the fast rotation place the rest. */
function finish(query: DiveQuery, fixed: readonly (PackPath | null)[], answer: MasterAnswer): PackPath[] | null {
  const { paths, marginWh, random } = query;
  const clear = fixed.map(
    (one, pack) => one ?? answer.shares.find(({ path, share }) => path.pack === pack && share > CLEAR)?.path ?? null,
  );
  if (clear.every((one) => one !== null)) return accept(query, clear);
  if (query.moveCost === 1) return null;
  const start = pathsFit(
    paths.board,
    clear.filter((one) => one !== null),
  )
    ? clear
    : fixed;
  return coverAll({ paths, marginWh, random, rounds: 10, until: query.budget.until }, start);
}

function accept(query: DiveQuery, paths: readonly PackPath[]): PackPath[] | null {
  const { board, wanted } = query.paths;
  const good =
    pathsFit(board, paths) && lacking(board, wanted, paths).length === 0 && totalMoves(paths) < query.fewerThan;
  return good ? [...paths] : null;
}
