/** One person alone where no one can be reached. */
import type { Day, Move } from "../day/day.ts";
import type { Finding } from "../findings/finding.ts";
import type { Id } from "../plan/plan.ts";
import { type Interval, joined, overlap } from "../time/units.ts";
import { alone } from "./findings.ts";

interface Stay extends Interval {
  readonly who: Id;
  readonly place: Id;
}

/** What people do at places without signal, each stretch joined to the one after it. */
const stays = (day: Day): readonly Stay[] =>
  day.people.flatMap(({ id, spans }) => {
    const silent = spans.flatMap(({ place, from, to }) =>
      place === null || day.plan.places.get(place)?.signal !== "none" ? [] : [{ who: id, place, from, to }],
    );
    return joined(silent, (a, b) => a.place === b.place);
  });

/** Shorter than this, somebody only comes after or goes before the others, minutes. */
const LONG = 10;

/** The longest stretch of a stay during which no one else is there; null where there is none of some length. */
function aloneIn(stay: Stay, all: readonly Stay[]): Interval | null {
  const others = all
    .filter(({ who, place }) => who !== stay.who && place === stay.place)
    .filter((other) => overlap(other, stay) > 0)
    .toSorted((a, b) => a.from - b.from);
  let longest: Interval | null = null;
  let from = stay.from;
  const offer = (to: Interval["to"]): void => {
    if (to - from >= LONG && (longest === null || to - from > longest.to - longest.from)) longest = { from, to };
  };
  for (const other of others) {
    if (other.from > from) offer(other.from);
    if (other.to > from) from = other.to;
  }
  if (stay.to > from) offer(stay.to);
  return longest;
}

/** Another vehicle takes the same road at about the same time, and sees whoever is in trouble. */
const isInConvoy = (move: Move, all: readonly Move[]): boolean =>
  all.some(
    (other) =>
      other.vehicle !== move.vehicle &&
      other.from === move.from &&
      other.to === move.to &&
      Math.abs(other.leave - move.leave) <= LONG,
  );

/** One for each person and place; a drive alone without signal counts as well. */
export function aloneCautions(day: Day): readonly Finding[] {
  const all = stays(day);
  const standing = all.flatMap((stay): readonly Finding[] => {
    const found = aloneIn(stay, all);
    if (found === null) return [];
    const facts = { who: stay.who, place: stay.place, to: null, from: { at: found.from }, until: { at: found.to } };
    return [
      alone.raise(facts, { who: stay.who, at: found.from, path: day.plan.places.get(stay.place)?.path ?? ["places"] }),
    ];
  });
  const driving = day.moves
    .filter((move) => move.leg.noSignal && move.riders.length === 0 && !isInConvoy(move, day.moves))
    .map((move) => {
      const facts = {
        who: move.driver,
        place: move.from,
        to: move.to,
        from: { at: move.leave },
        until: { at: move.arrive },
      };
      return alone.raise(facts, { who: move.driver, at: move.leave, path: move.leg.path ?? ["roads"] });
    });
  return [...standing, ...driving];
}
