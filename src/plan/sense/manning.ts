/** Who rides, drives and sleeps from each stop of a run on: what the plan states, with its stated defaults and nothing guessed. */
import type { PlanPath } from "../../findings/finding.ts";
import type { Id, Plan, Relief, Run, Stop } from "../plan.ts";

/** What a plan says of people, and where. */
interface Said<T> {
  readonly who: T;
  readonly path: PlanPath;
}

/** What holds from one stop's departure on. */
export interface Manning {
  /** In crew order, each once. */
  readonly aboard: readonly Id[];
  /** The list that says who rides; null where the default does. */
  readonly saidAboard: Said<readonly Id[]> | null;
  readonly saidDriver: Said<Id> | null;
  readonly asleep: readonly Id[];
  readonly relieve: readonly Relief[];
}

type Crewed = Pick<Plan, "crew" | "runs">;
type Entry = Pick<Run | Stop, "aboard" | "driver" | "path">;

const aboardOf = ({ aboard, path }: Entry): Manning["saidAboard"] =>
  aboard === null ? null : { who: aboard, path: [...path, "aboard"] };

const driverOf = ({ driver, path }: Entry): Manning["saidDriver"] =>
  driver === null ? null : { who: driver, path: [...path, "driver"] };

/** Who a run sets off with where no list says so: everyone in the only vehicle, else the driver; null where that is no one. */
function unsaid({ crew, runs }: Crewed, driver: Manning["saidDriver"]): readonly Id[] | null {
  if (runs.size === 1) return [...crew.keys()];
  return driver === null ? null : [driver.who];
}

/** By stop, in run order; null where nothing says who rides. */
export function manningOf(plan: Crewed, run: Run): readonly Manning[] | null {
  const [first] = run.stops;
  if (first === undefined) return [];
  const saidAboard = aboardOf(first) ?? aboardOf(run);
  const saidDriver = driverOf(first) ?? driverOf(run);
  const aboard = saidAboard?.who ?? unsaid(plan, saidDriver);
  if (aboard === null) return null;
  let manning: Manning = {
    aboard: inCrewOrder(plan, aboard, saidDriver),
    saidAboard,
    saidDriver,
    asleep: [],
    relieve: [],
  };
  return run.stops.map((stop) => {
    manning = from(plan, stop, manning);
    return manning;
  });
}

/** What a stop states holds from its departure on. */
function from(plan: Crewed, stop: Stop, before: Manning): Manning {
  const aboard = inCrewOrder(plan, stop.aboard ?? before.aboard, driverOf(stop));
  return {
    aboard,
    saidAboard: aboardOf(stop) ?? before.saidAboard,
    saidDriver: driverOf(stop) ?? before.saidDriver,
    asleep: stop.asleep ?? before.asleep.filter((id) => aboard.includes(id)),
    relieve: stop.relieve.length > 0 ? stop.relieve : before.relieve.filter(({ driver }) => aboard.includes(driver)),
  };
}

/** A list with whoever is named at the wheel. */
function inCrewOrder({ crew }: Crewed, ids: readonly Id[], driver: Manning["saidDriver"]): readonly Id[] {
  const wanted = new Set(driver === null ? ids : [...ids, driver.who]);
  return [...crew.keys()].filter((id) => wanted.has(id));
}
