/** Loads and what they ask for: which pieces draw at which hits and tasks, how much in that cold, from when to when. */

import type { ActivityTimes } from "../../day/day.ts";
import { useOf } from "../../day/during.ts";
import { leastOf } from "../../lists.ts";
import type { Hit, Id, Piece, Task } from "../../plan/plan.ts";
import { isDark, type SkyResult } from "../../sky/index.ts";
import { type Instant, type Interval, instant } from "../../time/units.ts";
import type { Demand, DemandKind, ModelLoad } from "../model.ts";
import { coldDrawFactor, type Surroundings } from "./surroundings.ts";

/** A piece that packs feed; each of several alike is a load of its own. */
export interface LoadPiece {
  readonly load: ModelLoad;
  readonly piece: Piece;
  /** In use. */
  readonly watts: number;
}

/** A demand before it is put into the model, with what it comes from. */
export interface DayDemand {
  readonly demand: Demand;
  readonly activity: Id;
  /** The coldest it gets, °C; null where no weather says. */
  readonly coldest: number | null;
  /** The place at which the loads stand outside meanwhile; null aboard. */
  readonly outside: Id | null;
}

/** Where each piece of gear is, from when on: the account that the gear itself is judged by. */
export interface Gear {
  stays(item: Id): readonly { readonly from: Instant; readonly holder: Id }[];
}

/** All pieces with watts and a mount, riding where `gear` has them; without it where `in` and the stops' `moves` put them. */
export function loadsOf(around: Surroundings, gear: Gear | null): LoadPiece[] {
  const { plan } = around.day;
  return [...plan.kit.values()].flatMap((piece) => {
    const { mount, watts } = piece;
    if (watts === null || mount === null) return [];
    if (piece.bays.size > 1) return inSeveralBays(around, piece, { mount, watts }, gear);
    const ids = piece.count === 1 ? [piece.id] : Array.from({ length: piece.count }, (_, n) => `${piece.id}.${n + 1}`);
    const stays = gear?.stays(piece.id) ?? [];
    const bay =
      stays.length > 0
        ? stays
            .filter(({ holder }, n) => holder !== stays[n - 1]?.holder)
            .map(({ from, holder }) => ({ from, bay: holder }))
        : [{ from: around.span.from, bay: piece.in }, ...handedOver(around, piece.id)];
    return ids.map((id) => ({ load: { id, mount, bay }, piece, watts }));
  });
}

/** Pieces of one kind that start in several vehicles: each is a load of its own, where its own bay's are. */
function inSeveralBays(
  around: Surroundings,
  piece: Piece,
  { mount, watts }: { readonly mount: string; readonly watts: number },
  gear: Gear | null,
): LoadPiece[] {
  const starts = [...piece.bays].flatMap(([bay, count]) => new Array<Id>(count).fill(bay));
  return starts.map((start, n) => {
    const stays = gear?.stays(`${piece.id}.${start}`) ?? [];
    const moved = stays.filter(({ holder }, at) => holder !== stays[at - 1]?.holder);
    const bay =
      moved.length > 0
        ? moved.map(({ from, holder }) => ({ from, bay: holder }))
        : [{ from: around.span.from, bay: start }];
    return { load: { id: `${piece.id}.${n + 1}`, mount, bay }, piece, watts };
  });
}

function handedOver(around: Surroundings, piece: Id): { from: Instant; bay: Id }[] {
  return around.day.stops
    .flatMap((stop) => {
      const bay = stop.stop.moves.get(piece);
      const from = stop.arrive ?? stop.terms[0]?.from ?? stop.leave;
      return bay === undefined || from == null ? [] : [{ from, bay }];
    })
    .sort((a, b) => a.from - b.from);
}

/** Everything the loads are wanted for, in time order; on one load nothing overlaps. */
export function demandsOf(around: Surroundings, loads: readonly LoadPiece[], sky: SkyResult | null): DayDemand[] {
  const used = around.day.activities.flatMap((one) => {
    const during = spanOf(one);
    const using =
      during === null
        ? []
        : loads.filter(
            ({ piece, load }) =>
              draws(around, piece, one, sky) && isThere(around, load, one, during) && !isOut(piece, during),
          );
    return during === null || using.length === 0 ? [] : [{ one, during, using }];
  });
  used.sort((a, b) => a.during.from - b.during.from);
  const hits = used.filter(({ one }) => one.activity.kind !== "standby");
  const main = hits.map(({ one, during, using }, n) => {
    const next = hits.slice(n + 1).find((later) => later.using.some((load) => using.includes(load)));
    const to = instant(Math.max(during.from, Math.min(during.to, next?.during.from ?? during.to)));
    return demandOf(around, one.id, kindOf(one.activity), one, { from: during.from, to }, using, ({ watts }) => watts);
  });
  const taken = (load: LoadPiece): Interval[] =>
    main.filter(({ demand }) => demand.watts.has(load.load.id)).map(({ demand }) => demand);
  const between = loads.flatMap((load) => standbys(around, load, used, taken(load)));
  return [...main, ...between]
    .filter(({ demand }) => demand.to > demand.from)
    .sort((a, b) => a.demand.from - b.demand.from);
}

