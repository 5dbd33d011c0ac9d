/** When each charger charges: on mains, on a running vehicle's inverter or shore power, and never in the frost. */
import type { Charger, Id, Piece } from "../../plan/plan.ts";
import { type Instant, type Interval, instant } from "../../time/units.ts";
import type { ModelCharger } from "../model.ts";
import { chargeWindow, FROZEN_MINUTES, INDOORS_CELSIUS, REDUCED_SHARE, WARM_CELSIUS } from "../physics.ts";
import { type Surroundings, stretchesWhere } from "./surroundings.ts";

/** What a vehicle's inverter or shore lead could not feed. */
export interface Overload {
  readonly vehicle: Id;
  readonly charger: Id;
  readonly source: "inverter" | "shore";
  readonly needWatts: number;
  readonly haveWatts: number;
}

/** What all slots together draw. */
export const drawOf = (charger: Charger): number => charger.totalWatts ?? charger.watts * charger.slots;

/** Pieces with watts and no mount hang on the vehicle itself. */
export const pluggedWatts = (pieces: Iterable<Piece>, vehicle: Id): number =>
  [...pieces].reduce(
    (sum, piece) => sum + (piece.in === vehicle && piece.mount === null ? (piece.watts ?? 0) * piece.count : 0),
    0,
  );

type Feed = "mains" | "shore" | "inverter" | null;

/** The model's charger: its bay is `bay` (its own where only some hands may touch it). */
export function chargerOf(
  around: Surroundings,
  charger: Charger,
  bay: Id,
  during: Interval,
): { charger: ModelCharger; overloads: Overload[] } {
  const overloads: Overload[] = [];
  const allowed = new Map<Feed, boolean>();
  const feeds = (at: Instant): boolean => {
    const feed = feedAt(around, charger.in, at);
    const known = allowed.get(feed);
    if (known !== undefined) return known;
    const overload = feed === "shore" || feed === "inverter" ? overloadOn(around, charger, feed) : null;
    if (overload !== null) overloads.push(overload);
    allowed.set(feed, feed !== null && overload === null);
    return feed !== null && overload === null;
  };
  const { id, mount, slots, watts, taper, totalWatts } = charger;
  const on = warmParts(around, charger.in, stretchesWhere(around, during, feeds));
  return { charger: { id, mount, bay, slots, watts, taper, totalWatts, on }, overloads };
}

/** Mains at a place; in a vehicle mains by its shore lead where one is stated, else as at the place; else the inverter while it runs. */
function feedAt(around: Surroundings, bay: Id, at: Instant): Feed {
  const { plan } = around.day;
  const place = around.placeOf(bay, at);
  const mains = place !== null && plan.places.get(place)?.mains === true;
  const vehicle = plan.vehicles.get(bay);
  if (vehicle === undefined) return mains ? "mains" : null;
  if (mains) return vehicle.shoreWatts !== null && place !== null && !around.isBed(place) ? "shore" : "mains";
  return vehicle.inverterWatts !== null && around.runs(bay, at) ? "inverter" : null;
}

/** Chargers take what is left after the pieces that hang on the vehicle, in plan order. */
function overloadOn(around: Surroundings, charger: Charger, source: "inverter" | "shore"): Overload | null {
  const { plan } = around.day;
  const vehicle = plan.vehicles.get(charger.in);
  const limit = (source === "inverter" ? vehicle?.inverterWatts : vehicle?.shoreWatts) ?? 0;
  let left = limit - pluggedWatts(plan.kit.values(), charger.in);
  for (const other of plan.chargers.values()) {
    if (other.in !== charger.in) continue;
    const need = drawOf(other);
    if (other.id === charger.id)
      return need > left
        ? { vehicle: charger.in, charger: charger.id, source, needWatts: need, haveWatts: Math.max(0, left) }
        : null;
    if (need <= left) left -= need;
  }
  return null;
}

/** Cuts frost and heat out, waits for the packs to warm after a frost, and halves the time between 0 and 5 °C. */
function warmParts(around: Surroundings, bay: Id, stretches: readonly Interval[]): Interval[] {
  const window = (at: Instant) => chargeWindow(around.inside(bay, at) ?? INDOORS_CELSIUS);
  return stretches
    .flatMap((stretch) =>
      stretchesWhere(around, stretch, (at) => window(at) !== "forbidden").flatMap((warm) => {
        const from = instant(Math.min(warm.to, Math.max(warm.from, warmFrom(around, bay, warm.from))));
        return hourly({ from, to: warm.to }).flatMap((part) => {
          const slow = stretchesWhere(around, part, (at) => window(at) === "reduced").reduce(
            (sum, one) => sum + one.to - one.from,
            0,
          );
          const start = instant(part.from + Math.round(slow * (1 - REDUCED_SHARE)));
          return start < part.to ? [{ from: start, to: part.to }] : [];
        });
      }),
    )
    .reduce<Interval[]>(joined, []);
}

/** How far back a frost is looked for, minutes: a pack that was warm for so long is warm. */
const LOOK_BACK_MINUTES = 6 * 60;

/**
 * When what lies in a bay at `at` is warm: at once, unless it lay in the frost for an hour; then so long after it first came
 * where it is warm, which is `at` itself where it still is cold.
 */
export function warmFrom(around: Surroundings, bay: Id, at: Instant): Instant {
  const earliest = Math.max(around.span.from, at - LOOK_BACK_MINUTES);
  let frozen = 0;
  let warmed: number | null = null;
  for (let end: number = at; end > earliest; ) {
    const last = instant(end - 1);
    const from = Math.max(earliest, Math.min(last, Math.ceil(around.steady(last).from)));
    const here = around.inside(bay, last) ?? INDOORS_CELSIUS;
    if (here >= WARM_CELSIUS) warmed = from;
    frozen = here < 0 ? frozen + end - from : 0;
    if (frozen >= FROZEN_MINUTES) return instant((warmed ?? at) + around.day.plan.rules.warmUp);
    end = from;
  }
  return at;
}

/** Hours of a stretch, so that a cold minute slows no more than its own hour. */
function hourly(stretch: Interval): Interval[] {
  const parts: Interval[] = [];
  for (let from = stretch.from; from < stretch.to; from = instant(from + 60))
    parts.push({ from, to: instant(Math.min(stretch.to, from + 60)) });
  return parts;
}

function joined(list: Interval[], next: Interval): Interval[] {
  const last = list.at(-1);
  return last?.to === next.from ? [...list.slice(0, -1), { from: last.from, to: next.to }] : [...list, next];
}
