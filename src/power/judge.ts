/** From a solved model to what is said of it. */

import type { Circumstance, Finding, PlanPath } from "../findings/finding.ts";
import { slipOf } from "../findings/nearest.ts";
import { groupBy } from "../lists.ts";
import type { Id } from "../plan/plan.ts";
import { flyers, flyingPacks } from "./air.ts";
import type { DayModel } from "./day/build.ts";
import { frozenMinutes, hotMinutes } from "./day/idleChargers.ts";
import * as say from "./findings.ts";
import type { Demand } from "./model.ts";
import { TABLE_ENDS_CELSIUS } from "./physics.ts";
import type { Solution } from "./proof/solve.ts";
import type { ShortageCause } from "./shortage/diagnose.ts";

/** Every finding of the batteries, in the order of their demands, then of the gear. */
export function powerFindings(built: DayModel, solution: Solution, missing: ShortageCause | null): Finding[] {
  const bare = misfits(built);
  const slips = misnamedPacks(built);
  const fitting = solution.dropped.filter(({ demand }) => ![...demand.watts.keys()].some((load) => bare.has(load)));
  return [
    ...fitting.map(({ demand, proved }) => dropped(built, demand, proved, missing)),
    ...slips.values(),
    ...[...bare.values()].filter(({ facts }) => !slips.has(String(facts["mount"]))),
    ...unstated(built),
    ...restated(built),
    ...mountless(built),
    ...chargerFindings(built, slips),
    ...beyondTable(built),
    ...flight(built),
  ];
}

function dropped(built: DayModel, demand: Demand, proved: boolean, missing: ShortageCause | null): Finding {
  const where = circumstance(built, demand);
  const activity = activityOf(built, demand);
  if (!proved) return say.powerUndecided.raise({ demand: activity }, where);
  const told = missing?.first === demand.id ? missing : null;
  const facts = {
    demand: activity,
    loads: [...demand.watts.keys()],
    ...say.shortFacts(told?.short),
    blocking: told?.blocking.map((id) => nameOf(built, id)) ?? [],
    // What is not stated comes first: no edit makes up for it.
    ...say.cureFacts(told?.short.unstated.length === 0 ? told.cures[0] : undefined),
  };
  if (demand.kind === "standby") return say.standbyUnpowered.raise(facts, where);
  return told === null
    ? say.hitLeftOut.raise({ demand: activity, loads: facts.loads, first: firstOf(built, missing) }, where)
    : say.hitUnpowered.raise(facts, where);
}

/** The activity of which is known what it lacks. */
function firstOf(built: DayModel, missing: ShortageCause | null): Id | null {
  const demand = missing === null ? undefined : built.model.demands.find(({ id }) => id === missing.first);
  return demand === undefined ? null : activityOf(built, demand);
}

const activityOf = (built: DayModel, demand: Demand): Id =>
  built.demands.find((one) => one.demand === demand)?.activity ?? demand.id;

const nameOf = (built: DayModel, id: Id): Id =>
  built.demands.find((one) => one.demand.id === id && one.demand.kind !== "standby")?.activity ?? id;

function circumstance(built: DayModel, demand: Demand): Circumstance {
  const { plan } = built.around.day;
  const id = activityOf(built, demand);
  const path = plan.hits.get(id)?.path ?? plan.tasks.get(id)?.path;
  return { at: demand.from, ...(path === undefined ? {} : { path }) };
}

/** Loads that are asked for and that no pack fits. */
function misfits({ model, loads, demands }: DayModel): Map<Id, Finding> {
  const mounts = new Set(model.packs.map((pack) => pack.mount));
  const wanted = loads.filter(
    ({ load }) => !mounts.has(load.mount) && demands.some(({ demand }) => demand.watts.has(load.id)),
  );
  return new Map(
    wanted.map(({ load, piece }) => [
      load.id,
      say.loadFitsNoPack.raise(
        { load: piece.id, mount: load.mount, near: slipOf(load.mount, mounts) },
        { path: [...piece.path, "mount"] },
      ),
    ]),
  );
}

