/** The JSON of `calls`. */
import { term, where } from "./common.ts";
import { noSignal } from "./noSignal.ts";
import { id, instant, list, object, orNull, type Shape, text, whole, word } from "./shape.ts";

const person = object({
  id,
  call: orNull(instant),
  release: orNull(instant),
  place: orNull(id),
  duties: list(object({ call: instant, release: instant })),
  spans: list(
    object({
      from: instant,
      to: instant,
      is: word("off", "berth", "driving", "duty", "riding", "standby", "meal", "personal"),
      vehicle: orNull(id),
      activity: orNull(id),
      place: orNull(id),
    }),
  ),
  terms: list(term),
});

const move = object({
  id,
  vehicle: id,
  driver: id,
  riders: list(id),
  from: id,
  to: id,
  leave: instant,
  arrive: instant,
  plannedMinutes: whole,
  plannedAt: word("bad", "drive"),
  likelyMinutes: whole,
  badMinutes: whole,
  leaveBy: orNull(instant),
  slackMinutes: orNull(whole),
  overLikelyMinutes: whole,
});

const activity = object({
  id,
  kind: text,
  place: orNull(id),
  who: list(id),
  inPosition: orNull(instant),
  start: orNull(instant),
  end: orNull(instant),
  state: word("fixed", "late", "early", "missed"),
  slackMinutes: orNull(whole),
  stops: list(id),
});

export const data: Shape = object({
  people: list(person),
  stops: list(
    object({ id, vehicle: id, place: id, arrive: orNull(instant), parked: orNull(instant), leave: orNull(instant) }),
  ),
  moves: list(move),
  activities: list(activity),
  noSignal,
  why: orNull(object({ id: text, at: instant, fixedBy: object({ id: text, at: instant, where }), terms: list(term) })),
});
