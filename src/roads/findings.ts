/** What the roads can have wrong: codes, sentences and cures. */
import { define, names } from "../findings/finding.ts";
import type { Instant } from "../time/units.ts";
import { percent, percentRange } from "./chance/percent.ts";

export const chanceLow = define<{ hit: string; chance: number; atMost: number | null; wanted: number }>({
  code: "chance-low",
  level: "warning",
  title: "the drives before a firm hit leave too small a chance of being in position",
  why: "Every drive varies between its likely and its bad time, and a short wait does not make up for a late arrival.",
  cure: "Leave earlier, put a longer wait before the hit, drop a stop on the way, or plan the drives at their bad time.",
  example: "rules: { planDrivesAt: drive }     # every second drive takes longer",
  sentence: ({ hit, chance, atMost, wanted }, say) =>
    `the chance to be in position for ${say.name(hit)} is ${percentRange(chance, atMost)}; at least ${percent(wanted)} is wanted`,
  hint: () => "leave earlier: `drives --chance 95%` says when",
});

export const roadEstimated = define<{ from: string; to: string; low: number; likely: number; high: number }>({
  code: "road-estimated",
  level: "note",
  title: "the time of a drive is an estimate, because the road is not stated",
  why: "The estimate is a straight line with the usual detour. It does not know lakes, mountains or closed roads.",
  cure: "State the road with the time a map or the crew knows.",
  example: `
    places:
      beach: { at: [46.65, -90.92] }     # no road to it in \`roads\`
    runs:
      wagon: [lodge, pier, beach]
  `,
  sentence: ({ from, to, low, likely, high }, say) =>
    `the drive from ${say.name(from)} to ${say.name(to)} is an estimate: ${say.length(likely)}, perhaps ${say.length(low)} to ${say.length(high)}`,
  hint: ({ from, to }) => `add to roads: { link: [${from}, ${to}], drive: …, bad: … }`,
});

export const fuelShort = define<{
  vehicle: string;
  place: string;
  withinKm: number;
  leftKm: number;
  reserveKm: number;
  /** Burnt at stops in the whole day, the engine on. */
  idleKm: number;
  /** What the tank holds at that place. */
  holdsKm: number;
  /** The longest way between two fills, where one is not enough. */
  everyKm: number | null;
  /** No level is known: a full tank is assumed at the start. */
  full: boolean;
  /** Fuel stops on that road, in the best places there are. */
  stops: number;
}>({
  code: "fuel-short",
  level: "warning",
  otherwise: { level: "error", when: "if the tank runs dry" },
  title: "a vehicle eats into its fuel reserve before it is filled up",
  why: "Detours and an idling engine take more than the map says. Cold takes up to a third more than the stated range says, snow 10 to 20 %; both are counted. If no level is stated, a full tank is assumed, so even that is too little.",
  cure: "Place a fuel task at the named stop: `kind: fuel`, at a place or `onRoad`.",
  example: `
    vehicles:
      wagon: { range: 600 km, fuel: 25% }     # 150 km, 90 of them reserve, for 86
  `,
  source: { title: "common practice, no source: 15 % of the tank stays in reserve", clause: null },
  sentence({ vehicle, leftKm, reserveKm, idleKm, full, stops }, say) {
    const idle = idleKm >= 1 ? `; the engine at stops takes ${idleKm} km today` : "";
    const best =
      stops === 0
        ? ""
        : `, even with ${stops === 1 ? "its fuel stop" : `its ${stops} fuel stops`} on the road in the best place`;
    const start = full ? `${best === "" ? ", even" : " and"} with a full tank at the start` : "";
    return leftKm < 0
      ? `${say.name(vehicle)} runs dry ${-leftKm} km before it is filled up${best}${start}${idle}`
      : `${say.name(vehicle)} is down to ${leftKm} km of range${best}${start}; ${reserveKm} km are its reserve${idle}`;
  },
  hint({ place, withinKm, holdsKm, everyKm }, say) {
    const again = everyKm === null ? "" : `, and again after ${everyKm} km at most`;
    const stop = `a task { kind: fuel } at ${say.name(place)}`;
    if (withinKm >= 1) return `add ${stop}, or on the road within ${withinKm} km of it${again}`;
    return holdsKm >= 1 ? `add ${stop}: the tank holds ${holdsKm} km there${again}` : `add ${stop}${again}`;
  },
});

