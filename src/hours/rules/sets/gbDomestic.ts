/** GB domestic rules, Transport Act 1968 Part VI, for goods vehicles. */
import { PLAIN, type RuleSetDeclaration } from "../declaration.ts";
import { EUROPEAN, OVER_3500_KG } from "../europe.ts";
import { hoursToMinutes } from "../options.ts";
import type { Since } from "../rule.ts";

const DAY: Since = { kind: "period", minutes: hoursToMinutes(24) };

const CLAUSE = "Transport Act 1968 s.96 / GB domestic rules";

/** A broadcast vehicle is outside the duty limit up to this gross weight. */
const DEROGATION_KG = 3500;

/** Great Britain's domestic rules, Transport Act 1968 section 96. */
export const gbDomestic: RuleSetDeclaration = {
  place: 70,
  ...PLAIN,
  title: "GB domestic rules",
  source: "Transport Act 1968 Part VI; GOV.UK, drivers' hours: GB domestic rules",
  threshold: OVER_3500_KG,
  make: () => ({
    ...EUROPEAN,
    // A vehicle up to 3.5 t is inside the driving limit, and outside the duty limit where used for broadcasting; driving
    // under 561/2006 counts towards both (from memory).
    covers: ({ rules, commercial }) => rules.includes("eu") || (commercial && rules.includes("gb-domestic")),
    lightDriving: "driving",
    shift: DAY,
    limits: [
      {
        kind: "max",
        id: "gb-domestic.driving",
        clause: CLAUSE,
        title: "10 h driving in 24 h",
        counts: "driving",
        allows: hoursToMinutes(10),
        forbids: "driving",
        since: [DAY],
      },
      {
        kind: "max",
        id: "gb-domestic.duty",
        clause: CLAUSE,
        title: "11 h duty in 24 h",
        counts: "duty",
        allows: hoursToMinutes(11),
        forbids: "work",
        since: [DAY],
        exemptWeekBelow: hoursToMinutes(4),
      },
    ],
    conditions: [],
    asks: {
      vehicle: {
        clause: CLAUSE,
        question:
          "over 3.5 t the exemption of broadcasting from the duty limit is gone, and the limit is counted: is the plated weight right?",
        applies: ({ totalKg }) => totalKg > DEROGATION_KG,
      },
    },
  }),
};
