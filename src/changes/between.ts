/**
 * What changed between two versions of a day, and for whom: a pure comparison of what people read on the sheet. The same
 * comparison marks `sheet --since` and `calls --since`; where the older version comes from is the caller's business.
 */
import { type ActivityTimes, aboardOf, type Day, type Move, type PersonDay } from "../day/day.ts";
import { hospitalText } from "../plan/keys/places.ts";
import type { Id } from "../plan/plan.ts";
import type { Instant } from "../time/units.ts";

/** One value as it is read: an instant at a place, things by id, or words. */
export type Value =
  | { readonly kind: "time"; readonly at: Instant; readonly place: Id | null }
  | { readonly kind: "names"; readonly ids: readonly Id[] }
  /** `personal`: an address or a number, which a redacted sheet leaves out. */
  | { readonly kind: "text"; readonly text: string; readonly personal: boolean };

/** In the order of a list of changes; the last three where engines are asked as well. */
export const THING_KINDS = [
  ...(["person", "hit", "task", "move", "ride", "place", "line", "packs", "piece", "booking"] as const),
] as const;
/** The kinds of things of a day that may change. */
export type ThingKind = (typeof THING_KINDS)[number];

/** Something a sheet tells of, with the values it tells. */
export interface Thing {
  readonly kind: ThingKind;
  readonly id: Id;
  /** What keeps its identity between two versions; the id, but for moves, whose ids count stops. */
  readonly key: string;
  readonly who: readonly Id[];
  readonly values: ReadonlyMap<string, Value>;
}

/** One thing that is not as it was: before, after, and whom it concerns. */
export interface Change {
  readonly kind: ThingKind;
  readonly id: Id;
  /** Whom it concerns, in either version; empty: everyone. */
  readonly who: readonly Id[];
  /** `new` and `dropped` are of the whole thing, `changed` of one of its values. */
  readonly how: "new" | "dropped" | "changed";
  /** Which value: `call`, `start`, `place` …; null for the whole thing. */
  readonly what: string | null;
  readonly was: Value | null;
  readonly now: Value | null;
}

/** All that differs between two versions of a day. */
export interface Changes {
  readonly fromRevision: number | null;
  readonly toRevision: number | null;
  readonly changes: readonly Change[];
}

/** Compares two versions of one day; in the order of the sheet: people, hits, tasks, moves, rides, places, lines. */
export const changesBetween = (older: Day, newer: Day): Changes =>
  compareThings({ day: older, more: [] }, { day: newer, more: [] });

/** A day, and things that engines know of it besides. */
interface Side {
  readonly day: Day;
  readonly more: readonly Thing[];
}

/** As `changesBetween`, with packs, gear and bookings at the end. */
export function compareThings(old: Side, now: Side): Changes {
  const [older, newer] = [old.day, now.day];
  const before = new Map([...thingsOf(older), ...old.more].map((thing) => [thing.key, thing]));
  const after = new Map([...thingsOf(newer), ...now.more].map((thing) => [thing.key, thing]));
  const kept = [...after.values()].flatMap((thing) => {
    const old = before.get(thing.key);
    return old ? valueChanges(old, thing) : [whole(thing, "new")];
  });
  const dropped = [...before.values()].filter((thing) => !after.has(thing.key)).map((thing) => whole(thing, "dropped"));
  return {
    fromRevision: older.plan.revision,
    toRevision: newer.plan.revision,
    changes: [...kept, ...dropped].sort((a, b) => THING_KINDS.indexOf(a.kind) - THING_KINDS.indexOf(b.kind)),
  };
}

function whole(thing: Thing, how: "new" | "dropped"): Change {
  const first = [...thing.values.values()][0] ?? null;
  const { kind, id, who } = thing;
  return { kind, id, who, how, what: null, was: how === "dropped" ? first : null, now: how === "new" ? first : null };
}

function valueChanges(old: Thing, thing: Thing): readonly Change[] {
  const names = new Set([...old.values.keys(), ...thing.values.keys()]);
  const who = [...new Set([...thing.who, ...old.who])];
  return [...names].flatMap((what): Change[] => {
    const was = old.values.get(what) ?? null;
    const now = thing.values.get(what) ?? null;
    if (sameValue(was, now)) return [];
    return [{ kind: thing.kind, id: thing.id, who, how: "changed", what, was, now }];
  });
}

function sameValue(a: Value | null, b: Value | null): boolean {
  if (a === null || b === null) return a === b;
  if (a.kind === "time") return b.kind === "time" && a.at === b.at;
  if (a.kind === "text") return b.kind === "text" && a.text === b.text;
  return b.kind === "names" && a.ids.length === b.ids.length && a.ids.every((id, index) => id === b.ids[index]);
}

