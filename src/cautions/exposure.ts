/** What the weather gives reason to be careful of, at the places and times at which people are outside. */

import type { Day } from "../day/day.ts";
import type { Finding, PlanPath } from "../findings/finding.ts";
import { mostOf } from "../lists.ts";
import type { Id, SignalPath, Weather } from "../plan/plan.ts";
import { instant } from "../time/units.ts";
import { coldIndex, fahrenheit, frostbiteWithin, STRONGEST_IN_TABLE } from "./cold.ts";
import * as say from "./findingsWeather.ts";
import { type Outside, outside } from "./outside.ts";
import { mastPlaces } from "./places.ts";
import { beaufortOf, GUST_LIMITS, heatBand, heatIndex, milesAnHour, windForce } from "./weather.ts";

const placesOf = (found: readonly { readonly place: Id }[]): readonly Id[] => [
  ...new Set(found.map((own) => own.place)),
];
const most = (values: readonly (number | null)[]): number | null => mostOf(values.filter((value) => value !== null));

/** From when to when people are outside in it: from the first such stay to the last, as far as the rows go. */
function timesOf(found: readonly Pick<Outside, "stretch" | "rows">[]): say.Times {
  const starts = found.map(({ stretch, rows }) =>
    Math.max(stretch.from, Math.min(...rows.map((row) => row.from ?? Number.NEGATIVE_INFINITY))),
  );
  const ends = found.map(({ stretch, rows }) =>
    Math.min(stretch.to, Math.max(...rows.map((row) => row.to ?? Number.POSITIVE_INFINITY))),
  );
  return { from: { at: instant(Math.min(...starts)) }, to: { at: instant(Math.max(...ends)) } };
}
const pathOf = (found: readonly { readonly rows: readonly Weather[] }[]): { readonly path: PlanPath } => ({
  path: found[0]?.rows[0]?.path ?? ["weather"],
});

/** The same stays with only the rows that `holds`; those without any are left out. */
const within = (found: readonly Outside[], holds: (row: Weather) => boolean): readonly Outside[] =>
  found.flatMap((own) => {
    const rows = own.rows.filter(holds);
    return rows.length === 0 ? [] : [{ ...own, rows }];
  });

/** From here on, °C of wind chill, people who stand still outside need more than a coat; from memory. */
const COLD_FROM = -10;

/** The coldest air with the strongest wind of the rows that touch the stay: the harder reading where rows differ. */
function cold(own: Outside) {
  const air = most(own.rows.map((row) => (row.celsius === null ? null : -row.celsius)));
  if (air === null) return null;
  // A mean wind makes it feel cold; gusts stand in where they alone are stated.
  const kmh = most(own.rows.map((row) => row.windKmh ?? row.gustKmh));
  return { ...own, celsius: -air, kmh, chill: coldIndex(-air, kmh ?? 0), frostbite: frostbiteWithin(-air, kmh ?? 0) };
}

function colds(found: readonly Outside[]): readonly Finding[] {
  const chilled = found.flatMap((own) => cold(own) ?? []).filter((own) => own.chill <= COLD_FROM);
  const [worst] = chilled.toSorted(
    (a, b) =>
      (a.frostbite ?? Number.POSITIVE_INFINITY) - (b.frostbite ?? Number.POSITIVE_INFINITY) || a.chill - b.chill,
  );
  if (worst === undefined) return [];
  const { chill, celsius, kmh, frostbite } = worst;
  const facts = {
    places: placesOf(chilled),
    ...timesOf(chilled),
    ...{ chill, celsius, kmh, frostbite },
    beyond: kmh !== null && kmh > STRONGEST_IN_TABLE,
  };
  return [say.windChillCold.raise(facts, { ...pathOf([worst]), otherwise: frostbite !== null })];
}

/** Wet feet freeze at no degree below zero: up to here, °C (60 °F), rain and wet snow count as cold. */
const WET_COLD_TO = (60 - 32) / 1.8;
/** Colder than this it is dry: snow does not melt on people. */
const WET_COLD_FROM = -5;

const isWet = ({ road }: Weather): boolean => road === "wet" || road === "heavy-rain";

/** Rain, or snow about freezing, where it is cool enough to matter. */
function wets(found: readonly Outside[]): readonly Finding[] {
  const cool = found.filter(({ rows }) => {
    const air = rows.flatMap(({ celsius }) => celsius ?? []);
    const coldest = air.length === 0 ? null : Math.min(...air);
    if (coldest === null || coldest > WET_COLD_TO || coldest < WET_COLD_FROM) return false;
    const melts = coldest > -1 && rows.some(({ road }) => road === "snow" || road === "heavy-snow");
    return melts || rows.some(isWet);
  });
  const [first] = cool;
  if (first === undefined) return [];
  const celsius = Math.min(...cool.flatMap(({ rows }) => rows.flatMap((row) => row.celsius ?? [])));
  return [say.wetCold.raise({ places: placesOf(cool), ...timesOf(cool), celsius }, pathOf([first]))];
}

