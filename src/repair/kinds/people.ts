/** Edits of who does what: another driver on a move, a stand-in, a hit handed to someone else, another vehicle that fetches. */
import type { Move } from "../../day/day.ts";
import type { Edit } from "../../plan/edit/splice.ts";
import type { Activity, Id, Plan, Stop } from "../../plan/plan.ts";
import type { Candidate, RepairProblem } from "../outcome.ts";
import { isOwn, listValue, stopEdit } from "../writing.ts";

/** Somebody else aboard who may drive, on one move; from the next stop on as it was. */
export function driverCandidates({ now: { day }, text, targets }: RepairProblem): readonly Candidate[] {
  const { plan } = day;
  const tired = new Set(targets.flatMap(({ who }) => who ?? []));
  return day.moves.flatMap((move): readonly Candidate[] => {
    if (tired.size > 0 && ![...tired].some((who) => drives(move, who))) return [];
    const stop = stopOf(plan, move.id);
    if (stop === null || !isOwn(plan, text, stop.path)) return [];
    return move.riders
      .filter((who) => plan.crew.get(who)?.drives.includes(move.vehicle) === true)
      .map((who) => ({ edits: [...driverEdits(plan, text, stop, who, move.driver), ...awake(plan, text, stop, who)] }));
  });
}

const drives = ({ wheel, driver }: Move, who: Id): boolean =>
  driver === who || wheel.some((span) => span.driver === who);

const stopOf = (plan: Plan, id: Id): Stop | null =>
  [...plan.runs.values()].flatMap(({ stops }) => stops).find((stop) => stop.id === id) ?? null;

/** The driver from one stop, and the old one again from the next that goes on and names none. */
function driverEdits(plan: Plan, text: string, stop: Stop, who: Id, old: Id): readonly Edit[] {
  const run = [...plan.runs.values()].find(({ stops }) => stops.includes(stop));
  const at = run?.stops.indexOf(stop) ?? -1;
  const next = run?.stops[at + 1];
  const goesOn = next !== undefined && at + 2 < (run?.stops.length ?? 0);
  const back = goesOn && next.driver === null ? [stopEdit(plan, text, next, "driver", old)] : [];
  return [stopEdit(plan, text, stop, "driver", who), ...back];
}

/** Whoever takes the wheel is not asleep on that leg. */
const awake = (plan: Plan, text: string, stop: Stop, who: Id): readonly Edit[] =>
  stop.asleep?.includes(who) === true && isOwn(plan, text, [...stop.path, "asleep"])
    ? [{ path: [...stop.path, "asleep"], value: listValue(stop.asleep.filter((one) => one !== who)) }]
    : [];

/** Somebody of the same role who has nothing to do, in everything that one does. */
export function standInCandidates({ now: { day }, text, targets }: RepairProblem): readonly Candidate[] {
  const { plan } = day;
  const free = day.people.filter(({ call }) => call === null).map(({ id }) => id);
  const tired = [...new Set(targets.flatMap(({ who }) => who ?? []))];
  return tired.flatMap((who) =>
    free
      .filter((other) => alike(plan, who, other))
      .flatMap((other) => {
        const edits = replaced(plan, text, who, other);
        return edits === null || edits.length === 0 ? [] : [{ edits }];
      }),
  );
}

const alike = (plan: Plan, who: Id, other: Id): boolean => {
  const roles = plan.crew.get(other)?.roles ?? [];
  return other !== who && (plan.crew.get(who)?.roles ?? []).some((role) => roles.includes(role));
};

/** Every list that names one person, naming the other; null where one of them stands in another file. */
function replaced(plan: Plan, text: string, who: Id, other: Id): readonly Edit[] | null {
  const swap = (ids: readonly Id[]): readonly Id[] => ids.map((id) => (id === who ? other : id));
  const edits: Edit[] = [];
  for (const run of plan.runs.values()) {
    if (run.driver === who) edits.push({ path: [...run.path, "driver"], value: other });
    if (run.aboard?.includes(who) === true)
      edits.push({ path: [...run.path, "aboard"], value: listValue(swap(run.aboard)) });
    for (const stop of run.stops) {
      if (stop.driver === who) edits.push({ path: [...stop.path, "driver"], value: other });
      for (const [key, ids] of [
        ["aboard", stop.aboard],
        ["asleep", stop.asleep],
      ] as const)
        if (ids?.includes(who) === true) edits.push({ path: [...stop.path, key], value: listValue(swap(ids)) });
      for (const [index, relief] of stop.relieve.entries())
        if (relief.driver === who) edits.push({ path: [...stop.path, "relieve", index, "driver"], value: other });
    }
  }
  const seen = new Set<string>();
  for (const activity of [...plan.hits.values(), ...plan.tasks.values()]) {
    if (activity.who?.includes(who) !== true || seen.has(String(activity.path[1]))) continue;
    seen.add(String(activity.path[1]));
    edits.push({ path: [...activity.path, "who"], value: listValue(swap(activity.who)) });
  }
  return edits.every(({ path }) => isOwn(plan, text, path)) ? edits : null;
}

/** A hit or task handed to somebody of the same role who is in the crew. */
export function handCandidates({ now: { day }, text, targets }: RepairProblem): readonly Candidate[] {
  const { plan } = day;
  const tired = new Set(targets.flatMap(({ who }) => who ?? []));
  const seen = new Set<string>();
  return day.activities.flatMap(({ activity, who }): readonly Candidate[] =>
    who
      .filter((one) => tired.size === 0 || tired.has(one))
      .flatMap((one) =>
        [...plan.crew.keys()]
          .filter((other) => !who.includes(other) && alike(plan, one, other))
          .flatMap((other) => handed(activity, who, one, other)),
      )
      .filter(({ edits }) => {
        const key = JSON.stringify(edits);
        return isOwn(plan, text, activity.path) && !seen.has(key) && seen.add(key) !== null;
      }),
  );
}

const handed = ({ path }: Activity, who: readonly Id[], one: Id, other: Id): readonly Candidate[] => [
  { edits: [{ path: [...path, "who"], value: listValue(who.map((id) => (id === one ? other : id))) }] },
];

/** Somebody rides with another vehicle all day. */
export function fetchCandidates({ now: { day }, text, targets }: RepairProblem): readonly Candidate[] {
  const { plan } = day;
  const tired = [...new Set(targets.flatMap(({ who }) => who ?? []))];
  const runs = [...plan.runs.values()].filter(({ path }) => isOwn(plan, text, [...path, "aboard"]));
  return tired.flatMap((who) =>
    runs
      .filter(({ aboard, driver }) => aboard?.includes(who) === true && driver !== who)
      .flatMap((from) =>
        runs
          .filter((to) => to !== from && to.aboard?.includes(who) === false)
          .map((to) => ({
            edits: [
              { path: [...from.path, "aboard"], value: listValue((from.aboard ?? []).filter((id) => id !== who)) },
              { path: [...to.path, "aboard"], value: listValue([...(to.aboard ?? []), who]) },
            ],
          })),
      ),
  );
}