const kindOf = (activity: Hit | Task): DemandKind => (activity.kind === "hit" && activity.firm ? "firm" : "hit");

/**
 * From the line check, or in position for later hits, until the desk clears, and as long as it may let a hit slip; a task
 * from its start to its end. Where a load goes on to its next hit, that one takes over.
 */
function spanOf(one: ActivityTimes): Interval | null {
  const from = one.lineCheck?.from ?? one.inPosition ?? one.start;
  const cleared = one.clearEnd ?? one.end;
  if (one.state === "missed" || from === null || cleared === null) return null;
  const to = instant(cleared + (one.activity.kind === "hit" ? (one.activity.lateMinutes ?? 0) : 0));
  return to <= from ? null : { from, to };
}

/** A piece that is out of service for any of it is not used: whether it is missed is the kit's question. */
const isOut = ({ broken }: Piece, { from, to }: Interval): boolean =>
  broken !== null && broken.from < to && (broken.to === null || from < broken.to);

/** Gear of a spare path stays off while the main one holds. */
function draws(around: Surroundings, piece: Piece, one: ActivityTimes, sky: SkyResult | null): boolean {
  const use = useOf(around.day.plan, piece, one.activity, (id) => sky === null || isDark(sky, id));
  return use !== null && !use.inReserve;
}

/** Only what rides where the activity is can be used there; whether it should be there is the kit's question. */
function isThere(around: Surroundings, load: ModelLoad, one: ActivityTimes, during: Interval): boolean {
  const bay = load.bay.filter((stage, n) => n === 0 || stage.from <= during.from).at(-1)?.bay ?? "";
  if (one.place !== null)
    return around.placeOf(bay, during.from) === one.place || around.placeOf(bay, instant(during.to - 1)) === one.place;
  return one.vehicle === bay;
}

function demandOf(
  around: Surroundings,
  id: Id,
  kind: DemandKind,
  one: ActivityTimes,
  during: Interval,
  using: readonly LoadPiece[],
  watts: (load: LoadPiece) => number,
): DayDemand {
  const aboard = one.activity.location.kind === "aboard" ? one.vehicle : null;
  const celsius = (at: Instant): number | null =>
    aboard === null ? around.outdoors(one.place, at) : around.inside(aboard, at);
  const cold = coldDrawFactor(around, during, celsius);
  const temps = [during.from, instant(Math.max(during.from, during.to - 1))].flatMap((at) => celsius(at) ?? []);
  const demand = {
    id,
    kind,
    ...during,
    watts: new Map(using.map((one) => [one.load.id, rounded(watts(one) * cold)])),
  };
  return { demand, activity: one.id, coldest: leastOf(temps), outside: aboard === null ? one.place : null };
}

/** The model holds what is printed: six digits. */
const rounded = (value: number): number => Math.round(value * 1e6) / 1e6;

type Used = { readonly one: ActivityTimes; readonly during: Interval; readonly using: readonly LoadPiece[] };

/** A piece's standby draw between two hits at one stop, and in a stand-by of the plan, less what it powers meanwhile. */
function standbys(
  around: Surroundings,
  load: LoadPiece,
  used: readonly Used[],
  taken: readonly Interval[],
): DayDemand[] {
  const standby = ({ piece, watts }: LoadPiece): number => piece.standbyWatts ?? watts;
  if (standby(load) === 0) return [];
  const mine = used.filter(({ using }) => using.includes(load));
  const hits = mine.filter(({ one }) => one.activity.kind === "hit");
  const waits = hits.flatMap(({ one, during }, n) => {
    const next = hits[n + 1];
    const together = next?.one.stops.some((stop) => one.stops.includes(stop)) === true;
    return load.piece.standbyWatts !== null && next !== undefined && together
      ? [{ one, from: during.to, to: next.during.from }]
      : [];
  });
  const stated = mine
    .filter(({ one }) => one.activity.kind === "standby")
    .map(({ one, during }) => ({ one, ...during }));
  const free = [...waits, ...stated].flatMap(({ one, from, to }) =>
    minus({ from, to }, taken).map((during) => ({ one, during })),
  );
  return free
    .sort((a, b) => a.during.from - b.during.from)
    .map(({ one, during }, n) =>
      demandOf(around, `${load.load.id}.standby.${n + 1}`, "standby", one, during, [load], standby),
    );
}

/** What is left of a stretch when others are cut out of it. */
export function minus(whole: Interval, cuts: readonly Interval[]): Interval[] {
  return cuts.reduce<Interval[]>(
    (parts, cut) =>
      parts
        .flatMap((part) => [
          { from: part.from, to: instant(Math.min(part.to, Math.max(part.from, cut.from))) },
          { from: instant(Math.max(part.from, Math.min(part.to, cut.to))), to: part.to },
        ])
        .filter((part) => part.to > part.from),
    whole.to > whole.from ? [whole] : [],
  );
}
