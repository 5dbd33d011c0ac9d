/**
 * Edits for what is out of service and who is away: another vehicle takes the people on or fetches them, another path
 * carries the hits, somebody else drives or does the work.
 */
import { aboardOf, type Day, type Move } from "../../day/day.ts";
import type { Finding } from "../../findings/finding.ts";
import type { Edit } from "../../plan/edit/splice.ts";
import { valueText } from "../../plan/edit/value.ts";
import type { Hit, Id, Plan, Run, Stop, Task } from "../../plan/plan.ts";
import { type Manning, manningOf } from "../../plan/sense/manning.ts";
import type { Candidate, RepairProblem } from "../outcome.ts";
import { doEdits, isOwn, listValue, stopEdit } from "../writing.ts";
import { placedAt } from "./times.ts";

interface Outage {
  /** The day as it would be with all that is out of service. */
  readonly day: Day;
  readonly plan: Plan;
  readonly text: string;
  /** A vehicle, a path or a person. */
  readonly what: Id;
  readonly section: string;
  readonly from: number;
  readonly lost: readonly Id[];
}

/** Ways on without what is out of service; other paths, drivers and hands are steps of their own. */
export function outageCandidates({ now: { day }, text, targets }: RepairProblem): readonly Candidate[] {
  const { intact } = day;
  if (intact === null) return [];
  return targets
    .flatMap((target) => outageOf(intact, text, target) ?? [])
    .flatMap((outage) => [
      ...otherPaths(outage),
      ...otherDrivers(outage),
      ...otherHands(outage),
      ...otherVehicles(outage),
    ]);
}

function outageOf(day: Day, text: string, { path, facts, at }: Finding): Outage | null {
  const { what, lost } = facts;
  if (path === null || at === null || typeof what !== "string" || !Array.isArray(lost)) return null;
  return { day, plan: day.plan, text, what, section: String(path[0]), from: at, lost: lost.map(String) };
}

/** All lost hits and feeds whose path is gone, by the spare of each, then by each other path. */
function otherPaths({ plan, text, what, lost }: Outage): readonly Candidate[] {
  const gone = (id: Id | null): boolean => id !== null && (id === what || plan.paths.get(id)?.vehicle === what);
  const entries = entriesOf(plan, lost).filter(({ signalPath, path }) => gone(signalPath) && isOwn(plan, text, path));
  if (entries.length === 0) return [];
  const spares = entries.map((one) => (one.kind === "hit" ? one.spare : null));
  const bySpare = entries.flatMap((one, at) => pathEdits(plan, text, one, spares[at] ?? null));
  // A cable only where every hit says how long it is.
  const isLaid = entries.every((one) => one.kind === "hit" && one.run !== null);
  const others = [...plan.paths.values()].filter(({ id, kind }) => !gone(id) && (kind !== "cable" || isLaid));
  return [
    ...(spares.some((spare) => spare === null || gone(spare)) ? [] : [{ edits: bySpare }]),
    ...others.map(({ id }) => ({ edits: entries.flatMap((one) => pathEdits(plan, text, one, id)) })),
  ];
}

/** A path in the place of the one that is gone; it is no spare of its own. */
function pathEdits(plan: Plan, text: string, activity: Hit | Task, path: Id | null): readonly Edit[] {
  if (path === null) return [];
  const spare = activity.kind === "hit" ? activity.spare : null;
  const own = [...activity.path, "spare"];
  const needless = spare === path && isOwn(plan, text, own) ? [{ path: own, value: null }] : [];
  return [{ path: [...activity.path, "path"], value: path }, ...needless];
}

/** The entries of some activities, each once. */
function entriesOf(plan: Plan, ids: readonly Id[]): readonly (Hit | Task)[] {
  const all = [...plan.hits.values(), ...plan.tasks.values()].filter(({ id }) => ids.includes(id));
  return all.filter(({ path }, at) => all.findIndex((other) => other.path[1] === path[1]) === at);
}

