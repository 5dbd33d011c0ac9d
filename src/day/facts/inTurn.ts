/**
 * What is logged later changes nothing before it: the day is solved as it was known before each fact, and goes on from the
 * moment of that fact. Whatever had begun by then stands, also of vehicles and people that the fact is not about, unless what
 * was logged leaves no room for it.
 */
import type { Finding } from "../../findings/finding.ts";
import type { ActualPerson, ActualVehicle, Id, Plan } from "../../plan/plan.ts";
import { type Instant, instant } from "../../time/units.ts";
import type { Day } from "../day.ts";
import { activityTimesOf, vehicleMoves } from "../network/assemble.ts";
import { buildNetwork } from "../network/build.ts";
import type { Timed } from "../network/inWeather.ts";
import { earliest, everything, latestInstants, ORIGIN } from "../network/network.ts";
import type { Entered } from "../network/nodes.ts";
import type { PlacedDay } from "../network/place.ts";
import type { DayOrder } from "../order/order.ts";
import { placedInstant, placedInstants } from "../people/timeline.ts";
import { factsUntil } from "./asItWent.ts";
import { calledLate } from "./calledLate.ts";
import { type Completed, completeFacts } from "./openFacts.ts";
import { begunBefore } from "./past.ts";
import type { Pins } from "./pins.ts";
import { type Stood, stoodOf, withArrivals } from "./vehiclesStood.ts";

/** What is past and does not follow from the plan itself. */
export interface GivenPast {
  readonly pins: Pins["at"];
  readonly now: Instant | null;
  readonly standing: Pins["standing"];
  /** Arrivals that follow from where a vehicle stood; by stop id. */
  readonly arrived: Stood["arrived"];
  readonly findings: readonly Finding[];
}

/** A day that is placed. */
export interface KnownDay {
  readonly order: DayOrder;
  readonly timed: Timed;
  readonly placed: PlacedDay;
  readonly findings: readonly Finding[];
}

/** A day that is placed, or why it cannot be. */
export type Solved =
  | KnownDay
  | { readonly order: DayOrder; readonly timed: null; readonly placed: null; readonly findings: readonly Finding[] };

type Solve = (completed: Completed, past: GivenPast) => Solved;

/** Someone's call or a vehicle's place as logged, with the day as it was known until then and before all facts. */
interface Sighting {
  readonly people: ReadonlyMap<Id, ActualPerson>;
  readonly vehicles: ReadonlyMap<Id, ActualVehicle>;
  readonly moment: Instant;
  readonly known: KnownDay;
  readonly first: KnownDay;
}

/** The day with all that was logged, one moment of a fact after the other. */
export function solvedInTurn(plan: Plan, past: GivenPast, solve: Solve): Solved {
  const moments = momentsOf(plan);
  const first = moments[0] === undefined ? plan : knownAt(plan, instant(moments[0] - 1));
  let made = solve(completeFacts(withArrivals(first, past.arrived), noDay), past);
  let known: KnownDay | null = made.placed === null ? null : made;
  const base = known;
  let { pins, standing } = past;
  const sightings: Sighting[] = [];
  for (const [index, moment] of moments.entries()) {
    const isLast = index === moments.length - 1;
    const here = isLast ? plan : knownAt(plan, moment);
    const seen = known === null ? null : sightingAt({ known, first: base ?? known, moment }, here);
    if (seen !== null) sightings.push(seen);
    if (known !== null && seen === null && !isLast && !isNews(known, here, moment)) continue;
    const stood = sightings.map((one) => stoodIn(one, here)).reduce(together, { arrived: past.arrived, standing });
    const completed = completeFacts(withArrivals(here, stood.arrived), (_, name) =>
      known === null ? null : placedInstant(known.placed, name),
    );
    const given = (): GivenPast => ({ ...past, pins, ...together(stood, { ...stood, standing }) });
    made = solve(completed, given());
    for (let round = 0; round < ROUNDS && made.placed !== null && known !== null; round++) {
      const kept = standsFrom(known, made, moment);
      if (kept === null) break;
      const before = { pins, standing };
      pins = new Map([...pins, ...kept.pins]);
      standing = together({ ...stood, standing }, { ...stood, standing: kept.standing }).standing;
      const again = solve(completed, given());
      if (again.placed === null) {
        ({ pins, standing } = before);
        break;
      }
      made = again;
    }
    if (made.placed !== null) known = made;
  }
  return made;
}

