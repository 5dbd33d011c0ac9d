/** Labour law that is more about pay than about rest: what of it limits a day is judged with the hours. */
import type { SpanKind } from "../../plan/plan.ts";
import type { RuleSet, Since, Status } from "../judge/rule.ts";
import { hours } from "./options.ts";

const STATUSES: Readonly<Record<SpanKind, Status>> = {
  off: "off",
  berth: "berth",
  meal: "meal",
  driving: "driving",
  duty: "duty",
  standby: "duty",
  riding: "duty",
  personal: "off",
};

const COMMON = {
  law: true,
  statuses: STATUSES,
  lightDriving: "driving",
  pause: "off",
  rest: ["off", "berth"],
  duty: ["duty", "driving"],
  travel: null,
  seat: null,
  dayStarts: 0,
  conditions: [],
} as const;

/** Off duty this long parts two workdays; the wage orders themselves count by the day. */
const DAY: Since = { kind: "rest", minutes: hours(6) };

/** California: the meal periods of the broadcasting and motion picture orders, and the longest day of the latter. */
export function california(): RuleSet {
  return {
    ...COMMON,
    id: "california",
    title: "California IWC Orders 11 and 12",
    source: "IWC Orders 11-2001 and 12-2001 s. 11, 8 CCR 11120, as summarised on public pages; Labor Code 510, 512",
    shift: DAY,
    limits: [
      {
        kind: "max",
        id: "california.meal",
        clause: "IWC Order 11/12 s.11",
        title: "a meal of 30 min every 6 h",
        counts: "elapsed",
        allows: hours(6),
        forbids: "work",
        since: [{ kind: "break", minutes: 30, of: ["off", "berth", "meal"] }],
      },
      {
        kind: "max",
        id: "california.day",
        clause: "8 CCR 11120",
        title: "16 h day, meals included",
        counts: "elapsed",
        allows: hours(16),
        forbids: "work",
        since: [DAY],
      },
    ],
    questions: [
      "does an agreement with meal periods and a money remedy of its own replace the order (Labor Code 512)?",
    ],
  };
}

/** The federal Fair Labor Standards Act: a week's overtime, no limit on a day's hours. */
export function usLabor(): RuleSet {
  return {
    ...COMMON,
    id: "us-labor",
    title: "Fair Labor Standards Act",
    source: "29 U.S.C. 207(a)(1); 29 CFR Parts 778 and 785",
    shift: DAY,
    limits: [],
    questions: [],
  };
}
