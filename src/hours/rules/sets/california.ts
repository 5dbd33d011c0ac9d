/** California: the meal periods of the broadcasting and motion picture orders, and the longest day of the latter. */
import { PLAIN, type RuleSetDeclaration } from "../declaration.ts";
import { LABOUR, SHORT_MEAL, WORKDAY } from "../labour.ts";
import { hoursToMinutes } from "../options.ts";

/** California's wage orders for broadcasting and motion pictures, and its Labor Code. */
export const california: RuleSetDeclaration = {
  place: 80,
  ...PLAIN,
  threshold: null,
  title: "California IWC Orders 11 and 12",
  source: "IWC Orders 11-2001 and 12-2001 s. 11, 8 CCR 11120, as summarised on public pages; Labor Code 510, 512",
  forPeople: true,
  pay: {
    id: "california",
    title: "California Labor Code",
    clause: "510(a)",
    dayOvertimeAfter: hoursToMinutes(8),
    dayDoubleAfter: hoursToMinutes(12),
    weekOvertimeAfter: hoursToMinutes(40),
    seventhDayDoubleAfter: hoursToMinutes(8),
    // 29 CFR 785.18, 785.19, from memory: 5 to about 20 minutes are worked; a meal is ordinarily 30 minutes or more.
    mealWorkedUnder: SHORT_MEAL.least,
    mealAskedUnder: SHORT_MEAL.under,
    // Labor Code 226.7, from memory: one hour of pay for a day in which a meal period was missed.
    mealsPaidADay: 1,
    workdayClause: "Labor Code 500",
    ridingClause: null,
  },
  make: () => ({
    ...LABOUR,
    limits: [
      {
        kind: "max",
        id: "california.meal",
        clause: "IWC Order 11/12 s.11",
        title: "a meal of 30 min every 6 h",
        counts: "elapsed",
        meal: true,
        allows: hoursToMinutes(6),
        forbids: "work",
        since: [{ kind: "break", minutes: 30, of: ["off", "berth", "meal"] }],
      },
      {
        kind: "max",
        id: "california.day",
        clause: "8 CCR 11120",
        title: "16 h day, meals included",
        counts: "elapsed",
        allows: hoursToMinutes(16),
        forbids: "work",
        since: [WORKDAY],
      },
    ],
    asks: {
      shortMeal: SHORT_MEAL,
      always: ["does an agreement with meal periods and a money remedy of its own replace the order (Labor Code 512)?"],
    },
  }),
};
