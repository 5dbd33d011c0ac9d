/** Look angles of satellite paths over the places of a plan, and what stands against a use of one. */
import type { Day } from "../../day/day.ts";
import type { Presence } from "../../day/people/presence.ts";
import type { Finding } from "../../findings/finding.ts";
import type { Id, Obstacle, Place, SignalPath } from "../../plan/plan.ts";
import { bearing, toRadians } from "../../sky/angles.ts";
import type { Ephemeris } from "../../sky/ephemeris.ts";
import { dayNumber, type Instant, instant, MINUTES_A_DAY, offsetMinutes } from "../../time/index.ts";
import { activityIdsOf, circumstance, type PathUse, type PathUses } from "../use.ts";
import {
  dishElsewhere,
  lookUnknown,
  skylineBlocks,
  slotBelowHorizon,
  slotTooLow,
  sunOutageOnAir,
} from "./findingsDish.ts";
import { beamWidth, type Look, lookAngle } from "./look.ts";
import { nextSeason, type OutageQuery, outageAngle, outagesBetween, type SunOutage } from "./outage.ts";

/** One satellite path seen from one place. */
export interface PlaceLook {
  readonly place: Id;
  readonly path: Id;
  /** Null where the place has no coordinates or the path no slot. */
  readonly look: Look | null;
  /** High enough and not behind the skyline; null where the look angle is not known. */
  readonly clear: boolean | null;
  /** The place's magnetic declination, degrees east; null where the plan states none. */
  readonly declination: number | null;
  /** What hides it, null where nothing does. */
  readonly obstacle: Obstacle | null;
  /** Of the plan's days, in time order. */
  readonly outages: readonly SunOutage[];
  /** The next season after the plan's days; computed when asked for. */
  next(): readonly SunOutage[];
}

/** What stands in if the plan states no dish or band: for outages and the width of the beam. */
export const ASSUMED_DISH = { meters: 1.2, gigahertz: 11.95 } as const;

/**
 * The part of the skyline that hides a look angle, or null. Half a beam's width beside the axis must be clear as well,
 * upwards and to either side; exactly as high as the skyline is clear.
 */
export function hiddenBy(skyline: readonly Obstacle[], look: Look, halfBeam = 0): Obstacle | null {
  // Towards the zenith the same angle spans more of the compass.
  const aside = Math.min(180, halfBeam / Math.max(0.01, Math.cos(toRadians(look.elevation))));
  const within = ({ from, to }: Obstacle): boolean =>
    Math.abs(to - from) + 2 * aside >= 360 || bearing(look.azimuth - from + aside) <= bearing(to - from) + 2 * aside;
  return skyline.find((part) => look.elevation - halfBeam < part.below && within(part)) ?? null;
}

/** From the first local midnight of the plan's date to the midnight after its last day. */
function daysOf(day: Day, place: Place): { readonly from: Instant; readonly to: Instant } {
  const first = dayNumber(day.plan.date) * MINUTES_A_DAY;
  const from = instant(first - offsetMinutes(place.zone, instant(first)));
  return { from, to: instant(from + MINUTES_A_DAY * (1 + day.plan.untilDays)) };
}

/** Half the width of a path's beam, degrees; of an ordinary dish where the plan states neither size nor band. */
const halfBeamOf = ({ bandGigahertz, dishMeters }: SignalPath): number =>
  beamWidth(bandGigahertz ?? ASSUMED_DISH.gigahertz, dishMeters ?? ASSUMED_DISH.meters) / 2;

/** A satellite path seen from a place. */
export function placeLook(day: Day, path: SignalPath, place: Place, sky: Ephemeris | null): PlaceLook {
  const { declination } = place;
  const none = {
    place: place.id,
    path: path.id,
    declination,
    look: null,
    clear: null,
    obstacle: null,
    outages: [],
    next: () => [],
  };
  if (place.at === null || path.slotEast === null || sky === null) return none;
  const look = lookAngle(place.at, path.slotEast);
  const obstacle = hiddenBy(place.blocked, look, halfBeamOf(path));
  const high = look.elevation > 0 && look.elevation >= (path.aboveDegrees ?? 0);
  const angle = outageAngle(path.bandGigahertz ?? ASSUMED_DISH.gigahertz, path.dishMeters ?? ASSUMED_DISH.meters);
  const target: OutageQuery = { spot: place.at, look, angle };
  const { from, to } = daysOf(day, place);
  return {
    place: place.id,
    path: path.id,
    declination,
    look,
    clear: high && obstacle === null,
    obstacle,
    outages: outagesBetween(sky, target, from, to),
    next: () => nextSeason(sky, target, to),
  };
}

