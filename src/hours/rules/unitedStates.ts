/** What the rule sets of 49 CFR Part 395 share: statuses, threshold, the week, questions. */
import { PLAIN, type Threshold } from "./declaration.ts";
import { hoursToMinutes, type RuleOptions, weekOf } from "./options.ts";
import type { DrivenVehicle, MaxLimit, Questions, RestLimit, Since, SpanKind, Status } from "./rule.ts";

const POUND_KG = 0.45359237;

/** 49 CFR 390.5T "commercial motor vehicle" (1) and (3): weight of the vehicle or combination; passengers not for pay. */
const THRESHOLD: Threshold = {
  leastKg: 10_001 * POUND_KG,
  leastSeats: 16,
  says: "from 10,001 lb or 16 seats on",
};

/** 395.3(b): by default the second, for a crew that works every day. */
export const US_WEEKS = ["70/8", "60/7"] as const;

/** What each file of Part 395 declares alike. */
export const PART_395 = {
  ...PLAIN,
  title: "49 CFR Part 395",
  source: "Code of Federal Regulations, Title 49, Part 395",
  threshold: THRESHOLD,
  weeks: US_WEEKS,
  carriersDays: true,
} as const;

/** 395.2: riding by order and standing by are duty, a meal break is free, personal conveyance neither (guidance Q26 to 395.8). */
const STATUSES: Readonly<Record<SpanKind, Status>> = {
  off: "off",
  berth: "berth",
  meal: "off",
  driving: "driving",
  duty: "duty",
  standby: "duty",
  riding: "duty",
  personal: "idle",
  ferry: "duty",
};

const NORTH_AMERICA: readonly string[] = ["us-property", "us-passenger", "us-production", "ca-south"];

/** Each country counts the hours driven in the other (guidance Q1 to 395.1; SOR/2005-313 s. 1), and under any of its sets. */
export const inNorthAmerica = ({ rules }: DrivenVehicle): boolean => rules.some((name) => NORTH_AMERICA.includes(name));

/** What the sets of 49 CFR Part 395 have in common. */
export const COMMON = {
  country: "United States",
  statuses: STATUSES,
  // No paragraph frees a crossing: whoever was relieved of all work may say so.
  ferry: { status: "duty", over: 0, interrupted: null },
  covers: inNorthAmerica,
  lightDriving: "duty",
  pause: "off",
  rest: ["off", "berth"],
  duty: ["duty", "driving"],
} as const;

/** A rest this long parts two shifts in how a breach is named; no rule says it, the limits do not depend on it. */
export const US_PARTING = hoursToMinutes(6);

/** 395.3(b), 395.5(b): no driving after so many hours on duty in the running and the days before it. */
export function weekLimit(set: string, section: "395.3" | "395.5", options: RuleOptions, restart: boolean): MaxLimit {
  const week = weekOf(options, US_WEEKS);
  const [total, days, paragraph] = week === "60/7" ? ([60, 7, "(b)(1)"] as const) : ([70, 8, "(b)(2)"] as const);
  const since: Since = { kind: "calendar", unit: "day", count: days };
  return {
    kind: "max",
    id: `${set}.week`,
    clause: `49 CFR ${section}${paragraph}`,
    title: `${total} h on duty in ${days} days`,
    counts: "duty",
    allows: hoursToMinutes(total),
    forbids: "driving",
    // 395.3(c): 34 hours off wipe the total; 395.5 has no such paragraph.
    since: [restart ? { ...since, restart: hoursToMinutes(34) } : since],
  };
}

/** 395.1(b)(1). */
export const ADVERSE = "adverse conditions are claimed, 49 CFR 395.1(b)(1) or SOR/2005-313 s. 76";

/** The conditions of the adverse driving exception, 49 CFR 395.1(b) and 395.2. */
export const ADVERSE_CONDITION =
  "adverse driving conditions, 49 CFR 395.1(b)(1): weather or road that neither driver nor dispatcher could know of beforehand, on a run otherwise possible in time; not rush hour, loading delay or the driver's own crash; 60 and 70 hours stay";

/** The questions of the sets of 49 CFR Part 395. */
export const US_QUESTIONS: Questions = {
  kinds: [
    {
      is: "ferry",
      question:
        "the crossing is counted as on duty: was the driver relieved of all work on board and free to rest (49 CFR 395.2)? It is then off duty",
    },
  ],
  vehicle: {
    clause: "49 CFR 390.5T",
    question:
      "is the trip interstate? A feed or client in another state may make it so; if not, the state's own limits hold",
    applies: ({ commercial }) => commercial,
  },
  // 395.1(n); 390.3 and 390.23 from memory.
  breach:
    "a breach stands unless the vehicle is outside these rules: utility service (49 CFR 395.1(n)), emergency relief (390.23), government (390.3): is one claimed? A claim needs counsel",
  wayToBed:
    "the way to bed in the vehicle is counted as driving and breaks a limit: it is personal only for someone relieved of all work, from the place of work to the nearest reasonable bed, and never because hours ran out (395.8 guidance Q26): does it qualify?",
  personalBreach:
    "if the personal conveyance qualifies as off duty (395.8 guidance Q26), the rest goes on through it and nothing is broken; if not, the rest began after it and this is a breach",
  personal:
    "driven as personal conveyance: it is off duty only when relieved of all work, and not once out of hours; it is counted neither as work nor as rest (395.8 guidance Q26)",
};

/** 10 h driving and 15 h on duty after 8 h off: 49 CFR 395.5(a), and 395.1(p), which keeps the older numbers. */
export function tenAndFifteen(
  set: string,
  clauses: { driving: string; duty: string; rest: string },
  shift: Since,
  extra: number,
): readonly (RestLimit | MaxLimit)[] {
  return [
    {
      kind: "rest",
      id: `${set}.rest`,
      clause: clauses.rest,
      title: "8 h rest before driving",
      requires: hoursToMinutes(8),
      forbids: "driving",
      parting: US_PARTING,
      breach: "none",
    },
    {
      kind: "max",
      id: `${set}.driving`,
      clause: clauses.driving,
      title: `${10 + extra / 60} h driving`,
      counts: "driving",
      allows: hoursToMinutes(10) + extra,
      forbids: "driving",
      since: [shift],
    },
    {
      kind: "max",
      id: `${set}.duty`,
      clause: clauses.duty,
      title: `${15 + extra / 60} h on duty`,
      counts: "duty",
      allows: hoursToMinutes(15) + extra,
      forbids: "driving",
      since: [shift],
      asRest: { id: `${set}.rest`, parting: US_PARTING },
    },
  ];
}
