/** How many pieces of a kind are in use at once, against how many there are and work. */
import type { ActivityTimes, Day } from "../day/day.ts";
import type { Finding } from "../findings/finding.ts";
import { groupBy, sumOf } from "../lists.ts";
import type { Id } from "../plan/plan.ts";
import type { SkyResult } from "../sky/index.ts";
import { kitBroken, kitTooFew } from "./findings.ts";
import { useSpan } from "./missing.ts";
import { canStandIn, needsOf } from "./needs.ts";

/** One crew's use of a kind of piece. */
interface Use {
  readonly item: Id;
  readonly activity: ActivityTimes;
  /** One for the work itself, and for an accessory one for each piece that carries it. */
  readonly pieces: number;
}

/** Pieces that are named, and what those carry: what only a word such as `hits` asks for is shared out by whoever is there. */
function usesOf(day: Day, sky: SkyResult): readonly Use[] {
  return day.activities.flatMap((activity) => {
    const stated = needsOf(day, sky, activity).filter(({ by }) => by === "stated");
    const kinds = groupBy(stated, ({ item }) => item);
    return [...kinds.keys()].map((item) => ({ item, activity, pieces: piecesFor(day, stated, item) }));
  });
}

/** An accessory counts for each piece there that needs it. */
function piecesFor({ plan }: Day, stated: ReturnType<typeof needsOf>, item: Id): number {
  const carriers = stated.filter((need) => plan.kit.get(need.item)?.needs.includes(item) === true);
  return Math.max(1, carriers.length);
}

/** Two that share a person are one after the other, whatever their times say. */
const isAtOnce = (a: ActivityTimes, b: ActivityTimes): boolean =>
  a.start !== null &&
  a.end !== null &&
  b.start !== null &&
  b.end !== null &&
  a.start < b.end &&
  b.start < a.end &&
  !a.who.some((who) => b.who.includes(who));

/** Kinds of which more are needed at once than there are; each once, at the moment at which most are. */
export function tooFew(day: Day, sky: SkyResult): readonly Finding[] {
  const kinds = groupBy(usesOf(day, sky), ({ item }) => item);
  return [...kinds].flatMap(([item, uses]) => {
    const piece = day.plan.kit.get(item);
    if (piece === undefined) return [];
    const crowds = uses.map((one) => [
      one,
      ...uses.filter((other) => other !== one && isAtOnce(one.activity, other.activity)),
    ]);
    const [worst = []] = crowds.toSorted((a, b) => sumOf(b, ({ pieces }) => pieces) - sumOf(a, ({ pieces }) => pieces));
    const needed = sumOf(worst, ({ pieces }) => pieces);
    const activities = worst.map(({ activity }) => activity.id);
    const [first] = worst;
    if (first === undefined || needed <= piece.count) return [];
    const facts = { item, needed, there: piece.count, activities };
    return [
      kitTooFew.raise(facts, {
        path: piece.path,
        ...(first.activity.start === null ? {} : { at: first.activity.start }),
      }),
    ];
  });
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
