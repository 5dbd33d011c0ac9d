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
  /** The clause by which riding as a passenger, away over night and outside usual hours, need not be worktime. */
  readonly ridingClause: string | null;
}
