/** Regulation (EC) No 561/2006: driving time, breaks and rest, and what Art 12 lets a driver depart from. */
import { PLAIN, type RuleSetDeclaration } from "../declaration.ts";
import { EUROPEAN, OVER_3500_KG } from "../europe.ts";
import { claimed, hoursToMinutes, type RuleOptions } from "../options.ts";
import type { Article12, Limit, MakeUp, MaxLimit, Since } from "../rule.ts";

const CLAIMS = {
  homeHour: "an hour more to reach home or base for a weekly rest is claimed, 561/2006 Art 12",
  homeTwoHours:
    "two hours more after a break of 30 min, to reach home or base for a regular weekly rest, are claimed, 561/2006 Art 12",
  stoppingPlace: "a departure from the limits to reach a stopping place is claimed, 561/2006 Art 12",
} as const;

const REGULAR_WEEKLY = hoursToMinutes(45);
const REDUCED_WEEKLY = hoursToMinutes(24);

/** Art 8(6), 8(6b): 45 h, at least 24; the rest by the end of the third week after; 8(7): beside a rest of 9 h. */
const MAKE_UP: MakeUp = {
  weekly: REDUCED_WEEKLY,
  full: REGULAR_WEEKLY,
  beside: hoursToMinutes(9),
  weeks: 3,
};

/** Art 8(2), 8(4), 4(g); with two drivers 9 h inside 30 h, Art 8(5). */
function dailyRest(drivers: RuleOptions["drivers"]): Since {
  const shared = {
    kind: "dailyRest",
    weekly: REDUCED_WEEKLY,
    reduced: hoursToMinutes(9),
    times: 3,
    endsCount: hoursToMinutes(7),
    clause: "Reg 561/2006 Art 8(4)",
  } as const;
  return drivers === 2
    ? { ...shared, within: hoursToMinutes(30), regular: hoursToMinutes(9), firstPart: null }
    : { ...shared, within: hoursToMinutes(24), regular: hoursToMinutes(11), firstPart: hoursToMinutes(3) };
}

/** Art 12: an hour before a weekly rest, two straight after a break of 30 minutes and before a regular one. */
function wayHome(options: RuleOptions): readonly Article12[] {
  const has = claimed(options, CLAIMS);
  return [
    ...(has("homeHour") ? [{ more: hoursToMinutes(1), before: REDUCED_WEEKLY, after: null }] : []),
    ...(has("homeTwoHours") ? [{ more: hoursToMinutes(2), before: REGULAR_WEEKLY, after: 30 }] : []),
  ];
}

const STOPPING_PLACE =
  "Art 12 lets a driver depart from this as far as the safety of people, vehicle or load needs it to reach a stopping place: was it needed, and was the reason noted by hand on arrival?";

/** Art 6 to 8: what a driver may not go beyond. The run home is from Art 6(1), 6(2) and 8(2) alone. */
function euMost(daily: Since, options: RuleOptions): readonly MaxLimit[] {
  const { drivers } = options;
  const homeward = wayHome(options);
  return [
    {
      kind: "max",
      id: "eu.break",
      clause: "Reg 561/2006 Art 7",
      title: "45 min break after 4 h 30 min driving",
      counts: "driving",
      allows: 270,
      forbids: "driving",
      since: [
        { kind: "break", minutes: 45, of: ["off", "berth"], parts: [15, 30], ...(drivers === 2 ? { beside: 45 } : {}) },
      ],
    },
    {
      kind: "max",
      id: "eu.driving",
      clause: "Reg 561/2006 Art 6(1)",
      title: "9 h driving a day, twice a week 10 h",
      counts: "driving",
      allows: hoursToMinutes(9),
      forbids: "driving",
      since: [daily],
      extension: { allows: hoursToMinutes(10), times: 2, over: "week" },
      homeward,
    },
    {
      kind: "max",
      id: "eu.daily-rest",
      clause: drivers === 2 ? "Reg 561/2006 Art 8(5)" : "Reg 561/2006 Art 8(2)",
      title: drivers === 2 ? "daily rest inside 30 h" : "daily rest inside 24 h",
      counts: "elapsed",
      allows: hoursToMinutes(13),
      forbids: "work",
      since: [daily],
      homeward,
    },
    {
      kind: "max",
      id: "eu.week",
      clause: "Reg 561/2006 Art 6(2)",
      title: "56 h driving in a week",
      counts: "driving",
      allows: hoursToMinutes(56),
      forbids: "driving",
      since: [{ kind: "calendar", unit: "week", count: 1 }],
      homeward,
    },
    {
      kind: "max",
      id: "eu.fortnight",
      clause: "Reg 561/2006 Art 6(3)",
      title: "90 h driving in two weeks",
      counts: "driving",
      allows: hoursToMinutes(90),
      forbids: "driving",
      since: [{ kind: "calendar", unit: "week", count: 2 }],
    },
    {
      kind: "max",
      id: "eu.weekly-rest",
      clause: "Reg 561/2006 Art 8(6)",
      title: "weekly rest after six 24-hour periods",
      counts: "elapsed",
      allows: hoursToMinutes(6 * 24),
      forbids: "work",
      since: [{ kind: "rest", minutes: REDUCED_WEEKLY }],
    },
  ];
}

