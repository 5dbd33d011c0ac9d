/** Regulation (EC) No 561/2006: driving time, breaks and rest. */
import type { Limit, MakeUp, RuleSet, Since } from "../rule.ts";
import { EUROPEAN } from "./europe.ts";
import { hours, type RuleOptions } from "./options.ts";

const REGULAR_WEEKLY = hours(45);
const REDUCED_WEEKLY = hours(24);

/** Art 8(6), 8(6b): 45 h, at least 24; the rest by the end of the third week after; 8(7): beside a rest of 9 h. */
const MAKE_UP: MakeUp = {
  weekly: REDUCED_WEEKLY,
  full: REGULAR_WEEKLY,
  beside: hours(9),
  weeks: 3,
};

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
      title: "45 h weekly rest in one of two weeks",
      requires: REGULAR_WEEKLY,
      forbids: "work",
      parting: REDUCED_WEEKLY,
      breach: "short",
      afterShorter: true,
    },
    {
      kind: "makeUp",
      id: "eu.make-up",
      clause: "Reg 561/2006 Art 8(6b), 8(7)",
      title: "reduced weekly rest made up by the end of the third week after",
      forbids: "work",
      makeUp: MAKE_UP,
    },
  ];
}

/** Regulation (EC) No 561/2006 as amended by 2020/1054. */
export function eu(options: RuleOptions): RuleSet {
  const daily = dailyRest(options.drivers);
  return {
    ...EUROPEAN,
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
