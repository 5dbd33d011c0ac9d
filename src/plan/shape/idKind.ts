/** The kinds of things that an id of a plan may name. */

/** As findings call them: "is not a person". */
export type IdKind =
  | "person"
  | "vehicle"
  | "place"
  | "hit"
  | "task"
  | "ride"
  | "piece of kit"
  | "pack"
  | "charger"
  | "path"
  | "line"
  | "contract"
  | "stop";
