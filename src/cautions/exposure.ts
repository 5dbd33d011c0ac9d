/** What the weather gives reason to be careful of, at the places and times at which people are outside. */

import type { Day } from "../day/day.ts";
import type { Finding, PlanPath } from "../findings/finding.ts";
import { mostOf } from "../lists.ts";
import type { SignalPath, Weather } from "../plan/plan.ts";
import { instant } from "../time/units.ts";
import { coldIndex, fahrenheit, frostbiteWithin, STRONGEST_IN_TABLE } from "./cold.ts";
import * as say from "./findingsWeather.ts";
import { type Outside, outside } from "./outside.ts";
import { mastPlaces } from "./places.ts";
import type { Outdoors } from "./shapes.ts";
import { beaufortOf, GUST_LIMITS, heatBand, heatIndex, milesAnHour, windForce } from "./weather.ts";

const most = (values: readonly (number | null)[]): number | null => mostOf(values.filter((value) => value !== null));

/** Where and from when to when people are outside in it: from the first such stay to the last, as far as the rows go. */
function whereOf(found: readonly Outside[]): Outdoors {
  const starts = found.map(({ stretch, rows }) =>
    Math.max(stretch.from, Math.min(...rows.map((row) => row.from ?? Number.NEGATIVE_INFINITY))),
  );
  const ends = found.map(({ stretch, rows }) =>
    Math.min(stretch.to, Math.max(...rows.map((row) => row.to ?? Number.POSITIVE_INFINITY))),
  );
  return {
    places: [...new Set(found.flatMap((own) => own.places))],
    onRoad: found.every(({ onRoad }) => onRoad),
    from: { at: instant(Math.min(...starts)) },
    to: { at: instant(Math.max(...ends)) },
  };
}
const pathOf = (found: readonly { readonly rows: readonly Weather[] }[]): { readonly path: PlanPath } => ({
  path: found[0]?.rows[0]?.path ?? ["weather"],
});

/** Rows that hold at one moment at least. */
const meet = (a: Weather, b: Weather): boolean =>
  (a.from === null || b.to === null || a.from < b.to) && (b.from === null || a.to === null || b.from < a.to);

/** One stated temperature of a stay, and what is stated of the same time in this row or another. */
interface Air {
  readonly own: Outside;
  readonly row: Weather;
  readonly celsius: number;
  /** The rows that hold with it, itself among them. */
  readonly rows: readonly Weather[];
}

const airsOf = (found: readonly Outside[]): readonly Air[] =>
  found.flatMap((own) =>
    own.rows.flatMap((row) => {
      const { celsius } = row;
      if (celsius === null) return [];
      return [{ own: { ...own, rows: [row] }, row, celsius, rows: own.rows.filter((other) => meet(row, other)) }];
    }),
  );

/** The same stays with only the rows that `holds`; those without any are left out. */
const within = (found: readonly Outside[], holds: (row: Weather) => boolean): readonly Outside[] =>
  found.flatMap((own) => {
    const rows = own.rows.filter(holds);
    return rows.length === 0 ? [] : [{ ...own, rows }];
  });

/** From here on, °C of wind chill, people who stand still outside need more than a coat; from memory. */
const COLD_FROM = -10;

/** How one stated temperature feels with the wind of the same time. */
function felt(air: Air) {
  // A mean wind makes it feel cold; gusts stand in where they alone are stated.
  const kmh = most(air.rows.map((row) => row.windKmh ?? row.gustKmh));
  const chill = coldIndex(air.celsius, kmh ?? 0);
  return { ...air, kmh, chill, frostbite: frostbiteWithin(air.celsius, kmh ?? 0) };
}

function colds(found: readonly Outside[]): readonly Finding[] {
  const chilled = airsOf(found)
    .map(felt)
    .filter((own) => own.chill <= COLD_FROM);
  const [worst] = chilled.toSorted(
    (a, b) =>
      (a.frostbite ?? Number.POSITIVE_INFINITY) - (b.frostbite ?? Number.POSITIVE_INFINITY) || a.chill - b.chill,
  );
  if (worst === undefined) return [];
  const { chill, celsius, kmh, frostbite } = worst;
  const facts = {
    ...whereOf(chilled.map(({ own }) => own)),
    ...{ chill, celsius, kmh, frostbite },
    beyond: kmh !== null && kmh > STRONGEST_IN_TABLE,
  };
  return [say.windChillCold.raise(facts, { ...pathOf([worst.own]), otherwise: frostbite !== null })];
}

