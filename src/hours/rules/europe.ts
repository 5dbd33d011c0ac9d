/** What the European rule sets share: statuses, threshold, weeks from Monday. */
import type { Threshold } from "./declaration.ts";
import type { SpanKind, Status } from "./rule.ts";

/** Regulation (EC) 561/2006 Art 2(1): over 3.5 t with any trailer, or more than 9 seats with the driver's. */
export const OVER_3500_KG: Threshold = { leastKg: 3500.001, leastSeats: 10, says: "over 3500 kg or 9 seats" };

/** Riding and standing by are neither rest nor break (561/2006 Art 4(d), 4(f), 9(2)). */
const STATUSES: Readonly<Record<SpanKind, Status>> = {
  off: "off",
  berth: "berth",
  meal: "off",
  driving: "driving",
  duty: "duty",
  standby: "duty",
  riding: "duty",
  personal: "duty",
  // Without a berth a time of availability (Directive 2002/15/EC Art 3(b)): neither rest nor break.
  ferry: "duty",
};

/** What the European rule sets have in common. */
export const EUROPEAN = {
  country: "Europe",
  statuses: STATUSES,
  ferry: { status: "off", over: 0, interrupted: null },
  lightDriving: "duty",
  pause: "off",
  rest: ["off", "berth"],
  duty: ["duty", "driving"],
  travel: null,
  seat: null,
  // A week runs from Monday 00:00 to Sunday 24:00, whatever hour a carrier's own days have (561/2006 Art 4(i)).
  dayStarts: 0,
} as const;