/** Everything a sheet tells of a day, in its order. */
function thingsOf(day: Day): readonly Thing[] {
  const rides: Thing[] = day.rides.map(({ ride, who }) => ({
    kind: "ride",
    id: ride.id,
    key: `ride ${ride.id}`,
    who,
    values: values([
      ["leave", time(ride.leave, ride.from)],
      ["from", names([ride.from])],
      ["to", names([ride.to])],
      ["arrive", time(ride.arrive, ride.to)],
      ["who", names(who)],
    ]),
  }));
  return [
    ...day.people.map(personThing),
    ...day.activities.map(activityThing),
    ...moveThings(day.moves),
    ...rides,
    ...standing(day),
  ];
}

function personThing(person: PersonDay): Thing {
  const entries = person.duties.flatMap((duty, index): readonly Entry[] => {
    const again = index === 0 ? "" : ` ${index + 1}`;
    return [
      [`call${again}`, time(duty.call, duty.callPlace)],
      [`call place${again}`, names([duty.callPlace])],
      [`release${again}`, time(duty.release, duty.releasePlace)],
      [`release place${again}`, names([duty.releasePlace])],
    ];
  });
  const { id } = person;
  return {
    kind: "person",
    id,
    key: `person ${id}`,
    who: [id],
    values: values([...entries, ["bed", names(idList(person.sleeps))]]),
  };
}

function activityThing(times: ActivityTimes): Thing {
  const { activity, id, who, place, start } = times;
  const hit = activity.kind === "hit";
  const spare = activity.kind === "hit" ? activity.spare : null;
  return {
    kind: hit ? "hit" : "task",
    id,
    key: `activity ${id}`,
    who,
    values: values([
      ["start", start === null ? null : time(start, place)],
      ["place", names(idList(place))],
      ["who", names(who)],
      ["length", activity.forMinutes === null ? null : text(`${activity.forMinutes} min`)],
      ["path", names(idList(activity.signalPath))],
      ["spare", names(idList(spare))],
      ["state", times.state === "missed" ? text("cannot be met") : null],
    ]),
  };
}

/** Moves keep their identity by vehicle, ends and count, since a stop put in renumbers those after it. */
function moveThings(moves: readonly Move[]): readonly Thing[] {
  const seen = new Map<string, number>();
  return moves.map((move) => {
    const route = `move ${move.vehicle} ${move.from} ${move.to}`;
    const count = (seen.get(route) ?? 0) + 1;
    seen.set(route, count);
    return {
      kind: "move",
      id: move.id,
      key: `${route} ${count}`,
      who: aboardOf(move),
      values: values([
        ["leave", time(move.leave, move.from)],
        ["arrive", time(move.arrive, move.to)],
        ["driver", names([move.driver])],
        ["riders", names(move.riders)],
      ]),
    };
  });
}

/** What stands on the sheet whatever the hour: places in use and lines. */
function standing(day: Day): readonly Thing[] {
  const used = new Set(day.stops.map((stop) => stop.place));
  const places = [...day.plan.places.values()].filter((place) => used.has(place.id));
  return [
    ...places.map(
      (place): Thing => ({
        kind: "place",
        id: place.id,
        key: `place ${place.id}`,
        who: [],
        values: values([
          ["address", personal(place.address)],
          ["parking", personal(place.parking)],
          ["hospital", personal(hospitalText(place.hospital))],
          ["position", place.at && personal(`${place.at.latitude}, ${place.at.longitude}`)],
          ["note", place.note === null ? null : text(place.note)],
        ]),
      }),
    ),
    ...[...day.plan.lines.values()].map(
      (line): Thing => ({
        kind: "line",
        id: line.id,
        key: `line ${line.id}`,
        who: line.who,
        values: values([
          ["number", personal(line.number)],
          ["spare", personal(line.spare)],
        ]),
      }),
    ),
  ];
}

type Entry = readonly [string, Value | null];

const values = (entries: readonly Entry[]): ReadonlyMap<string, Value> =>
  new Map(entries.flatMap(([name, value]) => (value === null ? [] : [[name, value] as const])));
const time = (at: Instant, place: Id | null): Value => ({ kind: "time", at, place });
const names = (ids: readonly Id[]): Value | null => (ids.length === 0 ? null : { kind: "names", ids });
const text = (words: string): Value => ({ kind: "text", text: words, personal: false });
const personal = (value: string | null): Value | null =>
  value === null ? null : { kind: "text", text: value, personal: true };
const idList = (id: Id | null): readonly Id[] => (id === null ? [] : [id]);
