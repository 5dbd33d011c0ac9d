/** Engines and generators that run beside or under people: at work, and asleep aboard or beside them. */
import type { Day, StopTimes } from "../day/day.ts";
import type { Finding } from "../findings/finding.ts";
import { sumOf } from "../lists.ts";
import type { Id, Vehicle, Weather } from "../plan/plan.ts";
import { rowsAt } from "../sky/weather.ts";
import { type Interval, overlap } from "../time/units.ts";
import { exhaust } from "./findings.ts";
import { kindsIn } from "./hazards.ts";
import { generatorPlaces } from "./places.ts";

/** A stop this long with a berth aboard is slept through, minutes (common practice, no source). */
const SLEEP_MINUTES = 300;

/** Outside these, °C, people who sleep aboard keep the engine running for heat or cold (common practice, no source). */
const COMFORTABLE = { from: 10, to: 27 };

interface Idling {
  readonly vehicle: Id;
  readonly place: Id;
  readonly during: Interval;
  /** The night before the day's first drive or after its last, whose length no stop states. */
  readonly overnight: boolean;
  readonly sleepers: readonly Id[];
  /** Who has a rest planned there without a roof of its own: in the vehicle, or beside it. */
  readonly resters: readonly Id[];
}

const hasBeds = (day: Day, place: Id): boolean => {
  const { kind, shelter, mains } = day.plan.places.get(place) ?? {};
  return kind === "lodging" || shelter === true || mains === true;
};

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

/** A rest this long may be slept, minutes (common practice, no source). */
const NAP_MINUTES = 20;

/** Who has a task of the kind `rest` while the engine runs, at a place without beds or a roof. */
function restersAt(day: Day, { place }: StopTimes, during: Interval): readonly Id[] {
  if (hasBeds(day, place)) return [];
  return day.people
    .filter(({ spans }) =>
      spans.some(
        (span) =>
          span.place === place &&
          day.plan.tasks.get(span.activity ?? "")?.kind === "rest" &&
          overlap(span, during) >= NAP_MINUTES,
      ),
    )
    .map(({ id }) => id);
}

/** Who is stated to spend the night before or after the day where the vehicle with a berth stands and no bed is. */
function overnightAt(day: Day, { vehicle, place, arrive, leave }: StopTimes): readonly Id[] {
  if (day.plan.vehicles.get(vehicle)?.berth !== true || hasBeds(day, place)) return [];
  return [...day.plan.crew.values()]
    .filter(({ slept, sleeps }) => (arrive === null && slept === place) || (leave === null && sleeps === place))
    .map(({ id }) => id);
}

const runsForWarmth = (day: Day, place: Id, during: Interval): boolean =>
  rowsAt(day.plan.weather, place, during).some(
    ({ celsius }) => celsius !== null && (celsius < COMFORTABLE.from || celsius > COMFORTABLE.to),
  );

/** Stops at which the engine runs: for the inverter where there are no mains, or for whoever sleeps aboard in the cold. */
function idlings(day: Day): readonly Idling[] {
  return day.stops.flatMap((stop): readonly Idling[] => {
    const { vehicle, place, arrive, leave } = stop;
    if (day.plan.places.get(place)?.mains === true) return [];
    const hasInverter = (day.plan.vehicles.get(vehicle)?.inverterWatts ?? null) !== null;
    const [from, to] = [arrive ?? leave, leave ?? arrive];
    if (from === null || to === null) return [];
    const during = { from, to };
    const overnight = arrive === null || leave === null;
    const sleepers = overnight ? overnightAt(day, stop) : sleepersAt(day, stop, during);
    const resters = overnight ? [] : restersAt(day, stop, during).filter((id) => !sleepers.includes(id));
    const asleep = sleepers.length + resters.length > 0;
    const idles = hasInverter ? !overnight || sleepers.length > 0 : asleep && runsForWarmth(day, place, during);
    return idles && (overnight || to > from) ? [{ vehicle, place, during, overnight, sleepers, resters }] : [];
  });
}

const isSnow = ({ road }: Weather): boolean => road === "snow" || road === "heavy-snow";
const inSnow = (day: Day, idling: readonly Idling[]): boolean =>
  idling.some(({ place, during }) => rowsAt(day.plan.weather, place, during).some(isSnow));

const NOTHING = {
  vehicles: [],
  generators: [],
  generatorsAt: [],
  snow: false,
  sleepers: [],
  resters: [],
  minutes: 0,
  besideGenerator: [],
};

/** One line for each vehicle that people sleep in, and one for every other engine and generator. */
export function exhaustCautions(day: Day): readonly Finding[] {
  const { plan } = day;
  const idling = idlings(day);
  const sleptIn = new Set(
    idling.filter(({ sleepers, resters }) => sleepers.length + resters.length > 0).map(({ vehicle }) => vehicle),
  );
  const pathOf = (found: readonly Pick<Vehicle, "path">[]) => ({ path: found[0]?.path ?? ["kit"] });

  const asleep = [...sleptIn].map((vehicle) => {
    const own = idling.filter((one) => one.vehicle === vehicle);
    const sleepers = [...new Set(own.flatMap((one) => one.sleepers))];
    const resters = [...new Set(own.flatMap((one) => one.resters))].filter((id) => !sleepers.includes(id));
    const minutes = own.some(({ overnight }) => overnight) ? null : sumOf(own, ({ during }) => during.to - during.from);
    const facts = { ...NOTHING, vehicles: [vehicle], sleepers, resters, minutes, snow: inSnow(day, own) };
    return exhaust.raise(facts, {
      ...pathOf([plan.vehicles.get(vehicle)].flatMap((one) => one ?? [])),
      otherwise: true,
    });
  });

  const others = idling.filter(({ vehicle }) => !sleptIn.has(vehicle));
  const vehicles = [...new Set(others.map(({ vehicle }) => vehicle))];
  const pieces = [...plan.kit.values()].filter((piece) => kindsIn(`${piece.id} ${piece.name ?? ""}`).has("generator"));
  const generatorsAt = generatorPlaces(day);
  if (vehicles.length + pieces.length + generatorsAt.length === 0) return asleep;
  const besideGenerator = day.people
    .filter(({ slept, sleeps }) => [slept, sleeps].some((place) => place !== null && generatorsAt.includes(place)))
    .map(({ id }) => id);
  // A generator is carried to wherever it is needed: snow anywhere in the day counts.
  const snow = pieces.length > 0 ? plan.weather.some(isSnow) : inSnow(day, others);
  const facts = { ...NOTHING, vehicles, generators: pieces.map(({ id }) => id), generatorsAt, snow, besideGenerator };
  const first = pathOf([
    ...pieces,
    ...vehicles.flatMap((id) => plan.vehicles.get(id) ?? []),
    ...generatorsAt.flatMap((id) => plan.places.get(id) ?? []),
  ]);
  return [...asleep, exhaust.raise(facts, { ...first, otherwise: besideGenerator.length > 0 })];
}
