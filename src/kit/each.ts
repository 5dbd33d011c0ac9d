/** Gear of which each person needs one: as the plan says, else by the name, for what the trade gives out one a person. */
import type { ActivityTimes, Day } from "../day/day.ts";
import type { Id, Piece } from "../plan/plan.ts";

/**
 * Ends of names of gear that one person wears and no one shares, once hyphens and inner capitals are blanks.
 *
 * Earpieces: common practice, no source. The rest, from memory: 29 CFR 1926.106(a) life jackets for employees over or
 * near water, 29 CFR 1926.100(a) helmets, 23 CFR 634.3 high-visibility apparel for all workers beside a road.
 */
const WORN: readonly RegExp[] = [
  /\b(?:ear ?(?:piece|set|phone)|ifb|in ears?)s?$/,
  /\b(?:life ?(?:jacket|vest)|pfd|buoyancy aid)s?$/,
  /\b(?:helmet|hard ?hat)s?$/,
  /\bhi(?:gh)? ?vis(?:ibility)?(?: (?:vest|jacket)s?)?$/,
];

/** What belongs to such a piece is not one: `case of earpieces`. */
const BELONGS = /\b(?:of|for|with)\b/;

const isWorn = (name: string): boolean => {
  const words = name
    .replace(/(\p{Ll})(\p{Lu})/gu, "$1 $2")
    .replace(/[^\p{L}]+/gu, " ")
    .trim()
    .toLowerCase();
  return !BELONGS.test(words) && WORN.some((worn) => worn.test(words));
};

/** Whether each person needs one: `stated` in the plan, `known` by the name alone; null where one serves all. */
export function eachOf({ id, name, per }: Piece): "stated" | "known" | null {
  if (per !== null) return per === "person" ? "stated" : null;
  return isWorn(id) || isWorn(name ?? "") ? "known" : null;
}

/** Who needs one of it at a hit or task: all of its people; of what goes into the ear those on a line, if lines name any. */
export function needersOf(day: Day, piece: Piece, { who, activity }: ActivityTimes): readonly Id[] {
  if (eachOf(piece) !== "known" || activity.kind !== "hit" || !isForTheEar(piece)) return who;
  const listening = [...day.plan.lines.values()].flatMap((line) => line.who).filter((id) => who.includes(id));
  return listening.length === 0 ? who : [...new Set(listening)];
}

const isForTheEar = ({ id, name }: Piece): boolean => /ear|ifb/i.test(`${id} ${name ?? ""}`);
