/** Straight time, overtime and double time of worked days, under labour law and a contract. Pure; whole minutes. */

import type { PayRule } from "../rules/payRule.ts";

/** A worked day: the first is the first of the workweek. */
export interface WorkDay {
  /** Day number of the calendar. */
  readonly day: number;
  readonly workedMinutes: number;
}

/** How a day's minutes are paid. They add up to the minutes worked. */
export interface PaidDay extends WorkDay {
  readonly straightMinutes: number;
  readonly overtimeMinutes: number;
  readonly doubleMinutes: number;
}

/** A plain contract: overtime after N, double after M. */
export const contractPay = (id: string, overtimeAfter: number | null, doubleAfter: number | null): PayRule => ({
  id,
  title: `contract ${id}`,
  clause: "contract",
  dayOvertimeAfter: overtimeAfter,
  dayDoubleAfter: doubleAfter,
  weekOvertimeAfter: null,
  seventhDayDoubleAfter: null,
  mealWorkedUnder: null,
  mealAskedUnder: null,
  mealsPaidADay: null,
  workdayClause: null,
  ridingClause: null,
});

const beyond = (minutes: number, bound: number | null): number => (bound === null ? 0 : Math.max(0, minutes - bound));

function byDay(worked: number, rule: PayRule): Omit<PaidDay, keyof WorkDay> {
  const double = beyond(worked, rule.dayDoubleAfter);
  const overtime = beyond(worked - double, rule.dayOvertimeAfter);
  return { straightMinutes: worked - double - overtime, overtimeMinutes: overtime, doubleMinutes: double };
}

function seventhDay(worked: number, doubleAfter: number): Omit<PaidDay, keyof WorkDay> {
  const double = beyond(worked, doubleAfter);
  return { straightMinutes: 0, overtimeMinutes: worked - double, doubleMinutes: double };
}

/** Weeks begin on Mondays; 1970-01-01 was a Thursday. */
const weekOf = (day: number): number => Math.floor((day + 3) / 7);

/** A day's minutes by the rule that gives the most for them. */
interface DaySplit extends Omit<PaidDay, keyof WorkDay> {
  readonly by: string;
}

const STRAIGHT = "straight time";

const units = ({ straightMinutes, overtimeMinutes, doubleMinutes }: Omit<PaidDay, keyof WorkDay>): number =>
  straightMinutes * 2 + overtimeMinutes * 3 + doubleMinutes * 4;

/** `daysWorked`: those of the workweek, this one counted in. */
function splitOf(worked: number, daysWorked: number, rules: readonly PayRule[]): DaySplit {
  const plain: DaySplit = { straightMinutes: worked, overtimeMinutes: 0, doubleMinutes: 0, by: STRAIGHT };
  return rules.reduce((best, rule) => {
    const { seventhDayDoubleAfter: double } = rule;
    const split = double !== null && daysWorked === 7 ? seventhDay(worked, double) : byDay(worked, rule);
    return units(split) > units(best) ? { ...split, by: rule.id } : best;
  }, plain);
}

/** The workweek's overtime: that of the rule with the least straight time. */
const weekRule = (rules: readonly PayRule[]): PayRule | undefined =>
  rules.reduce<PayRule | undefined>((least, rule) => {
    if (rule.weekOvertimeAfter === null) return least;
    return least?.weekOvertimeAfter == null || rule.weekOvertimeAfter < least.weekOvertimeAfter ? rule : least;
  }, undefined);

/**
 * Pays days in order under several rules at once. Each day is split by the rule that gives the most for it, the earlier where
 * two give the same; what is paid as its overtime or double time is credited against the week's (29 U.S.C. 207(e)(5),
 * 207(h)(2), from memory), so no minute is paid twice. The workweek begins on Monday.
 */
export function bestPaid(
  days: readonly WorkDay[],
  rules: readonly PayRule[],
): readonly (PaidDay & { readonly by: string })[] {
  const weekly = weekRule(rules);
  let week: number | null = null;
  let straightSoFar = 0;
  let daysWorked = 0;
  return [...days]
    .sort((a, b) => a.day - b.day)
    .map((one) => {
      const own = weekOf(one.day);
      if (own !== week) {
        week = own;
        straightSoFar = 0;
        daysWorked = 0;
      }
      if (one.workedMinutes > 0) daysWorked += 1;
      const split = splitOf(one.workedMinutes, daysWorked, rules);
      const beyondWeek = beyond(straightSoFar + split.straightMinutes, weekly?.weekOvertimeAfter ?? null);
      const over = Math.min(split.straightMinutes, beyondWeek);
      straightSoFar += split.straightMinutes - over;
      return {
        ...one,
        straightMinutes: split.straightMinutes - over,
        overtimeMinutes: split.overtimeMinutes + over,
        doubleMinutes: split.doubleMinutes,
        by: over > split.overtimeMinutes + split.doubleMinutes ? (weekly?.id ?? split.by) : split.by,
      };
    });
}
