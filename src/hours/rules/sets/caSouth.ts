/** Canada south of latitude 60° N: Commercial Vehicle Drivers Hours of Service Regulations, SOR/2005-313. */
import { PLAIN, type RuleSetDeclaration } from "../declaration.ts";
import { claimed, hoursToMinutes, weekOf } from "../options.ts";
import type { Limit, MaxLimit, Since } from "../rule.ts";
import { ADVERSE, inNorthAmerica } from "../unitedStates.ts";

const SET = "ca-south";

const WEEKS = ["cycle 1", "cycle 2"] as const;

const CLAIMS = {
  adverse: ADVERSE,
  deferral: "deferral of daily off-duty time is claimed, SOR/2005-313 s. 16",
} as const;

/** s. 28: a rest that ends a cycle. */
const RESET = { 1: hoursToMinutes(36), 2: hoursToMinutes(72) } as const;

function cycleLimits(cycle: 1 | 2): MaxLimit[] {
  const first = cycle === 1;
  const main: MaxLimit = {
    kind: "max",
    id: `${SET}.cycle`,
    clause: first ? "SOR/2005-313 s.26" : "SOR/2005-313 s.27(a)",
    title: first ? "70 h on duty in 7 days (cycle 1)" : "120 h on duty in 14 days (cycle 2)",
    counts: "duty",
    allows: first ? hoursToMinutes(70) : hoursToMinutes(120),
    forbids: "driving",
    since: [{ kind: "calendar", unit: "day", count: first ? 7 : 14, restart: RESET[cycle] }],
  };
  const dayOff: MaxLimit = {
    kind: "max",
    id: `${SET}.cycle-rest`,
    clause: "SOR/2005-313 s.27(b)",
    title: "70 h on duty without 24 h off (cycle 2)",
    counts: "duty",
    allows: hoursToMinutes(70),
    forbids: "driving",
    since: [{ kind: "rest", minutes: hoursToMinutes(24) }],
  };
  return first ? [main] : [main, dayOff];
}