/** Wet feet freeze at no degree below zero: up to here, °C (60 °F and the last bits of a conversion), rain and wet snow count as cold. */
const WET_COLD_TO = (60 - 32) / 1.8 + 1e-9;
/** Colder than this it is dry: snow does not melt on people. */
const WET_COLD_FROM = -5;
/** From here on, °C, snow melts on people. */
const SNOW_MELTS_FROM = -1;

const isWet = ({ road }: Weather): boolean => road === "wet" || road === "heavy-rain";
const isSnow = ({ road }: Weather): boolean => road === "snow" || road === "heavy-snow";

/** Rain, or snow about freezing, where it is cool enough to matter at the time. */
function wets(found: readonly Outside[]): readonly Finding[] {
  const cool = airsOf(found).filter(
    ({ celsius, rows }) =>
      celsius <= WET_COLD_TO &&
      celsius >= WET_COLD_FROM &&
      rows.some((row) => isWet(row) || (celsius > SNOW_MELTS_FROM && isSnow(row))),
  );
  if (cool.length === 0) return [];
  const stays = cool.map(({ own }) => own);
  const celsius = Math.min(...cool.map((air) => air.celsius));
  return [say.wetCold.raise({ ...whereOf(stays), celsius }, pathOf(stays))];
}

function heats(found: readonly Outside[]): readonly Finding[] {
  const hot = airsOf(found).flatMap(({ own, celsius, rows }) => {
    const humidity = most(rows.map((row) => row.humidity));
    // Without humidity the air's own temperature is the index, and the sentence says so.
    // The published chart has whole degrees, and so has what is printed.
    const index = Math.round(humidity === null ? fahrenheit(celsius) : heatIndex(fahrenheit(celsius), humidity * 100));
    const band = heatBand(index);
    return band === null ? [] : [{ own, index, band, humid: humidity !== null }];
  });
  const [worst] = hot.toSorted((a, b) => b.index - a.index);
  if (worst === undefined) return [];
  const { index, band, humid } = worst;
  const grave = band === "danger" || band === "extreme danger";
  const where = { ...pathOf([worst.own]), otherwise: grave };
  return [say.heat.raise({ ...whereOf(hot.map(({ own }) => own)), index, band, humid }, where)];
}

function storms(found: readonly Outside[]): readonly Finding[] {
  const struck = within(found, (row) => row.lightning);
  return struck.length === 0 ? [] : [say.lightning.raise(whereOf(struck), pathOf(struck))];
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
    found.filter((own) => own.places.some((place) => masts.includes(place))),
    GUST_LIMITS.mast,
  );
  const mph = most(strong.map((own) => own.mph));
  if (mph === null) return [];
  const facts = {
    ...whereOf(strong),
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
      return [
        say.windDish.raise(
          { path: path.id, ...whereOf(strong), mph, limit: GUST_LIMITS.dish, newtons },
          pathOf(strong),
        ),
      ];
    });
}

/** People on their feet are blown over from about here, mph: Beaufort 8, "walking is very difficult". */
const GALE = 39;

/** Wind that people can hardly stand in, and that carries light gear away, whether or not a mast or a dish is up. */
function gales(found: readonly Outside[]): readonly Finding[] {
  const strong = gusty(found, GALE - 1e-9);
  const mph = most(strong.map((own) => own.mph));
  if (mph === null) return [];
  const facts = { ...whereOf(strong), mph, beaufort: beaufortOf(mph * 1.609344) };
  return [say.gale.raise(facts, pathOf(strong))];
}

/** Cautions that follow from the weather. */
export function weatherCautions(day: Day): readonly Finding[] {
  const found = outside(day);
  return [
    ...storms(found),
    ...windOnMasts(day, found),
    ...windOnDishes(day, found),
    ...gales(found),
    ...colds(found),
    ...wets(found),
    ...heats(found),
  ];
}
