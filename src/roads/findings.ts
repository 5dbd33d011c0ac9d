/** What the roads can have wrong: codes, sentences and cures. */
import { type AnyEntry, define } from "../findings/finding.ts";
import type { Instant } from "../time/units.ts";
import { percent, percentRange } from "./chance/percent.ts";

export const chanceLow = define<{ hit: string; chance: number; atMost: number | null; wanted: number }>({
  code: "chance-low",
  level: "warning",
  title: "The drives before a firm hit leave too small a chance of being in position",
  why: "Every drive varies between its likely and its bad time; lateness runs on through short waits to the hit.",
  cure: "Leave earlier, put a longer wait before the hit, drop a stop on the way, or plan the drives at their bad time.",
  example: "rules: { planDrivesAt: drive }     # every second drive takes longer",
  sentence: ({ hit, chance, atMost, wanted }, say) =>
    `the chance to be in position for ${say.name(hit)} is ${percentRange(chance, atMost)}; ${percent(wanted)} is wanted`,
  hint: () => "leave earlier: `drives --chance 95%` says when",
});

export const roadEstimated = define<{ from: string; to: string; low: number; likely: number; high: number }>({
  code: "road-estimated",
  level: "note",
  title: "A drive is planned on an estimate, since nobody has stated the road",
  why: "A straight line times the usual detour knows no lake, no mountain and no closed road.",
  cure: "State the road with the time a map or the crew knows.",
  example:
    "places:\n  beach: { at: [46.65, -90.92] }     # no road to it in `roads`\nruns:\n  wagon: [lodge, pier, beach]",
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
}>({
  code: "fuel-short",
  level: "warning",
  otherwise: { level: "error", when: "where the tank runs dry" },
  title: "A vehicle eats into its fuel reserve before it is filled up",
  why: "Cold, detours and an idling engine take more than the map says.",
  cure: "Place a fuel task at the named stop or earlier: `kind: fuel`.",
  example: "vehicles:\n  wagon: { range: 600 km, fuel: 25% }     # 150 km, 90 of them reserve, for 86",
  source: { title: "common practice, no source: 15 % of the tank stays in reserve", clause: null },
  sentence: ({ vehicle, leftKm, reserveKm }, say) =>
    leftKm < 0
      ? `${say.name(vehicle)} runs dry ${-leftKm} km before it is filled up`
      : `${say.name(vehicle)} is down to ${leftKm} km of range; ${reserveKm} km are its reserve`,
  hint: ({ place, withinKm }, say) =>
    `add a task { kind: fuel } at ${say.name(place)} or earlier, at the latest ${withinKm} km down the road from there`,
});

export const fuelDueShort = define<{ vehicle: string; due: number; left: number }>({
  code: "fuel-due-short",
  level: "warning",
  title: "A vehicle comes back with less fuel than it is due with",
  why: "The hire company fills it up at its own price.",
  cure: "Place a fuel task before the last stop.",
  example:
    'vehicles:\n  wagon:     # and no task of kind `fuel`\n    range: 600 km\n    fuel: 80%\n    due: { place: lodge, at: "18:00", fuel: 100% }',
  sentence: ({ vehicle, due, left }, say) =>
    `${say.name(vehicle)} is due with ${percent(due)} of fuel and comes back with ${percent(left)}`,
  hint: () => "add a task { kind: fuel } before its last stop",
});

export const waitOutside = define<{
  place: string;
  from: { at: Instant };
  to: { at: Instant };
  minutes: number;
  allowed: number;
  later: number;
}>({
  code: "wait-outside",
  level: "warning",
  title: "A long wait is spent without a roof",
  why: "The house rule `shelterAfter` says how long people may stand waiting without shelter, mains or a bed.",
  cure: "Leave the last shelter later, wait elsewhere, or mark the place `shelter: true` if it has one.",
  example:
    "places:     # neither `shelter` nor `mains` at either end of a long wait\n  pier: { at: [46.811, -90.817], signal: good }\n  dock: { at: [46.596, -90.869], signal: good }",
  source: { title: "house rule shelterAfter", clause: null },
  sentence: ({ place, from, to, minutes, allowed }, say) =>
    `${say.length(minutes)} of waiting at ${say.name(place)} without shelter, ${say.time(from.at, place)} to ${say.time(to.at, place)}; the rule allows ${say.length(allowed)}`,
  hint: ({ later }, say) => (later > 0 ? `leave ${say.length(later)} later` : "wait where there is a roof"),
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
  title: "Something is done at a place while it is closed",
  why: "`open` bounds what happens at a place, from parking to departure: nobody gets in before, and the gate is shut after.",
  cure: "Move what is done there, shorten it, or have the place opened and correct `open`.",
  example: "places:\n  pier: { open: [06:00, 22:00] }     # and dawn is set up from 05:10 on",
  sentence: (f, say) =>
    `${say.name(f.place)} is closed at ${say.time(f.closed.at, f.place)}; ${f.what} needs it from ${say.time(f.from.at, f.place)} to ${say.time(f.to.at, f.place)}`,
  hint: () => "have it opened and correct `open`, or move what is done there",
});

export const routingUnreachable = define<{ url: string; why: string }>({
  code: "routing-unreachable",
  level: "warning",
  title: "The routing server does not answer",
  why: "What is not stated is then estimated, so the day is planned all the same.",
  cure: "Start the server, correct `routing.url`, or keep its answers with `routing.keep`.",
  example: "routing: { url: http://localhost:5000 }     # and no server runs there",
  sentence: ({ url, why }) => `the routing server ${url} does not answer: ${why}; unstated roads are estimated`,
  hint: () => "start it, or run again with the answers kept in a file: routing: { url, keep: roads.json }",
});

export const routingRefused = define<{ url: string; why: string }>({
  code: "routing-refused",
  level: "warning",
  title: "The routing server refuses a request",
  why: "It does not know the place, or not this kind of request; such roads are estimated.",
  cure: "Check the coordinates of the places and the part of the world that the server has.",
  example: "routing: { url: http://localhost:5000 }     # its map has not these places",
  sentence: ({ url, why }) => `the routing server ${url} refuses: ${why}; such roads are estimated`,
  hint: () => "check the coordinates, and the map that the server has loaded",
});

export const routingUnreadable = define<{ url: string; why: string }>({
  code: "routing-unreadable",
  level: "warning",
  title: "The routing server's answer makes no sense",
  why: "An answer that cannot be read is not used; such roads are estimated.",
  cure: "Check that `routing.url` is a routing engine with the usual open route and table services.",
  example: "routing: { url: http://localhost:8080 }     # which is some other server",
  sentence: ({ url, why }) => `the answer of ${url} is not a routing engine's: ${why}; such roads are estimated`,
  hint: () => "check routing.url: it is the part before /route/v1/",
});

export const keepUnreadable = define<{ file: string; why: string }>({
  code: "routing-keep-unreadable",
  level: "warning",
  title: "The file of kept routing answers cannot be read",
  why: "The server is asked again, or roads are estimated.",
  cure: "Delete the file; it is written anew.",
  example: "routing:\n  url: http://localhost:5000\n  keep: notes.json     # a file of something else",
  sentence: ({ file, why }) => `${file} holds no routing answers: ${why}`,
  hint: ({ file }) => `delete ${file}; it is written anew`,
});

export const keepUnwritten = define<{ file: string; why: string }>({
  code: "routing-keep-unwritten",
  level: "warning",
  title: "The routing answers cannot be kept",
  why: "They are used now; without the server the next run would estimate these roads.",
  cure: "Make the folder that `routing.keep` names, or let it be written to.",
  example: "routing:\n  url: http://localhost:5000\n  keep: kept/roads.json     # and there is no folder `kept`",
  sentence: ({ file, why }) => `the routing answers cannot be kept in ${file}: ${why}; they are used all the same`,
  hint: ({ file }) => `make the folder of ${file}, or name another file in routing.keep`,
});

export const codes: readonly AnyEntry[] = [
  chanceLow,
  roadEstimated,
  fuelShort,
  fuelDueShort,
  waitOutside,
  placeClosed,
  routingUnreachable,
  routingRefused,
  routingUnreadable,
  keepUnreadable,
  keepUnwritten,
].map(({ entry }) => entry);
