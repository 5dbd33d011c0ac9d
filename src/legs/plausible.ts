/**
 * Times of a drive that no road takes: a slip of the pen (hours for minutes), or a routing server that talks nonsense.
 *
 * Fast: above 85 mph (137 km/h) on the average of a whole drive, the highest limit posted in the United States (Texas
 * State Highway 130). Slow: more than an hour beyond 10 km/h, so that a ferry, a border or a convoy passes (common
 * practice, no source).
 */
const FASTEST_KMH = 137;
const SLOWEST_KMH = 10;
/** What a queue or a crossing may take besides, minutes. */
const SPARE_MINUTES = 60;
/** Times are written in whole minutes. */
const ROUNDING_MINUTES = 1;
/** How far a server may move a place to its nearest road, km, and the share by which coordinates may be coarse. */
const SNAP_KM = 2;
const SNAP_SHARE = 0.1;
/** Nothing on Earth is driven for longer than a week at a stretch. */
const LONGEST_MINUTES = 7 * 1440;

/** A road may wind around a bay or up to a bridge: as long as this many straight lines, and this many km more. */
const WINDING = 3;
const DETOUR_KM = 30;

/** What is odd about a stated drive. */
export type Implausible = "fast" | "slow" | "short";

/** What is wrong with a drive of so many minutes over so many km; null where it may be right. */
export function implausibleDrive(minutes: number, km: number): "fast" | "slow" | null {
  if (km > ((minutes + ROUNDING_MINUTES) / 60) * FASTEST_KMH) return "fast";
  return minutes > SPARE_MINUTES + (km / SLOWEST_KMH) * 60 ? "slow" : null;
}

/** The same of a drive whose length nothing states, between ends so far apart in a straight line, km. */
export function implausibleBetween(minutes: number, straightKm: number): "fast" | "slow" | null {
  if (implausibleDrive(minutes, leastKm(straightKm)) === "fast") return "fast";
  return implausibleDrive(minutes, straightKm * WINDING + DETOUR_KM) === "slow" ? "slow" : null;
}

/** The least that a road between two places can be, km: their coordinates may be coarse. */
export const leastKm = (straightKm: number): number => Math.max(0, straightKm * (1 - SNAP_SHARE) - SNAP_KM);

/** What is wrong with a server's answer for two places so far apart in a straight line, km; null where it may be right. */
export function implausibleAnswer(
  { minutes, km }: { readonly minutes: number; readonly km: number | null },
  straightKm: number,
): Implausible | null {
  if (minutes > LONGEST_MINUTES) return "slow";
  const least = leastKm(straightKm);
  if (km !== null && km < least) return "short";
  if (km !== null) return implausibleDrive(minutes, km);
  return implausibleDrive(minutes, least) === "fast" ? "fast" : null;
}
