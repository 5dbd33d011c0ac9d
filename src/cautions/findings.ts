/** Cautions: each one line with its source on the sheet, the full text here for `explain`. */
import { figureText } from "../findings/figures.ts";
import { define, names } from "../findings/finding.ts";
import type { Instant } from "../time/units.ts";
import { CLEAR_ICE_INCHES, inUnit, neededIce } from "./ice.ts";
import { type AtPlaces, atPlaces } from "./shapes.ts";

export const powerLines = define<AtPlaces & { kilovolts: number | null; feet: number; transitFeet: number | null }>({
  code: "caution-lines",
  level: "note",
  title: "overhead lines where a mast, a dish or a boom goes up",
  why: "Two federal rules say how far a raised structure and whoever touches it stay from a line; the larger distance is taken, rounded up to feet. 29 CFR 1910.333(c)(3): 10 ft up to 50 kV and 4 in more for each 10 kV above. 29 CFR 1926.1408 Table A: 10, 15, 20, 25, 35, 45 ft up to 50, 200, 350, 500, 750, 1000 kV. A line of unknown voltage counts as at least 20 ft. In transit with the structure lowered, 4 ft and the same extra, or Table T of 1926.1411 (from memory). Lines sag in heat and under ice and swing in wind; a telescope looks thinner at night than it is.",
  cure: "Park clear of anything overhead, light the mast from below, look up before it goes up. If the voltage is known, state it: `hazards: [lines 138 kV]`.",
  example: `
    places:
      dock: { hazards: [mast, lines] }
  `,
  source: { title: "29 CFR 1910.333(c)(3) and 1926.1408 Table A", clause: null },
  sentence: atPlaces((f) => {
    const voltage = f.kilovolts === null ? "of unknown voltage" : `of ${Math.round(f.kilovolts * 10) / 10} kV`;
    const transit = f.transitFeet === null ? "" : `, ${figureText(f.transitFeet)} ft in transit with it lowered`;
    return `overhead lines ${voltage}: keep mast and dish at least ${figureText(f.feet)} ft away${transit}`;
  }),
});

export const mast = define<AtPlaces>({
  code: "caution-mast",
  level: "note",
  title: "a mast goes up",
  why: "California wrote rules for electronic news gathering: a level indicator, a spotlight on the mast, an alarm of 80 to 85 dB that cannot be switched off if the vehicle moves with the mast up, a warning sign (10 ft, 50 kV), and training at least yearly for everyone in the field crew, reporters and those who assign them included. 30 CFR 77.807-2 has similar distances for booms and masts.",
  cure: "Look up, level the vehicle, keep people from under the mast, and walk round the vehicle before rolling.",
  example: `
    places:
      dock: { hazards: [mast] }
  `,
  source: { title: "California Code of Regulations, Title 8, Article 40", clause: "2981, 2982" },
  sentence: atPlaces(
    () => "before the mast goes up, look up and level the vehicle; never drive with it up; keep people from under it",
  ),
});

/** How far a beam is over a limit: 0 is the reflector alone, null nowhere. */
function over(limit: string, meters: number | null): string {
  if (meters === null) return `nowhere over the ${limit}`;
  return `over the ${limit} ${meters === 0 ? "at the reflector only" : `up to ${Math.ceil(meters)} m`}`;
}

export const radiation = define<
  AtPlaces & { path: string; meters: number | null; controlledMeters: number | null; watts: number | null }
>({
  code: "caution-radiation",
  level: "note",
  title: "a dish transmits",
  why: "Limits above 1.5 GHz are 5 mW/cm² over 6 minutes for trained people who know, and 1 mW/cm² over 30 minutes for the public. At the reflector stand 4 P / A, in the near field 4 η P / A out to D² / 4 λ, beyond it falls as 1 / R, and from 0.6 D² / λ as P G / 4 π R². A 1.2 m dish with 87 W at 14.25 GHz has 20 mW/cm² in the beam to 17 m, 8.6 at 41 m and 1 at 120 m. Two filed studies halve the figure at the reflector, and one has the far field ten times too near; the bulletin counts.",
  cure: "Keep the beam over everybody's head, set a barrier in front, and never cross the front while it is up. State `uplink: 20 W` and `size` for the distance.",
  example: `
    paths:
      dish:
        kind: satellite
        vehicle: truck
        size: 1.2 m
        band: 11.95 GHz
        uplink: 80 W
  `,
  source: { title: "FCC OET Bulletin 65, Edition 97-01", clause: null },
  sentence: atPlaces((f, say) => {
    const head = `keep clear of the front of ${say.name(f.path)} while it is up`;
    if (f.watts === null) return head;
    const trained = f.meters === null ? "" : `, ${over("limit for trained people", f.controlledMeters)}`;
    return `${head}; at ${figureText(f.watts)} W the beam is ${over("public limit", f.meters)}${trained}`;
  }),
});

