/** Drives on a bad surface, in bad sight, and in gusts with a high vehicle. */
import type { Day, Move } from "../day/day.ts";
import type { Finding } from "../findings/finding.ts";
import { rowsOn, weatherOn } from "../legs/weather.ts";
import { groupBy, mostOf } from "../lists.ts";
import type { RoadState, Vehicle, Weather } from "../plan/plan.ts";
import { badRoad, highVehicle } from "./findingsWeather.ts";
import { milesAnHour } from "./weather.ts";

/** What to do on a road in each state; dry and wet roads need no line. */
const ADVICE: Readonly<Partial<Record<RoadState, string>>> = {
  ice: "drive only if the trip cannot wait; slow, no sudden steering, ten times the usual distance",
  "heavy-snow": "slow, headlights on, shovel, blankets and a full tank aboard",
  snow: "slow, headlights on, long distance",
  fog: "slow enough to stop within sight, low beams, no overtaking",
  "heavy-rain": "slow, headlights on; leave the road if it floods",
};
const GRAVE: ReadonlySet<RoadState> = new Set(["ice", "heavy-snow"]);

/** A vehicle over 10,000 lb stands high enough for gusts; a van or car does not. Common practice, no source. */
const HIGH_KG = 4536;
/** Mean wind and gusts of a wind advisory (National Weather Service, in most offices), and of a high wind warning, mph. */
const ADVISORY_MPH = { mean: 31, gust: 46 };
const WARNING_MPH = { mean: 40, gust: 58 };

const atLeast = (kmh: number | null, mph: number): boolean => kmh !== null && milesAnHour(kmh) >= mph - 1e-9;
const reaches = ({ windKmh, gustKmh }: Weather, { mean, gust }: typeof ADVISORY_MPH): boolean =>
  atLeast(windKmh, mean) || atLeast(gustKmh, gust);

const isHigh = (vehicle: Vehicle | undefined): boolean =>
  vehicle !== undefined && ((vehicle.grossKg ?? 0) > HIGH_KG || vehicle.towingKg !== null || vehicle.berth);

const endsOf = ({ from, to }: Move) => [from, to] as const;
const span = (moves: readonly [Move, ...Move[]]) => ({
  from: { at: moves[0].leave },
  to: { at: moves.reduce((a, b) => (a.arrive >= b.arrive ? a : b)).arrive },
  place: moves[0].from,
});
const vehiclesOf = (moves: readonly Move[]): readonly string[] => [...new Set(moves.map(({ vehicle }) => vehicle))];

function surfaces(day: Day): readonly Finding[] {
  const { weather } = day.plan;
  const states = groupBy(
    day.moves,
    (move) => weatherOn(weather, { from: move.leave, to: move.arrive }, endsOf(move)).state,
  );
  return [...states].flatMap(([state, moves]) => {
    const advice = state === null ? undefined : ADVICE[state];
    if (state === null || advice === undefined) return [];
    const path = weather.find(({ road }) => road === state)?.path ?? ["weather"];
    const facts = { vehicles: vehiclesOf(moves), ...span(moves), state, advice };
    return [badRoad.raise(facts, { path, otherwise: GRAVE.has(state) })];
  });
}

function gusts(day: Day): readonly Finding[] {
  const blown = day.moves.flatMap((move) => {
    const rows = rowsOn(day.plan.weather, { from: move.leave, to: move.arrive }, endsOf(move));
    const strong = rows.filter((row) => reaches(row, ADVISORY_MPH));
    const kmh = mostOf(strong.flatMap(({ windKmh, gustKmh }) => [windKmh ?? 0, gustKmh ?? 0]));
    if (kmh === null || !isHigh(day.plan.vehicles.get(move.vehicle))) return [];
    return [{ move, mph: milesAnHour(kmh), rows: strong }];
  });
  const [first, ...rest] = blown;
  if (first === undefined) return [];
  const mph = Math.max(...blown.map((own) => own.mph));
  const moves = [first.move, ...rest.map(({ move }) => move)] as const;
  const facts = { vehicles: vehiclesOf(moves), ...span(moves), mph };
  const grave = blown.some(({ rows }) => rows.some((row) => reaches(row, WARNING_MPH)));
  return [highVehicle.raise(facts, { path: first.rows[0]?.path ?? ["weather"], otherwise: grave })];
}

/** One line for each state of the road that is driven on, and one for gusts; none on a ferry. */
export function drivingCautions(whole: Day): readonly Finding[] {
  const day = { ...whole, moves: whole.moves.filter(({ leg }) => leg.ferry === undefined) };
  return [...surfaces(day), ...gusts(day)];
}
