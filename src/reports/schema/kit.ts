/** The JSON of `kit`. */
import { anything, id, instant, list, object, orNull, type Shape, text, whole } from "./shape.ts";

export const data: Shape = object({
  pieces: list(
    object({
      id,
      count: whole,
      stays: list(object({ from: instant, to: instant, in: id, place: orNull(id) })),
    }),
  ),
  missing: list(
    object({
      piece: id,
      for: anything,
      activities: list(id),
      place: orNull(id),
      neededFrom: orNull(instant),
      in: orNull(id),
      at: orNull(id),
      lastMove: orNull(instant),
      lastMovePlace: orNull(id),
      into: orNull(id),
    }),
  ),
  moves: list(
    object({
      piece: id,
      at: instant,
      place: id,
      from: id,
      to: id,
      hands: list(id),
      stop: orNull(id),
    }),
  ),
  loading: list(
    object({
      vehicle: id,
      place: id,
      rolls: instant,
      items: list(object({ id, count: whole, members: list(text), from: orNull(id) })),
    }),
  ),
});