/** Packs whose mount nothing has, by the mount that two things or more have and these packs were meant to have. */
function misnamedPacks({ around, demands }: DayModel): ReadonlyMap<string, Finding> {
  const { packs, kit, chargers } = around.day.plan;
  if (demands.length === 0) return new Map();
  const asked = [...kit.values(), ...chargers.values()].flatMap(({ mount }) => mount ?? []);
  const had = new Set([...packs.values()].map(({ mount }) => mount));
  const meant = new Set(asked.filter((mount, at) => !had.has(mount) && asked.indexOf(mount) !== at));
  const groups = [...groupBy(packs.values(), ({ group }) => group).values()];
  return new Map(
    groups.flatMap(([pack]) => {
      const near = asked.includes(pack.mount) ? null : slipOf(pack.mount, meant);
      if (near === null) return [];
      const facts = { packs: pack.group, mount: pack.mount, near };
      return [[near, say.packsFitNothing.raise(facts, { path: [...pack.path, "mount"] })] as const];
    }),
  );
}

function unstated({ unstated: packs, demands, around }: DayModel): Finding[] {
  const path: PlanPath | undefined = around.day.plan.packs.get(packs[0] ?? "")?.path;
  if (packs.length === 0 || demands.length === 0) return [];
  return [say.packChargeUnstated.raise({ packs: [...packs] }, path === undefined ? {} : { path })];
}

function restated({ restated: before, around }: DayModel): Finding[] {
  const { packs } = around.day.plan;
  const [first] = before.keys();
  if (first === undefined) return [];
  const percent = (share: number): string => String(Math.round(share * 100));
  const facts = {
    packs: [...before.keys()],
    percents: [...before.keys()].map((id) => percent(packs.get(id)?.charge ?? 0)),
    before: [...before.values()].map(percent),
  };
  const path = packs.get(first)?.path;
  return [say.packChargeRestated.raise(facts, path === undefined ? {} : { path })];
}

function mountless({ model, around }: DayModel): Finding[] {
  if (model.packs.length === 0) return [];
  return [...around.day.plan.kit.values()].flatMap((piece) =>
    piece.watts === null || piece.mount !== null
      ? []
      : [say.loadWithoutMount.raise({ load: piece.id, watts: piece.watts }, { path: piece.path })],
  );
}

function chargerFindings(built: DayModel, slips: ReadonlyMap<string, Finding>): Finding[] {
  const { model, around, overloads } = built;
  const { plan } = around.day;
  if (model.packs.length === 0) return [];
  const mounts = new Set(model.packs.map((pack) => pack.mount));
  return [...plan.chargers.values()].flatMap((charger) => {
    const where = { path: charger.path };
    if (slips.has(charger.mount)) return [];
    if (!mounts.has(charger.mount))
      return [
        say.chargerFitsNoPack.raise(
          { charger: charger.id, mount: charger.mount, near: slipOf(charger.mount, mounts) },
          where,
        ),
      ];
    const over = overloads
      .filter((one) => one.charger === charger.id)
      .map(({ vehicle, source, needWatts, haveWatts }) =>
        say.chargerOverInverter.raise({ charger: charger.id, vehicle, source, needWatts, haveWatts }, where),
      );
    const [frost, heat] = over.length > 0 ? [0, 0] : [frozenMinutes(built, charger.in), hotMinutes(built, charger.in)];
    return [
      ...over,
      ...(frost === 0 ? [] : [say.chargerInFrost.raise({ charger: charger.id, minutes: frost }, where)]),
      ...(heat === 0 ? [] : [say.chargerInHeat.raise({ charger: charger.id, minutes: heat }, where)]),
    ];
  });
}

/** The coldest of the uses that are colder than the table of packs goes. */
function beyondTable(built: DayModel): Finding[] {
  const colder = built.demands.filter(({ coldest }) => coldest !== null && coldest < TABLE_ENDS_CELSIUS);
  const [worst] = colder.toSorted((a, b) => (a.coldest ?? 0) - (b.coldest ?? 0));
  if (worst === undefined || worst.coldest === null || built.model.packs.length === 0) return [];
  const facts = { demand: worst.activity, celsius: worst.coldest };
  return [say.packsBeyondTable.raise(facts, circumstance(built, worst.demand))];
}

/** Packs beyond what those who fly may carry; where no one flies nothing is said. */
function flight({ around }: DayModel): Finding[] {
  const { plan } = around.day;
  const people = flyers(plan).length;
  if (people === 0) return [];
  return flyingPacks(plan, people)
    .filter((one) => one.allowed < one.count)
    .map(({ group, count, allowed, wh, carriage }) => {
      const path = [...plan.packs.values()].find((pack) => pack.group === group)?.path;
      const facts = { group, count, allowed, wh, how: carriage.how, people };
      return say.packsNotForCabin.raise(facts, path === undefined ? {} : { path });
    });
}
