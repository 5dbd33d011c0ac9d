/**
 * Which visit an activity belongs to and who does it: what `do` lists, else the one visit of its place by the vehicles that
 * carry its people or its path; then each person's stay there.
 */
import type { Finding } from "../../findings/finding.ts";
import type { Hit, Id, Plan, Stop, Task } from "../../plan/plan.ts";
import * as say from "../findings/findings.ts";
import type { Attendance, OrderedLeg, PersonOrder, RideRef, Visit } from "./order.ts";
import { unlistedOrder } from "./unlisted.ts";

/** The stops whose visits an activity belongs to, before people are known. */
export type StopsOf = ReadonlyMap<Id, readonly Stop[]>;

interface Grounds {
  readonly plan: Plan;
  readonly parties: ReadonlyMap<Id, readonly Id[]>;
  readonly findings: Finding[];
}

/** All hits and tasks of a plan. */
export const activitiesOf = (plan: Plan): readonly (Hit | Task)[] => [...plan.hits.values(), ...plan.tasks.values()];

/** Settles the stops of every activity that happens at a place. */
export function stopsOfActivities(grounds: Grounds): StopsOf {
  const result = new Map<Id, readonly Stop[]>();
  for (const activity of activitiesOf(grounds.plan)) {
    if (activity.location.kind !== "place") continue;
    const listed = listedStops(grounds, activity);
    result.set(activity.id, listed.length > 0 ? listed : unlistedStops(grounds, activity, activity.location.place));
  }
  return result;
}

/** A stop that lists what is done at another place was refused when the plan was read. */
function listedStops({ plan, findings }: Grounds, activity: Hit | Task): readonly Stop[] {
  return [...plan.runs.values()].flatMap((run) => {
    const stops = run.stops.filter((stop) => stop.do?.includes(activity.id));
    if (stops.length > 1) {
      const facts = { activity: activity.id, stops: stops.map((stop) => stop.id) };
      findings.push(say.listedTwice.raise(facts, { path: [...(stops[1]?.path ?? run.path), "do"] }));
    }
    return stops.slice(0, 1);
  });
}

function unlistedStops({ plan, parties, findings }: Grounds, activity: Hit | Task, place: Id): readonly Stop[] {
  const vehicleOfPath = activity.signalPath === null ? null : (plan.paths.get(activity.signalPath)?.vehicle ?? null);
  return [...plan.runs.values()].flatMap((run) => {
    const stops = run.stops.filter((stop) => {
      const party = parties.get(stop.id) ?? [];
      const carries = activity.who === null || activity.who.some((id) => party.includes(id));
      return stop.place === place && (carries || run.vehicle === vehicleOfPath);
    });
    if (stops.length < 2) return stops;
    const facts = { activity: activity.id, place, who: null, stops: stops.map((stop) => stop.id) };
    findings.push(say.visitOpen.raise(facts, { path: activity.path }));
    return stops.slice(0, 1);
  });
}

/** One visit for each stop with something to do, activities in `do` order and then, where left out, hits by time and tasks. */
export function visitsOf({ plan, parties }: Grounds, stopsOf: StopsOf): readonly Visit[] {
  return [...plan.runs.values()].flatMap((run) =>
    run.stops.flatMap((stop): Visit[] => {
      const here = activitiesOf(plan).filter((activity) => stopsOf.get(activity.id)?.includes(stop));
      const listed = (stop.do ?? []).filter((id) => here.some((activity) => activity.id === id));
      const rest = unlistedOrder(here.filter((activity) => !listed.includes(activity.id)));
      const activities = [...listed, ...rest.map((activity) => activity.id)];
      if (activities.length === 0) return [];
      return [
        { id: stop.id, vehicle: run.vehicle, stop, place: stop.place, party: parties.get(stop.id) ?? [], activities },
      ];
    }),
  );
}

