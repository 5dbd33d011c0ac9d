/**
 * Coordinates that cannot be meant: a place on the other side of the globe from its own clock, or farther from another
 * than the road between them is long. Mostly a sign is missing, or longitude stands before latitude.
 */
import { groupBy } from "../../lists.ts";
import { MINUTES_A_DAY } from "../../time/civil.ts";
import { startOnClock } from "../../time/wall.ts";
import { offsetMinutes } from "../../time/zone.ts";
import { coordinatesDoubtful, zoneDoubtful } from "../findings.ts";
import type { Body, Coordinates, Id, Place, Road } from "../plan.ts";
import type { Reading } from "../read/reading.ts";

/** Clocks follow the sun within about 60 degrees everywhere (the widest are western China and Greenland). */
const MOST_DEGREES_OFF = 75;
/** No road is driven faster from end to end. */
const MOST_KMH = 160;
/** What coarse coordinates may be off by, and a stated length by rounding. */
const SPARE_KM = 15;
const SPARE_SHARE = 1.2;

const EARTH_RADIUS_KM = 6371;
const radians = (degrees: number): number => (degrees * Math.PI) / 180;

/** Along the great circle of a sphere, km: 0.56 % off at most. */
export function greatCircleKm(a: Coordinates, b: Coordinates): number {
  const [latitude, longitude] = [radians(b.latitude - a.latitude), radians(b.longitude - a.longitude)];
  const across = Math.cos(radians(a.latitude)) * Math.cos(radians(b.latitude)) * Math.sin(longitude / 2) ** 2;
  return 2 * EARTH_RADIUS_KM * Math.asin(Math.min(1, Math.sqrt(Math.sin(latitude / 2) ** 2 + across)));
}

/** The farthest apart that the ends of a road can be; null where it states neither length nor time. */
function farthestKm({ km, driveMinutes, badMinutes }: Road): number | null {
  if (km !== null) return km * SPARE_SHARE + SPARE_KM;
  const minutes = badMinutes ?? driveMinutes;
  return minutes === null ? null : (minutes / 60) * MOST_KMH + SPARE_KM;
}

/** Whether the ends of a road are farther apart than it can be long, so that their coordinates are doubted. */
export const isTooFarApart = (road: Road, straightKm: number): boolean =>
  straightKm > (farthestKm(road) ?? Number.POSITIVE_INFINITY);

type Places = ReadonlyMap<Id, Place>;

/** What is wrong with a place that lies `at`, in words; the other places as they are. */
class Doubts {
  private readonly noon: (place: Place) => number;
  private readonly roads: readonly Road[];

  constructor(date: string, roads: readonly Road[]) {
    this.noon = ({ zone }) => offsetMinutes(zone, startOnClock(date, MINUTES_A_DAY / 2, zone));
    this.roads = roads;
  }

  of(places: Places, place: Place, at: Coordinates): readonly string[] {
    return [...this.clockDoubt(place, at), ...this.roads.flatMap((road) => roadDoubt(places, place, at, road))];
  }

  /** The places that a road can be held against: those that their own clock does not contradict. */
  trusted(places: Places): Places {
    return new Map([...places].filter(([, place]) => place.at !== null && !this.zoneDoubt(place)));
  }

  /** Whether a place cannot be where it is said to be on its clock. */
  zoneDoubt(place: Place): boolean {
    return place.at !== null && this.clockDoubt(place, place.at).length > 0;
  }

  private clockDoubt(place: Place, at: Coordinates): readonly string[] {
    // UTC and the bases of Antarctica keep a clock for other reasons than the sun's.
    if (/^(?:(?:Etc|Antarctica)\/|(?:UTC|UCT|GMT|GMT[-+]?0|Greenwich|Universal|Zulu)$)/.test(place.zone)) return [];
    const off = Math.abs(((at.longitude - this.noon(place) / 4 + 540) % 360) - 180);
    return off > MOST_DEGREES_OFF ? [`its clock, ${place.zone}, is that of another part of the world`] : [];
  }
}

function roadDoubt(places: Places, { id }: Place, at: Coordinates, road: Road): readonly string[] {
  const [from, to] = road.link;
  if (from !== id && to !== id) return [];
  const other = from === id ? to : from;
  const there = places.get(other)?.at ?? null;
  const farthest = farthestKm(road);
  if (there === null || farthest === null) return [];
  const km = greatCircleKm(at, there);
  if (km <= farthest) return [];
  const length = road.km !== null ? `${Math.round(road.km)} km` : `${road.badMinutes ?? road.driveMinutes} min`;
  return [`it is ${Math.round(km)} km from ${other} in a straight line, and the road is stated as ${length}`];
}

