/** The position of every item at every instant: where it starts, what is moved at which stop, and what rides where. */
import type { Day, StopTimes } from "../day/day.ts";
import { type Presence, presenceOf, presenceSpan } from "../day/people/presence.ts";
import type { Finding } from "../findings/finding.ts";
import type { Id } from "../plan/plan.ts";
import { type Instant, type Interval, instant } from "../time/units.ts";
import { moveImpossible, packNotMoved } from "./findings.ts";
import { kitItems, piecesOf, startsOf } from "./items.ts";

/** A stretch of time that an item spends in one vehicle or place, and where that is; `place` null on the road. */
export interface ItemStay extends Interval {
  readonly holder: Id;
  readonly place: Id | null;
}

/** A change of vehicle of an item. */
export interface KitMove {
  readonly item: Id;
  readonly at: Instant;
  readonly from: Id;
  readonly to: Id;
  readonly place: Id;
  /** Who is there with free hands and awake, in plan order. */
  readonly hands: readonly Id[];
  readonly stop: Id;
}

/** Where every item is over the day. */
export interface Track {
  readonly moves: readonly KitMove[];
  readonly findings: readonly Finding[];
  /** The vehicle or place that holds each item at the end of the day. */
  readonly ends: ReadonlyMap<Id, Id>;
  /** In time order, from the evening before to the evening after; empty for an unknown item. */
  stays(item: Id): readonly ItemStay[];
  /** Where an item is at an instant; null outside the day or for an unknown item. */
  at(item: Id, when: Instant): ItemStay | null;
}

/** The stretches that a vehicle spends at places; a place itself is always there. */
export function holderStays(day: Day, presence: Presence, holder: Id): readonly ItemStay[] {
  const span = presenceSpan(day);
  if (!day.plan.vehicles.has(holder)) return [{ ...span, holder, place: holder }];
  return presence.vehicle(holder).map(({ from, to, place }) => ({ from, to, holder, place }));
}

/** What two lists of stays at one place share. */
function meeting(a: readonly Interval[], b: readonly Interval[]): readonly Interval[] {
  return a.flatMap((one) =>
    b.flatMap((other) => {
      const [from, to] = [Math.max(one.from, other.from), Math.min(one.to, other.to)];
      return from < to ? [{ from: instant(from), to: instant(to) }] : [];
    }),
  );
}

/** When two holders are at one place together, in time order. */
export function timesTogether(day: Day, presence: Presence, a: Id, b: Id, place: Id): readonly Interval[] {
  const at = (holder: Id) => holderStays(day, presence, holder).filter((stay) => stay.place === place);
  return meeting(at(a), at(b));
}

/** Who is at a place and awake for at least a minute of a stretch, and when, in plan order. */
export function handsAt(
  day: Day,
  presence: Presence,
  place: Id,
  during: Interval,
): readonly (Interval & { readonly who: Id })[] {
  return [...day.plan.crew.keys()].flatMap((who) =>
    meeting(
      [during],
      presence.person(who).filter((stay) => stay.place === place && stay.awake),
    ).map((span) => ({ ...span, who })),
  );
}

interface Wish {
  readonly item: Id;
  /** As the stop names it: all of a piece's bays at once. */
  readonly named: Id;
  readonly to: Id;
  readonly stop: StopTimes;
}

/** A piece that starts in several bays goes from all of them but the one that it goes to. */
function itemsTo({ plan }: Day, named: Id, to: Id): readonly Id[] {
  const piece = plan.kit.get(named);
  if (piece === undefined || piece.bays.size < 2) return [named];
  return piecesOf(piece).flatMap(({ id, in: bay }) => (bay === to ? [] : [id]));
}

/** What the stops of the day say is moved, in the order of the stops. */
function wishesOf(day: Day): readonly Wish[] {
  return day.stops
    .flatMap((stop) =>
      [...stop.stop.moves].flatMap(([named, to]) => itemsTo(day, named, to).map((item) => ({ item, named, to, stop }))),
    )
    .sort((a, b) => (a.stop.arrive ?? a.stop.leave ?? 0) - (b.stop.arrive ?? b.stop.leave ?? 0));
}

/** Makes one move, or says why it cannot be made. */
function carry(day: Day, presence: Presence, { item, named, to, stop }: Wish, from: Id): KitMove | Finding {
  const { place } = stop;
  const refuse = (because: string): Finding =>
    moveImpossible.raise({ item, to, place, because }, { path: [...stop.stop.path, "moves", named] });
  if (from === to) return refuse(`it is already in ${to}`);
  const here: Interval = { from: stop.arrive ?? presenceSpan(day).from, to: stop.leave ?? presenceSpan(day).to };
  const source = meeting([here], timesTogether(day, presence, from, from, place));
  if (source.length === 0) return refuse(`it is in ${from}, which is not there then`);
  const both = meeting([here], timesTogether(day, presence, from, to, place));
  if (both.length === 0) return refuse(`${to} is not there then`);
  const hands = both.flatMap((span) => handsAt(day, presence, place, span));
  const [first] = hands.toSorted((a, b) => a.from - b.from);
  if (first === undefined) return refuse("no one is there and awake while both are");
  const at = first.from;
  return {
    item,
    at,
    from,
    to,
    place,
    stop: stop.stop.id,
    hands: hands.filter((h) => h.from <= at && at < h.to).map((h) => h.who),
  };
}

