/** Drives on a bad surface, in bad sight, and in gusts with a high vehicle. */
import type { Day, Move } from "../day/day.ts";
import type { Finding } from "../findings/finding.ts";
import { rowsOn } from "../legs/weather.ts";
import { groupBy, leastOf, mostOf } from "../lists.ts";
import type { Id, RoadState, Weather } from "../plan/plan.ts";
import { badRoad, strongWind } from "./findingsWeather.ts";
import { milesAnHour } from "./weather.ts";

/** A state of the road that has a line of its own: those of a plan, and a wet road at or below freezing. */
type Surface = RoadState | "freezing-rain";

/** What to do on a road in each state; dry and wet roads need no line. */
const ADVICE: Readonly<Partial<Record<Surface, string>>> = {
  ice: "drive only if the trip cannot wait; slow, no sudden steering, ten times the usual distance",
  "heavy-snow": "slow, headlights on, shovel, blankets and a full tank aboard",
  snow: "slow, headlights on, long distance",
  fog: "slow enough to stop within sight, low beams, no overtaking",
  "heavy-rain": "slow, headlights on; leave the road if it floods",
  "freezing-rain": "ice on it is hard to see; drive only if the trip cannot wait, slowly",
};
const GRAVE: ReadonlySet<Surface> = new Set(["ice", "heavy-snow", "freezing-rain"]);

const FREEZING = 0;

/** All that the rows say of a road; heavy snow stands for snow. */
function surfacesOf(rows: readonly Weather[]): readonly Surface[] {
  const states = new Set<Surface>(rows.flatMap(({ road }) => road ?? []));
  const coldest = leastOf(rows.flatMap(({ celsius }) => celsius ?? []));
  if (states.has("heavy-snow")) states.delete("snow");
  if (coldest !== null && coldest <= FREEZING && (states.has("wet") || states.has("heavy-rain"))) {
    states.delete("heavy-rain");
    states.add("freezing-rain");
  }
  return [...states];
}

/** A vehicle over 10,000 lb stands high enough for gusts. Common practice, no source. */
const HIGH_KG = 4536;
/** What high vehicles are called; the last words are heights of a van. */
const HIGH_NAME =
  /\b(?:truck|lorry|bus|coach|camper|motor ?home|caravan|rv|trailer|box|high[ -]?(?:roof|top|sided|van|vehicle)|tall)s?\b/i;

/**
 * Mean wind and gusts, mph, each set at its lower edge: a bridge authority's first warning to high vehicles (20 to 34 mph
 * of wind; gusts by common practice, no source), and a high wind warning of the National Weather Service. Its wind
 * advisory (30 or 31 and 40 or 46 mph by office) lies between and says the same.
 */
const FIRST_MPH = { mean: 20, gust: 25 };
const WARNING_MPH = { mean: 40, gust: 58 };
/** The same authority closes its bridge to high vehicles from the first figure on and to all from the second, mean or gust; from memory. */
const CLOSED_MPH = { high: 50, all: 65 };

const atLeast = (kmh: number | null, mph: number): boolean => kmh !== null && milesAnHour(kmh) >= mph - 1e-9;
const reaches = ({ windKmh, gustKmh }: Weather, { mean, gust }: typeof FIRST_MPH): boolean =>
  atLeast(windKmh, mean) || atLeast(gustKmh, gust);

function isHigh({ plan }: Day, id: Id): boolean {
  const vehicle = plan.vehicles.get(id);
  if (vehicle === undefined) return false;
  const named = HIGH_NAME.test(`${id} ${vehicle.name ?? ""}`);
  const carriesDish = [...plan.paths.values()].some((path) => path.kind === "satellite" && path.vehicle === id);
  return named || carriesDish || (vehicle.grossKg ?? 0) > HIGH_KG || vehicle.towingKg !== null || vehicle.berth;
}

const endsOf = ({ from, to }: Move) => [from, to] as const;
const span = (moves: readonly [Move, ...Move[]]) => ({
  from: { at: moves[0].leave },
  to: { at: moves.reduce((a, b) => (a.arrive >= b.arrive ? a : b)).arrive },
  place: moves[0].from,
});
const vehiclesOf = (moves: readonly Move[]): readonly string[] => [...new Set(moves.map(({ vehicle }) => vehicle))];

function surfaces(day: Day): readonly Finding[] {
  const { weather } = day.plan;
  const driven = day.moves.flatMap((move) => {
    const rows = rowsOn(weather, { from: move.leave, to: move.arrive }, endsOf(move));
    return surfacesOf(rows).map((state) => ({ move, state, rows }));
  });
  return [...groupBy(driven, ({ state }) => state)].flatMap(([state, [first, ...rest]]) => {
    const advice = ADVICE[state];
    if (advice === undefined) return [];
    const path = first.rows.find(({ road }) => road === state || state === "freezing-rain")?.path ?? ["weather"];
    const moves = [first.move, ...rest.map(({ move }) => move)] as const;
    const facts = { vehicles: vehiclesOf(moves), ...span(moves), state, advice };
    return [badRoad.raise(facts, { path, otherwise: GRAVE.has(state) })];
  });
}

function gusts(day: Day): readonly Finding[] {
  const blown = day.moves.flatMap((move) => {
    const rows = rowsOn(day.plan.weather, { from: move.leave, to: move.arrive }, endsOf(move));
    const strong = rows.filter((row) => reaches(row, FIRST_MPH));
    const kmh = mostOf(strong.flatMap(({ windKmh, gustKmh }) => [windKmh ?? 0, gustKmh ?? 0]));
    const high = isHigh(day, move.vehicle);
    if (kmh === null || !(high || atLeast(kmh, CLOSED_MPH.all))) return [];
    return [{ move, mph: milesAnHour(kmh), high, rows: strong }];
  });
  return [...groupBy(blown, ({ high }) => high)].map(([high, [first, ...rest]]) => {
    const mph = Math.max(first.mph, ...rest.map((own) => own.mph));
    const moves = [first.move, ...rest.map(({ move }) => move)] as const;
    const closed = mph >= (high ? CLOSED_MPH.high : CLOSED_MPH.all) - 1e-9;
    const facts = { vehicles: vehiclesOf(moves), ...span(moves), mph, high, closed };
    const grave = closed || [first, ...rest].some(({ rows }) => rows.some((row) => reaches(row, WARNING_MPH)));
    return strongWind.raise(facts, { path: first.rows[0]?.path ?? ["weather"], otherwise: grave });
  });
}

/** One line for each state of the road that is driven on, one for high vehicles in wind, and one for others in a storm; none on a ferry. */
export function drivingCautions(whole: Day): readonly Finding[] {
  const day = { ...whole, moves: whole.moves.filter(({ leg }) => leg.ferry === undefined) };
  return [...surfaces(day), ...gusts(day)];
}
