/** What the rule sets of labour law share: they are more about pay than about rest. */
import { hoursToMinutes } from "./options.ts";
import type { Since, SpanKind, Status } from "./rule.ts";

const STATUSES: Readonly<Record<SpanKind, Status>> = {
  off: "off",
  berth: "berth",
  meal: "meal",
  driving: "driving",
  duty: "duty",
  standby: "duty",
  riding: "duty",
  personal: "off",
  ferry: "duty",
};

/** Off duty this long parts two workdays; the wage orders themselves count by the day. */
export const WORKDAY: Since = { kind: "rest", minutes: hoursToMinutes(6) };

/** What sets of labour law have in common: no vehicle names them, people and contracts may. */
export const LABOUR = {
  country: "United States",
  statuses: STATUSES,
  // 29 CFR 785.41, from memory: who may sleep in adequate facilities is not working.
  ferry: { status: "off", over: 0, interrupted: null },
  covers: () => true,
  lightDriving: "driving",
  pause: "off",
  rest: ["off", "berth"],
  duty: ["duty", "driving"],
  travel: null,
  seat: null,
  shift: WORKDAY,
  dayStarts: 0,
  conditions: [],
} as const;

/** 29 CFR 785.19: shorter than 30 minutes a meal is one under special conditions only. */
export const SHORT_MEAL = {
  least: 21,
  under: 30,
  question:
    "a meal of 21 to 29 min is counted as a meal, unpaid: ordinarily 30 min are needed (29 CFR 785.19): do special conditions make it one?",
} as const;