export const exhaust = define<{
  vehicles: readonly string[];
  /** Pieces of kit. */
  generators: readonly string[];
  /** Places that state one. */
  generatorsAt: readonly string[];
  snow: boolean;
  /** Asleep aboard while the engine idles, for so many minutes; null through the night. */
  sleepers: readonly string[];
  /** With a rest planned in or beside the vehicle while the engine runs. */
  resters: readonly string[];
  minutes: number | null;
  /** Asleep at a place where a generator runs. */
  besideGenerator: readonly string[];
}>({
  code: "caution-exhaust",
  level: "note",
  otherwise: { level: "warning", when: "if someone sleeps or rests aboard or beside it" },
  title: "an engine or generator runs beside people",
  why: "Carbon monoxide has no smell, and whoever sleeps does not wake. NIOSH's ceiling is 200 parts per million, 1200 are immediately dangerous to life. An engine idles for its inverter at every stop without mains; where people sleep aboard in the cold or the heat it is taken to idle as well (common practice, no source). A generator stands 20 ft from doors, windows and vents with 3 to 4 ft free around it, and never in a tent, a garage or a building. Snow around the exhaust of a standing vehicle fills the cab; clear it before idling, and have an alarm in the vehicle (both from memory). Many places limit idling to 3 to 5 minutes (from memory).",
  cure: "Sleep in a bed or on mains, never beside a running engine. Otherwise generator 20 ft away and downwind, exhaust clear of snow, a working carbon monoxide alarm aboard.",
  example: `
    vehicles:
      truck: { inverter: 2000 W }     # and it stands at places without mains
  `,
  source: { title: "NIOSH, carbon monoxide limits; CDC and CPSC, generator distance", clause: null },
  sentence(f, say) {
    const generators = [
      ...f.generators.map((id) => say.name(id)),
      ...f.generatorsAt.map((id) => `generator at ${say.name(id)}`),
    ];
    const sleep = (who: readonly string[]): string => `${names(who, say)} ${who.length === 1 ? "sleeps" : "sleep"}`;
    const rest = `${names(f.resters, say)} ${f.resters.length === 1 ? "rests" : "rest"}`;
    const engine = f.sleepers.length + f.resters.length === 0 ? f.vehicles.map((id) => say.name(id)) : [];
    const parts = [
      f.sleepers.length > 0 &&
        `${names(f.vehicles, say)}: the engine idles ${f.minutes === null ? "overnight" : say.length(f.minutes)} while ${sleep(f.sleepers)} aboard; carbon monoxide kills sleepers; sleep in a bed or on mains, and have an alarm aboard`,
      f.resters.length > 0 &&
        `${names(f.vehicles, say)}: the engine runs while ${rest} in or beside it; carbon monoxide kills sleepers; stop the engine or rest elsewhere, and have an alarm aboard`,
      f.besideGenerator.length > 0 &&
        `${sleep(f.besideGenerator)} where a generator runs; carbon monoxide kills sleepers; have an alarm in the room`,
      engine.length + generators.length > 0 &&
        `${[...generators, ...engine].join(", ")}: carbon monoxide while the engine runs`,
      generators.length > 0 && "keep the generator 20 ft from doors, windows and vents, never inside",
      engine.length > 0 && "point the exhaust away from people",
      f.snow && "clear snow from the exhaust first",
    ];
    return parts.filter((part) => part !== false).join("; ");
  },
});