export const fuelNotStated = define<{ vehicle: string; percent: number; km: number }>({
  code: "fuel-not-stated",
  level: "note",
  otherwise: { level: "warning", when: "if it needs more than half a tank" },
  title: "the fuel in a vehicle's tank at the start is not stated",
  why: "If no level is stated, a full tank is assumed. That is the best case.",
  cure: "State the level at the start, as in `fuel: 80%`. A day that follows another takes it from there.",
  example: `
    vehicles:
      wagon: { range: 600 km }     # and 43 km each way
  `,
  sentence: ({ vehicle, percent: share, km }, say) =>
    `the fuel in ${say.name(vehicle)} at the start is not stated; until the first fuel stop it needs ${km} km of range, ${share} % of a tank with the reserve`,
  hint: ({ vehicle }) => `state \`fuel\` of ${vehicle}`,
});

export const fuelStopPlace = define<{
  vehicle: string;
  stop: string;
  place: string;
  fromKm: number;
  toKm: number;
  plannedKm: number | null;
}>({
  code: "fuel-stop-place",
  level: "note",
  otherwise: { level: "warning", when: "if its time puts it elsewhere" },
  title: "a fuel stop on the road must lie in a certain stretch",
  why: "If the stop is too early, a full tank does not reach the end of the drive with its reserve. If it is too late, the vehicle uses its reserve before it.",
  cure: "Plan the stop in that stretch, or at a place with a stop of its own.",
  example: `
    vehicles: { wagon: { range: 100 km, fuel: 30% } }
    tasks: { tank: { kind: fuel, onRoad: [lodge, pier], for: 10 min } }
  `,
  source: { title: "common practice, no source: 15 % of the tank stays in reserve", clause: null },
  sentence({ vehicle, stop, place, fromKm, toKm, plannedKm }, say) {
    const where =
      fromKm < 1 ? `within ${toKm} km of ${say.name(place)}` : `${fromKm} to ${toKm} km from ${say.name(place)}`;
    const planned = plannedKm === null ? "" : `; its time puts it at ${plannedKm} km`;
    return `the fuel stop ${say.name(stop)} of ${say.name(vehicle)} must lie ${where}${planned}`;
  },
  hint: ({ plannedKm }) => (plannedKm === null ? null : "move its time, or give it a stop of its own"),
});

export const fuelRestated = define<{ vehicle: string; percent: number; before: number }>({
  code: "fuel-restated",
  level: "note",
  title: "a day states another fuel level than the day before ends with",
  why: "On a day that follows another, the tank holds what the day before left in it. A level in the day's own file wins, as a reading or an overnight fill does; one in a shared file is the first day's.",
  cure: "Nothing, if the vehicle was filled up or the level was read. Otherwise drop `fuel` from this day's file.",
  example: `
    follows: 2027-01-19.yaml     # which leaves less in the tank
    vehicles:
      wagon: { range: 600 km, fuel: 100% }
  `,
  sentence: ({ vehicle, percent: share, before }, say) =>
    `${say.name(vehicle)} starts with ${share} % of fuel as this day's file states; the day before ends with ${before} %`,
  hint: () => null,
});

export const fuelDueShort = define<{ vehicle: string; due: number; left: number }>({
  code: "fuel-due-short",
  level: "warning",
  title: "a vehicle comes back with less fuel than it is due with",
  why: "The hire company fills it up at its own price.",
  cure: "Place a fuel task before the last stop.",
  example: `
    vehicles:
      wagon:     # and no task of kind \`fuel\`
        range: 600 km
        fuel: 80%
        due: { place: lodge, at: "18:00", fuel: 100% }
  `,
  sentence: ({ vehicle, due, left }, say) =>
    `${say.name(vehicle)} is due with ${percent(due)} of fuel and comes back with ${percent(left)}`,
  hint: () => "add a task { kind: fuel } before its last stop",
});

