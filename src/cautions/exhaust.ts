/** Engines and generators that run beside or under people: at work, and asleep aboard. */
import type { Day, StopTimes } from "../day/day.ts";
import type { Finding } from "../findings/finding.ts";
import { sumOf } from "../lists.ts";
import type { Id, Weather } from "../plan/plan.ts";
import { rowsAt } from "../sky/weather.ts";
import { type Interval, overlap } from "../time/units.ts";
import { exhaust } from "./findings.ts";
import { generatorPlaces } from "./places.ts";

const isGenerator = (text: string): boolean => /\bgenerator\b/i.test(text);

/** A stop this long with a berth aboard is slept through, minutes (common practice, no source). */
const SLEEP_MINUTES = 300;

interface Idling {
  readonly vehicle: Id;
  readonly place: Id;
  readonly during: Interval;
  readonly sleepers: readonly Id[];
}

/** Who sleeps in the vehicle while it stands: in its berth, or without a bed at a long stop. */
function sleepersAt(day: Day, { vehicle, place }: StopTimes, during: Interval): readonly Id[] {
  const berth = day.plan.vehicles.get(vehicle)?.berth === true && day.plan.places.get(place)?.kind !== "lodging";
  const isLong = during.to - during.from >= SLEEP_MINUTES;
  return day.people
    .filter(({ spans, slept, sleeps }) => {
      const there = spans.filter((span) => overlap(span, during) > 0);
      const inBerth = there.some((span) => span.is === "berth" && span.vehicle === vehicle);
      const hasBed = slept === place || sleeps === place;
      return inBerth || (berth && isLong && !hasBed && there.some((span) => span.place === place));
    })
    .map(({ id }) => id);
}

/** Stops on the way at which the engine runs for the inverter: no mains there. */
function idlings(day: Day): readonly Idling[] {
  return day.stops.flatMap((stop): readonly Idling[] => {
    const { vehicle, arrive, leave } = stop;
    const feeds = day.plan.vehicles.get(vehicle)?.inverterWatts ?? null;
    if (feeds === null || arrive === null || leave === null || leave <= arrive) return [];
    if (day.plan.places.get(stop.place)?.mains === true) return [];
    const during = { from: arrive, to: leave };
    return [{ vehicle, place: stop.place, during, sleepers: sleepersAt(day, stop, during) }];
  });
}

/** One line: every generator and every vehicle whose engine idles, and who sleeps by it. */
export function exhaustCautions(day: Day): readonly Finding[] {
  const { plan } = day;
  const pieces = [...plan.kit.values()].filter((piece) => isGenerator(`${piece.id} ${piece.name ?? ""}`));
  const generators = [...pieces.map((piece) => piece.id), ...(pieces.length === 0 ? generatorPlaces(day) : [])];
  const idling = idlings(day);
  const vehicles = [...new Set(idling.map(({ vehicle }) => vehicle))];
  if (generators.length + vehicles.length === 0) return [];
  const isSnow = ({ road }: Weather): boolean => road === "snow" || road === "heavy-snow";
  const snow =
    idling.length === 0
      ? plan.weather.some(isSnow)
      : idling.some(({ place, during }) => rowsAt(plan.weather, place, during).some(isSnow));
  const sleepers = [...new Set(idling.flatMap((own) => own.sleepers))];
  const minutes = sumOf(idling, ({ during }) => during.to - during.from);
  const facts = { vehicles, generators, snow, sleepers, minutes };
  const [first] = [...pieces, ...vehicles.flatMap((id) => plan.vehicles.get(id) ?? [])];
  return [exhaust.raise(facts, { path: first?.path ?? ["kit"], otherwise: sleepers.length > 0 })];
}
