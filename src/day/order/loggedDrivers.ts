/**
 * Who is logged at the wheel of a vehicle that the plan does not have them in: from that leg on they ride it and no longer
 * the one that they were planned in. Who drives that one is as logged, else the only one aboard who may; it is not guessed.
 */
import type { Finding } from "../../findings/finding.ts";
import type { Hit, Id, Plan, Task } from "../../plan/plan.ts";
import { manningOf } from "../../plan/sense/manning.ts";
import { driverElsewhere } from "../findings/findingsOrder.ts";
import type { Crewed } from "./crewing.ts";

type Leg = Crewed["legs"][number];

/** The legs as they go with everybody logged at a wheel, and what the plan lacks then. */
export interface AsDriven {
  readonly crewed: Crewed;
  /** Whose driving cannot be fitted to the plan; what else their rides are wrong in follows from it. */
  readonly unfitted: ReadonlySet<Id>;
  /** Who rides otherwise than planned. */
  readonly moved: ReadonlySet<Id>;
}

/** Ranges of legs that are tried for one person. */
const TRIALS = 500;

/** `chains` says whether somebody's rides follow each other from bed to bed. */
export function asDriven(plan: Plan, crewed: Crewed, chains: (legs: readonly Leg[], who: Id) => boolean): AsDriven {
  const movers = moversOf(plan).filter((who) => !chains(crewed.legs, who));
  if (movers.length === 0) return { crewed, unfitted: new Set(), moved: new Set() };
  let { legs } = crewed;
  const unfitted = new Set<Id>();
  for (const who of movers) {
    const moved = movedOver(plan, legs, who, chains);
    if (moved === null) unfitted.add(who);
    else legs = moved;
  }
  const findings = [...unfitted].map((who) => elsewhere(plan, crewed.legs, who, null));
  const driven: Leg[] = [];
  for (const leg of legs) {
    const driver = leg.aboard.includes(leg.driver) ? leg.driver : nextDriver(plan, driven, leg);
    if (driver !== null) driven.push({ ...leg, driver });
    else if (!findings.some(({ who }) => who === leg.driver)) findings.push(elsewhere(plan, legs, leg.driver, leg));
  }
  const parties = new Map(crewed.parties);
  for (const { from, to, index, aboard } of legs) {
    if (index === 0) parties.set(from.id, aboard);
    parties.set(to.id, aboard);
  }
  const moved = new Set(movers.filter((who) => !unfitted.has(who)));
  return { crewed: { legs: driven, parties, findings: [...crewed.findings, ...findings] }, unfitted, moved };
}

/** The plan without those in a `who` whom their logged drive takes elsewhere; where no one is left it is for whoever comes there. */
export function attendedAsDriven(plan: Plan, { crewed, moved }: AsDriven): Plan {
  if (moved.size === 0) return plan;
  const comes = (who: Id, { location }: Hit | Task): boolean =>
    plan.crew.get(who)?.slept === (location.kind === "place" ? location.place : "") ||
    crewed.legs.some(({ vehicle, from, to, aboard }) => {
      if (!aboard.includes(who)) return false;
      if (location.kind === "place") return from.place === location.place || to.place === location.place;
      if (location.kind === "aboard") return vehicle === location.vehicle;
      return from.place === location.from && to.place === location.to;
    });
  const attended = <T extends Hit | Task>(one: T): T => {
    const who = one.who?.filter((id) => !moved.has(id) || comes(id, one)) ?? null;
    return who === null || who.length === one.who?.length ? one : { ...one, who: who.length === 0 ? null : who };
  };
  const all = <T extends Hit | Task>(map: ReadonlyMap<Id, T>): ReadonlyMap<Id, T> =>
    new Map([...map].map(([id, one]) => [id, attended(one)]));
  return { ...plan, hits: all(plan.hits), tasks: all(plan.tasks) };
}