/** Signs turned, latitude and longitude swapped; what is no place on the globe left out. */
function slips({ latitude, longitude }: Coordinates): readonly Coordinates[] {
  const pairs: readonly (readonly [number, number])[] = [
    [latitude, -longitude],
    [-latitude, longitude],
    [longitude, latitude],
    [-latitude, -longitude],
    [longitude, -latitude],
    [-longitude, latitude],
  ];
  return pairs.flatMap(([north, east]) => (Math.abs(north) <= 90 ? [{ latitude: north, longitude: east }] : []));
}

interface Doubtful {
  readonly place: Place;
  readonly at: Coordinates;
  readonly doubts: readonly string[];
  /** Where it would lie without any doubt. */
  readonly meant: Coordinates | null;
}

function doubtfulOf(places: Places, doubts: Doubts): readonly Doubtful[] {
  const trusted = doubts.trusted(places);
  return [...places.values()].flatMap((place): readonly Doubtful[] => {
    const { at } = place;
    const found = at === null ? [] : doubts.of(trusted, place, at);
    if (at === null || found.length === 0) return [];
    const meant = slips(at).find((slip) => doubts.of(trusted, place, slip).length === 0) ?? null;
    return [{ place, at, doubts: found, meant }];
  });
}

/** One warning a place, those first whose slip explains most; a place is no longer doubted where the other's slip explains it. */
export function checkCoordinates(reading: Reading, { places, roads }: Body): void {
  if (reading.clocks === null) return;
  const doubts = new Doubts(reading.clocks.date, roads);
  const zoned = wrongZones(reading, places, doubts);
  let left: Places = zoned;
  for (;;) {
    const [worst, ...others] = doubtfulOf(left, doubts).toSorted((a, b) => rank(b) - rank(a));
    if (worst === undefined) return;
    const { place, at, meant } = worst;
    left = new Map([...left, [place.id, { ...place, at: meant }]]);
    const still = doubtfulOf(left, doubts);
    const alike = others.filter(
      (other) => rank(other) === rank(worst) && !still.some((one) => one.place.id === other.place.id),
    );
    const facts = { place: place.id, at: pair(at), why: worst.doubts[0] ?? "", near: nearOf(worst, alike) };
    reading.mistake([...place.path, "at"], (c) => coordinatesDoubtful.raise(facts, c));
  }
}

/**
 * A zone that contradicts every place that has it, two at least: reported once, at the plan's zone or at the first place that
 * states it, and these places are doubted no more. Returns the places that are left to doubt.
 */
function wrongZones(reading: Reading, places: Places, doubts: Doubts): Places {
  const stated = reading.root.entries.get("places")?.value;
  const states = (id: Id): boolean => {
    const entry = stated?.kind === "map" ? stated.entries.get(id)?.value : undefined;
    return entry?.kind === "map" && entry.entries.has("zone");
  };
  const located = [...places.values()].filter((place) => place.at !== null);
  const wrong = [...groupBy(located, (place) => place.zone)].filter(
    ([, held]) => held.length > 1 && held.every((place) => doubts.zoneDoubt(place)),
  );
  for (const [zone, held] of wrong) {
    const [{ at: found }] = held;
    const meant = found === null ? undefined : slips(found).find((at) => !doubts.zoneDoubt({ ...held[0], at }));
    const near = meant === undefined ? null : pair(meant);
    const facts = { zone, places: held.map(({ id }) => id), near };
    const at = held.every(({ id }) => states(id)) ? [...held[0].path, "zone"] : ["zone"];
    reading.mistake(at, (c) => zoneDoubtful.raise(facts, c));
  }
  const doubted = new Set(wrong.map(([zone]) => zone));
  return new Map([...places].filter(([, place]) => place.at === null || !doubted.has(place.zone)));
}

/** Where the slip of another place would explain as much, both are offered. */
function nearOf(worst: Doubtful, alike: readonly Doubtful[]): string | null {
  if (worst.meant === null) return null;
  if (alike.length === 0) return pair(worst.meant);
  return [worst, ...alike]
    .map(({ place, meant }) => (meant === null ? "" : `${place.id}: ${pair(meant)}`))
    .join(", or ");
}

/** What explains itself before what does not, then by how much it explains. */
const rank = ({ meant, doubts }: Doubtful): number => (meant === null ? 0 : 1000) + doubts.length;

const pair = ({ latitude, longitude }: Coordinates): string => `[${latitude}, ${longitude}]`;
