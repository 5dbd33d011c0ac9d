/** Cautions: each one line with its source on the sheet, the full text here for `explain`. */
import { type AnyEntry, define, type Say } from "../findings/finding.ts";
import { names } from "../findings/words.ts";
import type { Instant } from "../time/units.ts";

const at = (places: readonly string[], say: Say): string => (places.length === 0 ? "" : `at ${names(places, say)}: `);
/** From when to when people are outside in it. */
export type Times = { readonly from: { readonly at: Instant }; readonly to: { readonly at: Instant } };

/** `at the pier, 07:40 to 12:00: `. */
const during = ({ places, from, to }: Times & { readonly places: readonly string[] }, say: Say): string => {
  const [place = null] = places;
  return `at ${names(places, say)}, ${say.time(from.at, place)} to ${say.time(to.at, place)}: `;
};
const round = (value: number, digits = 0): string => value.toFixed(digits);

export const powerLines = define<{
  places: readonly string[];
  kilovolts: number | null;
  feet: number;
  transitFeet: number | null;
}>({
  code: "caution-lines",
  level: "note",
  title: "overhead lines where a mast, a dish or a boom goes up",
  why: "A raised structure and whoever touches it stay 10 ft from lines up to 50 kV and 4 in more for each 10 kV above (16 ft at 230 kV); in transit with the structure lowered 4 ft and the same extra. A line whose voltage nobody knows is kept at least 20 ft off (from memory of 29 CFR 1926.1408, whose table goes 10, 15, 20, 25, 35, 45 ft up to 50, 200, 350, 500, 750, 1000 kV). Lines sag in heat and under ice and swing in wind; a telescope looks thinner at night than it is.",
  cure: "Park where nothing is overhead, light the mast from below, look up before it goes up. State the voltage where it is known: `hazards: [lines 138 kV]`.",
  example: "places:\n  dock: { hazards: [mast, lines] }",
  source: { title: "29 CFR 1910.333", clause: "(c)(3)" },
  sentence(f, say) {
    const voltage = f.kilovolts === null ? "of unknown voltage" : `of ${round(f.kilovolts)} kV`;
    const transit = f.transitFeet === null ? "" : `, ${round(f.transitFeet, 1)} ft on the move with it lowered`;
    return `${at(f.places, say)}overhead lines ${voltage}: keep mast and dish at least ${round(f.feet, 1)} ft off${transit}`;
  },
});

export const mast = define<{ places: readonly string[] }>({
  code: "caution-mast",
  level: "note",
  title: "a mast goes up",
  why: "California wrote rules for electronic news gathering: a level indicator, a spotlight on the mast, an alarm of 80 to 85 dB that cannot be switched off if the vehicle moves with the mast up, a warning sign (10 ft, 50 kV), and training at least yearly for everyone in the field crew, reporters and those who assign them included. 30 CFR 77.807-2 has similar distances for booms and masts.",
  cure: "Look up, level the vehicle, keep people from under it, and walk round before rolling.",
  example: "places:\n  dock: { hazards: [mast] }",
  source: { title: "California Code of Regulations, Title 8, Article 40", clause: "2981, 2982" },
  sentence: (f, say) =>
    `${at(f.places, say)}look up and level before the mast goes up; never roll with it up; nobody under it`,
});

/** How far a beam is over a limit: 0 is the reflector alone, null nowhere. */
function over(limit: string, meters: number | null): string {
  if (meters === null) return `nowhere over the ${limit}`;
  return `over the ${limit} ${meters === 0 ? "at the reflector only" : `to ${round(meters)} m`}`;
}

export const radiation = define<{
  path: string;
  places: readonly string[];
  meters: number | null;
  controlledMeters: number | null;
  watts: number | null;
}>({
  code: "caution-radiation",
  level: "note",
  title: "a dish transmits",
  why: "Limits above 1.5 GHz are 5 mW/cm² over 6 minutes for trained people who know, and 1 mW/cm² over 30 minutes for the public. At the reflector stand 4 P / A, in the near field 4 η P / A out to D² / 4 λ, beyond it falls as 1 / R, and from 0.6 D² / λ as P G / 4 π R². A 1.2 m dish with 87 W at 14.25 GHz has 20 mW/cm² in the beam to 17 m, 8.6 at 41 m and 1 at 120 m. Two filed studies halve the figure at the reflector, and one has the far field ten times too near; the bulletin counts.",
  cure: "Keep the beam over everybody's head, set a barrier in front, and never cross the front while it is up. State `uplink: 20 W` and `size` for the distance.",
  example:
    "paths:\n  dish:\n    kind: satellite\n    vehicle: truck\n    size: 1.2 m\n    band: 11.95 GHz\n    uplink: 80 W",
  source: { title: "FCC OET Bulletin 65, Edition 97-01", clause: null },
  sentence(f, say) {
    const head = `${at(f.places, say)}nobody in front of ${f.path} while it is up`;
    if (f.watts === null) return head;
    const trained = f.meters === null ? "" : `, ${over("trained one", f.controlledMeters)}`;
    return `${head}; at ${round(f.watts)} W the beam is ${over("public limit", f.meters)}${trained}`;
  },
});

