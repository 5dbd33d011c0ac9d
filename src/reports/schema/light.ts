/** The JSON of `light`. Where the sun or the moon has no such moment that day, a word stands for the time. */
import { flag, id, instant, list, number, object, orNull, type Shape, share, text } from "./shape.ts";

const moment: Shape = orNull({ anyOf: [instant, text] });

const hit = object({
  id,
  at: instant,
  sunAltitudeDegrees: orNull(number),
  sunAzimuthDegrees: orNull(number),
  sky: orNull(text),
  sunSide: orNull(text),
  lux: orNull(number),
  needs: list(text),
  place: orNull(id),
  leastLux: orNull(number),
  exposureValue: orNull(number),
  light: orNull(text),
  dark: orNull(flag),
  stopsOverWindow: orNull(number),
  windowTo: orNull(instant),
});

const place = object({
  id,
  rise: moment,
  set: moment,
  civilDawn: moment,
  civilDusk: moment,
  nauticalDawn: moment,
  nauticalDusk: moment,
  astronomicalDawn: moment,
  astronomicalDusk: moment,
  noon: moment,
  noonAltitudeDegrees: orNull(number),
  moonPhase: orNull(text),
  moonLit: orNull(share),
  moonAltitudeDegrees: orNull(number),
  moonAt: orNull(instant),
});

export const data: Shape = object({ hits: list(hit), places: list(place) });