/** South of 60, single driver or team, cycle 1 or 2. */
export const caSouth: RuleSetDeclaration = {
  place: 40,
  ...PLAIN,
  title: "SOR/2005-313",
  source: "Commercial Vehicle Drivers Hours of Service Regulations, SOR/2005-313 (consolidation of 2021-06-12)",
  // s. 1: registered gross weight over 4,500 kg, or more than 10 seats with the driver's.
  threshold: { leastKg: 4500.001, leastSeats: 11, says: "over 4500 kg or 10 seats" },
  claims: CLAIMS,
  weeks: WEEKS,
  // s. 1: a day is 24 hours from the hour that the carrier names.
  carriersDays: true,
  // s. 19 is about a vehicle fitted with a sleeper berth.
  team: { clause: "SOR/2005-313 s.19", together: "SOR/2005-313 s.19", aloneAtFirst: 0, berth: true },
  make(options) {
    const has = claimed(options, CLAIMS);
    // s. 18: two periods in the berth of at least 2 h that make 10 h; s. 19 for a team: at least 4 h each, 8 h.
    const split =
      options.drivers === 2
        ? { each: hoursToMinutes(4), sum: hoursToMinutes(8), longBerth: null }
        : { each: hoursToMinutes(2), sum: hoursToMinutes(10), longBerth: null };
    const shift: Since = { kind: "rest", minutes: hoursToMinutes(8), split };
    const day: Since = { kind: "calendar", unit: "day", count: 1 };
    // s. 76, up to 2 h; the 16 h stay, because the text is read both ways.
    const extra = has("adverse") ? hoursToMinutes(2) : 0;
    const limits: readonly Limit[] = [
      {
        kind: "max",
        id: `${SET}.driving`,
        clause: "SOR/2005-313 s.12(1), s.13(1)",
        title: `${13 + extra / 60} h driving in the day and since 8 h off`,
        counts: "driving",
        allows: hoursToMinutes(13) + extra,
        forbids: "driving",
        since: [day, shift],
      },
      {
        kind: "max",
        id: `${SET}.duty`,
        clause: "SOR/2005-313 s.12(2), s.13(2)",
        title: `${14 + extra / 60} h on duty in the day and since 8 h off`,
        counts: "duty",
        allows: hoursToMinutes(14) + extra,
        forbids: "driving",
        since: [day, shift],
      },
      {
        kind: "max",
        id: `${SET}.elapsed`,
        clause: "SOR/2005-313 s.13(3)",
        title: "16 h between two rests of 8 h",
        counts: "elapsed",
        allows: hoursToMinutes(16),
        forbids: "driving",
        since: [shift],
      },
      {
        kind: "max",
        id: `${SET}.day-off`,
        clause: "SOR/2005-313 s.14(1)",
        title: "10 h off in the day",
        counts: "busy",
        allows: hoursToMinutes(10),
        forbids: "work",
        since: [day],
        leavesFree: true,
        ...(has("deferral")
          ? { deferral: { most: hoursToMinutes(2), twoDaysDriving: hoursToMinutes(26), core: hoursToMinutes(8) } }
          : {}),
      },
      ...cycleLimits(weekOf(options, WEEKS) === "cycle 2" ? 2 : 1),
      {
        kind: "max",
        id: `${SET}.day-in-14`,
        clause: "SOR/2005-313 s.25",
        title: "24 h off in the 14 days before",
        counts: "elapsed",
        // A rest of 24 h lies inside the last 14 days until 13 days after its end.
        allows: hoursToMinutes(13 * 24),
        forbids: "driving",
        since: [{ kind: "rest", minutes: hoursToMinutes(24) }],
      },
    ];
    return {
      country: "Canada",
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
        ferry: "duty",
      },
      // s. 17, from memory: on a crossing of more than 5 hours, rest on board is time in the berth, with that at the terminal
      // and at the first stop within 25 km of landing.
      ferry: { status: "berth", over: hoursToMinutes(5), interrupted: { times: 2, minutes: 60 } },
      covers: inNorthAmerica,
      lightDriving: "duty",
      pause: "off",
      rest: ["off", "berth"],
      duty: ["duty", "driving"],
      travel: hoursToMinutes(8),
      seat: null,
      shift,
      limits,
      dayStarts: options.dayStarts,
      conditions: [
        ...(has("adverse")
          ? [
              "adverse driving conditions, SOR/2005-313 s.76: up to 2 hours, unforeseen; 8 hours off and the 16 hours stay",
            ]
          : []),
        ...(has("deferral")
          ? [
              "deferral, SOR/2005-313 s.16: at most 2 hours moved to the next day's rest, 20 hours off and 26 hours driving in the two days, declared in the record, not on the day after",
            ]
          : []),
        ...(options.drivers === 2 ? ["team, SOR/2005-313 s.19: both drivers and a berth aboard"] : []),
      ],
      asks: {
        vehicle: {
          clause: "SOR/2005-313 s.1",
          question:
            "which hour does the carrier's day begin at? None is stated (`dayStarts`), and days are cut at midnight",
          applies: ({ dayStarts }) => dayStarts === null,
        },
        // s. 14: 8 h off in one piece, and 2 h more that are not part of them.
        surplus: {
          core: hoursToMinutes(8),
          other: hoursToMinutes(2),
          question:
            "the day's other 2 h off lie next to the 8 h in one rest, and are counted (s. 14): is that how it is enforced?",
        },
        kinds: [
          {
            is: "ferry",
            question:
              "a crossing of more than 5 h with a berth is counted as rest, with the rest before sailing and after landing: was it recorded so, with a receipt, and was the first stop within 25 km of landing (s. 17)?",
          },
        ],
        border: "a border day: each country counts the hours in the other; which exceptions hold on which side?",
        personalBreach:
          "if the personal use qualifies as off duty (s. 2: unloaded, 75 km a day), the rest goes on through it and nothing is broken; if not, this is a breach",
        personal:
          "driven as personal conveyance: it is off duty only when relieved of all work, and not once out of hours; it is counted neither as work nor as rest (395.8 guidance Q26)",
        ...(has("adverse")
          ? {
              claimed: [
                "adverse driving conditions (s. 76): do the 16 h between two rests move as well? The text can be read both ways; the 16 h are kept",
              ],
            }
          : {}),
      },
    };
  },
};
