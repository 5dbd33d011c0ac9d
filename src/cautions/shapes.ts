/** The heads that sentences of cautions share: at places, while people are outside, and on a drive. */
import { names, type Wording } from "../findings/finding.ts";
import type { Instant } from "../time/units.ts";

/** From when to when it holds. */
export type Times = { readonly from: { readonly at: Instant }; readonly to: { readonly at: Instant } };

/** Places without times. */
export type AtPlaces = { readonly places: readonly string[] };

/** People outside; `onRoad` where the places are the two ends of the road on which they stop. */
export type Outdoors = Times & AtPlaces & { readonly onRoad: boolean };

/** Vehicles under way; `place` is where the first of them starts, whose clock counts. */
export type OnDrive = Times & { readonly vehicles: readonly string[]; readonly place: string };

type Sentence<F> = (facts: F, say: Wording) => string;

const times = ({ from, to }: Times, place: string | null, say: Wording): string =>
  `${say.time(from.at, place)} to ${say.time(to.at, place)}`;

/** `at pier: …`; the rest alone where no place is named. */
export const atPlaces =
  <F extends AtPlaces>(rest: Sentence<F>): Sentence<F> =>
  (f, say) =>
    `${f.places.length === 0 ? "" : `at ${names(f.places, say)}: `}${rest(f, say)}`;

/** `at pier, 07:40 to 12:00: …`, `on the road between lodge, pier, 07:40 to 07:52: …`. */
export const outdoors =
  <F extends Outdoors>(rest: Sentence<F>): Sentence<F> =>
  (f, say) =>
    `${f.onRoad ? "on the road between" : "at"} ${names(f.places, say)}, ${times(f, f.places[0] ?? null, say)}: ${rest(f, say)}`;

/** `truck, 06:00 to 07:10: …`. */
export const onDrive =
  <F extends OnDrive>(rest: Sentence<F>): Sentence<F> =>
  (f, say) =>
    `${names(f.vehicles, say)}, ${times(f, f.place, say)}: ${rest(f, say)}`;

/** One international mile is 1.609344 km exactly. */
const KM_A_MILE = 1.609344;

/** `70 km/h (44 mph)`, both rounded up; the last bits of a conversion are no mile more. */
export const windUp = (mph: number): string =>
  `${Math.ceil(mph * KM_A_MILE - 1e-6)} km/h (${Math.ceil(mph - 1e-6)} mph)`;

/** A limit of wind as `40 km/h (25 mph)`, rounded down. */
export const windLimit = (mph: number): string => `${Math.floor(mph * KM_A_MILE + 1e-6)} km/h (${mph} mph)`;
