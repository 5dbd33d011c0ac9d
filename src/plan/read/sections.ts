/** All sections of a plan with their forms: what a plan may hold, for its reader and for the JSON Schema. */

import { rulesForm } from "../houseRules.ts";
import { actualForm } from "../keys/actual.ts";
import { historiesForm } from "../keys/before.ts";
import { personForm } from "../keys/crew.ts";
import { hitForm } from "../keys/hits.ts";
import { chargerForm, packForm, pieceForm } from "../keys/kit.ts";
import { acceptForm, contractForm } from "../keys/money.ts";
import { lineForm, pathForm } from "../keys/paths.ts";
import { permitForm } from "../keys/permits.ts";
import { placeForm } from "../keys/places.ts";
import { rideForm } from "../keys/rides.ts";
import { roadsForm } from "../keys/roads.ts";
import { runForm } from "../keys/runs.ts";
import { taskForm } from "../keys/tasks.ts";
import { vehicleForm } from "../keys/vehicles.ts";
import { weatherForm } from "../keys/weather.ts";
import { entry, type Field } from "../shape/entry.ts";
import { mapOf } from "../shape/form.ts";
import { headMay, headNeeds } from "../text/head.ts";

/** The sections that are maps of entries with keys of their own. */
export const entryForms = {
  crew: personForm,
  vehicles: vehicleForm,
  places: placeForm,
  hits: hitForm,
  tasks: taskForm,
  rides: rideForm,
  kit: pieceForm,
  packs: packForm,
  chargers: chargerForm,
  paths: pathForm,
  lines: lineForm,
  permits: permitForm,
  contracts: contractForm,
} as const;

const needs = headNeeds;

const may = {
  ...headMay,
  history: [
    historiesForm,
    "what came before, if there is no earlier file",
    { example: "{ wren: { released: 2027-01-19T20:10-06:00, asleep: 6 h } }" },
  ],
  crew: [mapOf("a map of people: { wren: { role: camera } }", entryForms.crew), "the people"],
  vehicles: [mapOf("a map of vehicles: { wagon: {} }", entryForms.vehicles), "the vehicles"],
  places: [mapOf("a map of places: { pier: { at: [46.81, -90.82] } }", entryForms.places), "the places"],
  roads: [roadsForm, "known drives; the rest is estimated"],
  hits: [
    mapOf("a map of hits: { dawn: { at: 07:00, for: 3 min, place: pier } }", entryForms.hits),
    "live at fixed times",
  ],
  tasks: [
    mapOf("a map of tasks: { pictures: { for: 40 min, place: pier } }", entryForms.tasks),
    "work that is not a hit",
  ],
  runs: [
    mapOf("a map of vehicles to their stops: { wagon: [lodge, pier] }", runForm),
    "what each vehicle does, in order",
  ],
  rides: [
    mapOf("a map of rides", entryForms.rides),
    "legs by others: flight, taxi, shuttle",
    { example: "{ flight: { from: airport, to: home, leave: 16:35 local, arrive: 20:10 local, who: [wren] } }" },
  ],
  kit: [mapOf("a map of pieces: { camera: { in: truck } }", entryForms.kit), "pieces, where they are, what they need"],
  packs: [
    mapOf("a map of packs: { brick: { count: 5, wh: 98, mount: wedge, in: wagon } }", entryForms.packs),
    "batteries",
  ],
  chargers: [
    mapOf("a map of chargers", entryForms.chargers),
    "what charges the packs",
    { example: "{ bench: { mount: wedge, slots: 3, watts: 60, in: wagon } }" },
  ],
  paths: [mapOf("a map of paths: { dish: { kind: satellite } }", entryForms.paths), "the ways to get the signal out"],
  lines: [mapOf("a map of lines: { ear: { number: 555 0101 } }", entryForms.lines), "ear line and producer line"],
  permits: [
    mapOf("a map of permits: { dock: { from: 05:00, to: 14:00 } }", entryForms.permits),
    "what allows a stay, and when; a stay outside one is a finding",
  ],
  weather: [weatherForm, "the expected weather"],
  rules: [rulesForm, "house rules"],
  contracts: [
    mapOf("a map of contracts", entryForms.contracts),
    "for timecards",
    { example: "{ day10: { overtimeAfter: 10 h, doubleAfter: 12 h } }" },
  ],
  accept: [acceptForm, "findings taken knowingly; never law"],
  actual: [actualForm, "what really happened", { example: '{ wren: { released: "19:10" }, brick.1: 35% }' }],
} satisfies Record<string, Field>;

/** A whole plan: every section. */
export const planForm = entry("a plan", needs, may);

/** The key of a section. */
export type SectionKey = (typeof planForm.keys)[number];
