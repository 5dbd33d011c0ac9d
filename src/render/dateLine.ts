/** Lines over the date line, cut there (RFC 7946, 3.1.9): a map would draw them the long way round. */
import type { Coordinates } from "../plan/plan.ts";

/** Where the shorter way between two points meets 180 degrees, once on each side of it. */
function cutBetween(a: Coordinates, b: Coordinates): readonly [Coordinates, Coordinates] {
  const side = a.longitude > 0 ? 180 : -180;
  const span = 360 - Math.abs(b.longitude - a.longitude);
  const share = span === 0 ? 0 : Math.abs(side - a.longitude) / span;
  const latitude = a.latitude + (b.latitude - a.latitude) * share;
  return [
    { latitude, longitude: side },
    { latitude, longitude: -side },
  ];
}

/** A line in parts, none of which crosses the date line; the line itself where it does not. */
export function partsOf(line: readonly Coordinates[]): readonly (readonly Coordinates[])[] {
  const parts: Coordinates[][] = [[]];
  let last: Coordinates | null = null;
  for (const point of line) {
    if (last !== null && Math.abs(point.longitude - last.longitude) > 180) {
      const [end, start] = cutBetween(last, point);
      parts.at(-1)?.push(end);
      parts.push([start]);
    }
    parts.at(-1)?.push(point);
    last = point;
  }
  return parts;
}
