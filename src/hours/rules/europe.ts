/** The European Union and Great Britain: Regulation 561/2006, Directive 2003/88/EC, the GB domestic rules. */
import type { SpanKind } from "../../plan/plan.ts";
import type { Limit, RuleSet, Since, Status } from "../rule.ts";
import { hours, type RuleOptions } from "./options.ts";

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

const COMMON = {
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

const REGULAR_WEEKLY = hours(45);
const REDUCED_WEEKLY = hours(24);

/** Art 8(2), 8(4), 4(g); with two drivers 9 h inside 30 h, Art 8(5). */
function dailyRest(drivers: RuleOptions["drivers"]): Since {
  const shared = { kind: "dailyRest", weekly: REDUCED_WEEKLY, reduced: hours(9), times: 3 } as const;
  return drivers === 2
    ? { ...shared, within: hours(30), regular: hours(9), firstPart: null }
    : { ...shared, within: hours(24), regular: hours(11), firstPart: hours(3) };
}

function euLimits(daily: Since, drivers: RuleOptions["drivers"]): readonly Limit[] {
  return [
    {
      kind: "max",
      id: "eu.break",
      clause: "Reg 561/2006 Art 7",
      title: "45 min break after 4 h 30 min driving",
      counts: "driving",
      allows: 270,
      forbids: "driving",
      since: [{ kind: "break", minutes: 45, of: ["off", "berth"], parts: [15, 30] }],
    },
    {
      kind: "max",
      id: "eu.driving",
      clause: "Reg 561/2006 Art 6(1)",
      title: "9 h driving a day, twice a week 10 h",
      counts: "driving",
      allows: hours(9),
      forbids: "driving",
      since: [daily],
      extension: { allows: hours(10), times: 2, over: "week" },
    },
    {
      kind: "max",
      id: "eu.daily-rest",
      clause: drivers === 2 ? "Reg 561/2006 Art 8(5)" : "Reg 561/2006 Art 8(2)",
      title: drivers === 2 ? "daily rest inside 30 h" : "daily rest inside 24 h",
      counts: "elapsed",
      allows: hours(13),
      forbids: "work",
      since: [daily],
    },
    {
      kind: "max",
      id: "eu.week",
      clause: "Reg 561/2006 Art 6(2)",
      title: "56 h driving in a week",
      counts: "driving",
      allows: hours(56),
      forbids: "driving",
      since: [{ kind: "calendar", unit: "week", count: 1 }],
    },
    {
      kind: "max",
      id: "eu.fortnight",
      clause: "Reg 561/2006 Art 6(3)",
      title: "90 h driving in two weeks",
      counts: "driving",
      allows: hours(90),
      forbids: "driving",
      since: [{ kind: "calendar", unit: "week", count: 2 }],
    },
    {
      kind: "max",
      id: "eu.weekly-rest",
      clause: "Reg 561/2006 Art 8(6)",
      title: "weekly rest after six 24-hour periods",
      counts: "elapsed",
      allows: hours(6 * 24),
      forbids: "work",
      since: [{ kind: "rest", minutes: REDUCED_WEEKLY }],
    },
    {
      kind: "rest",
      id: "eu.weekly-regular",
      clause: "Reg 561/2006 Art 8(6)",
      title: "45 h weekly rest after a reduced one",
      requires: REGULAR_WEEKLY,
      forbids: "work",
      parting: REDUCED_WEEKLY,
      breach: "short",
      afterShorter: true,
    },
  ];
}

/** Regulation (EC) No 561/2006 as amended by 2020/1054. */
export function eu(options: RuleOptions): RuleSet {
  const daily = dailyRest(options.drivers);
  return {
    ...COMMON,
    id: "eu",
    title: "Regulation (EC) 561/2006",
    source: "Regulation (EC) No 561/2006, consolidated CELEX 02006R0561-20200820",
    shift: daily,
    limits: euLimits(daily, options.drivers),
    conditions:
      options.drivers === 2
        ? [
            "two drivers, Reg 561/2006 Art 8(5): the second aboard from the first hour on; rest in a moving vehicle is no daily rest",
          ]
        : [],
    questions: [],
  };
}

/** Directive 2003/88/EC, for everyone who works; for press, radio and television states may depart from it (Art 17(3)). */
export function euWorkingTime(): RuleSet {
  const defer =
    "press, radio and television may depart from this with compensatory rest (Directive 2003/88/EC Art 17(3))";
  const shift: Since = { kind: "rest", minutes: hours(6) };
  return {
    ...COMMON,
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
    ...COMMON,
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