export const exhaust = define<{ vehicles: readonly string[]; generators: readonly string[]; snow: boolean }>({
  code: "caution-exhaust",
  level: "note",
  title: "an engine or generator runs while people are by it",
  why: "Carbon monoxide has no smell. NIOSH's ceiling is 200 parts per million, 1200 are immediately dangerous. A generator stands 20 ft from doors, windows and vents with 3 to 4 ft free round it. Snow round the exhaust of a standing vehicle fills the cab; clear it before idling, and have an alarm in the truck (both from memory). Many places limit idling to 3 to 5 minutes (from memory).",
  cure: "Generator 20 ft off and downwind, exhaust clear of snow, a window open by a finger, an alarm aboard.",
  example:
    "vehicles:\n  truck: { inverter: 2000 W }\nchargers:\n  bench: { in: truck, slots: 3, watts: 60, mount: wedge }",
  source: { title: "NIOSH, carbon monoxide limits; CDC and CPSC, generator distance", clause: null },
  sentence(f, say) {
    const what = [...f.generators, ...f.vehicles];
    const snow = f.snow ? "; clear snow from the exhaust first" : "";
    const far = f.generators.length > 0 ? "20 ft from doors and vents" : "exhaust away from people";
    return `${names(what, say)}: carbon monoxide while it runs; ${far}${snow}`;
  },
});

export const lightning = define<Times & { places: readonly string[] }>({
  code: "caution-lightning",
  level: "warning",
  title: "thunderstorms where a crew stands outside",
  why: "Thirty seconds or less from flash to thunder are 6 miles: go in, mast and dish down, and stay in until 30 minutes after the last thunder. A mast takes minutes to come down, so act on any thunder at all; the weather service now says the same.",
  cure: "Plan the hit from shelter, and name who calls it off.",
  example: 'weather:\n  - { from: "06:00", to: "18:00", lightning: true }',
  source: { title: "National Weather Service, 30-30 rule", clause: null },
  sentence: (f, say) =>
    `${during(f, say)}thunderstorms; mast and dish down and all in at the first thunder, out 30 min after the last`,
});

export const windMast = define<Times & { places: readonly string[]; mph: number; limit: number; beaufort: number }>({
  code: "caution-wind-mast",
  level: "warning",
  title: "gusts too strong for a mast",
  why: "The maker's limit comes first. Without it a cautious limit is no mast above gusts of 25 mph (from memory of practice). Pressure grows with the square: 110 Pa at 30 mph, 196 at 40.",
  cure: "Leave the mast down, or raise it less.",
  example: "places:\n  dock: { hazards: [mast] }\nweather:\n  - { gust: 55 km/h, places: [dock] }",
  source: { title: "common practice, no source; the maker's limits come first", clause: null },
  sentence: (f, say) =>
    `${during(f, say)}gusts of ${round(f.mph)} mph (Beaufort ${f.beaufort}); no mast above ${f.limit} mph unless its maker allows it`,
});

export const windDish = define<
  Times & {
    path: string;
    places: readonly string[];
    mph: number;
    limit: number;
    newtons: number | null;
  }
>({
  code: "caution-wind-dish",
  level: "warning",
  title: "gusts too strong for the dish",
  why: "The maker's limit comes first. Without it a cautious limit is to stow the dish above gusts of 45 mph (from memory of practice). Force is 0.613 v² times the area times 1.4: some 700 N on 1.8 m at 40 mph (from memory).",
  cure: "Use the spare, park in the lee, or wait.",
  example: "weather:\n  - { gust: 80 km/h, places: [pier] }     # and dish is used there",
  source: { title: "common practice, no source; the maker's limits come first", clause: null },
  sentence(f, say) {
    const force = f.newtons === null ? "" : `, some ${Math.round(f.newtons / 10) * 10} N on it`;
    return `${during(f, say)}gusts of ${round(f.mph)} mph${force}; stow ${f.path} above ${f.limit} mph unless its maker allows it`;
  },
});

export const windChillCold = define<
  Times & {
    places: readonly string[];
    chill: number;
    celsius: number;
    kmh: number;
    frostbite: number | null;
  }