/** Somebody aboard who may drive, on every drive of one who is away. */
function otherDrivers({ day, plan, text, what, section, from }: Outage): readonly Candidate[] {
  if (section !== "crew") return [];
  const moves = day.moves.filter(({ driver, leave }) => driver === what && leave >= from);
  const drivers = [...plan.crew.values()].filter(
    ({ id, drives }) =>
      id !== what && moves.every(({ vehicle, riders }) => drives.includes(vehicle) && riders.includes(id)),
  );
  const stops = moves.flatMap(({ id }) => stopsOf(plan).filter((stop) => stop.id === id));
  if (stops.length === 0 || !stops.every(({ path }) => isOwn(plan, text, path))) return [];
  return drivers.map(({ id }) => ({ edits: stops.map((stop) => stopEdit(plan, text, stop, "driver", id)) }));
}

const stopsOf = (plan: Plan): readonly Stop[] => [...plan.runs.values()].flatMap(({ stops }) => stops);

/** What one who is away was to do, by somebody of the same role, and without them where others do it. */
function otherHands({ plan, text, what, section, lost }: Outage): readonly Candidate[] {
  if (section !== "crew") return [];
  const entries = entriesOf(plan, lost).filter(
    ({ who, path }) => who?.includes(what) === true && isOwn(plan, text, [...path, "who"]),
  );
  if (entries.length === 0) return [];
  const roles = plan.crew.get(what)?.roles ?? [];
  const alike = [...plan.crew.values()].filter(
    ({ id, roles: own }) => id !== what && own.some((r) => roles.includes(r)),
  );
  const edited = (who: (one: readonly Id[]) => readonly Id[]): Candidate => ({
    edits: entries.map((one) => ({ path: [...one.path, "who"], value: listValue(who(one.who ?? [])) })),
  });
  return [
    ...alike.map(({ id }) => edited((who) => [...new Set(who.map((one) => (one === what ? id : one)))])),
    ...(entries.every(({ who }) => (who?.length ?? 0) > 1) ? [edited((who) => who.filter((one) => one !== what))] : []),
  ];
}

/** Where they slept, which their rides alone no longer say. */
function beds({ day, plan }: Outage, people: readonly Id[]): readonly Edit[] {
  if (plan.follows !== null) return [];
  return day.people.flatMap(({ id, slept }) =>
    people.includes(id) && slept !== null && plan.crew.get(id)?.slept === null
      ? [{ path: ["crew", id, "slept"], value: slept }]
      : [],
  );
}

/** A vehicle that goes no further than one of its stops, and who goes on from there. */
interface Left {
  readonly run: Run;
  /** Index of the last stop. */
  readonly at: number;
  readonly people: readonly Id[];
  /** When they are there; null at the first stop. */
  readonly arrive: number | null;
}

/** The people of each vehicle that comes to a halt go on with each other one. */
function otherVehicles(outage: Outage): readonly Candidate[] {
  return leftBy(outage).flatMap((left) =>
    [...outage.plan.runs.values()]
      .filter(({ vehicle }) => vehicle !== left.run.vehicle)
      .flatMap((run) => [...takenOn(outage, left, run), ...fetched(outage, left, run)]),
  );
}

/** Where a vehicle that stops may be left: where it is when it is out of service, the latest stop first, or before. */
function leftBy({ day, plan, what, section, from }: Outage): readonly Left[] {
  if (section === "paths") return [];
  const out = day.moves.find((move) => isStopped(move, section, what, from));
  const run = out === undefined ? undefined : plan.runs.get(out.vehicle);
  if (out === undefined || run === undefined) return [];
  const last = run.stops.findIndex(({ id }) => id === out.id);
  const left = Array.from({ length: last + 1 }, (_, back): Left | null => {
    const at = last - back;
    const stop = run.stops[at];
    const move = day.moves.find(({ id }) => id === stop?.id);
    const arrive = day.stops.find((one) => one.stop.id === stop?.id)?.arrive ?? null;
    if (move === undefined) return null;
    return { run, at, people: aboardOf(move).filter((id) => section !== "crew" || id !== what), arrive };
  });
  return left.filter((one) => one !== null && one.people.length > 0) as readonly Left[];
}