function euLimits(daily: Since, options: RuleOptions): readonly Limit[] {
  const has = claimed(options, CLAIMS);
  const homeward = has("homeHour") || has("homeTwoHours");
  const defer = has("stoppingPlace") ? { defer: STOPPING_PLACE } : {};
  return [
    ...euMost(daily, options).map((limit) => ({ ...limit, ...defer })),
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
      kind: "rest",
      id: "eu.weekly-place",
      clause: "Reg 561/2006 Art 8(8)",
      title: "regular weekly rest not in a vehicle",
      requires: REGULAR_WEEKLY,
      forbids: "work",
      parting: REGULAR_WEEKLY,
      breach: "aboard",
    },
    {
      kind: "makeUp",
      id: "eu.make-up",
      clause: homeward ? "Reg 561/2006 Art 8(6b), 8(7), 12" : "Reg 561/2006 Art 8(6b), 8(7)",
      title: homeward
        ? "reduced weekly rest and a longer run home made up by the end of the third week after"
        : "reduced weekly rest made up by the end of the third week after",
      forbids: "work",
      makeUp: MAKE_UP,
    },
  ];
}

/** Art 12 as amended by 2020/1054, from memory. */
const REASON = "the reason noted by hand on the record, a printout or the roster on arrival at the latest";
const HOME =
  "exceptional, road safety not jeopardised, to the employer's base or the driver's home; the fortnight, the breaks and the six 24-hour periods stay; as much rest later";

function euConditions(options: RuleOptions): readonly string[] {
  const has = claimed(options, CLAIMS);
  return [
    ...(options.drivers === 2
      ? [
          "two drivers, Reg 561/2006 Art 8(5): the second aboard from the first hour on; rest in a moving vehicle is no daily rest",
        ]
      : []),
    ...(has("homeHour") ? [`an hour more to a weekly rest, Reg 561/2006 Art 12: ${HOME}; ${REASON}`] : []),
    ...(has("homeTwoHours")
      ? [
          `two hours more to a regular weekly rest, straight after a break of 30 minutes, Reg 561/2006 Art 12: ${HOME}; ${REASON}`,
        ]
      : []),
    ...(has("stoppingPlace")
      ? [
          `a departure to reach a stopping place, Reg 561/2006 Art 12: only as far as the safety of people, vehicle or load needs, road safety not jeopardised; ${REASON}`,
        ]
      : []),
  ];
}

function euAsks(options: RuleOptions): readonly string[] {
  const has = claimed(options, CLAIMS);
  const [day, pause] = [
    "a longer way home (Art 12): is the daily rest excused if the day, and not the time at the wheel, is too long? It is counted as excused",
    "two hours more on the way home (Art 12): must the break come at the limit itself? It is counted where it comes straight before the drive that goes beyond it",
  ];
  return [...(has("homeHour") || has("homeTwoHours") ? [day] : []), ...(has("homeTwoHours") ? [pause] : [])];
}

/** Regulation (EC) No 561/2006 as amended by 2020/1054. */
export const eu: RuleSetDeclaration = {
  place: 50,
  ...PLAIN,
  title: "Regulation (EC) 561/2006",
  source: "Regulation (EC) No 561/2006, consolidated CELEX 02006R0561-20200820",
  threshold: OVER_3500_KG,
  claims: CLAIMS,
  // Regulation (EU) 2020/1054, Art 2(1)(aa).
  abroad: {
    overKg: 2500,
    from: "2026-07-01",
    zones: "Europe/",
    clause: "Reg 561/2006 Art 2(1)(aa)",
    question:
      "over 2.5 t abroad: from 1 July 2026, 561/2006 applies to international carriage of goods and cabotage: is this carriage for hire, or for the crew's own work (Art 3(ha))?",
  },
  team: { clause: "Reg 561/2006 Art 4(o), 8(5)", together: "Reg 561/2006 Art 4(o)", aloneAtFirst: 60, berth: false },
  make(options) {
    const daily = dailyRest(options.drivers);
    return {
      ...EUROPEAN,
      // Art 9(1), from memory: a regular daily rest, or a reduced weekly one, interrupted at most twice, one hour in all.
      ferry: { status: "off", over: 0, interrupted: { times: 2, minutes: 60 } },
      // Art 6(5): what is driven outside the scope is other work.
      covers: ({ rules }) => rules.includes("eu"),
      shift: daily,
      limits: euLimits(daily, options),
      conditions: euConditions(options),
      asks: {
        claimed: euAsks(options),
        shortRest:
          "this daily rest was not taken in full; the count of driving ends at a rest of 7 h or more (Commission decision of 7 June 2011), and begins anew: does enforcement count on from the last full rest?",
        vehicle: {
          clause: "Reg 561/2006 Art 2, 13(1)(h)",
          question:
            "is this carriage of goods, and does the member state exempt broadcasting vehicles? National lists differ",
          applies: () => true,
        },
        // Each is counted as other work.
        kinds: [
          {
            is: "riding",
            question:
              options.drivers === 2
                ? "45 consecutive minutes beside the other driver are counted as the break, the rest of the time there as availability (Art 7): did they not help the one at the wheel?"
                : "riding is counted as other work: is it a way to a vehicle away from base with a ferry or train and a bunk (Art 9)?",
          },
          {
            is: "ferry",
            question:
              "a crossing with a berth is counted as rest, one without as a time of availability: had the driver access to a bunk (Art 9(1))?",
          },
          {
            is: "standby",
            question:
              "standing by is counted as other work: is it a period of availability, known beforehand (Directive 2002/15/EC Art 3)?",
          },
        ],
      },
    };
  },
};
