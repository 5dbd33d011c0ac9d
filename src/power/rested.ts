/**
 * The rotation searched as a whole under people's rests: where the chores of the best one cannot be shared out so that every
 * rest stays what binds it, touches that stand in the way go, and the search goes on, by a counted budget.
 */
import type { Id } from "../plan/plan.ts";
import type { DayModel } from "./day/build.ts";
import { APART, crewMoves } from "./day/crewing.ts";
import { type Effort, restQuestions, searchWork } from "./fast/effort.ts";
import type { Model, PackMove } from "./model.ts";
import { type Solution, solve } from "./proof/solve.ts";
import { replay } from "./replay.ts";

/**
 * The best rotation found that somebody can do, each of its chores with those who do it: in duty, or right before a call or
 * after a release; only where that does not cover everything, apart from both as well.
 */
export async function crewed(built: DayModel, effort: Effort): Promise<Solution> {
  const { model } = built;
  const apart = model.touches.filter(({ burden }) => (burden ?? 0) >= APART).map(({ id }) => id);
  if (apart.length === 0) return shared(built, model, effort);
  const close = await shared(built, without(model, apart), { ...effort, quick: true });
  if (close.dropped.length === 0) return { ...close, model };
  const wide = await shared(built, model, effort);
  return wide.rotation.covered.length > close.rotation.covered.length
    ? wide
    : { ...close, model, dropped: wide.dropped, proof: { ...close.proof, coverage: wide.proof.coverage } };
}

/** The same with these touches. */
async function shared(built: DayModel, model: Model, effort: Effort): Promise<Solution> {
  const left = { questions: restQuestions(effort) };
  const sharing = { ...effort, left: searchWork(effort) };
  const open: (readonly Id[])[] = [[]];
  const seen = new Set<string>([""]);
  let best: Solution | null = null;
  let excluded: readonly Id[] = [];
  let whole = true;
  let most = Number.POSITIVE_INFINITY;
  for (let gone = open.shift(); gone !== undefined; gone = open.shift()) {
    const last = left.questions-- <= 0;
    const tried = last ? excluded : gone;
    const found = await solve(without(model, tried), sharing);
    most = Math.min(most, gone.length === 0 ? found.rotation.covered.length : most);
    const crewing = crewFor(built, found.rotation.moves);
    if (crewing.kind === "crewed") {
      const solution = named(model, found, crewing.chores);
      if (solution !== null && (best === null || better(solution, best))) best = solution;
      if (best !== null && (best.rotation.covered.length >= most || last)) break;
      continue;
    }
    excluded = [...new Set([...excluded, ...gone, ...crewing.touches])];
    if (last) {
      open.unshift(excluded);
      continue;
    }
    whole &&= crewing.touches.length > 0;
    for (const touch of byBurden(model, crewing.touches)) {
      const next = [...gone, touch].sort();
      if (seen.has(next.join(" "))) continue;
      seen.add(next.join(" "));
      open.push(next);
    }
  }
  if (best === null) throw new Error("no rotation can be shared out, not even none");
  const proved = left.questions >= 0 && whole;
  return best.rotation.covered.length >= most || proved
    ? best
    : {
        ...best,
        dropped: best.dropped.map((one) => ({ ...one, proved: false })),
        proof: { ...best.proof, coverage: "simulated" },
      };
}

/** Crews moves under the rests of a day. */
export const crewFor = (built: DayModel, moves: readonly PackMove[]) =>
  crewMoves(
    {
      touches: built.touches,
      rests: built.rests,
      swapMinutes: built.model.swapMinutes,
      mayAll: (who, own) => mayAll(built, who, own),
    },
    moves,
  );

/** Whether a person may touch every place of these moves. */
export function mayAll(
  { handBays, around }: DayModel,
  who: Id,
  moves: readonly Pick<PackMove, "from" | "to">[],
): boolean {
  const handsAt = (place: Id): readonly Id[] | null =>
    around.day.plan.chargers.get(place)?.hands ?? handBays.find((bay) => bay.id === place)?.hands ?? null;
  return moves.every(({ from, to }) => [from, to].every((place) => handsAt(place)?.includes(who) ?? true));
}

const without = (model: Model, gone: readonly Id[]): Model =>
  gone.length === 0 ? model : { ...model, touches: model.touches.filter(({ id }) => !gone.includes(id)) };

/** The most unwelcome first: those are tried without first. */
const byBurden = ({ touches }: Model, ids: readonly Id[]): readonly Id[] => {
  const burden = (id: Id): number => touches.find((touch) => touch.id === id)?.burden ?? 0;
  return ids.toSorted((a, b) => burden(b) - burden(a));
};

/** With the chores of people; null where what they do takes longer than was counted on and a use comes out short. */
function named(model: Model, found: Solution, chores: Solution["rotation"]["chores"]): Solution | null {
  const rotation = { ...found.rotation, chores };
  const played = replay(model, rotation);
  return played.faults.length > 0 ? null : { ...found, model, rotation, replay: played };
}

const better = (a: Solution, b: Solution): boolean =>
  a.rotation.covered.length > b.rotation.covered.length ||
  (a.rotation.covered.length === b.rotation.covered.length && a.rotation.chores.length < b.rotation.chores.length);