export const ice = define<{
  places: readonly string[];
  /** Clear ice, the least that is stated; white ice counts half. */
  inches: number | null;
  onFoot: boolean;
  /** Vehicles that stop there on too little. */
  tooThin: readonly string[];
  /** Vehicles that stop there, the clear ice in inches that each needs, and its weight as stated (empty: not stated). */
  vehicles: readonly string[];
  needs: readonly string[];
  weights: readonly string[];
  metric: boolean;
  /** Several vehicles stand there at once. */
  apart: boolean;
  /** A vehicle stands there for over two hours. */
  long: boolean;
  /** The weather there is above freezing for six hours or more: the ice carries half. */
  thaw: boolean;
}>({
  code: "caution-ice",
  level: "note",
  otherwise: { level: "error", when: "if the stated ice is too thin for people on foot or a vehicle that stops there" },
  title: "people or vehicles on ice",
  why: "No ice is safe. By Minnesota's newer and thicker table new clear ice carries a person on foot from 4 in, a snowmobile from 5 to 7, a side-by-side from 7 to 8, a car from 9 to 12, a pickup from 13 to 17; a vehicle is held to the thicker end. An older, thinner edition is still quoted widely. For heavier vehicles Gold's formula counts if it asks for more: 3.5 h² kg for h in cm at low risk (from memory), and recent work calls even that unsafe for heavy vehicles. White ice counts half; of several figures the least counts. Vehicles stand 50 ft apart and move every two hours, because ice sinks and cracks under a load that stays; after six hours above freezing every figure doubles, and after 24 nothing holds (the same department, as quoted by the press). Near a ship, a pier, a current or a pressure ridge none of it holds.",
  cure: "Stay off. Otherwise ask who drills there, spread out, carry picks and a rope. State what is known: `hazards: [ice 20 cm]`, `[white ice 12 in]`, and each vehicle's `gross`.",
  example: `
    places:
      pier: { hazards: [ice] }
  `,
  source: { title: "Minnesota Department of Natural Resources, ice thickness guidelines; Gold (1971)", clause: null },
  sentence: atPlaces((f, say) => {
    const unit = f.metric ? "cm" : "in";
    const thick = (inches: number): string => `${neededIce(inches, f)} ${unit}`;
    const need = f.vehicles.map((id, at) => {
      const weight = f.weights[at] || "weight not stated";
      return `${say.name(id)} (${weight}) needs at least ${thick(Number(f.needs[at]))}`;
    });
    const all = [`people on foot need at least ${thick(CLEAR_ICE_INCHES.foot)}`, ...need].join(", ");
    const stand = [f.apart && `park ${f.metric ? "16 m" : "50 ft"} apart`, f.long && "move parked vehicles every 2 h"];
    const rest = [
      f.thaw && "figures doubled for 6 h or more above freezing; stay off after 24 h of it",
      stand.filter((part) => part !== false).join(" and "),
      "no ice is safe",
    ];
    const end = rest.filter((part) => part !== false && part !== "").join("; ");
    if (f.inches === null) return `stay off the ice: ${all} of clear ice, twice that of white ice; ${end}`;
    const shown = Math.floor(inUnit(f.inches, f.metric) * 10 + 1e-6) / 10;
    const thin = [...(f.onFoot ? ["people on foot"] : []), ...f.tooThin.map((id) => say.name(id))];
    const whom = thin.length === need.length + 1 ? "" : ` for ${thin.join(", ")}`;
    const verdict = thin.length === 0 ? ":" : ` is too thin${whom}:`;
    return `${shown} ${unit} of clear ice${verdict} ${all}; ${end}`;
  }),
});

export const water = define<AtPlaces>({
  code: "caution-water",
  level: "note",
  title: "work by open water",
  why: "Wherever someone could drown, life jackets are worn and a ring with a line is at hand (29 CFR 1926.106, from memory).",
  cure: "A life jacket for everyone within a step of the edge, and two people there at least.",
  example: `
    places:
      pier: { hazards: [water] }
  `,
  source: { title: "29 CFR 1926.106", clause: null },
  sentence: atPlaces(() => "wear a life jacket within a step of the edge, and never work there alone"),
});

export const roadside = define<AtPlaces & { wears: number; because: string }>({
  code: "caution-roadside",
  level: "note",
  title: "people on foot at a road",
  why: "Whoever works on foot in the right-of-way of a Federal-aid highway wears high-visibility clothing of class 2 or 3, and the agency counts news crews among them. By ISEA's guidance class 2 goes with 25 to 50 mph and class 3 with more, and at night (from memory).",
  cure: "Vests in every vehicle, vehicles between people and traffic, a spotter. State the speed: `hazards: [roadside 65 mph]`.",
  example: `
    places:
      pier: { hazards: [roadside] }
  `,
  source: { title: "23 CFR 634; ANSI/ISEA 107 guidance", clause: null },
  sentence: atPlaces((f) => `everyone on foot wears high-visibility clothing of class ${f.wears} (${f.because})`),
});

export const alone = define<{
  who: string;
  place: string;
  to: string | null;
  from: { at: Instant };
  until: { at: Instant };
}>({
  code: "caution-alone",
  level: "warning",
  title: "one person is alone without signal",
  why: "Whoever slips, freezes or leaves the road there cannot call for help, and no one knows where to look (common practice, no source).",
  cure: "Send a second person, carry a satellite phone, or agree on a time to check in and on who sets out if the call does not come.",
  example: `
    roads:
      - { link: [lodge, pier], drive: 35 min, noSignal: true }
    runs:
      wagon: { driver: wren, aboard: [wren], stops: [lodge, pier, lodge] }
  `,
  source: { title: "common practice, no source", clause: null },
  sentence(f, say) {
    const times = `${say.time(f.from.at, f.place)} to ${say.time(f.until.at, f.to ?? f.place)}`;
    const where =
      f.to === null ? `at ${say.name(f.place)}` : `on the road from ${say.name(f.place)} to ${say.name(f.to)}`;
    return `${say.name(f.who)} is alone without signal ${where}, ${times}`;
  },
  hint: () => "agree on a time to check in and on who sets out if the call does not come",
});

export const otherHazard = define<AtPlaces & { hazards: readonly string[] }>({
  code: "caution-hazard",
  level: "note",
  title: "a stated hazard that has no page of its own",
  why: "The plan names it, and there is no published table for it here. It is printed as it stands.",
  cure: "Say in the place's `note` what to do about it.",
  example: `
    places:
      pier: { hazards: [avalanche] }
  `,
  source: { title: "the plan itself", clause: null },
  sentence: atPlaces((f) => f.hazards.join(", ")),
});
