/** Values of edits and commands as people write them, and edits of stops, lists and whole entries. */
import type { Day } from "../day/day.ts";
import type { PlanPath } from "../findings/finding.ts";
import { states } from "../plan/edit/edit.ts";
import type { Edit } from "../plan/edit/splice.ts";
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

/** `do` of a stop. */
const doEdit = (plan: Plan, text: string, stop: Stop, ids: readonly Id[]): Edit =>
  stopEdit(plan, text, stop, "do", listValue(collapsed(plan, ids)));

/**
 * `do` of some stops. A hit or task that one stop lists is done where it is listed and nowhere else: every other stop that
 * makes it unlisted then lists what it does, too. Null where one of all these stands in another file.
 */
export function doEdits(
  { plan, stops }: Day,
  text: string,
  lists: ReadonlyMap<Stop, readonly Id[]>,
): readonly Edit[] | null {
  const listed = new Set([...lists.values()].flat().flatMap((id) => plan.groups.get(id) ?? [id]));
  const sharing = stops.flatMap(({ stop, activities }): readonly (readonly [Stop, readonly Id[]])[] => {
    const own = new Set((stop.do ?? []).flatMap((id) => plan.groups.get(id) ?? [id]));
    const shares = activities.some((id) => listed.has(id) && !own.has(id));
    return shares && ![...lists.keys()].some(({ id }) => id === stop.id) ? [[stop, activities]] : [];
  });
  const all = [...lists, ...sharing];
  return all.every(([{ path }]) => isOwn(plan, text, path))
    ? all.map(([stop, ids]) => doEdit(plan, text, stop, ids))
    : null;
}

/**
 * The edits that take a hit or task out of a plan, with every mention of it. Null where it cannot be taken out alone: it
 * is one of several that one entry makes, or a list in another file names it.
 */
export function dropEdits(plan: Plan, text: string, { id, path }: Activity): readonly Edit[] | null {
  const group = plan.groups.get(String(path[1]));
  return group !== undefined && group.length > 1 ? null : dropEntry(plan, text, String(path[1]), path, [id]);
}

/** As `dropEdits`, for a whole entry and all that it makes. */
export function dropEntry(
  plan: Plan,
  text: string,
  key: Id,
  path: PlanPath,
  ids: readonly Id[],
): readonly Edit[] | null {
  const gone = new Set<string>([key, ...ids]);
  const left = (all: readonly Id[]): readonly Id[] => all.filter((one) => !gone.has(one));
  const lists = [
    ...[...plan.runs.values()].flatMap(({ stops }) =>
      stops.map((stop) => ({
        at: stop.path,
        ids: stop.do ?? [],
        edit: () => doEdit(plan, text, stop, left(stop.do ?? [])),
      })),
    ),
    ...[...plan.hits.values(), ...plan.tasks.values()].flatMap((other) =>
      (["after", "before"] as const).map((word) => ({
        at: [...other.path, word],
        ids: gone.has(other.id) ? [] : other[word],
        edit: () => ({ path: [...other.path, word], value: listValue(collapsed(plan, left(other[word]))) }),
      })),
    ),
  ];
  const named = lists.filter((list) => list.ids.some((one) => gone.has(one)));
  if (named.some(({ at }) => !isOwn(plan, text, at))) return null;
  const used = [...plan.kit.values()].filter(({ during }) => during.some((one) => gone.has(one)));
  return [
    ...named.map(({ edit }) => edit()),
    ...used.map((piece) => ({ path: [...piece.path, "during"], value: listValue(left(piece.during)) })),
    { path, value: isOwn(plan, text, path) ? null : "off" },
  ];
}

/** The command that looks for repairs, to be typed as it stands; of all errors if no code is named. */
export const repairCommandText = (file: string | null, code: string | null): string =>
  `daywright repair ${shellWord(file ?? "-")}${code === null ? "" : ` --code ${code}`}`;

/** As it is, else in double quotes, which every shell takes; in single ones, for a POSIX shell, where double ones do not keep it. */
function shellWord(word: string): string {
  const own = word.startsWith("-") && word !== "-" ? `./${word}` : word;
  if (/^[\w./=:@%+,-]+$/u.test(own)) return own;
  return /["$`\\!]/u.test(own) ? `'${own.replaceAll("'", "'\\''")}'` : `"${own}"`;
}
