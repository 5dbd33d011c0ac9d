/** A second reading of what loads draw and when, load by load and minute by minute. */
import type { ActivityTimes } from "../../../src/day/day.ts";
import type { Id, Piece } from "../../../src/plan/plan.ts";
import { derate } from "../../../src/power/physics.ts";
import { instant } from "../../../src/time/units.ts";
import { type Around, inside, outdoors, placeOf } from "./minutes.ts";

/** A stretch in which a load draws: for which activity, how firmly it is asked for, watts with the cold in them. */
export type Drawn = readonly [load: Id, from: number, to: number, activity: Id, kind: string, watts: number];

interface Use {
  readonly one: ActivityTimes;
  readonly from: number;
  readonly to: number;
  readonly loads: readonly Id[];
}

/** Every load of a day that has one bay, with its piece. */
const loadsOf = ({ day }: Around): ReadonlyMap<Id, Piece> =>
  new Map(
    [...day.plan.kit.values()].flatMap((piece): [Id, Piece][] => {
      if (piece.watts === null || piece.mount === null) return [];
      if (piece.count === 1) return [[piece.id, piece]];
      return Array.from({ length: piece.count }, (_, n) => [`${piece.id}.${n + 1}`, piece]);
    }),
  );

/** All hits are dark; the stand-bys of a plan are prepared as hits are. */
function asksFor({ during }: Piece, { activity }: ActivityTimes): boolean {
  const live = activity.kind === "hit" || activity.kind === "standby";
  return during.some(
    (word) =>
      word === activity.id ||
      ((word === "hits" || word === "dark") && live) ||
      (word === "tasks" && (activity.kind === "work" || activity.kind === "feed")),
  );
}

/** From the line check, or in position, until the desk has cleared, which it may be late for. */
function spanOf({ activity, lineCheck, inPosition, start, end, clearEnd, state }: ActivityTimes) {
  const [from, to] = [lineCheck?.from ?? inPosition ?? start, clearEnd ?? end];
  const late = activity.kind === "hit" ? (activity.lateMinutes ?? 0) : 0;
  return state === "missed" || from === null || to === null || to + late <= from ? null : { from, to: to + late };
}

function usesOf(around: Around): readonly Use[] {
  const loads = [...loadsOf(around)];
  return around.day.activities
    .flatMap((one): Use[] => {
      const span = spanOf(one);
      if (span === null) return [];
      const isThere = (bay: Id): boolean => {
        if (one.place === null) return one.vehicle === bay;
        return [span.from, span.to - 1].some((at) => placeOf(around, bay, instant(at)) === one.place);
      };
      const isWhole = ({ broken }: Piece): boolean =>
        broken === null || span.to <= broken.from || (broken.to !== null && broken.to <= span.from);
      const own = loads.filter(([, piece]) => asksFor(piece, one) && isThere(piece.in) && isWhole(piece));
      return own.length === 0 ? [] : [{ one, ...span, loads: own.map(([id]) => id) }];
    })
    .toSorted((a, b) => a.from - b.from);
}

/** All that is drawn, in the order of loads and of time; what draws nothing between two hits is left out. */
export function drawn(around: Around): readonly Drawn[] {
  const uses = usesOf(around);
  const hits = uses.filter(({ one }) => one.activity.kind !== "standby");
  return [...loadsOf(around)].flatMap(([load, piece]) => {
    const minutes = new Map<number, readonly [ActivityTimes, string, string]>();
    const name = (one: ActivityTimes): string => (one.activity.kind === "hit" && one.activity.firm ? "firm" : "hit");
    hits.forEach((use, n) => {
      if (!use.loads.includes(load)) return;
      // Where any of its loads goes on to a later use, that one takes over for all.
      const next = hits.slice(n + 1).find((later) => later.loads.some((id) => use.loads.includes(id)));
      const to = Math.min(use.to, next?.from ?? use.to);
      for (let at = use.from; at < to; at++) minutes.set(at, [use.one, name(use.one), use.one.id]);
    });
    const idle = piece.standbyWatts ?? piece.watts ?? 0;
    const waits = (one: ActivityTimes, from: number, to: number): void => {
      for (let at = from; at < to && idle > 0; at++)
        if (!minutes.has(at)) minutes.set(at, [one, "standby", `${one.id} ${from}`]);
    };
    const own = uses.filter(({ loads }) => loads.includes(load));
    const shown = own.filter(({ one }) => one.activity.kind === "hit");
    shown.slice(1).forEach((next, n) => {
      const last = shown[n];
      const together = last?.one.stops.some((stop) => next.one.stops.includes(stop)) === true;
      if (last !== undefined && together && piece.standbyWatts !== null) waits(last.one, last.to, next.from);
    });
    for (const { one, from, to } of own) if (one.activity.kind === "standby") waits(one, from, to);
    return stretched(around, load, piece, minutes, idle);
  });
}

function stretched(
  around: Around,
  load: Id,
  piece: Piece,
  minutes: ReadonlyMap<number, readonly [ActivityTimes, string, string]>,
  idle: number,
): Drawn[] {
  const found: Drawn[] = [];
  const all = [...minutes].toSorted(([a], [b]) => a - b);
  for (let n = 0; n < all.length; ) {
    const [from, [one, kind, key]] = all[n] ?? [0, [undefined, "", ""]];
    if (one === undefined) break;
    let last = n;
    while (all[last + 1]?.[1][2] === key && all[last + 1]?.[0] === from + last + 1 - n) last++;
    const to = from + last + 1 - n;
    let sum = 0;
    for (let at = from; at < to; at++) {
      const aboard = one.activity.location.kind === "aboard" ? one.vehicle : null;
      const celsius = aboard === null ? outdoors(around, one.place, instant(at)) : inside(around, aboard, instant(at));
      sum += 1 / derate(celsius ?? 20);
    }
    const watts = ((kind === "standby" ? idle : (piece.watts ?? 0)) * sum) / (to - from);
    found.push([load, from, to, one.id, kind, Math.round(watts * 1e6) / 1e6]);
    n = last + 1;
  }
  return found;
}
