/** How a plan words its values in sentences: both clocks where they differ, its labels or cities, its display names. */
import type { PersonDay } from "../../day/day.ts";
import { fileText, type PlanPath, type Wording } from "../../findings/finding.ts";
import type { Id, Plan } from "../../plan/plan.ts";
import { dotted } from "../../plan/text/pathtext.ts";
import {
  type ClockStyle,
  cityText,
  clockText,
  dayNumber,
  type Instant,
  isoUtc,
  lengthText,
  localDay,
  offsetMinutes,
  shortDateOf,
  weekdayOf,
  type ZoneId,
} from "../../time/index.ts";
import { inOrderOfCalls } from "./people.ts";

/** On which clock words name times, and how times are written. */
export interface SayOptions {
  /** Stands in for the control room's clock in views (`--clock`). */
  readonly clock?: ZoneId | null;
  readonly style?: ClockStyle;
  /** Everyone's day, where it is known: lists of people are then in the order of their calls. */
  readonly people?: readonly PersonDay[];
}

/** The words of a plan. Times are on the desk's clock, with the place's own behind it where that shows another time. */
export function wordingOf(plan: Plan, options: SayOptions = {}): Wording {
  const desk = options.clock ?? plan.clock;
  const name = clockNames(plan);
  const stamp = (at: Instant, zone: ZoneId): string =>
    `${dayMark(plan, at, zone)}${clockText(at, zone, options.style)} ${name(zone)}`;
  return {
    time(at, place = null) {
      const local = zoneOfPlace(plan, place);
      const first = stamp(at, desk);
      return offsetMinutes(local, at) === offsetMinutes(desk, at) ? first : `${first} (${stamp(at, local)})`;
    },
    clock: (at, zone) => clockText(at, zone, options.style),
    length: lengthText,
    name: (id) => displayName(plan, id) ?? id,
    day: { file: plan.file, date: plan.date },
    ...(options.people === undefined ? {} : { inOrder: byCall(options.people) }),
    isWholeCrew: (ids) => ids.length === plan.crew.size && ids.every((id) => plan.crew.has(id)),
    where: (path) => lineOf(plan, path),
  };
}

/** People among the ids by call; a list that names anything else stays as it is. */
function byCall(people: readonly PersonDay[]): (ids: readonly string[]) => readonly string[] {
  const ranks = new Map(inOrderOfCalls(people).map(({ id }, at) => [id, at]));
  const rank = (id: string): number => ranks.get(id) ?? 0;
  return (ids) => (ids.every((id) => ranks.has(id)) ? ids.toSorted((a, b) => rank(a) - rank(b)) : ids);
}

/** For mistakes in a plan that cannot be read: no names, and UTC where a time has no clock. */
export const plainWording: Wording = {
  time: (at) => isoUtc(at),
  clock: (at, zone) => clockText(at, zone),
  length: lengthText,
  name: (id) => id,
};

/** The zone that a place lives by; the plan's own where there is no place. */
export const zoneOfPlace = (plan: Plan, place: Id | null): ZoneId =>
  (place === null ? undefined : plan.places.get(place)?.zone) ?? plan.zone;

/** What each clock is called: the plan's label, else the city. */
export function clockNames(plan: Plan): (zone: ZoneId) => string {
  const labels = new Map<ZoneId, string>();
  for (const [label, zone] of plan.labels) if (!labels.has(zone)) labels.set(zone, label);
  return (zone) => labels.get(zone) ?? cityText(zone);
}

/** Days of a week but one: a weekday further away could be another week's. */
const NEAR_DAYS = 6;

/** `Thu ` before a time of another day than the plan's on that clock, `Thu 28 Jan ` a week away, nothing on the day itself. */
export function dayMark(plan: Plan, at: Instant, zone: ZoneId): string {
  const day = localDay(at, zone);
  const days = day - dayNumber(plan.date);
  if (days === 0) return "";
  return `${Math.abs(days) > NEAR_DAYS ? shortDateOf(day) : weekdayOf(day).slice(0, 3)} `;
}

const displayName = (plan: Plan, id: Id): string | null =>
  plan.crew.get(id)?.name ?? plan.vehicles.get(id)?.name ?? plan.places.get(id)?.name ?? plan.kit.get(id)?.name ?? null;

function lineOf(plan: Plan, path: PlanPath): string | null {
  const span = plan.source.locate(path);
  return span === null ? dotted(path) : `${fileText(span)}:${span.line}`;
}
