/** Property-carrying vehicles: 49 CFR 395.3, with the exceptions of 395.1. */
import type { RuleSetDeclaration } from "../declaration.ts";
import { claimed, hoursToMinutes } from "../options.ts";
import type { Extension, Limit, MaxLimit, Since } from "../rule.ts";
import { ADVERSE, ADVERSE_CONDITION, COMMON, PART_395, US_PARTING, US_QUESTIONS, weekLimit } from "../unitedStates.ts";

const CLAIMS = {
  adverse: ADVERSE,
  shortHaul: "the short-haul exception is claimed, 49 CFR 395.1(e)(1)",
  nonCdlShortHaul: "the short-haul exception without a commercial licence is claimed, 49 CFR 395.1(e)(2)",
  sixteenHour: "the 16-hour day is claimed, 49 CFR 395.1(o)",
} as const;

type Claim = keyof typeof CLAIMS;
type Has = (name: Claim) => boolean;

/** What must hold for each. */
const CONDITIONS: Readonly<Record<Claim, string>> = {
  adverse: ADVERSE_CONDITION,
  shortHaul:
    "short haul, 49 CFR 395.1(e)(1): within 150 air miles (172.6 statute miles) of the reporting place, back there and released within 14 hours, 10 hours off between; time records kept 6 months",
  nonCdlShortHaul:
    "short haul without a commercial licence, 49 CFR 395.1(e)(2): a vehicle that needs none, within 150 air miles, back every day; not with 395.1(e)(1), (g) or (o)",
  sixteenHour:
    "16-hour day, 49 CFR 395.1(o): the last five duty tours ended at the normal reporting place, back and released there within 16 hours, not used in the 6 days before",
};

/** 395.1(e)(2): a window of 16 h on 2 of any 7 days. */
const NON_CDL: Extension = { allows: hoursToMinutes(16), times: 2, over: 7 };

/** 395.1(o): a window of 16 h once in 7 days, the driver released within it; a restart wipes the earlier use. */
const SIXTEEN: Extension = {
  allows: hoursToMinutes(16),
  times: 1,
  over: 7,
  clearedBy: hoursToMinutes(34),
  releasedWithin: hoursToMinutes(16),
};

function windowLimit(since: Since, has: Has): MaxLimit {
  const extra = has("adverse") ? hoursToMinutes(2) : 0;
  const extension = has("nonCdlShortHaul") ? NON_CDL : has("sixteenHour") ? SIXTEEN : null;
  const clause = has("nonCdlShortHaul") ? "49 CFR 395.1(e)(2)" : "49 CFR 395.3(a)(2)";
  return {
    kind: "max",
    id: "us-property.window",
    clause,
    title: `${14 + extra / 60} h window`,
    counts: "elapsed",
    allows: hoursToMinutes(14) + extra,
    forbids: "driving",
    since: [since],
    ...(extension === null ? {} : { extension }),
    asRest: { id: "us-property.rest", parting: US_PARTING },
  };
}

function breakLimit(has: Has): MaxLimit[] {
  // 395.3(a)(3)(ii) is not for drivers under either short-haul exception.
  if (has("nonCdlShortHaul")) return [];
  return [
    {
      kind: "max",
      id: "us-property.break",
      clause: "49 CFR 395.3(a)(3)(ii)",
      title: "30 min break after 8 h driving",
      counts: "driving",
      allows: hoursToMinutes(8),
      forbids: "driving",
      since: [{ kind: "break", minutes: 30, of: ["off", "berth", "duty"] }],
      ...(has("shortHaul") ? { waivedWithin: hoursToMinutes(14) } : {}),
    },
  ];
}

const CLAIM_NAMES: readonly Claim[] = ["adverse", "shortHaul", "nonCdlShortHaul", "sixteenHour"];

/** 49 CFR Part 395, property-carrying vehicles. */
export const usProperty: RuleSetDeclaration = {
  place: 10,
  ...PART_395,
  claims: CLAIMS,
  make(options) {
    const has = claimed(options, CLAIMS);
    const extra = has("adverse") ? hoursToMinutes(2) : 0;
    // 395.1(e)(2) may not be used with (g).
    const split = has("nonCdlShortHaul")
      ? {}
      : { split: { each: hoursToMinutes(2), sum: hoursToMinutes(10), longBerth: hoursToMinutes(7) } };
    const shift: Since = { kind: "rest", minutes: hoursToMinutes(10), ...split };
    const limits: readonly Limit[] = [
      {
        kind: "rest",
        id: "us-property.rest",
        clause: "49 CFR 395.3(a)(1)",
        title: "10 h rest before driving",
        requires: hoursToMinutes(10),
        forbids: "driving",
        parting: US_PARTING,
        breach: "none",
      },
      windowLimit(shift, has),
      {
        kind: "max",
        id: "us-property.driving",
        clause: "49 CFR 395.3(a)(3)(i)",
        title: `${11 + extra / 60} h driving`,
        counts: "driving",
        allows: hoursToMinutes(11) + extra,
        forbids: "driving",
        since: [shift],
      },
      ...breakLimit(has),
      weekLimit("us-property", "395.3", options, true),
    ];
    return {
      ...COMMON,
      dayStarts: options.dayStarts,
      travel: hoursToMinutes(10),
      seat: { berth: hoursToMinutes(7), most: hoursToMinutes(3) },
      shift,
      limits,
      conditions: CLAIM_NAMES.filter(has).map((name) => CONDITIONS[name]),
      asks: US_QUESTIONS,
    };
  },
};
