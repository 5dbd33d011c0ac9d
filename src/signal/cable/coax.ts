/** How far a serial digital picture goes over coaxial cable, and which reels to lay for a run. */
import { sumOf } from "../../lists.ts";

/** Loss of a typical Series 6 cable: dB per 100 ft per root MHz; within 2.5 % of its data sheet from 213 to 2150 MHz. */
const SERIES_6_LOSS = 0.208;
const METERS_A_100_FEET = 30.48;

/** Bit rates of the standards in Mb/s and the loss in dB that a receiver makes good at half the bit rate. */
const STANDARDS: readonly { readonly rate: number; readonly budget: number }[] = [
  // Good receivers at 270 Mb/s (SMPTE ST 259).
  { rate: 270, budget: 30 },
  // ST 292 and ST 424 say 20 dB. Since 2015 40 dB is claimed for new equipment at these rates too; a plan keeps 20.
  { rate: 1485, budget: 20 },
  { rate: 2970, budget: 20 },
  // ST 2081 and ST 2082.
  { rate: 5940, budget: 40 },
  { rate: 11880, budget: 40 },
];

/** The standard a rate in Mb/s belongs to: `3 Gbit/s` is how people say 2970; null beyond 12 Gb/s. */
const standardFor = (rate: number) => STANDARDS.find((standard) => rate <= standard.rate * 1.02) ?? null;

/** Half the clock, MHz: the frequency at which loss is reckoned. */
export const halfClock = (megabits: number): number => megabits / 2;

/** Loss of Series 6 cable in dB per 100 ft at a frequency in MHz. */
export const cableLoss = (megahertz: number): number => SERIES_6_LOSS * Math.sqrt(megahertz);

/** The longest run in metres for a loss budget in dB at a frequency in MHz. */
export const reachFor = (budget: number, megahertz: number): number =>
  (budget / cableLoss(megahertz)) * METERS_A_100_FEET;

/** A tenth less for each join, and for cable stiff with cold; from memory of practice. */
const DERATE = 0.1;
const STIFF_BELOW_CELSIUS = -20;

/** The longest run in metres at a bit rate with so many joins between reels; null where no standard covers the rate. */
export function reachMeters(megabits: number, joins: number, celsius: number | null): number | null {
  const standard = standardFor(megabits);
  if (standard === null) return null;
  const plain = reachFor(standard.budget, halfClock(standard.rate));
  const stiff = celsius !== null && celsius <= STIFF_BELOW_CELSIUS ? 1 : 0;
  return plain * Math.max(0, 1 - DERATE * (joins + stiff));
}

/** Past this share of the reach a run is near the edge, beyond which the picture is gone within some 15 m. */
export const NEAR_SHARE = 0.9;

/** Reels that are laid one after the other, metres. */
export interface Lay {
  readonly reels: readonly number[];
  /** All cable on the reels used: the signal passes through what stays on the drum too. */
  readonly cableMeters: number;
  readonly joins: number;
}

/** The reels to lay for a run: fewest joins first, then least cable; null where all reels together are too short. */
export function layReels(reels: readonly number[], runMeters: number): Lay | null {
  const longestFirst = [...reels].sort((a, b) => b - a);
  for (let used = 1; used <= longestFirst.length; used++) {
    if (total(longestFirst.slice(0, used)) < runMeters) continue;
    const chosen = leastCable(longestFirst, used, runMeters);
    return { reels: chosen, cableMeters: total(chosen), joins: used - 1 };
  }
  return null;
}

const total = (lengths: readonly number[]): number => sumOf(lengths, (length) => length);

/** From `used` reels that suffice, swaps each for the shortest that still does: plain and near enough for a few reels. */
function leastCable(longestFirst: readonly number[], used: number, runMeters: number): readonly number[] {
  let chosen = longestFirst.slice(0, used);
  let spare = longestFirst.slice(used).reverse();
  for (let i = 0; i < chosen.length; i++) {
    const others = total(chosen) - (chosen[i] ?? 0);
    const shorter = spare.find((reel) => others + reel >= runMeters && reel < (chosen[i] ?? 0));
    if (shorter === undefined) continue;
    const at = spare.indexOf(shorter);
    spare = [...spare.slice(0, at), ...spare.slice(at + 1)];
    chosen = [...chosen.slice(0, i), shorter, ...chosen.slice(i + 1)];
  }
  return chosen;
}