export const waitOutside = define<{
  who: readonly string[];
  place: string;
  from: { at: Instant };
  to: { at: Instant };
  minutes: number;
  allowed: number;
  later: number;
}>({
  code: "wait-outside",
  level: "warning",
  title: "people wait for a long time without shelter",
  why: "The house rule `shelterAfter` says how long people may stand waiting without shelter, mains or a bed.",
  cure: "Leave the last shelter later, wait elsewhere, or mark the place `shelter: true` if it has one.",
  example: `
    places:     # neither \`shelter\` nor \`mains\` at either end of a long wait
      pier: { at: [46.811, -90.817], signal: good }
      dock: { at: [46.596, -90.869], signal: good }
  `,
  source: { title: "house rule shelterAfter", clause: null },
  sentence: ({ who, place, from, to, minutes, allowed }, say) =>
    `${names(who, say)} ${who.length === 1 ? "waits" : "wait"} outside at ${say.name(place)} for ${say.length(minutes)}, ${say.time(from.at, place)} to ${say.time(to.at, place)}; the rule allows ${say.length(allowed)}`,
  hint: ({ place, later }, say) =>
    `${later > 0 ? `leave ${say.length(later)} later` : "wait under a roof"}, or state \`places.${place}.shelter: true\` if ${say.name(place)} has one`,
});

export const placeClosed = define<{
  place: string;
  what: string;
  from: { at: Instant };
  to: { at: Instant };
  closed: { at: Instant };
}>({
  code: "place-closed",
  level: "error",
  title: "something is done at a place while it is closed",
  why: "`open` bounds what happens at a place, from parking to departure: the gate is shut before it opens and after it closes.",
  cure: "Move what is done there, shorten it, or have the place opened and correct `open`.",
  example: `
    places:
      pier: { open: [06:00, 22:00] }     # and dawn is set up from 05:10 on
  `,
  sentence: (f, say) =>
    `${say.name(f.place)} is closed at ${say.time(f.closed.at, f.place)}; ${f.what} needs it from ${say.time(f.from.at, f.place)} to ${say.time(f.to.at, f.place)}`,
  hint: () => "have it opened and correct `open`, or do it at another time",
});

/** What a routing server's answer is about; both null where it is about no pair in particular. */
type Server = { url: string; why: string; from: string | null; to: string | null };

export const routingUnreachable = define<Server>({
  code: "routing-unreachable",
  level: "warning",
  title: "the routing server does not answer",
  why: "Roads without a stated time are then estimated, and the day is planned with these. A run waits 5 s for one answer and 15 s for all of them, and asks a silent server no second time.",
  cure: "Start the server, correct `routing.url`, or keep its answers with `routing.keep`.",
  example: "routing: { url: http://localhost:5000 }     # and no server runs there",
  sentence: ({ url, why }) =>
    `the routing server ${url} does not answer: ${why}; roads without a stated time are estimated`,
  hint: () => "start it, or keep its answers in a file: routing: { url, keep: roads.json }",
});

export const routingRefused = define<Server>({
  code: "routing-refused",
  level: "warning",
  title: "the routing server refuses a request",
  why: "The server does not know the place, or does not serve this kind of request. The road is estimated.",
  cure: "Check the coordinates of the places, and which part of the world the server's map covers.",
  example: "routing: { url: http://localhost:5000 }     # its map ends before here",
  sentence: ({ url, why, from, to }, say) =>
    from === null || to === null
      ? `the routing server ${url} refuses: ${why}; roads without a stated time are estimated`
      : `the routing server ${url} has no road from ${say.name(from)} to ${say.name(to)}: ${why}; it is estimated`,
  hint: () => "check the coordinates, and the map that the server has loaded",
});

export const routingUnreadable = define<Server>({
  code: "routing-unreadable",
  level: "warning",
  title: "the routing server's answer cannot be read",
  why: "An answer that cannot be read, or is longer than 1 MiB, is not used. The roads are estimated.",
  cure: "Check that `routing.url` is a routing engine with the usual open route and table services.",
  example: "routing: { url: http://localhost:8080 }     # which is another kind of server",
  sentence: ({ url, why }) =>
    `${url} does not answer as a routing engine: ${why}; roads without a stated time are estimated`,
  hint: () => "check routing.url: it is the part before /route/v1/",
});

const speed = (km: number, minutes: number): string => `${Math.round((km * 60) / Math.max(1, minutes))} km/h`;

