/** Edits of what is carried and used: gear in another vehicle, packs, charger slots, fuel, paths, places. */
import type { Day, StopTimes } from "../../day/day.ts";
import type { Finding } from "../../findings/finding.ts";
import type { Edit } from "../../plan/edit/splice.ts";
import type { Hit, Id, Plan, Stop } from "../../plan/plan.ts";
import type { Candidate, RepairProblem } from "../outcome.ts";
import { collapsed, doEdits, dropEdits, isOwn, listValue, stopEdit } from "../writing.ts";
import { FUEL_MINUTES, freshId } from "./times.ts";

/** The most packs or slots that are added. */
const MOST_MORE = 4;
/** Letters of a place of which an id is made: an id has 40 at most. */
const LONGEST_PLACE = 32;
/** Places this near are one spot to park at. */
const PARKING_KM = 2;

/** A piece that is missing somewhere, in each of the other vehicles from the start. */
export function kitCandidates({ now: { day }, targets }: RepairProblem): readonly Candidate[] {
  const { plan } = day;
  const items = [...new Set(targets.flatMap(({ facts: { item } }) => (typeof item === "string" ? [item] : [])))];
  return items.flatMap((item): readonly Candidate[] => {
    const piece = plan.kit.get(item) ?? plan.packs.get(item) ?? plan.chargers.get(item);
    if (piece === undefined) return [];
    return [...plan.vehicles.keys()]
      .filter((vehicle) => vehicle !== piece.in)
      .map((vehicle) => ({ edits: [{ path: [...piece.path, "in"], value: vehicle }] }));
  });
}

/** Full packs more, of each group. */
export function packCandidates({ now: { day }, text }: RepairProblem): readonly Candidate[] {
  const { plan } = day;
  const groups = [...new Set([...plan.packs.values()].map(({ group }) => group))];
  return groups.flatMap((group) => {
    const packs = [...plan.packs.values()].filter((pack) => pack.group === group);
    return Array.from({ length: MOST_MORE }, (_, n) => ({
      edits: morePacks(
        plan,
        text,
        group,
        packs.map(({ charge }) => charge),
        n + 1,
      ),
    }));
  });
}

/** More of a group; a list of charges grows with it. */
function morePacks(
  plan: Plan,
  text: string,
  group: Id,
  charges: readonly (number | null)[],
  more: number,
): readonly Edit[] {
  const count: Edit = { path: ["packs", group, "count"], value: String(charges.length + more) };
  const each = charges.map((charge) => (charge === null ? null : `${Number((charge * 100).toFixed(1))}%`));
  const stated = each.filter((one) => one !== null);
  if (stated.length < each.length || stated.length === 0) return [count];
  const list = [...stated, ...Array.from({ length: more }, () => "100%")];
  const own = isOwn(plan, text, ["packs", group]);
  return own || new Set(stated).size > 1 || stated[0] !== "100%"
    ? [count, { path: ["packs", group, "charge"], value: listValue(list) }]
    : [count];
}

/** Slots more of each charger. */
export const slotCandidates = ({ now: { day } }: RepairProblem): readonly Candidate[] =>
  [...day.plan.chargers.values()].flatMap(({ path, slots }) =>
    [1, 2].map((more) => ({ edits: [{ path: [...path, "slots"], value: String(slots + more) }] })),
  );

/** A fill-up at each stop of a vehicle that runs short. */
export function fuelCandidates({ now: { day }, text, targets }: RepairProblem): readonly Candidate[] {
  const short = new Set(targets.flatMap(({ facts: { vehicle } }) => (typeof vehicle === "string" ? [vehicle] : [])));
  return day.stops
    .filter(({ vehicle }) => short.has(vehicle))
    .flatMap((stop) => {
      const edits = fillUpAt(day, text, stop, []);
      return edits === null ? [] : [{ edits }];
    });
}

/** A fill-up at a stop, behind its other work; null if the stop stands in another file. The task's id is added to `taken`. */
export function fillUpAt(
  day: Day,
  text: string,
  { stop, activities, leave, vehicle }: StopTimes,
  taken: Id[],
): readonly Edit[] | null {
  const { plan, moves } = day;
  // Named for the place, so that fill-ups at two places can be made together.
  const id = freshId(plan, stop.place.length > LONGEST_PLACE ? "fuel" : `fuel-${stop.place}`, taken);
  const listed = doEdits(day, text, new Map([[stop, [...(stop.do ?? collapsed(plan, activities)), id]]]));
  if (listed === null) return null;
  taken.push(id);
  const driver = moves.find((move) => move.vehicle === vehicle && move.leave === leave)?.driver;
  const who = driver === undefined ? "" : `, who: [${driver}]`;
  return [
    { path: ["tasks", id], value: `{ kind: fuel, place: ${stop.place}, for: ${FUEL_MINUTES} min${who} }` },
    ...listed,
  ];
}

