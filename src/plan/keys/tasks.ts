/** `tasks`: all that is not a hit: pictures, feeds, meals, rest, standby, stand-down, fuel. */

import { eitherMissing } from "../findings.ts";
import type { Id, Task, TaskKind } from "../plan.ts";
import type { FieldsOf } from "../read/fields.ts";
import { entry, meaning, pairOf, word } from "../shape/form.ts";
import { whereText } from "../shape/issues.ts";
import { amount, someLength, text, time } from "../shape/leaves.ts";
import { sizeMegabytes } from "../values/quantity.ts";
import { activityFields, activityForm, localPlace, readActivity, readLocation } from "./activity.ts";

const KINDS = ["work", "feed", "meal", "rest", "standby", "standdown", "fuel"] as const satisfies readonly TaskKind[];

/** A task of the section `tasks`. */
export const taskForm = entry(
  "a task: a map such as { for: 40 min, place: pier }",
  {},
  {
    ...activityFields,
    for: [someLength, "how long; a standby or stand-down fills its window"],
    what: [text, "in words, for the sheet", { example: "pictures of the ice" }],
    window: [meaning(pairOf('a pair of times such as ["09:00", "11:30"]', time), "window"), "all of it lies inside"],
    by: [time, "its end, at the latest"],
    size: [amount(sizeMegabytes), "of a feed, against its path's rate"],
    kind: [
      word(KINDS),
      "work, feed, meal, rest, standby (on duty), standdown (released until called again), fuel",
      { byDefault: "work" },
    ],
  },
);

type TaskFields = FieldsOf<typeof taskForm>;

/** Reads a task; null where it is nowhere. */
export function readTask(fields: TaskFields, taskId: Id): Task | null {
  const location = readLocation(fields.as(activityForm));
  const place = localPlace(location);
  const kind = fields.get("kind");
  requireLength(fields, kind);
  const task = {
    id: taskId,
    kind,
    forMinutes: fields.get("for"),
    what: fields.text("what"),
    window: fields.window("window", place),
    by: fields.time("by", place),
    sizeMegabytes: fields.get("size"),
    ...readActivity(fields.as(activityForm), location ?? { kind: "place", place: "" }),
  };
  return location === null ? null : task;
}

/**
 * A standby or stand-down lasts as long as its window, a feed as long as its size needs, a meal as the house rule `mealFor`;
 * all else must say how long.
 */
function requireLength(fields: TaskFields, kind: TaskKind): void {
  if (kind === "meal") return;
  const other = kind === "feed" ? "size" : kind === "standby" || kind === "standdown" ? "window" : null;
  if (fields.has("for") || (other !== null && fields.has(other))) return;
  const keys = other === null ? ["for"] : ["for", other];
  const facts = { where: whereText(fields.path), keys, example: "for: 40 min" };
  fields.reading.mistakeAtKey(fields.path, (c) => eitherMissing.raise(facts, c));
}
