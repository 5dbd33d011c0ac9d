/** What the weather gives reason to be careful of, at the places and times at which people are outside. */

import type { ActivityTimes, Day } from "../day/day.ts";
import type { Finding, PlanPath } from "../findings/finding.ts";
import { mostOf } from "../lists.ts";
import type { Id, SignalPath, Weather } from "../plan/plan.ts";
import { rowsAt, type Stretch } from "../sky/weather.ts";
import { instant } from "../time/units.ts";
import * as say from "./findings.ts";
import { mastPlaces } from "./places.ts";
import {
  beaufortOf,
  celsius,
  FROSTBITE_30_MINUTES,
  fahrenheit,
  frostbiteMinutes,
  GUST_LIMITS,
  heatBand,
  heatIndex,
  milesAnHour,
  windChill,
  windForce,
} from "./weather.ts";

/** The weather of one activity at a place: every row that holds from set-up to the desk's release. */
interface Outside {
  readonly times: ActivityTimes;
  readonly place: Id;
  readonly stretch: Stretch;
  readonly rows: readonly Weather[];
}

function stretchOf({ lineCheck, inPosition, start, end, clearEnd }: ActivityTimes): Stretch | null {
  const from = lineCheck?.from ?? inPosition ?? start;
  const to = clearEnd ?? end;
  return from === null || to === null ? null : { from, to };
}

/** Meals and rest are taken inside; all else is outside. */
const INSIDE: ReadonlySet<string> = new Set(["meal", "rest", "standdown"]);

export function outside(day: Day): readonly Outside[] {
  return day.activities.flatMap((times) => {
    const stretch = stretchOf(times);
    const { place } = times;
    if (stretch === null || place === null || INSIDE.has(times.activity.kind)) return [];
    return [{ times, place, stretch, rows: rowsAt(day.plan.weather, place, stretch) }];
  });
}

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

/** From here on, °C of wind chill, people who stand still outside need more than a coat; from memory. */
const COLD_FROM = -10;

/** The coldest air with the strongest wind of the rows that touch the stay: the harder reading where rows differ. */
function cold({ rows, ...rest }: Outside) {
  const air = most(rows.map((row) => (row.celsius === null ? null : -row.celsius)));
  const kmh = most(rows.map((row) => row.windKmh));
  if (air === null || kmh === null) return null;
  const chill = windChill(fahrenheit(-air), milesAnHour(kmh));
  return chill === null ? null : { ...rest, rows, celsius: -air, kmh, chillF: chill, chill: celsius(chill) };
}

function colds(found: readonly Outside[]): readonly Finding[] {
  const chilled = found.flatMap((own) => cold(own) ?? []).filter((own) => own.chill <= COLD_FROM);
  const [worst] = chilled.toSorted((a, b) => a.chill - b.chill);
  if (worst === undefined) return [];
  const freezes = worst.chillF <= FROSTBITE_30_MINUTES;
  const frostbite = freezes ? Math.min(30, frostbiteMinutes(worst.celsius, worst.kmh) ?? 30) : null;
  const where = { places: placesOf(chilled), ...timesOf(chilled) };
  const facts = { ...where, chill: worst.chill, celsius: worst.celsius, kmh: worst.kmh, frostbite };
  return [say.windChillCold.raise(facts, { ...pathOf([worst]), otherwise: freezes })];
}

function heats(found: readonly Outside[]): readonly Finding[] {
  const hot = found.flatMap(({ rows, place, stretch }) =>
    rows.flatMap((row) => {
      if (row.celsius === null || row.humidity === null) return [];
      const index = heatIndex(fahrenheit(row.celsius), row.humidity * 100);
      const band = heatBand(index);
      return band === null ? [] : [{ place, stretch, rows: [row], index, band }];
    }),
  );
  const [worst] = hot.toSorted((a, b) => b.index - a.index);
  if (worst === undefined) return [];
  const grave = worst.band === "danger" || worst.band === "extreme danger";
  const where = { ...pathOf([worst]), otherwise: grave };
  return [say.heat.raise({ places: placesOf(hot), ...timesOf(hot), index: worst.index, band: worst.band }, where)];
}

function storms(found: readonly Outside[]): readonly Finding[] {
  const struck = found
    .map((own) => ({ ...own, rows: own.rows.filter((row) => row.lightning) }))
    .filter((own) => own.rows.length > 0);
  return struck.length === 0
    ? []
    : [say.lightning.raise({ places: placesOf(struck), ...timesOf(struck) }, pathOf(struck))];
}

/** Gusts where they are stated, else the mean wind, mph. */
const gustOf = ({ rows }: Outside): number | null => {
  const kmh = most(rows.map((row) => row.gustKmh ?? row.windKmh));
  return kmh === null ? null : milesAnHour(kmh);
};

function gusty(found: readonly Outside[], limit: number) {
  return found.flatMap((own) => {
    const mph = gustOf(own);
    return mph === null || mph <= limit ? [] : [{ ...own, mph }];
  });
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

const usesPath = ({ times: { activity } }: Outside, path: SignalPath): boolean =>
  activity.signalPath === path.id || (activity.kind === "hit" && activity.spare === path.id);

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
      const facts = {
        path: path.id,
        places: placesOf(strong),
        ...timesOf(strong),
        mph,
        limit: GUST_LIMITS.dish,
        newtons,
      };
      return [say.windDish.raise(facts, pathOf(strong))];
    });
}

/** Cautions that follow from the weather. */
export function weatherCautions(day: Day): readonly Finding[] {
  const found = outside(day);
  return [...storms(found), ...windOnMasts(day, found), ...windOnDishes(day, found), ...colds(found), ...heats(found)];
}
