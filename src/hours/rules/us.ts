/** United States: 49 CFR Part 395, for property, for passengers, and to and from a production site. */
import type { SpanKind } from "../../plan/plan.ts";
import type { Extension, Limit, MaxLimit, RuleSet, Since, Status } from "../judge/rule.ts";
import { hours, type RuleOptions } from "./options.ts";

const TITLE = "49 CFR Part 395";

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
};

/** A rest this long parts two shifts in how a breach is named; no rule says it, the limits do not depend on it. */
const PARTING = hours(6);

const COMMON = {
  title: TITLE,
  source: "Code of Federal Regulations, Title 49, Part 395",
  law: true,
  statuses: STATUSES,
  lightDriving: "duty",
  pause: "off",
  rest: ["off", "berth"],
  duty: ["duty", "driving"],
} as const;

/** 395.3(b), 395.5(b): no driving after so many hours on duty in the running and the days before it. */
function weekLimit(set: string, section: "395.3" | "395.5", week: RuleOptions["week"], restart: boolean): MaxLimit {
  const [total, days, paragraph] = week === "60/7" ? ([60, 7, "(b)(1)"] as const) : ([70, 8, "(b)(2)"] as const);
  const since: Since = { kind: "calendar", unit: "day", count: days };
  return {
    kind: "max",
    id: `${set}.week`,
    clause: `49 CFR ${section}${paragraph}`,
    title: `${total} h on duty in ${days} days`,
    counts: "duty",
    allows: hours(total),
    forbids: "driving",
    // 395.3(c): 34 hours off wipe the total; 395.5 has no such paragraph.
    since: [restart ? { ...since, restart: hours(34) } : since],
  };
}

/** 395.1(e)(2): a window of 16 h on 2 of any 7 days. */
const NON_CDL: Extension = { allows: hours(16), times: 2, over: 7 };

/** 395.1(o): a window of 16 h once in 7 days, the driver released within it; a restart wipes the earlier use. */
const SIXTEEN: Extension = { allows: hours(16), times: 1, over: 7, clearedBy: hours(34), releasedWithin: hours(16) };

function windowLimit(since: Since, options: RuleOptions): MaxLimit {
  const extra = options.adverse ? hours(2) : 0;
  const extension = options.nonCdlShortHaul ? NON_CDL : options.sixteenHour ? SIXTEEN : null;
  const clause = options.nonCdlShortHaul ? "49 CFR 395.1(e)(2)" : "49 CFR 395.3(a)(2)";
  return {
    kind: "max",
    id: "us-property.window",
    clause,
    title: `${14 + extra / 60} h window`,
    counts: "elapsed",
    allows: hours(14) + extra,
    forbids: "driving",
    since: [since],
    ...(extension === null ? {} : { extension }),
    asRest: { id: "us-property.rest", parting: PARTING },
  };
}

function breakLimit(options: RuleOptions): MaxLimit[] {
  // 395.3(a)(3)(ii) is not for drivers under either short-haul exception.
  if (options.nonCdlShortHaul) return [];
  return [
    {
      kind: "max",
      id: "us-property.break",
      clause: "49 CFR 395.3(a)(3)(ii)",
      title: "30 min break after 8 h driving",
      counts: "driving",
      allows: hours(8),
      forbids: "driving",
      since: [{ kind: "break", minutes: 30, of: ["off", "berth", "duty"] }],
      ...(options.shortHaul ? { waivedWithin: hours(14) } : {}),
    },
  ];
}

function propertyConditions(options: RuleOptions): string[] {
  const { adverse, shortHaul, nonCdlShortHaul, sixteenHour } = options;
  return [
    ...(adverse
      ? [
          "adverse driving conditions, 49 CFR 395.1(b)(1): weather or road that neither driver nor dispatcher could know of beforehand, on a run otherwise possible in time; not rush hour, loading delay or the driver's own crash; 60 and 70 hours stay",
        ]
      : []),
    ...(shortHaul
      ? [
          "short haul, 49 CFR 395.1(e)(1): within 150 air miles (172.6 statute miles) of the reporting place, back there and released within 14 hours, 10 hours off between; time records kept 6 months",
        ]
      : []),
    ...(nonCdlShortHaul
      ? [
          "short haul without a commercial licence, 49 CFR 395.1(e)(2): a vehicle that needs none, within 150 air miles, back every day; not with 395.1(e)(1), (g) or (o)",
        ]
      : []),
    ...(sixteenHour
      ? [
          "16-hour day, 49 CFR 395.1(o): the last five duty tours ended at the normal reporting place, back and released there within 16 hours, not used in the 6 days before",
        ]
      : []),
  ];
}

