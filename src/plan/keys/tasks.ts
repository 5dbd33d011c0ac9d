/** `tasks`: all that is not a hit: pictures, feeds, meals, rest, standby, stand-down, fuel. */

import { eitherMissing } from "../findings.ts";
import { entry, type FieldsOf, type ModelOf } from "../shape/entry.ts";
import { word } from "../shape/form.ts";
import { whereText } from "../shape/issues.ts";
import { amount, someLength, text } from "../shape/leaves.ts";
import { time, windowForm } from "../shape/spans.ts";
import type { Entity, Id } from "../terms.ts";
import { sizeMegabytes } from "../values/quantity.ts";
import { activityFields, activityForm, type Location, localPlace, readLocation } from "./activity.ts";

const KINDS = ["work", "feed", "meal", "rest", "standby", "standdown", "fuel"] as const;

/** A task of the section `tasks`. */
export const taskForm = entry(
  "a task: a map such as { for: 40 min, place: pier }",
  {},
  {
    ...activityFields,
    for: [someLength, "how long; a standby or stand-down fills its window", { as: "forMinutes" }],
    what: [text, "in words, for the sheet", { example: "pictures of the ice" }],
    window: [windowForm('a pair of times such as ["09:00", "11:30"]'), "all of it lies inside"],
    by: [time, "its end, at the latest"],
    size: [amount(sizeMegabytes), "of a feed, against its path's rate", { as: "sizeMegabytes" }],
    kind: [
      word(KINDS),
      "work, feed, meal, rest, standby (on duty), standdown (released until called again), fuel",
      { byDefault: "work" },
    ],
  },
);

type TaskFields = FieldsOf<typeof taskForm>;

/** What kind of thing a task is. */
export type TaskKind = (typeof KINDS)[number];

/** A task: all that is not a hit. */
export interface Task extends Entity, ModelOf<typeof taskForm> {
  readonly location: Location;
}

/** Reads a task; null where it is nowhere. */
export function readTask(fields: TaskFields, taskId: Id): Task | null {
  const location = readLocation(fields.as(activityForm));
  const task = fields.localTo(localPlace(location)).entity(taskId);
  if (task !== null) requireLength(fields, task.kind);
  return task === null || location === null ? null : { ...task, location };
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
