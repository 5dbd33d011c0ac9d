/** How many pieces of a kind are in use at once, against how many there are and work. */
import type { ActivityTimes, Day } from "../day/day.ts";
import type { Finding } from "../findings/finding.ts";
import { groupBy, sumOf } from "../lists.ts";
import type { Id, Piece } from "../plan/plan.ts";
import type { SkyResult } from "../sky/index.ts";
import type { Instant } from "../time/units.ts";
import { eachOf, needersOf } from "./each.ts";
import { kitBroken, kitTooFew } from "./findings.ts";
import { piecesOf } from "./items.ts";
import { isThere, useSpan } from "./missing.ts";
import { canStandIn, type Need, needsOf } from "./needs.ts";
import type { Track } from "./track.ts";

/** One crew's use of a kind of piece. */
interface Use {
  readonly item: Id;
  readonly by: Need["by"];
  readonly times: ActivityTimes;
  /** One for the work itself, for an accessory one for each piece that carries it, and of some kinds one for each person. */
  readonly pieces: number;
}

/**
 * Pieces that are named, with what those carry. What only a word such as `hits` asks for is shared, unless each person
 * needs one, or one crew alone needs several.
 */
function usesOf(day: Day, sky: SkyResult): readonly Use[] {
  return day.activities.flatMap((times) => {
    const needs = needsOf(day, sky, times);
    return needs
      .map(({ item, by }) => ({ item, by, times, pieces: piecesFor(day, needs, item, times) }))
      .filter(({ item, by, pieces }) => by === "stated" || pieces > 1 || isEach(day, item));
  });
}

const isEach = ({ plan }: Day, item: Id): boolean => {
  const piece = plan.kit.get(item);
  return piece !== undefined && eachOf(piece) !== null;
};

/** How many of a kind one crew needs; `open` are the kinds that it is already counted for. */
function piecesFor(day: Day, needs: readonly Need[], item: Id, times: ActivityTimes, open: readonly Id[] = []): number {
  const { kit } = day.plan;
  const piece = kit.get(item);
  if (piece !== undefined && eachOf(piece) !== null) return Math.max(1, needersOf(day, piece, times).length);
  const carriers = needs.flatMap((need) => {
    const carrier = need.item === item || open.includes(need.item) ? undefined : kit.get(need.item);
    return carrier?.needs.includes(item) === true ? [{ carrier, by: need.by }] : [];
  });
  const carried = sumOf(withoutStandIns(carriers), (carrier) => {
    return timesIn(carrier.needs, item) * piecesFor(day, needs, carrier.id, times, [...open, item]);
  });
  return Math.max(1, timesIn(times.activity.needs, item), carried);
}

const timesIn = (ids: readonly Id[], item: Id): number => ids.filter((id) => id === item).length;

/** Of pieces that do the same, and that only a word asks for, one is used. */
const withoutStandIns = (carriers: readonly { readonly carrier: Piece; readonly by: Need["by"] }[]): readonly Piece[] =>
  carriers
    .filter(({ carrier, by }, at) => {
      const earlier = carriers.slice(0, at);
      return by === "stated" || !earlier.some((other) => other.by === by && canStandIn(carrier, other.carrier));
    })
    .map(({ carrier }) => carrier);

/** A piece is in use from when its crew is in position, as the pack on it is. */
const inUseFrom = ({ inPosition, start }: ActivityTimes): Instant | null => inPosition ?? start;

/** Two that share a person are one after the other, whatever their times say. */
function isAtOnce({ times: a }: Use, { times: b }: Use): boolean {
  const [fromA, fromB] = [inUseFrom(a), inUseFrom(b)];
  if (fromA === null || fromB === null || a.end === null || b.end === null) return false;
  return fromA < b.end && fromB < a.end && !a.who.some((who) => b.who.includes(who));
}

/** The use with those at the same time that together need most; what crews may share, each uses alone. */
function busiest(day: Day, uses: readonly Use[]): readonly Use[] {
  const isShared = (one: Use): boolean => one.by === "usual" && !isEach(day, one.item);
  const crowds = uses.map((one) => [
    one,
    ...uses.filter((other) => other !== one && !isShared(one) && !isShared(other) && isAtOnce(one, other)),
  ]);
  const [worst = []] = crowds.toSorted((a, b) => piecesOfUses(b) - piecesOfUses(a));
  return worst;
}

