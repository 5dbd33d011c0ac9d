/** The JSON of `hours`, of plans and of logs. */
import { flag, id, instant, list, number, object, orNull, type Shape, said, text, whole } from "./shape.ts";

const person = object({
  id,
  rules: list(text),
  restBeforeMinutes: orNull(whole),
  dutyMinutes: whole,
  drivingMinutes: whole,
  limits: list(
    object({
      id: text,
      clause: orNull(text),
      allowedMinutes: whole,
      usedMinutes: orNull(whole),
      leftMinutes: orNull(whole),
      runsOutAt: orNull(instant),
    }),
  ),
  breaches: list(object({ limit: text, clause: orNull(text), from: instant, to: instant })),
  drivingMustStopAt: orNull(instant),
  earliestNextCall: orNull(instant),
  earliestNextDrive: orNull(instant),
});

/** How rested people are likely to be: averages of groups, not law; empty for a log. */
const fitness = object({
  id,
  sleepMinutes: orNull(whole),
  sleepStated: flag,
  up: orNull(instant),
  crashRatio: orNull(number),
  wheel: list(
    object({ from: instant, to: instant, awakeMinutes: orNull(whole), nightMinutes: whole, alertness: orNull(number) }),
  ),
  curve: said(
    list(object({ at: instant, alertness: number })),
    "S + C hour by hour since getting up: 14 high, 7 the threshold of sleepiness, 3 extreme",
  ),
});

export const data: Shape = object({ people: list(person), fitness: list(fitness) });