/** The stays of one item: those of each holder, from one move to the next. */
function staysOf(day: Day, presence: Presence, start: Id, moves: readonly KitMove[]): readonly ItemStay[] {
  const span = presenceSpan(day);
  const cuts = [span.from, ...moves.map((move) => move.at), span.to];
  return [start, ...moves.map((move) => move.to)].flatMap((holder, i) => {
    const [from, to] = [cuts[i] ?? span.from, cuts[i + 1] ?? span.to];
    return holderStays(day, presence, holder)
      .map((stay) => ({ ...stay, from: instant(Math.max(stay.from, from)), to: instant(Math.min(stay.to, to)) }))
      .filter((stay) => stay.from < stay.to);
  });
}

/** Where each pack is by its rotation: in a holder from then on, until the next one. */
export type PackStays = ReadonlyMap<Id, PackHolders>;
type PackHolders = readonly { readonly from: Instant; readonly holder: Id }[];

/** A pack goes where its rotation needs it: a stop that moves it elsewhere is not followed. */
function otherwise({ item, to, stop }: Wish, rotation: PackHolders, ends: Instant): readonly Finding[] {
  const leaves = stop.leave ?? ends;
  const holder = (rotation.findLast(({ from }) => from < leaves) ?? rotation[0])?.holder ?? to;
  const facts = { item, to, place: stop.place, holder };
  return holder === to ? [] : [packNotMoved.raise(facts, { path: [...stop.stop.path, "moves"], at: leaves })];
}

/** Tracks one day's items from where they start. What `packs` has goes by that: a pack on a piece rides with it. */
export function trackDay(day: Day, before: ReadonlyMap<Id, Id>, packs: PackStays | null = null): Track {
  const presence = presenceOf(day);
  const starts = startsOf(day, before);
  const ends = new Map(starts);
  const moves: KitMove[] = [];
  const findings: Finding[] = [];
  const swapped = (item: Id): boolean => (packs?.get(item)?.length ?? 0) > 0;
  for (const wish of wishesOf(day)) {
    if (swapped(wish.item)) {
      findings.push(...otherwise(wish, packs?.get(wish.item) ?? [], presenceSpan(day).to));
      continue;
    }
    const from = ends.get(wish.item);
    if (from === undefined) continue;
    const done = carry(day, presence, wish, from);
    if ("code" in done) findings.push(done);
    else {
      moves.push(done);
      ends.set(wish.item, wish.to);
    }
  }
  for (const [item, stays] of packs ?? []) ends.set(item, stays.at(-1)?.holder ?? ends.get(item) ?? "");
  for (const [item, { in: holder }] of day.plan.actual.pieces) if (holder !== null) ends.set(item, holder);
  const stays = new Map(
    kitItems(day.plan).map(({ id, in: stated }) => {
      const rotation = packs?.get(id) ?? [];
      if (rotation.length > 0) return [id, packStaysOf(day, presence, rotation)];
      const own = moves.filter((move) => move.item === id);
      return [id, staysOf(day, presence, starts.get(id) ?? stated, own)];
    }),
  );
  return {
    moves,
    findings,
    ends,
    stays: (item) => stays.get(item) ?? [],
    at: (item, when) => stays.get(item)?.find((stay) => stay.from <= when && when < stay.to) ?? null,
  };
}

/** The same of a pack whose holders are known; the first holds from the evening before, the last to the evening after. */
function packStaysOf(
  day: Day,
  presence: Presence,
  rotation: readonly { readonly from: Instant; readonly holder: Id }[],
) {
  const span = presenceSpan(day);
  return rotation.flatMap(({ holder, from }, n) => {
    const start = n === 0 ? span.from : from;
    const end = rotation[n + 1]?.from ?? span.to;
    return holderStays(day, presence, holder)
      .map((stay) => ({ ...stay, from: instant(Math.max(stay.from, start)), to: instant(Math.min(stay.to, end)) }))
      .filter((stay) => stay.from < stay.to);
  });
}

/** Tracks the last day of a chain, each day beginning where the one before left its items. */
export function trackKit(days: readonly Day[], packs: PackStays | null = null): Track | null {
  let track: Track | null = null;
  for (const [n, day] of days.entries())
    track = trackDay(day, track?.ends ?? new Map(), n === days.length - 1 ? packs : null);
  return track;
}
