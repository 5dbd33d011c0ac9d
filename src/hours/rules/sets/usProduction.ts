/** To and from a theatrical or television motion picture production site within 100 air miles: 49 CFR 395.1(p). */
import type { RuleSetDeclaration } from "../declaration.ts";
import { hoursToMinutes } from "../options.ts";
import type { Since } from "../rule.ts";
import { COMMON, PART_395, tenAndFifteen, US_QUESTIONS, weekLimit } from "../unitedStates.ts";

/** 49 CFR Part 395 with the exception for production drivers, 395.1(p). */
export const usProduction: RuleSetDeclaration = {
  place: 30,
  ...PART_395,
  make(options) {
    const shift: Since = { kind: "rest", minutes: hoursToMinutes(8) };
    const clauses = { driving: "49 CFR 395.1(p)(1)", duty: "49 CFR 395.1(p)(2)", rest: "49 CFR 395.1(p)" };
    return {
      ...COMMON,
      dayStarts: options.dayStarts,
      travel: hoursToMinutes(10),
      seat: null,
      shift,
      limits: [
        ...tenAndFifteen("us-production", clauses, shift, 0),
        weekLimit("us-production", "395.3", options, true),
      ],
      conditions: [
        "production site, 49 CFR 395.1(p): within 100 air miles of the reporting place, carrying property or passengers to or from a theatrical or television motion picture production site; 60 and 70 hours stay",
      ],
      asks: {
        ...US_QUESTIONS,
        always: [
          "is the site a television motion picture production site? The text does not settle it for live news or sport (49 CFR 395.1(p))",
        ],
      },
    };
  },
};
