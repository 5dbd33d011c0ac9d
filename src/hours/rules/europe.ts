/** Europe beside Regulation 561/2006: Directive 2003/88/EC, the GB domestic rules, and what all of them share. */
import type { SpanKind } from "../../plan/plan.ts";
import type { RuleSet, Since, Status } from "../judge/rule.ts";
import { hours } from "./options.ts";

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
};

/** What the European rule sets have in common. */
export const EUROPEAN = {
  law: true,
  statuses: STATUSES,
  lightDriving: "duty",
  pause: "off",
  rest: ["off", "berth"],
  duty: ["duty", "driving"],
  travel: null,
  seat: null,
  // A week runs from Monday 00:00 to Sunday 24:00, whatever hour a carrier's own days have (561/2006 Art 4(i)).
  dayStarts: 0,
} as const;

/** Directive 2003/88/EC, for everyone who works; for press, radio and television states may depart from it (Art 17(3)). */
export function euWorkingTime(): RuleSet {
  const defer =
    "press, radio and television may depart from this with compensatory rest (Directive 2003/88/EC Art 17(3))";
  const shift: Since = { kind: "rest", minutes: hours(6) };
  return {
    ...EUROPEAN,
    id: "eu-working-time",
    title: "Directive 2003/88/EC",
    source: "Directive 2003/88/EC Art 3 to 6, 17(3)",
    lightDriving: "driving",
    shift,
    limits: [
      {
        kind: "rest",
        id: "eu-working-time.rest",
        clause: "Dir 2003/88/EC Art 3",
        title: "11 h daily rest",
        requires: hours(11),
        forbids: "work",
        parting: hours(6),
        breach: "short",
        defer,
      },
      {
        kind: "max",
        id: "eu-working-time.day",
        clause: "Dir 2003/88/EC Art 3",
        title: "13 h that leave 11 h of 24",
        counts: "elapsed",
        allows: hours(13),
        forbids: "work",
        since: [shift],
        defer,
      },
      {
        kind: "max",
        id: "eu-working-time.week",
        clause: "Dir 2003/88/EC Art 5",
        title: "35 h weekly rest in each 7 days",
        counts: "elapsed",
        allows: hours(7 * 24 - 35),
        forbids: "work",
        since: [{ kind: "rest", minutes: hours(35) }],
        defer,
      },
    ],
    conditions: [],
    questions: [
      "a day of more than 6 h needs a break, whose length national law or an agreement sets (Directive 2003/88/EC Art 4): is it kept?",
      "48 h a week on average over up to 4 months (Directive 2003/88/EC Art 6, 16) cannot be judged from a few days",
    ],
  };
}

/** GB domestic rules, Transport Act 1968 Part VI, for goods vehicles. */
export function gbDomestic(): RuleSet {
  const day: Since = { kind: "period", minutes: hours(24) };
  return {
    ...EUROPEAN,
    id: "gb-domestic",
    title: "GB domestic rules",
    source: "Transport Act 1968 Part VI; GOV.UK, drivers' hours: GB domestic rules",
    // A vehicle up to 3.5 t is inside the driving limit, and outside the duty limit where used for broadcasting.
    lightDriving: "driving",
    shift: day,
    limits: [
      {
        kind: "max",
        id: "gb-domestic.driving",
        clause: "Transport Act 1968 s.96 / GB domestic rules",
        title: "10 h driving in 24 h",
        counts: "driving",
        allows: hours(10),
        forbids: "driving",
        since: [day],
      },
      {
        kind: "max",
        id: "gb-domestic.duty",
        clause: "Transport Act 1968 s.96 / GB domestic rules",
        title: "11 h duty in 24 h",
        counts: "duty",
        allows: hours(11),
        forbids: "work",
        since: [day],
        exemptWeekBelow: hours(4),
      },
    ],
    conditions: [],
    questions: [],
  };
}