function heats(found: readonly Outside[]): readonly Finding[] {
  const hot = found.flatMap(({ rows, place, stretch }) => {
    const air = most(rows.map((row) => row.celsius));
    if (air === null) return [];
    const humidity = most(rows.map((row) => row.humidity));
    // Without humidity the air's own temperature is the index, and the sentence says so.
    const index = humidity === null ? fahrenheit(air) : heatIndex(fahrenheit(air), humidity * 100);
    const band = heatBand(index);
    const own = rows.filter((row) => row.celsius === air);
    return band === null ? [] : [{ place, stretch, rows: own, index, band, humid: humidity !== null }];
  });
  const [worst] = hot.toSorted((a, b) => b.index - a.index);
  if (worst === undefined) return [];
  const { index, band, humid } = worst;
  const grave = band === "danger" || band === "extreme danger";
  const where = { ...pathOf([worst]), otherwise: grave };
  return [say.heat.raise({ places: placesOf(hot), ...timesOf(hot), index, band, humid }, where)];
}

function storms(found: readonly Outside[]): readonly Finding[] {
  const struck = within(found, (row) => row.lightning);
  return struck.length === 0
    ? []
    : [say.lightning.raise({ places: placesOf(struck), ...timesOf(struck) }, pathOf(struck))];
}

/** The stronger of the mean wind and its gusts in one row, mph. */
function rowMph({ windKmh, gustKmh }: Weather): number | null {
  const kmh = most([windKmh, gustKmh]);
  return kmh === null ? null : milesAnHour(kmh);
}

function gusty(found: readonly Outside[], limit: number) {
  return within(found, (row) => (rowMph(row) ?? 0) > limit).map((own) => ({
    ...own,
    mph: most(own.rows.map(rowMph)) ?? 0,
  }));
}

function windOnMasts(day: Day, found: readonly Outside[]): readonly Finding[] {
  const masts = mastPlaces(day);
  const strong = gusty(
    found.filter((own) => masts.includes(own.place)),
    GUST_LIMITS.mast,
  );
  const mph = most(strong.map((own) => own.mph));
  if (mph === null) return [];
  const facts = {
    places: placesOf(strong),
    ...timesOf(strong),
    mph,
    limit: GUST_LIMITS.mast,
    beaufort: beaufortOf(mph * 1.609344),
  };
  return [say.windMast.raise(facts, pathOf(strong))];
}

const usesPath = ({ activities }: Outside, path: SignalPath): boolean =>
  activities.some(
    ({ activity }) => activity.signalPath === path.id || (activity.kind === "hit" && activity.spare === path.id),
  );

function windOnDishes(day: Day, found: readonly Outside[]): readonly Finding[] {
  return [...day.plan.paths.values()]
    .filter((path) => path.kind === "satellite")
    .flatMap((path) => {
      const strong = gusty(
        found.filter((own) => usesPath(own, path)),
        GUST_LIMITS.dish,
      );
      const mph = most(strong.map((own) => own.mph));
      if (mph === null) return [];
      const newtons = path.dishMeters === null ? null : windForce(mph, path.dishMeters);
      const where = { places: placesOf(strong), ...timesOf(strong) };
      return [say.windDish.raise({ path: path.id, ...where, mph, limit: GUST_LIMITS.dish, newtons }, pathOf(strong))];
    });
}

/** People on their feet are blown over from about here, mph: Beaufort 8, "walking is very difficult". */
const GALE = 39;

/** At places without such a line for a mast or a dish: wind that people can hardly stand in, and that carries light gear away. */
function gales(found: readonly Outside[], told: readonly Finding[]): readonly Finding[] {
  const named = new Set(told.flatMap(({ facts }) => (Array.isArray(facts["places"]) ? facts["places"] : [])));
  const strong = gusty(
    found.filter(({ place }) => !named.has(place)),
    GALE - 1e-9,
  );
  const mph = most(strong.map((own) => own.mph));
  if (mph === null) return [];
  const facts = { places: placesOf(strong), ...timesOf(strong), mph, beaufort: beaufortOf(mph * 1.609344) };
  return [say.gale.raise(facts, pathOf(strong))];
}

/** Cautions that follow from the weather. */
export function weatherCautions(day: Day): readonly Finding[] {
  const found = outside(day);
  const raised = [...windOnMasts(day, found), ...windOnDishes(day, found)];
  return [...storms(found), ...raised, ...gales(found, raised), ...colds(found), ...wets(found), ...heats(found)];
}