/** The spare first, and each other path of the plan. */
export function pathCandidates({ now: { day }, text, targets }: RepairProblem): readonly Candidate[] {
  const { plan } = day;
  return entriesOf(plan, targets).flatMap((hit): readonly Candidate[] => {
    if (!isOwn(plan, text, hit.path)) return [];
    const path = [...hit.path, "path"];
    const spare = hit.kind === "hit" ? hit.spare : null;
    const others = [...plan.paths.keys()].filter((id) => id !== hit.signalPath && id !== spare);
    const swapped =
      spare === null || hit.signalPath === null
        ? []
        : [
            {
              edits: [
                { path, value: spare },
                { path: [...hit.path, "spare"], value: hit.signalPath },
              ],
            },
          ];
    return [...swapped, ...others.map((id) => ({ edits: [{ path, value: id }] }))];
  });
}

/** The hits and feeds that findings name, each entry once. */
function entriesOf(plan: Plan, targets: readonly Finding[]) {
  const named = targets.flatMap(({ path, facts }) => [
    ...(path === null ? [] : [String(path[1])]),
    ...Object.values(facts).flatMap((fact) => (typeof fact === "string" ? [fact] : [])),
  ]);
  const members = new Set(named.flatMap((id) => [id, ...(plan.groups.get(id) ?? [])]));
  const all = [...plan.hits.values(), ...plan.tasks.values()].filter(({ id }) => members.has(id));
  return all.filter(({ path }, at) => all.findIndex((other) => String(other.path[1]) === String(path[1])) === at);
}

/** Another place to park for a hit or task that a finding names, a stone's throw away, for all who come to it. */
export function placeCandidates({ now: { day }, text, targets }: RepairProblem): readonly Candidate[] {
  const { plan } = day;
  const places = entriesOf(plan, targets).flatMap(({ location }) =>
    location.kind === "place" ? [location.place] : [],
  );
  return [...new Set(places)].flatMap((from) =>
    [...plan.places.keys()]
      .filter((to) => to !== from && isNear(plan, from, to))
      .flatMap((to) => {
        const edits = movedTo(plan, text, from, to);
        return edits === null ? [] : [{ edits }];
      }),
  );
}

/** Everything at one place, at another. */
function movedTo(plan: Plan, text: string, from: Id, to: Id): readonly Edit[] | null {
  const edits: Edit[] = [];
  const all = [...plan.hits.values(), ...plan.tasks.values()];
  for (const [at, { location, path }] of all.entries()) {
    if (location.kind !== "place" || location.place !== from) continue;
    if (all.findIndex((other) => String(other.path[1]) === String(path[1])) === at)
      edits.push({ path: [...path, "place"], value: to });
  }
  for (const { stops } of plan.runs.values())
    for (const stop of stops) if (stop.place === from) edits.push(placeEdit(plan, text, stop, to));
  return edits.length > 0 && edits.every(({ path }) => isOwn(plan, text, path)) ? edits : null;
}

const placeEdit = (plan: Plan, text: string, stop: Stop, to: Id): Edit =>
  isOwn(plan, text, [...stop.path, "place"]) ? stopEdit(plan, text, stop, "place", to) : { path: stop.path, value: to };

/** Along the road, else as the crow flies on a sphere, which is near enough to choose what to try. */
function isNear(plan: Plan, from: Id, to: Id): boolean {
  const road = plan.roads.find(({ link }) => link.includes(from) && link.includes(to));
  if (road !== undefined && road.km !== null) return road.km <= PARKING_KM;
  const [a, b] = [plan.places.get(from)?.at ?? null, plan.places.get(to)?.at ?? null];
  if (a === null || b === null) return false;
  const north = (a.latitude - b.latitude) * 111.2;
  const east = (a.longitude - b.longitude) * 111.2 * Math.cos((a.latitude * Math.PI) / 180);
  return Math.hypot(north, east) <= PARKING_KM;
}

/** Another lodging of the plan for the night, for a run that ends at one. */
export function lodgingCandidates({ now: { day }, text }: RepairProblem): readonly Candidate[] {
  const { plan } = day;
  const beds = [...plan.places.values()].filter(({ kind }) => kind === "lodging").map(({ id }) => id);
  const ends = [...plan.runs.values()].flatMap(({ stops }) => stops.at(-1) ?? []);
  const tonight = [...new Set(ends.map(({ place }) => place))].filter((place) => beds.includes(place));
  return tonight.flatMap((from) =>
    beds
      .filter((to) => to !== from)
      .flatMap((to) => {
        const edits = ends.filter(({ place }) => place === from).map((stop) => placeEdit(plan, text, stop, to));
        return edits.every(({ path }) => isOwn(plan, text, path)) ? [{ edits }] : [];
      }),
  );
}

/** Each task left out. */
export const dropTaskCandidates = ({ now: { day }, text }: RepairProblem): readonly Candidate[] =>
  [...day.plan.tasks.values()].flatMap((task) => dropped(day.plan, text, task));

/** Each hit that the desk does not insist on, given up. */
export const giveUpCandidates = ({ now: { day }, text }: RepairProblem): readonly Candidate[] =>
  [...day.plan.hits.values()].filter(({ firm }) => !firm).flatMap((hit) => dropped(day.plan, text, hit));

function dropped(plan: Plan, text: string, activity: Hit | Parameters<typeof dropEdits>[2]): readonly Candidate[] {
  const edits = dropEdits(plan, text, activity);
  return edits === null ? [] : [{ edits }];
}