/** What stands may leave less room for the rest: it is looked at again so often. */
const ROUNDS = 3;

const noDay = (): null => null;

/** The plan with what was logged of no later than a moment. */
const knownAt = (plan: Plan, moment: Instant): Plan => ({ ...plan, actual: factsUntil(plan, moment).actual });

/** The moments of all facts that can move a time, in order. */
function momentsOf({ actual }: Plan): readonly Instant[] {
  const all = [
    ...[...actual.activities.values()].flatMap(({ at, end }) => [at, end]),
    ...[...actual.stops.values()].flatMap(({ arrived, left }) => [arrived, left]),
    ...[...actual.people.values()].map(({ call }) => call),
    ...[...actual.vehicles.values()].map(({ since }) => since),
  ];
  return [...new Set(all.filter((at) => at !== null))].toSorted((a, b) => a - b);
}

/** Whether something of that moment went otherwise than was known. */
function isNews({ placed }: KnownDay, { actual }: Plan, moment: Instant): boolean {
  const facts = [
    ...[...actual.activities].flatMap(([id, { at, end }]) => [
      [`${id}.start`, at] as const,
      [`${id}.end`, end] as const,
    ]),
    ...[...actual.stops].flatMap(([id, { arrived, left }]) => [
      [`${id}.arrive`, arrived] as const,
      [`${id}.leave`, left] as const,
    ]),
  ];
  return facts.some(([name, at]) => at === moment && placedInstant(placed, name) !== at);
}

/** Calls and places logged of a moment that move something; null where there are none. */
function sightingAt(days: Pick<Sighting, "known" | "first" | "moment">, plan: Plan): Sighting | null {
  const people = new Map([...plan.actual.people].filter(([, { call }]) => call === days.moment));
  const vehicles = new Map([...plan.actual.vehicles].filter(([, { since }]) => since === days.moment));
  if (people.size + vehicles.size === 0) return null;
  const seen: Sighting = { people, vehicles, ...days };
  const { arrived, standing } = stoodIn(seen, plan);
  return arrived.size + standing.size === 0 ? null : seen;
}

/**
 * What follows from a sighting with all else that is logged by now. Where an earlier fact has lost what a vehicle was to leave
 * for, it stood there all the same: as much is short as the last of them says.
 */
function stoodIn({ people, vehicles, moment, known, first }: Sighting, plan: Plan): Stood {
  const of = ({ placed, timed }: KnownDay): Stood =>
    stoodAndCalled({
      plan: { ...plan, actual: { ...plan.actual, people, vehicles } },
      moves: vehicleMoves(placed),
      activities: activityTimesOf(placed, timed.admitted.missed),
      instants: placedInstants(placed),
    });
  const own = of(known);
  if (first === known) return own;
  const stoodThere = [...of(first).standing].filter(
    ([stop, at]) =>
      (placedInstant(known.placed, `${stop}.leave`) ?? at) >= at &&
      (placedInstant(known.placed, `${stop}.arrive`) ?? moment) <= moment,
  );
  return together(own, { ...own, standing: new Map(stoodThere) });
}

/** Where vehicles stood as logged, and which waited for someone who is logged as called later than they were to leave. */
export function stoodAndCalled(day: Pick<Day, "plan" | "moves" | "activities" | "instants">): Stood {
  const { arrived, standing } = stoodOf(day);
  return together({ arrived, standing }, { arrived, standing: calledLate(day) });
}

/** Both, the later departure where both hold one. */
function together(one: Stood, other: Stood): Stood {
  const standing = new Map(one.standing);
  for (const [stop, at] of other.standing) standing.set(stop, instant(Math.max(at, standing.get(stop) ?? at)));
  return { arrived: new Map([...one.arrived, ...other.arrived]), standing };
}