/** The leg of an activity done on the way: listed at the stop it leaves from, else the only one that fits. */
export function legOfActivity<L extends Pick<OrderedLeg, "id" | "vehicle" | "from" | "to" | "aboard">>(
  legs: readonly L[],
  activity: Hit | Task,
  findings: Finding[],
): L | null {
  const { location } = activity;
  if (location.kind === "place") return null;
  const fits = legs.filter((leg) => {
    if (location.kind === "aboard" && leg.vehicle !== location.vehicle) return false;
    if (location.kind === "onRoad" && (leg.from.place !== location.from || leg.to.place !== location.to)) return false;
    return activity.who === null || activity.who.every((id) => leg.aboard.includes(id));
  });
  const listed = fits.filter((leg) => leg.from.do?.includes(activity.id));
  const candidates = listed.length > 0 ? listed : fits;
  const [only] = candidates;
  if (only !== undefined && candidates.length === 1) return only;
  findings.push(
    say.legOpen.raise({ activity: activity.id, legs: candidates.map((leg) => leg.id) }, { path: activity.path }),
  );
  return null;
}

/** People and stays of an activity at a place or on a leg. */
export function attend(
  { plan, findings }: Grounds,
  activity: Hit | Task,
  visits: readonly Visit[],
  leg: OrderedLeg | null,
  people: ReadonlyMap<Id, PersonOrder>,
): Attendance {
  const mine = visits.filter((visit) => visit.activities.includes(activity.id));
  const coming = leg === null ? mine.flatMap((visit) => visit.party) : leg.aboard;
  const who = activity.who ?? [...plan.crew.keys()].filter((id) => coming.includes(id));
  const stayOf = new Map<Id, number>();
  if (activity.location.kind === "place") {
    const place = activity.location.place;
    for (const id of who) {
      const stay = stayAt(plan, people.get(id), place, mine, activity, findings);
      if (stay !== null) stayOf.set(id, stay);
    }
    if (mine.length === 0 && activity.who === null) {
      const there = [...people.values()].filter(({ stays }) => stays.some((stay) => stay.place === place));
      const facts = { activity: activity.id, place, there: there.map(({ id }) => id) };
      findings.push(say.placeNotVisited.raise(facts, { path: activity.path }));
    }
  }
  if (who.length === 0 && (mine.length > 0 || activity.who !== null)) {
    findings.push(say.nobodyAttends.raise({ activity: activity.id }, { path: activity.path }));
  }
  const alone: readonly Visit[] =
    activity.location.kind === "place" && mine.length === 0
      ? [visitWithoutVehicle(activity, activity.location.place, who)]
      : [];
  return { activity, who, visits: leg === null ? [...mine, ...alone] : [], leg, stayOf };
}

const visitWithoutVehicle = (activity: Hit | Task, place: Id, party: readonly Id[]): Visit => ({
  id: `@${activity.id}`,
  vehicle: null,
  stop: null,
  place,
  party,
  activities: [activity.id],
});

/** How someone comes to a stay: the stop they arrive at, the ride, or the bed. */
const cameWith = (arriving: RideRef | null): string => {
  if (arriving === null) return "from the bed";
  return arriving.kind === "leg" ? arriving.leg.to.id : arriving.ride.id;
};

function stayAt(
  plan: Plan,
  person: PersonOrder | undefined,
  place: Id,
  visits: readonly Visit[],
  activity: Hit | Task,
  findings: Finding[],
): number | null {
  if (person === undefined) return null;
  const there = person.stays.flatMap((stay, index) => (stay.place === place ? [index] : []));
  const bound = there.filter((index) => {
    const stay = person.stays[index];
    return visits.some(
      (visit) =>
        (stay?.arriving?.kind === "leg" && stay.arriving.leg.to === visit.stop) ||
        (stay?.leaving?.kind === "leg" && stay.leaving.leg.from === visit.stop),
    );
  });
  const fits = bound.length > 0 ? bound : there;
  const [only] = fits;
  const facts = { activity: activity.id, who: person.id, place };
  if (only === undefined) {
    const calling = [...plan.runs.values()].filter(({ stops }) => stops.some((stop) => stop.place === place));
    const by = calling.map(({ vehicle }) => vehicle);
    findings.push(say.cannotAttend.raise({ ...facts, by }, { who: person.id, path: [...activity.path, "who"] }));
    return null;
  }
  if (fits.length > 1) {
    const stops = fits.map((index) => cameWith(person.stays[index]?.arriving ?? null));
    findings.push(say.visitOpen.raise({ ...facts, stops }, { who: person.id, path: activity.path }));
  }
  return only;
}
