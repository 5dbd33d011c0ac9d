/** The form of a pay rule: data only. */

/** A bound that is null is not there. */
export interface PayRule {
  readonly id: string;
  readonly title: string;
  readonly clause: string;
  /** Minutes of a day, beyond which overtime is paid. */
  readonly dayOvertimeAfter: number | null;
  readonly dayDoubleAfter: number | null;
  /** Straight minutes of a workweek, beyond which overtime is paid. */
  readonly weekOvertimeAfter: number | null;
  /** The seventh day worked in one workweek: overtime from the first minute, double after so many. */
  readonly seventhDayDoubleAfter: number | null;
  /** A meal shorter than this is worked; null where the rule says nothing of meals. */
  readonly mealWorkedUnder: number | null;
  /** Whether a meal shorter than this is unpaid is a question; null where the rule says nothing of it. */
  readonly mealAskedUnder: number | null;
  /** At most so many missed meals are paid for in a day; null where each is. */
  readonly mealsPaidADay: number | null;
  /** Where a shift over midnight belongs to the day on which it begins: the clause about the workday. */
  readonly workdayClause: string | null;
  /** The clause by which riding as a passenger, away over night and outside usual hours, need not be worktime. */
  readonly ridingClause: string | null;
}