/** What had begun before a moment and went otherwise in a day of what is known now; null where all of it stands. */
function standsFrom(known: KnownDay, made: KnownDay, moment: Instant): Pick<GivenPast, "pins" | "standing"> | null {
  const { nodes } = made.placed.build;
  const at = (name: string): number => placedInstant(made.placed, name) ?? Number.NaN;
  const moves = vehicleMoves(known.placed);
  const begun = [...begunBefore({ instants: placedInstants(known.placed), moves }, moment)].filter(
    ([name]) => nodes.has(name) && !isEmpty(known.placed, name),
  );
  const moved = begun.filter(([name, pin]) => at(name) !== pin.at);
  const waiting = moves.filter(({ id, leave }) => leave >= moment && at(`${id}.leave`) < moment);
  if (moved.length + waiting.length === 0) return null;
  const room = roomOf(known, made);
  const earlier = upstream(known, made);
  const holds = (name: string, to: Instant): boolean =>
    room.holds(name, to) && !(at(name) < to && earlier.has(nodes.get(name) ?? -1));
  const stood = moved.some(([name, pin]) => holds(name, pin.at));
  const standing = waiting.filter(({ id }) => holds(`${id}.leave`, moment));
  if (!stood && standing.length === 0) return null;
  return {
    pins: new Map(stood ? begun.filter(([name, pin]) => holds(name, pin.at)) : []),
    standing: new Map(standing.map(({ id }) => [id, moment])),
  };
}

const PREPARED = ["arrive", "parked", "setUp", "ready", "packed"];

/** Whether a step of a visit takes no time: it was never seen to be done. */
function isEmpty(placed: PlacedDay, name: string): boolean {
  const dot = name.lastIndexOf(".");
  const step = PREPARED.indexOf(name.slice(dot + 1));
  return (
    step > 0 && placedInstant(placed, `${name.slice(0, dot)}.${PREPARED[step - 1]}`) === placedInstant(placed, name)
  );
}

/** What leads to something that happened earlier than was known: that may itself have been earlier. */
function upstream(known: KnownDay, made: KnownDay): ReadonlySet<number> {
  const { network, nodes, pins } = made.placed.build;
  const early = [...pins.at].flatMap(([name, { at, fact }]) =>
    fact !== null && (placedInstant(known.placed, name) ?? at) > at ? (nodes.get(name) ?? []) : [],
  );
  const found = new Set<number>(early);
  for (const node of found)
    for (const { from, backward } of network.into(node)) if (!backward && from !== ORIGIN) found.add(from);
  return found;
}

/** When what was logged leaves room for an instant: not before what it follows, nor after what happened after it. */
function roomOf(known: KnownDay, { order, timed, placed }: KnownDay): { holds(name: string, at: number): boolean } {
  const { build } = placed;
  const { fit } = timed.admitted;
  // What has been driven took as long as was known.
  const { timing } = known.placed.build;
  const of = (activities: ReadonlySet<Id>) =>
    buildNetwork(order, timing, { ...build.entered, activities } satisfies Entered, { pins: build.pins, fit });
  const { activities } = known.placed.build.entered;
  const { done } = build.pins;
  // What is lost now was still to come: whoever had it before them had not packed up, nor let go of the desk for it. What
  // followed it need not have waited for it either.
  const kept = [...build.entered.activities].filter((id) => activities.has(id));
  const followed = [kept, activities].map((begun) => {
    const { network, nodes } = of(new Set([...begun, ...done]));
    return { nodes, least: earliest(network, ({ backward, to }) => !backward && to !== ORIGIN) };
  });
  const facts = of(done);
  const most = latestInstants(facts.network, everything);
  return {
    holds: (name, at) => {
      const late = facts.nodes.get(name);
      return (
        followed.some(({ nodes, least }) => at >= (least?.[nodes.get(name) ?? -1] ?? Number.NEGATIVE_INFINITY)) &&
        at <= (most?.[late ?? -1] ?? Number.POSITIVE_INFINITY)
      );
    },
  };
}
