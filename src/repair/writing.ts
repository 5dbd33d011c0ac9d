/** Values of edits as people write them in a plan, and edits of stops, lists and whole entries. */
import type { PlanPath } from "../findings/finding.ts";
import { states } from "../plan/edit/edit.ts";
import type { Edit } from "../plan/edit/request.ts";
import type { Activity, Id, Plan, Stop } from "../plan/plan.ts";
import {
  clockText,
  dateOfDay,
  dayNumber,
  type Instant,
  isoLocal,
  localDay,
  resolveLocal,
  wallMinute,
} from "../time/index.ts";

/** A time on the control room's clock, as `"12:45"` or `"00:10 +1d"`; with its offset where the clock repeats the hour. */
export function timeValue({ clock, date }: Plan, at: Instant): string {
  const day = localDay(at, clock);
  if (resolveLocal(dateOfDay(day), wallMinute(at, clock), clock).kind !== "once") return `"${isoLocal(at, clock)}"`;
  const days = day - dayNumber(date);
  return `"${clockText(at, clock)}${days === 0 ? "" : ` ${days > 0 ? "+" : "-"}${Math.abs(days)}d`}"`;
}

/** `[a, b, c]`. */
export const listValue = (ids: readonly Id[]): string => `[${ids.join(", ")}]`;

/** Ids with whole groups by their own name again: `dawn` for `dawn.1`, `dawn.2`, in a row. */
export function collapsed(plan: Plan, ids: readonly Id[]): readonly Id[] {
  const found: Id[] = [];
  for (let at = 0; at < ids.length; ) {
    const group = [...plan.groups].find(
      ([, members]) => members.length > 0 && members.every((member, n) => ids[at + n] === member),
    );
    found.push(group?.[0] ?? ids[at] ?? "");
    at += group?.[1].length ?? 1;
  }
  return found;
}

/** Whether a stop stands in the day's own file, where it can be edited alone. */
export const isOwn = (plan: Plan, text: string, path: PlanPath): boolean => states(text, path, plan.file);

/** An edit of one key of a stop; a stop that is only the name of its place becomes a map. */
export const stopEdit = (plan: Plan, text: string, stop: Stop, key: string, value: string): Edit =>
  states(text, [...stop.path, "place"], plan.file)
    ? { path: [...stop.path, key], value }
    : { path: stop.path, value: `{ place: ${stop.place}, ${key}: ${value} }` };

/** The stops whose `do` names an activity. */
export const stopsWith = (plan: Plan, id: Id): readonly Stop[] =>
  [...plan.runs.values()].flatMap(({ stops }) => stops).filter((stop) => stop.do?.includes(id) === true);

/** `do` of a stop. */
export const doEdit = (plan: Plan, text: string, stop: Stop, ids: readonly Id[]): Edit =>
  stopEdit(plan, text, stop, "do", listValue(collapsed(plan, ids)));

/**
 * The edits that take a hit or task out of a plan, with every mention of it. Null where it cannot be taken out alone: it
 * is one of several that one entry makes, or a list in another file names it.
 */
export function dropEdits(plan: Plan, text: string, activity: Activity): readonly Edit[] | null {
  const { id, path } = activity;
  const group = plan.groups.get(String(path[1]));
  if (group !== undefined && group.length > 1) return null;
  const key = String(path[1]);
  const own = isOwn(plan, text, path);
  const mentions: Edit[] = [];
  for (const stop of stopsWith(plan, id)) {
    if (!isOwn(plan, text, stop.path)) return null;
    mentions.push(
      doEdit(
        plan,
        text,
        stop,
        (stop.do ?? []).filter((one) => one !== id),
      ),
    );
  }
  for (const other of [...plan.hits.values(), ...plan.tasks.values()]) {
    for (const [word, ids] of [
      ["after", other.after],
      ["before", other.before],
    ] as const) {
      if (!ids.includes(id)) continue;
      const at = [...other.path, word];
      if (!isOwn(plan, text, at)) return null;
      mentions.push({
        path: at,
        value: listValue(
          collapsed(
            plan,
            ids.filter((one) => one !== id),
          ),
        ),
      });
    }
  }
  for (const piece of plan.kit.values()) {
    if (!piece.during.includes(id) && !piece.during.includes(key)) continue;
    const rest = piece.during.filter((one) => one !== id && one !== key);
    mentions.push({ path: [...piece.path, "during"], value: rest.length === 0 ? "[]" : listValue(rest) });
  }
  return [...mentions, { path, value: own ? null : "off" }];
}