const piecesOfUses = (uses: readonly Use[]): number => sumOf(uses, ({ pieces }) => pieces);

/** Kinds that do the same where only a word asks for them; the kind itself where it is named. */
function likeOf({ plan }: Day, piece: Piece, by: Need["by"]): readonly Piece[] {
  if (by === "stated") return [piece];
  return [...plan.kit.values()].filter(
    (other) => other.id === piece.id || (eachOf(other) !== null && canStandIn(piece, other)),
  );
}

/** A kind of which more are needed at once than there are. */
export interface TooFew {
  readonly item: Id;
  readonly needed: number;
  readonly there: number;
  /** Where so few of them are; null where there are no more of them at all. */
  readonly place: Id | null;
  readonly activities: readonly Id[];
  readonly from: Instant | null;
  /** Whether each person needs one, as the plan says or as its name does. */
  readonly each: ReturnType<typeof eachOf>;
  readonly by: Need["by"];
}

/** Kinds of which more are needed at once than there are, in all or at one place; each once, at the moment at which most are. */
export function tooFew(day: Day, sky: SkyResult, track: Track): readonly TooFew[] {
  const kinds = groupBy(usesOf(day, sky), ({ item }) => item);
  return [...kinds].flatMap(([item, uses]) => {
    const piece = day.plan.kit.get(item);
    if (piece === undefined) return [];
    const like = likeOf(day, piece, uses.every(({ by }) => by === "usual") ? "usual" : "stated");
    if (like[0] !== piece) return [];
    const all = busiest(day, uses);
    const count = sumOf(like, (own) => own.count);
    if (piecesOfUses(all) > count) return [shortage(piece, all, count, null)];
    for (const own of groupBy(uses, ({ times }) => times.place).values()) {
      const here = busiest(day, own);
      const there = countAt(track, like, here);
      const { place = null } = here[0]?.times ?? {};
      // None at all is a piece that is missing.
      if (place !== null && there > 0 && there < piecesOfUses(here)) return [shortage(piece, here, there, place)];
    }
    return [];
  });
}

/** Pieces of these kinds that are where a crew is when it needs them. */
function countAt(track: Track, kinds: readonly Piece[], [first]: readonly Use[]): number {
  const use = first === undefined ? null : useSpan(first.times);
  if (first === undefined || use === null) return 0;
  return sumOf(kinds.flatMap(piecesOf), ({ id, count }) => {
    const stay = track.at(id, use.from);
    return stay !== null && isThere(stay, first.times) ? count : 0;
  });
}

const shortage = (piece: Piece, uses: readonly Use[], there: number, place: Id | null): TooFew => ({
  ...{ item: piece.id, needed: piecesOfUses(uses), there, place },
  activities: uses.map(({ times }) => times.id),
  from: uses[0]?.times.start ?? null,
  each: eachOf(piece),
  by: uses.every(({ by }) => by === "usual") ? "usual" : "stated",
});

/** What is too few, as a finding: a warning if only a word or a name asks for so many. */
export function tooFewFinding(day: Day, { from, by, ...facts }: TooFew): Finding {
  const path = day.plan.kit.get(facts.item)?.path ?? ["kit", facts.item];
  const where = { path, otherwise: facts.each === "known" || by === "usual" };
  return kitTooFew.raise(facts, from === null ? where : { ...where, at: from });
}

/** Pieces that are needed while the plan has them out of service, and that none of their like stands in for. */
export function piecesOutOfService(day: Day, sky: SkyResult): readonly Finding[] {
  const { kit } = day.plan;
  const isBroken = (item: Id, activity: ActivityTimes): boolean => {
    const broken = kit.get(item)?.broken ?? null;
    const use = useSpan(activity);
    return broken !== null && use !== null && broken.from < use.to && (broken.to === null || use.from < broken.to);
  };
  return day.activities.flatMap((activity) =>
    needsOf(day, sky, activity).flatMap(({ item, by }) => {
      const piece = kit.get(item);
      if (piece === undefined || !isBroken(item, activity)) return [];
      const like = [...kit.values()].some(
        (other) => other.id !== item && canStandIn(piece, other) && !isBroken(other.id, activity),
      );
      if (by === "usual" && like) return [];
      const where = { path: [...piece.path, "broken"], otherwise: by === "usual" };
      return [kitBroken.raise({ item, activity: activity.id }, where)];
    }),
  );
}
