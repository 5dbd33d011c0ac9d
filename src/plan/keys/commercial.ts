/** Whether a vehicle is a commercial one in the sense of the rules that bind its driver, and why. */
import { POUND_KG } from "../values/quantity.ts";

/** Rule sets that a vehicle may name; the house rules bind everyone besides. */
export const RULE_SETS = [
  "us-property",
  "us-passenger",
  "us-production",
  "ca-south",
  "eu",
  "eu-working-time",
  "gb-domestic",
] as const;

interface Threshold {
  /** The rule sets it belongs to; the first threshold holds where none is stated. */
  readonly rules: readonly string[];
  readonly leastKg: number;
  readonly leastSeats: number;
  readonly says: string;
}

const THRESHOLDS: readonly Threshold[] = [
  {
    // 49 CFR 390.5T "commercial motor vehicle" (1) and (3): weight of the vehicle or combination; passengers not for pay.
    rules: ["us-property", "us-passenger", "us-production"],
    leastKg: 10_001 * POUND_KG,
    leastSeats: 16,
    says: "from 10,001 lb or 16 seats on",
  },
  {
    // SOR/2005-313 s. 1: registered gross weight over 4,500 kg, or more than 10 seats with the driver's.
    rules: ["ca-south"],
    leastKg: 4500.001,
    leastSeats: 11,
    says: "over 4500 kg or 10 seats",
  },
  {
    // Regulation (EC) 561/2006 art. 2(1): over 3.5 t with any trailer, or more than 9 seats with the driver's.
    rules: ["eu", "eu-working-time", "gb-domestic"],
    leastKg: 3500.001,
    leastSeats: 10,
    says: "over 3500 kg or 9 seats",
  },
];

export interface Weighed {
  readonly grossKg: number | null;
  readonly towingKg: number | null;
  readonly seats: number | null;
  readonly rules: readonly string[];
  /** As typed, for the sentence. */
  readonly stated: { readonly gross: string | null; readonly towing: string | null };
}

/** The reason, or null where it is light. A weight is the combination's: vehicle and trailer together. */
export function commercialBecause({ grossKg, towingKg, seats, rules, stated }: Weighed): string | null {
  const binding = THRESHOLDS.filter((one) => one.rules.some((rule) => rules.includes(rule)));
  const checked = binding.length > 0 ? binding : THRESHOLDS.slice(0, 1);
  const totalKg = (grossKg ?? 0) + (towingKg ?? 0);
  for (const { leastKg, leastSeats, says } of checked) {
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
