/**
 * What a vehicle's visit asks for around its activities: park, set-up with dish-up, strike; one `packed` instant after which
 * the vehicle may go.
 */
import { mostOf } from "../../lists.ts";
import type { Id } from "../../plan/plan.ts";
import { activityOf, type Visit } from "../order/order.ts";
import { lastLive, lineCheckMinutes, livesOf } from "../order/visits.ts";
import { type Build, label, nodeOf, rulePath } from "./nodes.ts";

type Add = (name: string, parts?: { fixed?: boolean; departure?: boolean }) => void;

/** Whether an activity of this visit needs the dish of this very vehicle, for its path or for its spare. */
function dishHere({ order, plan, entered }: Build, visit: Visit): boolean {
  return visit.activities.some((id) => {
    const activity = activityOf(plan, id);
    if (activity === undefined || !entered.activities.has(id)) return false;
    return [activity.signalPath, activity.kind === "hit" ? activity.spare : null].some((one) => {
      const path = plan.paths.get(one ?? "");
      if (path?.kind !== "satellite") return false;
      return (path.vehicle ?? order.attendance.get(id)?.visits[0]?.vehicle ?? null) === visit.vehicle;
    });
  });
}

/** What must be done before the first hit of a visit, in minutes. */
export interface Preparation {
  readonly setUpMinutes: number;
  /** Minutes that dish-up adds after set-up: all of it for one person alone, else what it lasts longer. */
  readonly dishUpMinutes: number;
  readonly park: boolean;
  readonly strike: boolean;
}

/** Park at every stop with an activity; set-up and strike where there is a hit or standby, or the stop states a set-up. */
export function preparationOf(build: Build, visit: Visit): Preparation {
  const { rules } = build.plan;
  const live = livesOf(build.order, visit, build.entered.activities).length > 0;
  const stated = visit.stop?.setUpMinutes ?? null;
  const setUp = stated ?? (live ? rules.setUp : 0);
  const dish = dishHere(build, visit) ? rules.dishUp : 0;
  const beside = visit.party.length >= 2;
  const busy = visit.activities.some((id) => build.entered.activities.has(id));
  return {
    setUpMinutes: busy ? setUp : 0,
    dishUpMinutes: beside ? Math.max(0, dish - setUp) : dish,
    park: busy,
    strike: live,
  };
}

/** Adds park, set-up, dish-up and strike of a visit, and its activities' instants in their order. */
export function prepare(build: Build, visit: Visit, arrived: boolean, add: Add): void {
  const { network, plan } = build;
  const { id, place, vehicle } = visit;
  const here = { place, vehicle };
  const preparation = preparationOf(build, visit);
  const arrive = nodeOf(build, `${id}.arrive`);
  if (!arrived) add(`${id}.arrive`);
  const parked = nodeOf(build, `${id}.parked`);
  const park = preparation.park ? plan.rules.park : 0;
  network.exactly(arrive, parked, park, park > 0 ? label("park", { ...here, where: rulePath(plan, "park") }) : null);
  add(`${id}.parked`);
  const setUp = nodeOf(build, `${id}.setUp`);
  const setUpWhere = visit.stop?.setUpMinutes == null ? rulePath(plan, "setUp") : [...visit.stop.path, "setUp"];
  const setUpLabel = preparation.setUpMinutes > 0 ? label("set-up", { ...here, where: setUpWhere }) : null;
  network.exactly(parked, setUp, preparation.setUpMinutes, setUpLabel);
  const ready = nodeOf(build, `${id}.ready`);
  const dishLabel =
    preparation.dishUpMinutes > 0 ? label("dish-up", { ...here, where: rulePath(plan, "dishUp") }) : null;
  network.exactly(setUp, ready, preparation.dishUpMinutes, dishLabel);
  add(`${id}.setUp`);
  add(`${id}.ready`);
  for (const activity of visit.activities) addActivityItems(build, activity, add);
  strike(build, visit, preparation, add);
}

function addActivityItems(build: Build, id: Id, add: Add): void {
  if (!build.entered.activities.has(id)) return;
  const activity = activityOf(build.plan, id);
  if (activity === undefined) return;
  const live = activity.kind === "hit" || activity.kind === "standby";
  const fixed = live || (activity.kind === "standdown" && activity.forMinutes === null);
  if (live) {
    if (checkMinutes(build, id) !== null) add(`${id}.lineCheck`);
    add(`${id}.inPosition`);
  }
  add(`${id}.start`, { fixed });
  add(`${id}.end`);
  if (live) add(`${id}.clear`);
}

/** Minutes of line check before an activity: the longest that one of its visits asks for; null where none does. */
export function checkMinutes(build: Build, id: Id): number | null {
  const each = (build.order.attendance.get(id)?.visits ?? []).flatMap((visit) => {
    const lives = livesOf(build.order, visit, build.entered.activities);
    const live = lives.find((one) => one.id === id);
    return live === undefined ? [] : (lineCheckMinutes(build.order, visit, live, lives) ?? []);
  });
  return mostOf(each);
}

function strike(build: Build, visit: Visit, preparation: Preparation, add: Add): void {
  const { network, plan } = build;
  const packed = nodeOf(build, `${visit.id}.packed`);
  const last = lastLive(livesOf(build.order, visit, build.entered.activities));
  network.atLeast(nodeOf(build, `${visit.id}.ready`), packed, 0);
  if (preparation.strike && last !== undefined) {
    const text = label("strike", { place: visit.place, vehicle: visit.vehicle, where: rulePath(plan, "strike") });
    network.exactly(nodeOf(build, `${last.id}.clear`), packed, plan.rules.strike, text);
  }
  add(`${visit.id}.packed`);
}
