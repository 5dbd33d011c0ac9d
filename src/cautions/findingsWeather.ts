/** Cautions that follow from the weather: each one line with its source on the sheet, the full text for `explain`. */
import { figureText } from "../findings/figures.ts";
import { define } from "../findings/finding.ts";
import { type OnDrive, type Outdoors, onDrive, outdoors, windLimit, windUp } from "./shapes.ts";

const STRONGER = "The stronger of mean wind and gust counts.";
/** Where a maker's limit comes first: how a stand-in is introduced and where it comes from. */
const makersLimit = (standIn: string): string =>
  `The maker's limit comes first. Without it a cautious limit is ${standIn} (from memory of practice). ${STRONGER}`;
const MAKER = { title: "common practice, no source; the maker's limits come first", clause: null };

export const lightning = define<Outdoors>({
  code: "caution-lightning",
  level: "warning",
  title: "thunderstorms while people are outside",
  why: "Thirty seconds or less from flash to thunder are 6 miles: go in, mast and dish down, and stay in until 30 minutes after the last thunder. A mast takes minutes to come down, so act on any thunder at all; the weather service now says the same. Setting up and striking count as outside.",
  cure: "Plan the hit from shelter, and name who calls it off.",
  example: `
    weather:
      - { from: "06:00", to: "18:00", lightning: true }
  `,
  source: { title: "National Weather Service, 30-30 rule", clause: null },
  sentence: outdoors(
    () =>
      "thunderstorms; at the first thunder lower mast and dish and go inside, and stay there until 30 min after the last",
  ),
});

export const windMast = define<Outdoors & { mph: number; limit: number; beaufort: number }>({
  code: "caution-wind-mast",
  level: "warning",
  title: "wind too strong for a mast",
  why: `${makersLimit("no mast above gusts of 25 mph")} It holds from set-up to strike. Pressure grows with the square: 110 Pa at 30 mph, 196 at 40.`,
  cure: "Leave the mast down, or raise it less.",
  example: `
    places:
      dock: { hazards: [mast] }
    weather:
      - { gust: 55 km/h, places: [dock] }
  `,
  source: MAKER,
  sentence: outdoors(
    (f) =>
      `wind up to ${windUp(f.mph)}, Beaufort ${f.beaufort}; no mast above ${windLimit(f.limit)} unless its maker allows it`,
  ),
});

export const windDish = define<Outdoors & { path: string; mph: number; limit: number; newtons: number | null }>({
  code: "caution-wind-dish",
  level: "warning",
  title: "wind too strong for the dish",
  why: `${makersLimit("to stow the dish above gusts of 45 mph")} Force is 0.613 v² times the area times 1.4: some 700 N on 1.8 m at 40 mph (from memory).`,
  cure: "Use the spare, park in the lee, or wait.",
  example: `
    weather:
      - { gust: 80 km/h, places: [pier] }     # and dish is used there
  `,
  source: MAKER,
  sentence: outdoors((f, say) => {
    const force = f.newtons === null ? "" : `, some ${Math.round(f.newtons / 10) * 10} N on the dish`;
    return `wind up to ${windUp(f.mph)}${force}; stow ${say.name(f.path)} above ${windLimit(f.limit)} unless its maker allows it`;
  }),
});

export const gale = define<Outdoors & { mph: number; beaufort: number }>({
  code: "caution-wind",
  level: "warning",
  title: "wind that people can hardly walk in",
  why: `From Beaufort 8 (39 mph) on twigs break off trees and walking is very difficult; tripods, lamps, tents and doors go with the wind. ${STRONGER}`,
  cure: "Work in the lee, weigh down and tie what stands, keep clear of trees, signs and open doors.",
  example: `
    weather:
      - { gust: 80 km/h }
  `,
  source: { title: "Beaufort scale (World Meteorological Organization)", clause: null },
  sentence: outdoors(
    (f) =>
      `wind up to ${windUp(f.mph)}, Beaufort ${f.beaufort}; tie down all that stands, work in the lee, keep clear of trees and signs`,
  ),
});

/** `within 8 min`, `in less than 2 min`. */
const skinTime = (minutes: number): string =>
  minutes < 2 ? "in less than 2 min" : `within ${Math.floor(minutes)} min`;

export const windChillCold = define<
  Outdoors & { chill: number; celsius: number; kmh: number | null; frostbite: number | null; beyond: boolean }
>({
  code: "caution-wind-chill",
  level: "note",
  otherwise: { level: "warning", when: "if bare skin freezes within 30 minutes" },
  title: "bare skin freezes, or is soon too cold to work",
  why: "Wind chill by the 2001 formula of Canada and the United States; without a stated wind it is the air's temperature, and beyond 100 km/h, the end of the published tables, at least as cold as printed. How soon skin freezes is the smaller of two figures: the minutes for one person in twenty by Ducharme and Brajkovic (from memory; from −15 °C and 25 km/h on), and the shorter end of Environment Canada's bands: 10 min from −28, 5 from −40, 2 from −48, less than 2 from −55; above 50 km/h of wind the next colder band. From −10 °C on people who stand still outside lose heat, and fingers stop working (Environment Canada, from memory).",
  cure: "Short turns outside, face and fingers covered, a warm vehicle, packs inside the coat.",
  example: `
    weather:
      - { temp: -14 C, wind: 30 km/h }
  `,
  source: { title: "National Weather Service and Environment Canada, wind chill (2001)", clause: null },
  sentence: outdoors((f) => {
    const wind = f.kmh === null ? "wind not stated" : `${figureText(f.kmh)} km/h`;
    const felt = `feels ${f.beyond ? "at least as cold as" : "like"} ${figureText(f.chill)} °C (${figureText(f.celsius)} °C, ${wind})`;
    const skin = f.frostbite === null ? "cover skin, take turns outside" : `bare skin freezes ${skinTime(f.frostbite)}`;
    return `${felt}; ${skin}`;
  }),
});