export const driveImplausible = define<{
  from: string;
  to: string;
  /** What of the road is odd: `drive`, `bad` or `km`. */
  key: string;
  /** Null where only the length is stated. */
  minutes: number | null;
  km: number;
  /** Whether `km` is the straight line between the ends, as nothing states the road's length. */
  straight: boolean;
  /** Null where an end has no coordinates, or doubted ones. */
  straightKm: number | null;
  doubt: string;
}>({
  code: "drive-implausible",
  level: "warning",
  title: "a stated drive is faster, slower or shorter than roads are",
  why: "A slip between minutes and hours moves every later time. Faster than 137 km/h on average (85 mph, the highest limit posted in the United States) is asked about, and so is a drive of more than an hour beyond 10 km/h. Without `km` the straight line between the coordinates is the least length, and three of it and 30 km the greatest. A stated `km` below that straight line is asked about as well (a tenth and 2 km are left for coarse coordinates). An answer of a routing server that is out of these bounds, or shorter than the straight line, is not used.",
  cure: "Correct `drive` or `km` of the road; if both are right, accept the finding with the reason.",
  example: `
    roads:
      - { link: [lodge, pier], drive: 3 min, km: 25 km }
  `,
  source: { title: "common practice, no source: average speeds of a drive between 10 and 137 km/h", clause: null },
  sentence({ from, to, key, minutes, km, straight, straightKm, doubt }, say) {
    const road = `${say.name(from)} to ${say.name(to)}`;
    if (minutes === null || key === "km")
      return `${road}: ${Math.round(km)} km is shorter than the straight line of ${Math.round(straightKm ?? 0)} km`;
    return `${road}: ${key === "bad" ? "the bad time of " : ""}${say.length(minutes)} for ${straight ? "a straight line of " : ""}${Math.round(km)} km is ${speed(km, minutes)}, too ${doubt} for a road`;
  },
  hint({ from, to, key, straight }) {
    const what = key === "km" ? "the length" : straight ? "the time" : "the time or the length";
    return `correct ${what} of { link: [${from}, ${to}] }${key === "km" || straight ? ", or the coordinates of its ends" : ""}`;
  },
});

export const answerImplausible = define<{
  from: string;
  to: string;
  minutes: number;
  km: number | null;
  straightKm: number;
  doubt: string;
}>({
  code: "routing-implausible",
  level: "warning",
  title: "a routing server's answer cannot be right",
  why: "An answer faster than 137 km/h on average, slower than an hour beyond 10 km/h, or shorter than the straight line would move every later time. It is not used and not kept; the road is estimated.",
  cure: "Check the server's map and speeds, or state the road.",
  example: `
    places:
      beach: { at: [46.65, -90.92] }     # no road to it in \`roads\`
    runs:
      wagon: [lodge, pier, beach]
    routing: { url: http://localhost:5000 }     # which is there in 2 seconds
  `,
  sentence({ from, to, minutes, km, straightKm, doubt }, say) {
    const road = `the routing server's drive from ${say.name(from)} to ${say.name(to)}`;
    const far = Math.round(straightKm);
    if (doubt === "short")
      return `${road} has ${Math.round(km ?? 0)} km, less than the straight line of ${far} km; it is estimated`;
    const length = km === null ? `at least ${far} km` : `${Math.round(km)} km`;
    return `${road} takes ${say.length(Math.round(minutes))} for ${length}, too ${doubt} for a road; it is estimated`;
  },
  hint: ({ from, to }) => `add to roads: { link: [${from}, ${to}], drive: …, bad: … }`,
});

export const keepUnreadable = define<{ file: string; why: string }>({
  code: "routing-keep-unreadable",
  level: "warning",
  title: "the file that `routing.keep` names holds something else",
  why: "Only a file that holds routing answers and nothing else is written over. This one is left as it is, and the answers are not kept.",
  cure: "Name another file in `routing.keep`.",
  example: `
    routing:
      url: http://localhost:5000
      keep: notes.json     # a file of something else
  `,
  sentence: ({ file, why }) => `routing.keep names ${file}: ${why}; it is left as it is`,
  hint: () => "name a file of its own: keep: roads.json",
});

export const keepUnwritten = define<{ file: string; why: string }>({
  code: "routing-keep-unwritten",
  level: "warning",
  title: "the routing answers cannot be kept",
  why: "The answers are used now; without the server the next run estimates these roads. The file lies in the plan's folder or below it, and a new one ends in `.json`.",
  cure: "Name a file in the plan's folder in `routing.keep`, and make the folder that it names.",
  example: `
    routing:
      url: http://localhost:5000
      keep: kept/roads.json     # and there is no folder \`kept\`
  `,
  sentence: ({ file, why }) => `the routing answers cannot be kept in ${file}: ${why}; they are used in this run only`,
  hint: () => "name a file in the plan's folder: keep: roads.json",
});