/** Property-carrying vehicles, 49 CFR 395.3, with the exceptions that the options claim. */
export function usProperty(options: RuleOptions): RuleSet {
  const extra = options.adverse ? hours(2) : 0;
  // 395.1(e)(2) may not be used with (g).
  const split = options.nonCdlShortHaul ? {} : { split: { each: hours(2), sum: hours(10), longBerth: hours(7) } };
  const shift: Since = { kind: "rest", minutes: hours(10), ...split };
  const limits: readonly Limit[] = [
    {
      kind: "rest",
      id: "us-property.rest",
      clause: "49 CFR 395.3(a)(1)",
      title: "10 h rest before driving",
      requires: hours(10),
      forbids: "driving",
      parting: PARTING,
      breach: "none",
    },
    windowLimit(shift, options),
    {
      kind: "max",
      id: "us-property.driving",
      clause: "49 CFR 395.3(a)(3)(i)",
      title: `${11 + extra / 60} h driving`,
      counts: "driving",
      allows: hours(11) + extra,
      forbids: "driving",
      since: [shift],
    },
    ...breakLimit(options),
    weekLimit("us-property", "395.3", options.week, true),
  ];
  return {
    ...COMMON,
    dayStarts: options.dayStarts,
    id: "us-property",
    travel: hours(10),
    seat: { berth: hours(7), most: hours(3) },
    shift,
    limits,
    conditions: propertyConditions(options),
    questions: [],
  };
}

/** 10 h driving and 15 h on duty after 8 h off: 49 CFR 395.5(a), and 395.1(p), which keeps the older numbers. */
function tenAndFifteen(
  set: string,
  clauses: { driving: string; duty: string; rest: string },
  shift: Since,
  extra: number,
): Limit[] {
  return [
    {
      kind: "rest",
      id: `${set}.rest`,
      clause: clauses.rest,
      title: "8 h rest before driving",
      requires: hours(8),
      forbids: "driving",
      parting: PARTING,
      breach: "none",
    },
    {
      kind: "max",
      id: `${set}.driving`,
      clause: clauses.driving,
      title: `${10 + extra / 60} h driving`,
      counts: "driving",
      allows: hours(10) + extra,
      forbids: "driving",
      since: [shift],
    },
    {
      kind: "max",
      id: `${set}.duty`,
      clause: clauses.duty,
      title: `${15 + extra / 60} h on duty`,
      counts: "duty",
      allows: hours(15) + extra,
      forbids: "driving",
      since: [shift],
      asRest: { id: `${set}.rest`, parting: PARTING },
    },
  ];
}

/** Passenger-carrying vehicles, 49 CFR 395.5. */
export function usPassenger(options: RuleOptions): RuleSet {
  // 395.1(g)(3), from memory: two periods in the berth of at least 2 h that make 8 h.
  const shift: Since = { kind: "rest", minutes: hours(8), split: { each: hours(2), sum: hours(8), longBerth: null } };
  const clauses = { driving: "49 CFR 395.5(a)(1)", duty: "49 CFR 395.5(a)(2)", rest: "49 CFR 395.5(a)(1)" };
  const adverse = propertyConditions({ ...options, shortHaul: false, nonCdlShortHaul: false, sixteenHour: false });
  return {
    ...COMMON,
    dayStarts: options.dayStarts,
    id: "us-passenger",
    travel: hours(8),
    seat: null,
    shift,
    limits: [
      ...tenAndFifteen("us-passenger", clauses, shift, options.adverse ? hours(2) : 0),
      weekLimit("us-passenger", "395.5", options.week, false),
    ],
    conditions: adverse,
    questions: [],
  };
}

/** To and from a theatrical or television motion picture production site within 100 air miles, 49 CFR 395.1(p). */
export function usProduction(options: RuleOptions): RuleSet {
  const shift: Since = { kind: "rest", minutes: hours(8) };
  const clauses = { driving: "49 CFR 395.1(p)(1)", duty: "49 CFR 395.1(p)(2)", rest: "49 CFR 395.1(p)" };
  return {
    ...COMMON,
    dayStarts: options.dayStarts,
    id: "us-production",
    travel: hours(10),
    seat: null,
    shift,
    limits: [
      ...tenAndFifteen("us-production", clauses, shift, 0),
      weekLimit("us-production", "395.3", options.week, true),
    ],
    conditions: [
      "production site, 49 CFR 395.1(p): within 100 air miles of the reporting place, carrying property or passengers to or from a theatrical or television motion picture production site; 60 and 70 hours stay",
    ],
    questions: [
      "is the site a television motion picture production site? The text does not settle it for live news or sport (49 CFR 395.1(p))",
    ],
  };
}
