/** What a day can be said to forget or to contradict though it can be placed: stops where nothing is done, a slip without room, a vehicle that is elsewhere. */
import type { Finding } from "../findings/finding.ts";
import { groupBy } from "../lists.ts";
import { isFirstDays } from "../plan/firstDay.ts";
import type { Plan } from "../plan/plan.ts";
import { startOnClock } from "../time/index.ts";
import { aboardOf, type Day, type DayBefore, type PersonDay } from "./day.ts";
import { bedElsewhere, slipTooLong, vehicleElsewhere } from "./findings/findings.ts";
import { dutyHalfLogged, loggedOtherwise } from "./findings/findingsFacts.ts";
import { hitBeforeDate, setUpUnplanned } from "./findings/findingsIdle.ts";
import { latestInstants, plannedBounds } from "./network/network.ts";
import type { PlacedDay } from "./network/place.ts";
import { type Attendance, type DayOrder, isLive } from "./order/order.ts";
import { unstatedOrders } from "./order/unlisted.ts";
import { idlePeople, idleStops, lastStops } from "./people/idle.ts";
import { asleepAtWork } from "./people/inBed.ts";

interface Remarked {
  readonly order: DayOrder;
  /** With what was logged alone. */
  readonly plan: Plan;
  readonly placed: PlacedDay;
  readonly before: DayBefore;
  readonly moves: Day["moves"];
  readonly people: readonly PersonDay[];
}

/** Findings of a day that is placed. */
export const remarks = ({ order, plan, placed, before, moves, people }: Remarked): readonly Finding[] => [
  ...slips(placed),
  ...idleStops(order),
  ...lastStops(order),
  ...idlePeople(order).filter(({ who }) => !people.some(({ id, duties }) => id === who && duties.length > 0)),
  ...halfLogged(plan, people),
  ...hitsWithoutVehicle(order),
  ...earlyHits(order.plan),
  ...unstatedOrders(order.visits, order.attendance),
  ...elsewhere(plan, before),
  ...leftAfterRelease(plan, moves, people),
  ...asleepAtWork(plan, people),
];

/** `late` moves nothing: a hit that may slip further than what is fixed after it leaves room for is a warning. */
function slips({ build, value }: PlacedDay): readonly Finding[] {
  return [...build.plan.hits.values()].flatMap((hit) => {
    const late = hit.lateMinutes ?? 0;
    const node = build.nodes.get(`${hit.id}.end`);
    if (late <= 0 || node === undefined || !build.entered.activities.has(hit.id)) return [];
    if (build.plan.actual.activities.has(hit.id)) return [];
    const ownStart = build.nodes.get(`${hit.id}.start`);
    const own = new Set([ownStart, build.nodes.get(`${hit.id}.inPosition`), build.nodes.get(`${hit.id}.lineCheck`)]);
    const bounds = latestInstants(
      build.network,
      (edge) =>
        plannedBounds(edge) && !(own.has(edge.from) && edge.bound !== "none") && !(edge.backward && own.has(edge.to)),
    );
    const room = (bounds?.[node] ?? Number.POSITIVE_INFINITY) - (value[node] ?? 0);
    if (room >= late) return [];
    const path = [...hit.path, "late"];
    return [slipTooLong.raise({ hit: hit.id, late, slack: room, next: "the next fixed time" }, { path, at: hit.at })];
  });
}

/**
 * Hits and stand-bys that are made without a vehicle: nothing says when their gear is set up. One for a place; a task that
 * comes before the hit there stands for the set-up.
 */
function hitsWithoutVehicle({ plan, attendance }: DayOrder): readonly Finding[] {
  if (plan.rules.setUp === 0) return [];
  const unprepared = [...attendance.values()].flatMap((one) => {
    const { location } = one.activity;
    const made = location.kind === "place" && one.visits.every((visit) => visit.vehicle === null);
    return made && isLive(one.activity) && !isPrepared(one, [...attendance.values()])
      ? [{ one, place: location.place }]
      : [];
  });
  return [...groupBy(unprepared, ({ place }) => place)].map(([place, found]) => {
    const all = found.map(({ one }) => one);
    const facts = {
      hits: all.map(({ activity }) => activity.id),
      place,
      setUp: plan.rules.setUp,
      who: all[0]?.who ?? [],
    };
    return setUpUnplanned.raise(facts, { path: all[0]?.activity.path ?? ["hits"] });
  });
}

function isPrepared({ activity }: Attendance, all: readonly Attendance[]): boolean {
  const before = all.filter(
    (other) => activity.after.includes(other.activity.id) || other.activity.before.includes(activity.id),
  );
  return before.some((other) =>
    isLive(other.activity) ? isPrepared(other, all) : other.activity.location.kind === "place",
  );
}

/** Hits before the plan's date: `06:00 local` where the day begins earlier than in the control room. */
function earlyHits(plan: Plan): readonly Finding[] {
  const begins = startOnClock(plan.date, 0, plan.clock);
  return [...plan.hits.values()].flatMap((hit) => {
    if (hit.at >= begins) return [];
    const facts = { hit: hit.id, at: { at: hit.at }, date: plan.date };
    return [hitBeforeDate.raise(facts, { path: [...hit.path, "at"], at: hit.at })];
  });
}

/** What sets off from a place where the day before did not leave it. */
function elsewhere(plan: Plan, before: DayBefore): readonly Finding[] {
  const vehicles = [...plan.runs.values()].flatMap((run) => {
    const at = before.vehicles.get(run.vehicle);
    const first = run.stops[0];
    if (at === undefined || first === undefined || first.place === at) return [];
    return [vehicleElsewhere.raise({ vehicle: run.vehicle, at, from: first.place }, { path: first.path })];
  });
  const people = [...plan.crew.values()].flatMap((person) => {
    const at = before.beds.get(person.id);
    if (at === undefined || person.slept === null || person.slept === at) return [];
    if (isFirstDays(plan, [...person.path, "slept"])) return [];
    const facts = { who: person.id, at, slept: person.slept };
    return [bedElsewhere.raise(facts, { who: person.id, path: [...person.path, "slept"] })];
  });
  return [...vehicles, ...people];
}

/** Who worked besides the plan, as far as the log says. */
function halfLogged({ actual, crew }: Plan, people: readonly PersonDay[]): readonly Finding[] {
  return people.flatMap(({ id, duties }) => {
    const { call = null, released = null } = actual.people.get(id) ?? {};
    if (duties.length > 0 || (call === null) === (released === null) || !crew.has(id)) return [];
    const [logged, missing] = call === null ? ["released", "called"] : ["called", "released"];
    return [
      dutyHalfLogged.raise(
        { who: id, logged, missing },
        { who: id, path: ["actual", id, call === null ? "released" : "call"] },
      ),
    ];
  });
}

/** A ride that the plan still has for someone who is logged as released. */
function leftAfterRelease(plan: Plan, moves: Day["moves"], people: readonly PersonDay[]): readonly Finding[] {
  return people.flatMap(({ id, release }) => {
    const released = plan.actual.people.get(id)?.released ?? null;
    if (released === null || release !== released) return [];
    const left = moves.find((one) => one.leave >= released && aboardOf(one).includes(id));
    if (left === undefined) return [];
    return [
      loggedOtherwise.raise(
        { what: id, rule: "aboard", other: left.id },
        { who: id, path: ["actual", id, "released"] },
      ),
    ];
  });
}
