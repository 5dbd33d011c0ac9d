/** A plan tree to a typed plan: shapes, ids, values, then what shows only when they are read together. */
import type { Finding } from "../../findings/finding.ts";
import { type HouseRules, rulesForm, rulesFrom } from "../houseRules.ts";
import { readActual } from "../keys/actual.ts";
import { readHistories } from "../keys/before.ts";
import { readHits } from "../keys/hits.ts";
import { readPacks, readPiece } from "../keys/kit.ts";
import { acceptForm } from "../keys/money.ts";
import { readPermits } from "../keys/permits.ts";
import type { Place } from "../keys/places.ts";
import { readPlace, readPlaceZone } from "../keys/places.ts";
import { readRide } from "../keys/rides.ts";
import { readRoads } from "../keys/roads.ts";
import { readRun } from "../keys/runs.ts";
import { readTask } from "../keys/tasks.ts";
import { readVehicle } from "../keys/vehicles.ts";
import { weatherForm } from "../keys/weather.ts";
import type { Body, Plan, PlanSource } from "../plan.ts";
import { sectionsWith } from "../reference.ts";
import { sensible } from "../sense/sensible.ts";
import { type Declarations, type EntryForm, Fields, type FieldsOf } from "../shape/entry.ts";
import { checkShapes, reportMisfits } from "../shapes.ts";
import type { Entity, Id } from "../terms.ts";
import { readHead } from "../text/head.ts";
import { entriesOf, type Item } from "../text/items.ts";
import { type MapNode, pointAt } from "../text/tree.ts";
import { declareIds, sectionOf } from "./declare.ts";
import { Reading } from "./reading.ts";
import { entryForms, type SectionKey } from "./sections.ts";

/** A plan from its tree, or the findings that say why there is none. */
export interface TreeReading {
  /** Null where anything is mistaken. */
  readonly plan: Plan | null;
  readonly findings: readonly Finding[];
}

/** Reads a whole tree. */
export async function readTree(root: MapNode, file: string | null): Promise<TreeReading> {
  const reading = new Reading(root);
  checkShapes(reading);
  const head = readHead(reading);
  declareIds(reading);
  const body = readBody(reading);
  await reportMisfits(reading, sectionsWith);
  sensible(reading, body);
  const sound = head !== null && reading.findings.every((finding) => finding.level !== "error");
  if (!sound) return { plan: null, findings: reading.findings };
  const source: PlanSource = { locate: (path) => pointAt(root, path) };
  const zone = head.zone ?? head.clock;
  const plan: Plan = { file, ...head, zone, ...body, groups: reading.ids.groups(), source };
  return { plan, findings: reading.findings };
}

function readBody(reading: Reading): Body {
  const list = (key: SectionKey): Item | null => sectionOf(reading, key);
  for (const item of entriesOf(list("crew"))) {
    for (const role of new Fields(entryForms.crew, reading, item).get("role")) {
      reading.roles.set(role, [...(reading.roles.get(role) ?? []), item.key]);
    }
  }
  const places = readPlaces(reading);
  const hits = mapOfMany(reading, "hits", entryForms.hits, readHits);
  const tasks = mapOf(reading, "tasks", entryForms.tasks, readTask);
  const runs = new Map(
    entriesOf(list("runs")).flatMap((item) => {
      const [vehicle] = reading.takeAtKey(item.path, reading.ids.find(item.key, ["vehicle"])) ?? [];
      const run = readRun(reading, item, item.key);
      return vehicle === undefined || run === null ? [] : [[vehicle, run] as const];
    }),
  );
  const placeOf = (id: Id): Id | null => {
    const location = (hits.get(id) ?? tasks.get(id))?.location;
    if (location?.kind === "place") return location.place;
    const stops = [...runs.values()].flatMap((run) => run.stops);
    return stops.find((stop) => stop.id === id)?.place ?? null;
  };
  return {
    history: readHistories(reading, list("history")),
    crew: mapOf(reading, "crew", entryForms.crew, asEntity),
    vehicles: mapOf(reading, "vehicles", entryForms.vehicles, readVehicle),
    places,
    roads: readRoads(reading, list("roads")),
    hits,
    tasks,
    runs,
    rides: mapOf(reading, "rides", entryForms.rides, readRide),
    kit: mapOf(reading, "kit", entryForms.kit, readPiece),
    packs: mapOfMany(reading, "packs", entryForms.packs, readPacks),
    chargers: mapOf(reading, "chargers", entryForms.chargers, asEntity),
    paths: mapOf(reading, "paths", entryForms.paths, asEntity),
    lines: mapOf(reading, "lines", entryForms.lines, asEntity),
    permits: readPermits(reading, list("permits")),
    weather: weatherForm.value(list("weather"), reading, null),
    rules: readRules(new Fields(rulesForm, reading, list("rules") ?? { node: null, path: ["rules"] })),
    contracts: mapOf(reading, "contracts", entryForms.contracts, asEntity),
    accept: acceptForm.value(list("accept"), reading, null),
    actual: readActual(reading, list("actual"), placeOf),
  };
}

/** The zones of all places first, since any time may be `local` to one. */
function readPlaces(reading: Reading): ReadonlyMap<Id, Place> {
  const zoneStated = reading.root.entries.has("zone");
  const zones = mapOf(reading, "places", entryForms.places, (fields) =>
    readPlaceZone(fields, reading.zone, !zoneStated),
  );
  for (const [id, zone] of zones) reading.placeZones.set(id, zone);
  return mapOf(reading, "places", entryForms.places, (fields, id) => {
    const zone = zones.get(id) ?? reading.desk;
    return zone === null ? null : readPlace(fields, id, zone);
  });
}

/** The entries of a section, each read; those that cannot be are left out, their mistakes told. */
function mapOf<D extends Declarations, M, T>(
  reading: Reading,
  section: SectionKey,
  form: EntryForm<D, M>,
  read: (fields: Fields<D, M>, id: Id) => T | null,
): ReadonlyMap<Id, T> {
  const made = entriesOf(sectionOf(reading, section)).map(
    (item) => [item.key, read(new Fields(form, reading, item), item.key)] as const,
  );
  return new Map(made.flatMap(([id, value]) => (value === null ? [] : [[id, value] as const])));
}

/** An entry whose keys say all of it. */
const asEntity = <D extends Declarations, M>(fields: Fields<D, M>, id: Id): (M & Entity) | null => fields.entity(id);

/** As `mapOf`, for sections where an entry may stand for several things. */
function mapOfMany<D extends Declarations, M, T extends { readonly id: Id }>(
  reading: Reading,
  section: SectionKey,
  form: EntryForm<D, M>,
  read: (fields: Fields<D, M>, id: Id) => readonly T[],
): ReadonlyMap<Id, T> {
  const made = mapOf(reading, section, form, read);
  return new Map([...made.values()].flat().map((one) => [one.id, one]));
}

/** The rules as the plan states them, the rest by default. */
export function readRules(fields: FieldsOf<typeof rulesForm>): HouseRules {
  const stated = new Set<string>(rulesForm.keys.filter((key) => fields.has(key)));
  return rulesFrom((key) => fields.stated(key), stated);
}
