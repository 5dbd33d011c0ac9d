/** Whether a vehicle is a commercial one in the sense of the rules that bind its driver, and why. */
import { type RuleSetId, thresholdsOf } from "../../hours/rules/index.ts";

/** What decides whether a vehicle is commercial. */
export interface Weighed {
  readonly grossKg: number | null;
  readonly towingKg: number | null;
  readonly seats: number | null;
  readonly rules: readonly RuleSetId[];
  /** As typed, for the sentence. */
  readonly stated: { readonly gross: string | null; readonly towing: string | null };
}

/** The reason, or null where it is light. A weight is the combination's: vehicle and trailer together. */
export function commercialBecause({ grossKg, towingKg, seats, rules, stated }: Weighed): string | null {
  const totalKg = (grossKg ?? 0) + (towingKg ?? 0);
  for (const { leastKg, leastSeats, says } of thresholdsOf(rules)) {
    // A hair below, because 10001 lb must not fail by a rounding of its kilograms.
    if (totalKg >= leastKg - 1e-6) return `${weight(stated)}; ${says}`;
    if (seats !== null && seats >= leastSeats) return `${seats} seats; ${says}`;
  }
  return null;
}

function weight({ gross, towing }: Weighed["stated"]): string {
  const parts = [...(gross === null ? [] : [`gross ${gross}`]), ...(towing === null ? [] : [`towing ${towing}`])];
  return parts.join(" and ");
}