const isStopped = (move: Move, section: string, what: Id, from: number): boolean =>
  section === "crew" ? move.driver === what && move.leave >= from : move.vehicle === what && move.arrive > from;

/** They get in where the other vehicle stops with them, and do with it what they were to do. */
function takenOn(outage: Outage, left: Left, run: Run): readonly Candidate[] {
  const { day, plan, text } = outage;
  const place = left.run.stops[left.at]?.place;
  return run.stops.flatMap((stop, at): readonly Candidate[] => {
    const move = day.moves.find(({ id }) => id === stop.id);
    if (stop.place !== place || move === undefined || move.leave < (left.arrive ?? move.leave)) return [];
    const manning = manningOf(plan, run);
    const rest = run.stops.slice(at);
    if (manning === null || !rest.every(({ path }) => isOwn(plan, text, path))) return [];
    const aboard = rest.flatMap((later, index) =>
      index === 0 || later.aboard !== null ? [withPeople(outage, later, manning[at + index], left.people)] : [],
    );
    const cut = cutEdits(outage, left);
    return cut === null
      ? []
      : [{ edits: [...cut, ...aboard, ...alsoDone(outage, left, rest.slice(1)), ...beds(outage, left.people)] }];
  });
}

const withPeople = ({ plan, text }: Outage, stop: Stop, manning: Manning | undefined, people: readonly Id[]): Edit =>
  stopEdit(plan, text, stop, "aboard", listValue([...new Set([...(manning?.aboard ?? []), ...people])]));

/** The stops that the vehicle no longer makes, the last one first; null where they stand in another file. */
function cutEdits({ plan, text }: Outage, { run, at }: Left): readonly Edit[] | null {
  const gone = run.stops.slice(at + 1).toReversed();
  if (!gone.every(({ path }) => isOwn(plan, text, path))) return null;
  return at === 0 && isOwn(plan, text, run.path)
    ? [{ path: run.path, value: null }]
    : gone.map(({ path }) => ({ path, value: null }));
}

/** What the first vehicle alone was to do at a place, where the other one comes to it. */
function alsoDone({ day, text }: Outage, { run, at }: Left, stops: readonly Stop[]): readonly Edit[] {
  return stops.flatMap((stop): readonly Edit[] => {
    const own = stop.do;
    if (own === null) return [];
    const more = run.stops.slice(at + 1).flatMap((one) => (one.place === stop.place ? (one.do ?? []) : []));
    const missing = more.filter((id) => !own.includes(id));
    if (missing.length === 0) return [];
    return doEdits(day, text, new Map([[stop, missing.reduce((all, id) => placedAt(day, all, id), own)]])) ?? [];
  });
}

/** The other vehicle comes by, between two of its stops, where it does not stop there anyway. */
function fetched(outage: Outage, left: Left, run: Run): readonly Candidate[] {
  const { plan, text } = outage;
  const place = left.run.stops[left.at]?.place;
  const manning = manningOf(plan, run);
  const cut = cutEdits(outage, left);
  if (place === undefined || manning === null || cut === null) return [];
  if (run.stops.some((stop) => stop.place === place)) return [];
  const values = run.stops.map((stop) => valueText(text, stop.path, plan));
  if (!run.stops.every(({ path }) => isOwn(plan, text, path))) return [];
  return run.stops.slice(0, -1).map((_, at) => {
    const aboard = listValue([...new Set([...(manning[at]?.aboard ?? []), ...left.people])]);
    const stop = `{ place: ${place}, aboard: ${aboard} }`;
    const rest = [stop, ...values.slice(at + 1)];
    const moved = rest.map((value, index) => ({ path: [...run.path, "stops", at + 1 + index], value }));
    return { edits: [...cut, ...moved, ...beds(outage, left.people)] };
  });
}
