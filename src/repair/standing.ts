/**
 * How a plan stands, and the one ranking by which ways out are compared: minutes of law broken, firm hits lost, minutes of
 * the house broken, other hits lost, people called earlier, minutes moved, edits; what is equal keeps the order of the plan.
 */
import type { ActivityTimes, Day } from "../day/day.ts";
import type { Finding } from "../findings/finding.ts";
import { sumOf } from "../lists.ts";
import type { Id } from "../plan/plan.ts";
import { isOpenError } from "./likeness.ts";
import type { JudgedPlan } from "./outcome.ts";

/** Someone who is called earlier, by how many minutes. */
export interface EarlierPerson {
  readonly id: Id;
  readonly minutes: number;
}

/** What a plan is ranked by. */
export interface Standing {
  readonly lawMinutes: number;
  readonly firmHitsLost: readonly Id[];
  readonly houseMinutes: number;
  readonly hitsLost: readonly Id[];
  readonly earlierPeople: readonly EarlierPerson[];
  readonly movedMinutes: number;
}

/** How `after` stands against the plan as it was. */
export function standingOf(before: JudgedPlan, after: JudgedPlan): Standing {
  const lost = hitsLost(before.day, after);
  const firm = (id: Id): boolean => before.day.plan.hits.get(id)?.firm ?? true;
  return {
    lawMinutes: lawMinutes(after.findings),
    firmHitsLost: lost.filter(firm),
    houseMinutes: minutesOf(after.findings, isOfTheHouse),
    hitsLost: lost.filter((id) => !firm(id)),
    earlierPeople: earlierPeople(before.day, after.day),
    movedMinutes: movedMinutes(before.day, after.day),
  };
}

/** Whether it is a breach of the house's own rules, which the house may accept. */
export const isOfTheHouse = ({ law, source }: Finding): boolean => !law && source?.title === "house rules";

/** Minutes of law broken; a breach without a length counts one. */
export const lawMinutes = (findings: readonly Finding[]): number =>
  minutesOf(findings, ({ law, level }) => law && level === "error");

function minutesOf(findings: readonly Finding[], counts: (finding: Finding) => boolean): number {
  const open = findings.filter((finding) => finding.accepted === null && finding.level !== "note" && counts(finding));
  return sumOf(open, ({ shortMinutes }) => Math.max(1, shortMinutes ?? 1));
}

/** Hits that were planned and are not made: dropped, missed, or with an error that stands against them. */
export function hitsLost(planned: Day, after: JudgedPlan): readonly Id[] {
  const errors = after.findings.filter(isOpenError);
  const blamed = new Set(errors.flatMap((finding) => aboutHits(finding)));
  const made = new Map(after.day.activities.map((one) => [one.id, one.state !== "missed"]));
  return [...planned.plan.hits.keys()].filter((id) => made.get(id) !== true || blamed.has(id));
}

/** Whether a hit that was planned goes on air with fewer people than were to be there: that is no way out of anything. */
export function leavesSomeoneOut(planned: Day, after: Day): boolean {
  const made = new Map(after.activities.flatMap((one) => (one.state === "missed" ? [] : [[one.id, one.who.length]])));
  return planned.activities.some(
    ({ id, who, state }) =>
      state !== "missed" && planned.plan.hits.has(id) && (made.get(id) ?? who.length) < who.length,
  );
}

/** The hits that a finding says cannot be made. */
function aboutHits({ path, facts }: Finding): readonly Id[] {
  const named = [facts["hit"], facts["demand"], facts["what"]].filter((fact) => typeof fact === "string");
  const listed = facts["activities"];
  const all = [...named, ...(Array.isArray(listed) ? listed.map(String) : [])];
  return all.length > 0 || path?.[0] !== "hits" ? all : [String(path[1])];
}

function earlierPeople(before: Day, after: Day): readonly EarlierPerson[] {
  return after.people.flatMap(({ id, call }) => {
    const was = before.people.find((person) => person.id === id)?.call ?? null;
    return was !== null && call !== null && call < was ? [{ id, minutes: was - call }] : [];
  });
}

/** Minutes by which hits and tasks begin at another time or last otherwise; what is dropped counts as `droppedMinutes` says. */
function movedMinutes(before: Day, after: Day): number {
  const now = new Map(after.activities.map((one) => [one.id, one]));
  return sumOf(before.activities, (was) => {
    const is = now.get(was.id);
    if (is === undefined) return droppedMinutes(before, was);
    if (was.start === null || was.end === null) return 0;
    const length = was.end - was.start;
    if (is.start === null || is.end === null) return length;
    return Math.abs(is.start - was.start) + Math.abs(is.end - is.start - length);
  });
}

/**
 * A hit counts its length: it is among the hits lost as well. A task counts as if it were moved out of the day: from when it
 * was to begin (one that has no time: from the arrival) to the end of the day. It costs more than to do it later.
 */
function droppedMinutes({ plan, span, stops: all }: Day, { id, start, end, stops }: ActivityTimes): number {
  if (plan.hits.has(id)) return start === null || end === null ? 0 : end - start;
  const arrival = all.find(({ stop }) => stops.includes(stop.id))?.arrive ?? null;
  return span.to - (start ?? arrival ?? span.from);
}

/** A standing and how many edits led to it. */
export interface Ranked {
  readonly standing: Standing;
  readonly edits: number;
}

const figures = ({ standing, edits }: Ranked): readonly number[] => [
  standing.lawMinutes,
  standing.firmHitsLost.length,
  standing.houseMinutes,
  standing.hitsLost.length,
  standing.earlierPeople.length,
  standing.movedMinutes,
  edits,
];

/** Negative where `a` comes before `b`; 0 where the order of the plan decides. */
export function byRank(a: Ranked, b: Ranked): number {
  const [one, other] = [figures(a), figures(b)];
  return one.reduce((order, value, at) => order || value - (other[at] ?? 0), 0);
}
