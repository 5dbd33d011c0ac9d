/** The federal Fair Labor Standards Act: a week's overtime, no limit on a day's hours. */
import { PLAIN, type RuleSetDeclaration } from "../declaration.ts";
import { LABOUR, SHORT_MEAL } from "../labour.ts";
import { hoursToMinutes } from "../options.ts";

/** Fair Labor Standards Act and 29 CFR Parts 778 and 785. */
export const usLabor: RuleSetDeclaration = {
  place: 90,
  ...PLAIN,
  threshold: null,
  title: "Fair Labor Standards Act",
  source: "29 U.S.C. 207(a)(1); 29 CFR Parts 778 and 785",
  forPeople: true,
  pay: {
    id: "us-labor",
    title: "Fair Labor Standards Act",
    clause: "29 U.S.C. 207(a)(1)",
    dayOvertimeAfter: null,
    dayDoubleAfter: null,
    weekOvertimeAfter: hoursToMinutes(40),
    seventhDayDoubleAfter: null,
    // 29 CFR 785.18, 785.19, from memory: 5 to about 20 minutes are worked; a meal is ordinarily 30 minutes or more.
    mealWorkedUnder: SHORT_MEAL.least,
    mealAskedUnder: SHORT_MEAL.under,
    mealsPaidADay: null,
    workdayClause: "29 CFR 778.105",
    ridingClause: "29 CFR 785.39",
  },
  make: () => ({
    ...LABOUR,
    limits: [],
    asks: {
      shortMeal: SHORT_MEAL,
      // 213(b)(1) exempts drivers of commercial vehicles, not in a week in which they drive light ones as well.
      mixedVehicles: {
        clause: "29 U.S.C. 213(b)(1)",
        question:
          "drives commercial and light vehicles in one stretch: is overtime due in a mixed week (29 U.S.C. 213(b)(1)), and does a state ask for it by the day?",
      },
    },
  }),
};
