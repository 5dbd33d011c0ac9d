/** Canada south of latitude 60° N: Commercial Vehicle Drivers Hours of Service Regulations, SOR/2005-313. */
import type { Limit, MaxLimit, RuleSet, Since } from "../judge/rule.ts";
import { hours, type RuleOptions } from "./options.ts";

const SET = "ca-south";

/** s. 28: a rest that ends a cycle. */
const RESET = { 1: hours(36), 2: hours(72) } as const;

function cycleLimits(cycle: RuleOptions["cycle"]): MaxLimit[] {
  const first = cycle === 1;
  const main: MaxLimit = {
    kind: "max",
    id: `${SET}.cycle`,
    clause: first ? "SOR/2005-313 s.26" : "SOR/2005-313 s.27(a)",
    title: first ? "70 h on duty in 7 days (cycle 1)" : "120 h on duty in 14 days (cycle 2)",
    counts: "duty",
    allows: first ? hours(70) : hours(120),
    forbids: "driving",
    since: [{ kind: "calendar", unit: "day", count: first ? 7 : 14, restart: RESET[cycle] }],
  };
  const dayOff: MaxLimit = {
    kind: "max",
    id: `${SET}.cycle-rest`,
    clause: "SOR/2005-313 s.27(b)",
    title: "70 h on duty without 24 h off (cycle 2)",
    counts: "duty",
    allows: hours(70),
    forbids: "driving",
    since: [{ kind: "rest", minutes: hours(24) }],
  };
  return first ? [main] : [main, dayOff];
}

/** South of 60, single driver or team, cycle 1 or 2. */
export function caSouth(options: RuleOptions): RuleSet {
  // s. 18: two periods in the berth of at least 2 h that make 10 h; s. 19 for a team: at least 4 h each, 8 h.
  const split =
    options.drivers === 2
      ? { each: hours(4), sum: hours(8), longBerth: null }
      : { each: hours(2), sum: hours(10), longBerth: null };
  const shift: Since = { kind: "rest", minutes: hours(8), split };
  const day: Since = { kind: "calendar", unit: "day", count: 1 };
  // s. 76, up to 2 h; the 16 h stay, because the text is read both ways.
  const extra = options.adverse ? hours(2) : 0;
  const limits: readonly Limit[] = [
    {
      kind: "max",
      id: `${SET}.driving`,
      clause: "SOR/2005-313 s.12(1), s.13(1)",
      title: `${13 + extra / 60} h driving in the day and since 8 h off`,
      counts: "driving",
      allows: hours(13) + extra,
      forbids: "driving",
      since: [day, shift],
    },
    {
      kind: "max",
      id: `${SET}.duty`,
      clause: "SOR/2005-313 s.12(2), s.13(2)",
      title: `${14 + extra / 60} h on duty in the day and since 8 h off`,
      counts: "duty",
      allows: hours(14) + extra,
      forbids: "driving",
      since: [day, shift],
    },
    {
      kind: "max",
      id: `${SET}.elapsed`,
      clause: "SOR/2005-313 s.13(3)",
      title: "16 h between two rests of 8 h",
      counts: "elapsed",
      allows: hours(16),
      forbids: "driving",
      since: [shift],
    },
    {
      kind: "max",
      id: `${SET}.day-off`,
      clause: "SOR/2005-313 s.14(1)",
      title: "10 h off in the day",
      counts: "busy",
      allows: hours(10),
      forbids: "work",
      since: [day],
      leavesFree: true,
      ...(options.deferral ? { deferral: { most: hours(2), twoDaysDriving: hours(26), core: hours(8) } } : {}),
    },
    ...cycleLimits(options.cycle),
    {
      kind: "max",
      id: `${SET}.day-in-14`,
      clause: "SOR/2005-313 s.25",
      title: "24 h off in the 14 days before",
      counts: "elapsed",
      // A rest of 24 h lies inside the last 14 days until 13 days after its end.
      allows: hours(13 * 24),
      forbids: "driving",
      since: [{ kind: "rest", minutes: hours(24) }],
    },
  ];
  return {
    id: SET,
    title: "SOR/2005-313",
    source: "Commercial Vehicle Drivers Hours of Service Regulations, SOR/2005-313 (consolidation of 2021-06-12)",
    law: true,
    // s. 1: riding is on duty unless s. 10 makes it free; a co-driver out of the berth is on duty.
    statuses: {
      off: "off",
      berth: "berth",
      meal: "off",
      driving: "driving",
      duty: "duty",
      standby: "duty",
      riding: "duty",
      personal: "idle",
    },
    lightDriving: "duty",
    pause: "off",
    rest: ["off", "berth"],
    duty: ["duty", "driving"],
    travel: hours(8),
    seat: null,
    shift,
    limits,
    // s. 1: a day is 24 hours from the hour that the carrier names.
    dayStarts: options.dayStarts,
    conditions: [
      ...(options.adverse
        ? [
            "adverse driving conditions, SOR/2005-313 s.76: up to 2 hours, unforeseen; 8 hours off and the 16 hours stay",
          ]
        : []),
      ...(options.deferral
        ? [
            "deferral, SOR/2005-313 s.16: at most 2 hours moved to the next day's rest, 20 hours off and 26 hours driving in the two days, declared in the record, not on the day after",
          ]
        : []),
      ...(options.drivers === 2 ? ["team, SOR/2005-313 s.19: both drivers and a berth aboard"] : []),
    ],
    questions: [],
    ...(options.adverse
      ? {
          asks: [
            "adverse driving conditions (s. 76): do the 16 h between two rests move, too? The text is read both ways, and they are kept",
          ],
        }
      : {}),
  };
}