export const wetCold = define<Outdoors & { celsius: number }>({
  code: "caution-wet-cold",
  level: "note",
  title: "rain or melting snow in the cold",
  why: "Hypothermia also comes above 40 °F to people who are wet from rain or sweat, and trench foot at up to 60 °F if feet stay wet: wet feet lose heat 25 times as fast as dry ones (CDC and NIOSH, as quoted by several public pages).",
  cure: "Waterproofs, dry socks and gloves to change into, a warm vehicle, turns outside.",
  example: `
    weather:
      - { temp: 4 C, road: wet }
  `,
  source: { title: "CDC and NIOSH, cold stress", clause: null },
  sentence: outdoors(
    (f) =>
      `wet at ${figureText(f.celsius)} °C; keep dry, bring dry socks and gloves to change into, take turns outside`,
  ),
});

/** The National Weather Service's chart ends here, °F: beyond it the formula holds no longer. */
const HOTTEST_IN_CHART = 137;

export const heat = define<Outdoors & { index: number; band: string; humid: boolean }>({
  code: "caution-heat",
  level: "note",
  otherwise: { level: "warning", when: "from the band `danger` on" },
  title: "heat that exhausts people",
  why: "Heat index by Rothfusz with the weather service's adjustments; without a stated humidity it is the air's temperature. Caution from 80 °F, extreme caution from 90, danger from 103, extreme danger from 125; an edition with 105 and 130 exists, and the lower edges are taken. Beyond 137 °F, the end of the chart, it is at least as hot as printed. Full sun adds up to 15 °F.",
  cure: "Shade, water before thirst, turns outside, someone who watches the others.",
  example: `
    weather:
      - { temp: 33 C, humidity: 60% }
  `,
  source: { title: "National Weather Service, heat index", clause: null },
  sentence: outdoors((f) => {
    const humid = f.humid ? "" : "; humidity not stated, and damp air feels hotter";
    const over = f.index > HOTTEST_IN_CHART ? "over " : "";
    const index = Math.min(f.index, HOTTEST_IN_CHART);
    const celsius = figureText((index - 32) / 1.8);
    return `heat index ${over}${celsius} °C (${figureText(index)} °F${humid}), ${f.band}; full sun adds up to 8 °C (15 °F); find shade, drink water, take turns`;
  }),
});

export const badRoad = define<OnDrive & { state: string; advice: string }>({
  code: "caution-road",
  level: "note",
  otherwise: { level: "warning", when: "if the road is icy, wet below freezing, or the snow heavy" },
  title: "driving on ice or snow, in fog or heavy rain",
  why: "Of the crashes in bad weather in the United States most happen on wet pavement and in rain, and a quarter on snowy, slushy or icy pavement (Federal Highway Administration, Road Weather Management, from memory). Planned times are longer on such roads, and so is the distance to stop. Rain or a wet road at 0 °C or below freezes; the planned time is still that of a wet road.",
  cure: "Leave earlier, slow down, keep distance; put the drive off if it can wait.",
  example: `
    weather:
      - { road: fog }
  `,
  source: { title: "Federal Highway Administration, Road Weather Management", clause: null },
  sentence: onDrive((f) => `${f.state.replace("-", " ")} on the road; ${f.advice}`),
});

export const strongWind = define<OnDrive & { mph: number; high: boolean; closed: boolean }>({
  code: "caution-wind-driving",
  level: "note",
  otherwise: { level: "warning", when: "from a mean wind of 40 mph or gusts of 50 mph on" },
  title: "strong wind while a high vehicle is on the road, or a storm while any is",
  why: "Three published limits, each at its lower edge. A bridge authority warns high vehicles from a wind of 20 mph on (Mackinac Bridge, 20 to 34 mph, as quoted by the press); gusts count here from 25 mph on (common practice, no source). A wind advisory begins at a mean wind of 30 mph or gusts of 40 with some offices of the weather service, at 31 and 46 with most: such winds make driving difficult, especially for high vehicles; Nevada closes a stretch to vehicles over nine feet above gusts of 40. A high wind warning begins at a mean wind of 40 mph or gusts of 58. From 50 mph on the same bridge is closed to high vehicles, from 65 mph on to all (from memory); such wind counts for every vehicle. A vehicle counts as high if it weighs over 10,000 lb, has a berth, tows, carries a dish, or is called a truck, a bus or the like (common practice, no source).",
  cure: "Slow down, both hands on the wheel, another road, or wait.",
  example: `
    vehicles:
      wagon: { berth: true }
    weather:
      - { gust: 80 km/h, places: [lodge] }
  `,
  source: {
    title: "National Weather Service, wind advisory and high wind warning; Mackinac Bridge Authority",
    clause: null,
  },
  sentence: onDrive((f) => {
    const advice = f.closed
      ? "stay off bridges and open ground until it drops"
      : "slow down on bridges and open ground";
    return `wind up to ${windUp(f.mph)} against ${f.high ? "a high vehicle" : "any vehicle"}; ${advice}`;
  }),
});
