/** The JSON of `signal`. */
import { flag, id, instant, list, number, object, orNull, type Shape, text, whole } from "./shape.ts";

const outage = object({ date: text, from: instant, to: instant, minutes: number, closestDegrees: number });

const look = object({
  place: id,
  path: id,
  azimuthDegrees: orNull(number),
  elevationDegrees: orNull(number),
  rangeKm: orNull(number),
  skewDegrees: orNull(number),
  clear: orNull(flag),
  outages: list(outage),
  nextOutages: list(outage),
  blockedBelowDegrees: orNull(number),
});

const hit = object({
  id,
  path: orNull(id),
  spare: orNull(id),
  ok: flag,
  place: orNull(id),
  spareOk: orNull(flag),
  needFrom: orNull(instant),
  needTo: orNull(instant),
  dishUp: orNull(instant),
  cable: orNull(
    object({ runMeters: number, reelMeters: list(number), joins: orNull(whole), reachMeters: orNull(number) }),
  ),
  earLines: list(object({ who: id, lines: list(id) })),
});

const feed = object({
  id,
  path: orNull(id),
  sizeMegabytes: orNull(number),
  rateMegabits: orNull(number),
  needsMinutes: orNull(number),
  from: orNull(instant),
  to: orNull(instant),
  by: orNull(instant),
});

export const data: Shape = object({
  looks: list(look),
  hits: list(hit),
  windows: list(
    object({
      path: id,
      from: instant,
      to: instant,
      booking: orNull(text),
      polarisation: orNull(text),
      phone: orNull(text),
    }),
  ),
  feeds: list(feed),
  lines: list(object({ id, number: orNull(text), who: list(id), spare: orNull(text) })),
  satellitePhone: orNull(id),
});
