/** Exceptions of the rule sets that must be claimed, by a vehicle or a log; each prints its conditions. */
export const CLAIMS = [
  "adverse",
  "shortHaul",
  "nonCdlShortHaul",
  "sixteenHour",
  "deferral",
  "homeHour",
  "homeTwoHours",
  "stoppingPlace",
] as const;

export type Claim = (typeof CLAIMS)[number];