/** The looks of every satellite path: from each place with coordinates, and from each where it is used. Plan order. */
export function looksOf(day: Day, uses: readonly PathUse[], sky: Ephemeris | null): readonly PlaceLook[] {
  const satellites = [...day.plan.paths.values()].filter((path) => path.kind === "satellite");
  return satellites.flatMap((path) =>
    [...day.plan.places.values()]
      .filter((place) => place.at !== null || uses.some((use) => use.path === path && use.place === place))
      .map((place) => placeLook(day, path, place, sky)),
  );
}

/** What the look angle of a path at one place stands against; nothing where it is not known, which `unknownLooks` tells. */
export function lookFindings(uses: PathUses, { look, obstacle, place }: PlaceLook): readonly Finding[] {
  if (look === null) return [];
  const where = circumstance(uses[0]);
  const { elevation, azimuth } = look;
  const { id, aboveDegrees: above } = uses[0].path;
  const facts = { activities: activityIdsOf(uses), path: id, place, elevation };
  if (elevation <= 0) return [slotBelowHorizon.raise(facts, where)];
  if (above !== null && elevation < above) return [slotTooLow.raise({ ...facts, above }, where)];
  if (obstacle === null) return [];
  return [skylineBlocks.raise({ ...facts, azimuth, below: obstacle.below, halfBeam: halfBeamOf(uses[0].path) }, where)];
}

/** Outages of a path that sees its satellite, over the time from line check to the end of `late`. */
export function outageFindings(use: PathUse, { outages, clear }: PlaceLook): readonly Finding[] {
  const { onAir, times } = use;
  if (onAir === null || clear !== true) return [];
  const from = times.lineCheck?.from ?? times.inPosition ?? onAir.from;
  return outages
    .filter((outage) => outage.from < onAir.to && outage.to > from)
    .map((outage) => {
      const span = { from: { at: instant(Math.floor(outage.from)) }, to: { at: instant(Math.ceil(outage.to)) } };
      return sunOutageOnAir.raise({ activity: use.activity.id, path: use.path.id, ...span }, circumstance(use));
    });
}

/** One finding for each path and place whose look angle is asked for and not known. */
export function unknownLooks(uses: readonly PathUse[], looks: readonly PlaceLook[]): readonly Finding[] {
  return looks.flatMap((seen) => {
    const there = uses.filter((use) => use.path.id === seen.path && use.place?.id === seen.place);
    const [first] = there;
    if (seen.look !== null || first === undefined) return [];
    const noSlot = first.path.slotEast === null;
    const facts = {
      path: seen.path,
      place: noSlot ? null : seen.place,
      activities: activityIdsOf(there),
      lacks: noSlot ? "the path states no slot" : "the place has no coordinates",
    };
    return [lookUnknown.raise(facts, { path: noSlot ? first.path.path : (first.place?.path ?? first.where) })];
  });
}

/** A path that rides in a vehicle serves only where that vehicle stands, from the line check to the end of `late`. */
export function vehicleFindings(use: PathUse, presence: Presence): readonly Finding[] {
  const { path, place, onAir, times } = use;
  if (path.vehicle === null || place === null || onAir === null) return [];
  const from = times.lineCheck?.from ?? times.inPosition ?? onAir.from;
  const { vehicle } = path;
  const all = presence.vehicle(vehicle);
  const stays = all.filter((stay) => stay.from < onAir.to && stay.to > from);
  const away = stays.find((stay) => stay.place !== place.id);
  if (stays.length > 0 && away === undefined) return [];
  const stops = all.some((stay) => stay.place === place.id);
  const facts = { activity: use.activity.id, path: path.id, vehicle, place: place.id, at: away?.place ?? null, stops };
  return [dishElsewhere.raise(facts, circumstance(use))];
}
