/** When and where each activity needs its light, and the light there. */
import type { ActivityTimes, Day } from "../day/day.ts";
import type { Coordinates, Id, Plan } from "../plan/plan.ts";
import { after, type Instant } from "../time/units.ts";
import type { Horizontal } from "./angles.ts";
import type { Ephemeris } from "./ephemeris.ts";
import { DARK_BELOW_LUX, type LightClass, lampsFor, lightClass, skyLux } from "./light.ts";
import { rowsAt, thickestCloud } from "./weather.ts";
import { type SkyWord, type SunSide, skyWord, sunSide } from "./words.ts";

/** The light of one hit or task. Angles in degrees, true and without refraction; light in lx on a level surface. */
export interface ActivityLight {
  readonly id: Id;
  readonly place: Id | null;
  /** The live window: from the start to the end, and for a hit as much longer as the desk may slip it. */
  readonly from: Instant;
  readonly to: Instant;
  readonly sun: Horizontal;
  readonly sky: SkyWord;
  /** Null where the plan states no `facing`. */
  readonly side: SunSide | null;
  readonly lux: number;
  /** The least light of the live window. */
  readonly leastLux: number;
  /** Of the least light. */
  readonly light: LightClass;
  /** Stops gained (negative: lost) from the start of the live window to its end. */
  readonly stops: number;
  readonly needs: readonly string[];
  /** True where lamps are needed at any moment of the live window. */
  readonly dark: boolean;
}

/** The stretch of time in which an activity needs its light; null for a task that the day has no time for. */
export function liveWindow(times: ActivityTimes): { readonly from: Instant; readonly to: Instant } | null {
  const { activity } = times;
  const from = times.start ?? (activity.kind === "hit" ? activity.at : null);
  if (from === null) return null;
  const end = times.end ?? after(from, activity.forMinutes ?? 0);
  return { from, to: activity.kind === "hit" ? after(end, activity.lateMinutes ?? 0) : end };
}

const between = (a: Coordinates, b: Coordinates, share: number): Coordinates => ({
  latitude: a.latitude + (b.latitude - a.latitude) * share,
  longitude: a.longitude + (b.longitude - a.longitude) * share,
});

/** Where an activity happens; on the road the straight line between its two stops, which for light is near enough. */
export function spotOf(plan: Plan, times: ActivityTimes): Coordinates | null {
  const at = (place: Id): Coordinates | null => plan.places.get(place)?.at ?? null;
  const { location } = times.activity;
  if (location.kind === "onRoad") {
    const [a, b] = [at(location.from), at(location.to)];
    return a === null || b === null || times.roadShare === null ? null : between(a, b, times.roadShare);
  }
  return times.place === null ? null : at(times.place);
}

/** An hour apart, both ends included: over an hour the sun's height hardly bends. */
function samples(from: number, to: number): readonly number[] {
  const steps = Math.max(1, Math.ceil((to - from) / 60));
  return Array.from({ length: steps + 1 }, (_, i) => from + ((to - from) * i) / steps);
}

/** The light of one activity, or null where its spot or its time is not known. */
export function lightOf(day: Day, times: ActivityTimes, sky: Ephemeris): ActivityLight | null {
  const window = liveWindow(times);
  const spot = spotOf(day.plan, times);
  if (window === null || spot === null) return null;
  const cloud = thickestCloud(rowsAt(day.plan.weather, times.place, window));
  const sun = sky.sun(window.from, spot);
  const levels = samples(window.from, window.to).map((at) => skyLux(sky.sun(at, spot).altitude, cloud));
  const [lux, last, leastLux] = [levels.at(0) ?? 0, levels.at(-1) ?? 0, Math.min(...levels)];
  const light = lightClass(leastLux);
  const { activity } = times;
  const side = activity.kind === "hit" && activity.facing !== null ? sunSide(sun, activity.facing) : null;
  const shade = side === "in the lens" ? ["shade for the lens"] : [];
  return {
    id: times.id,
    place: times.place,
    ...window,
    sun,
    sky: skyWord(sun.altitude),
    side,
    lux,
    leastLux,
    light,
    stops: Math.log2(last / lux),
    needs: [...lampsFor[light], ...shade],
    dark: leastLux < DARK_BELOW_LUX,
  };
}