>({
  code: "caution-wind-chill",
  level: "note",
  otherwise: { level: "warning", when: "where bare skin freezes within 30 minutes" },
  title: "bare skin freezes, or is soon too cold to work",
  why: "Wind chill by the 2001 formula of the National Weather Service. At -18 °F (-28 °C) and below skin freezes within 30 minutes; how fast for one person in twenty by Ducharme and Brajkovic (from memory), from -15 °C and 25 km/h on. From -10 °C on people who stand still outside lose heat and fingers stop obeying (Environment Canada's bands, from memory).",
  cure: "Short turns outside, face and fingers covered, a warm vehicle, packs inside the coat.",
  example: "weather:\n  - { temp: -14 C, wind: 30 km/h }",
  source: { title: "National Weather Service, wind chill chart (2001)", clause: null },
  sentence(f, say) {
    const felt = `feels like ${round(f.chill)} °C (${round(f.celsius)} °C, ${round(f.kmh)} km/h)`;
    const skin =
      f.frostbite === null ? "cover skin, take turns outside" : `bare skin freezes within ${round(f.frostbite)} min`;
    return `${during(f, say)}${felt}; ${skin}`;
  },
});

export const heat = define<Times & { places: readonly string[]; index: number; band: string }>({
  code: "caution-heat",
  level: "note",
  otherwise: { level: "warning", when: "from the band `danger` on" },
  title: "heat that wears people down",
  why: "Heat index by Rothfusz with the weather service's adjustments. Caution from 80 °F, extreme caution from 90, danger from 103, extreme danger from 125; an edition with 105 and 130 exists, and the lower edges are taken. Full sun adds up to 15 °F.",
  cure: "Shade, water before thirst, turns outside, someone who watches the others.",
  example: "weather:\n  - { temp: 33 C, humidity: 60% }",
  source: { title: "National Weather Service, heat index", clause: null },
  sentence: (f, say) =>
    `${during(f, say)}heat index ${round(f.index)} °F, ${f.band}; full sun adds up to 15; shade, water, turns`,
});

export const ice = define<{
  places: readonly string[];
  inches: number | null;
  white: boolean;
  tooThin: readonly string[];
  goldKg: number | null;
}>({
  code: "caution-ice",
  level: "note",
  title: "people or vehicles on ice",
  why: "No ice is safe. By Minnesota's newer and thicker table new clear ice carries a person on foot from 4 in, a snowmobile from 5 to 7, a side-by-side from 7 to 8, a car from 9 to 12, a truck from 13 to 17; white ice counts half. An older, thinner edition is still quoted widely. Gold's formula, 3.5 h² kg for h in cm at low risk (from memory), is unsafe for heavy plant. Near a ship, a pier, a current or a pressure ridge none of it holds.",
  cure: "Stay off; else ask who drills there, spread out, carry picks and a rope. State what is known: `hazards: [ice 20 cm]`, `[white ice 12 in]`.",
  example: "places:\n  pier: { hazards: [ice] }",
  source: { title: "Minnesota Department of Natural Resources, ice thickness guidelines", clause: null },
  sentence(f, say) {
    if (f.inches === null)
      return `${at(f.places, say)}no ice is safe; under 4 in of clear ice nobody on foot, under 13 in no truck, white ice counts half`;
    const thin =
      f.tooThin.length === 0
        ? "no load of the table is excluded, and no ice is safe"
        : `too thin for ${f.tooThin.join(", ")}; no ice is safe`;
    const gold = f.goldKg === null ? "" : `; ${round(f.goldKg)} kg at most by Gold`;
    return `${at(f.places, say)}${round(f.inches)} in of ${f.white ? "white" : "clear"} ice: ${thin}${gold}`;
  },
});

export const water = define<{ places: readonly string[] }>({
  code: "caution-water",
  level: "note",
  title: "work by open water",
  why: "Where one could drown, life jackets are worn and a ring with a line is at hand (29 CFR 1926.106, from memory).",
  cure: "A life jacket for everyone within a step of the edge, and nobody alone there.",
  example: "places:\n  pier: { hazards: [water] }",
  source: { title: "29 CFR 1926.106", clause: null },
  sentence: (f, say) => `${at(f.places, say)}life jackets by the edge, nobody alone there`,
});

export const roadside = define<{ places: readonly string[]; wears: number; because: string }>({
  code: "caution-roadside",
  level: "note",
  title: "people on foot at a road",
  why: "Whoever works on foot in the right-of-way of a Federal-aid highway wears high-visibility clothing of class 2 or 3, and the agency counts news crews among them. By ISEA's guidance class 2 goes with 25 to 50 mph and class 3 with more, and at night (from memory).",
  cure: "Vests in every vehicle, vehicles between people and traffic, a spotter. State the speed: `hazards: [roadside 65 mph]`.",
  example: "places:\n  pier: { hazards: [roadside] }",
  source: { title: "23 CFR 634; ANSI/ISEA 107 guidance", clause: null },
  sentence: (f, say) =>
    `${at(f.places, say)}high-visibility clothing class ${f.wears} for everyone on foot (${f.because})`,
});

export const codes: readonly AnyEntry[] = [
  powerLines.entry,
  mast.entry,
  radiation.entry,
  exhaust.entry,
  lightning.entry,
  windMast.entry,
  windDish.entry,
  windChillCold.entry,
  heat.entry,
  ice.entry,
  water.entry,
  roadside.entry,
];