/** The last one who was logged at the wheel of the run and rides on, else the only one aboard who may drive. */
function nextDriver(plan: Plan, before: readonly Leg[], leg: Leg): Id | null {
  const earlier = before.filter(({ vehicle }) => vehicle === leg.vehicle);
  const last = earlier.findLast(({ id, driver }) => plan.actual.stops.get(id)?.driver === driver)?.driver;
  if (last !== undefined && leg.aboard.includes(last)) return last;
  const may = leg.aboard.filter((id) => plan.crew.get(id)?.drives.includes(leg.vehicle));
  return may.length === 1 ? (may[0] ?? null) : null;
}

/** In the order of the runs. */
function moversOf(plan: Plan): readonly Id[] {
  const movers = new Set<Id>();
  for (const run of plan.runs.values()) {
    const mannings = manningOf(plan, run) ?? [];
    run.stops.forEach(({ id }, index) => {
      const driver = plan.actual.stops.get(id)?.driver ?? null;
      if (driver !== null && mannings[index]?.aboard.includes(driver) === false) movers.add(driver);
    });
  }
  return [...movers];
}

const isLogged = (plan: Plan, { id }: Leg, who: Id): boolean => plan.actual.stops.get(id)?.driver === who;

/** The legs with `who` off their own vehicle for a while, or to its end, and in the other as long; null where nothing fits. */
function movedOver(
  plan: Plan,
  legs: readonly Leg[],
  who: Id,
  chains: (legs: readonly Leg[], who: Id) => boolean,
): readonly Leg[] | null {
  const ridden = legs.filter(({ aboard }) => aboard.includes(who));
  const logged = ridden.filter((leg) => isLogged(plan, leg, who));
  const own = ridden.filter(
    (leg) => !isLogged(plan, leg, who) && !logged.some(({ vehicle }) => vehicle === leg.vehicle),
  );
  const others = legs.filter(({ vehicle, index }) =>
    logged.some(
      (one) => one.vehicle === vehicle && one.index < index && !ridden.some((leg) => isSame(leg, one, index)),
    ),
  );
  let trials = 0;
  for (let on = others.length; on >= 0; on--) {
    for (let from = own.length; from >= 0; from--) {
      for (let to = own.length; to >= from; to--) {
        if (to === from && to !== own.length) continue;
        if (++trials > TRIALS) return null;
        const off = new Set(own.slice(from, to));
        const along = new Set(others.slice(0, on));
        const moved = legs.map((leg) =>
          off.has(leg) ? without(leg, who) : along.has(leg) ? joined(plan, leg, who) : leg,
        );
        if (chains(moved, who)) return moved;
      }
    }
  }
  return null;
}

const isSame = (leg: Leg, { vehicle }: Leg, index: number): boolean => leg.vehicle === vehicle && leg.index === index;

const without = (leg: Leg, who: Id): Leg => ({
  ...leg,
  aboard: leg.aboard.filter((id) => id !== who),
  asleep: leg.asleep.filter((id) => id !== who),
  relieve: leg.relieve.filter(({ driver }) => driver !== who),
});

const joined = ({ crew }: Plan, leg: Leg, who: Id): Leg => ({
  ...leg,
  aboard: [...crew.keys()].filter((id) => id === who || leg.aboard.includes(id)),
});

/** `leg` is the one that has no driver then; null where it is the first that `who` was planned to ride. */
function elsewhere(plan: Plan, legs: readonly Leg[], who: Id, leg: Leg | null): Finding {
  const stop = legs.find((one) => isLogged(plan, one, who))?.id ?? leg?.id ?? "";
  const { vehicle: driven } = legs.find(({ id }) => id === stop) ?? { vehicle: "" };
  const planned = leg ?? legs.find(({ vehicle, aboard }) => vehicle !== driven && aboard.includes(who)) ?? null;
  const drives = planned?.driver === who;
  const facts = { who, stop, vehicle: driven, leg: planned?.id ?? null, planned: planned?.vehicle ?? null, drives };
  const path = ["actual", stop, "driver"];
  const said = planned === null ? null : plan.source.locate([...planned.from.path]);
  const related = said === null ? [] : [{ span: said, label: "planned here" }];
  return driverElsewhere.raise(facts, { who, path, span: plan.source.locate(path), related });
}
