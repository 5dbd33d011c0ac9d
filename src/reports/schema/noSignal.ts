/** When whom nobody can reach, in the JSON of `calls` and `drives`. */
import { id, instant, list, object } from "./shape.ts";

export const noSignal = list(object({ who: list(id), from: instant, to: instant, fromPlace: id, toPlace: id }));
