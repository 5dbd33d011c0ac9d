/** Passenger-carrying vehicles: 49 CFR 395.5. */
import type { RuleSetDeclaration } from "../declaration.ts";
import { claimed, hoursToMinutes } from "../options.ts";
import type { Since } from "../rule.ts";
import {
  ADVERSE,
  ADVERSE_CONDITION,
  COMMON,
  PART_395,
  tenAndFifteen,
  US_QUESTIONS,
  weekLimit,
} from "../unitedStates.ts";

const CLAIMS = { adverse: ADVERSE } as const;

/** 49 CFR Part 395, passenger-carrying vehicles. */
export const usPassenger: RuleSetDeclaration = {
  place: 20,
  ...PART_395,
  claims: CLAIMS,
  make(options) {
    const adverse = claimed(options, CLAIMS)("adverse");
    // 395.1(g)(3), from memory: two periods in the berth of at least 2 h that make 8 h.
    const shift: Since = {
      kind: "rest",
      minutes: hoursToMinutes(8),
      split: { each: hoursToMinutes(2), sum: hoursToMinutes(8), longBerth: null },
    };
    const clauses = { driving: "49 CFR 395.5(a)(1)", duty: "49 CFR 395.5(a)(2)", rest: "49 CFR 395.5(a)(1)" };
    return {
      ...COMMON,
      dayStarts: options.dayStarts,
      travel: hoursToMinutes(8),
      seat: null,
      shift,
      limits: [
        ...tenAndFifteen("us-passenger", clauses, shift, adverse ? hoursToMinutes(2) : 0),
        weekLimit("us-passenger", "395.5", options, false),
      ],
      conditions: adverse ? [ADVERSE_CONDITION] : [],
      asks: US_QUESTIONS,
    };
  },
};
