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

/** `weekStarts`: 0 for Monday to 6 for Sunday. 1970-01-01 was a Thursday. */
const weekOf = (day: number, weekStarts: number): number => Math.floor((day + 3 - weekStarts) / 7);

/**
 * Pays days in order under one rule. A minute paid as daily overtime or double time does not count towards the week's
 * straight time again. `weekStarts`: the first day of the workweek, 0 for Monday to 6 for Sunday.
 */
export function paidDays(days: readonly WorkDay[], rule: PayRule, weekStarts = 0): readonly PaidDay[] {
  let week: number | null = null;
  let straightSoFar = 0;
  let daysWorked = 0;
  return [...days]
    .sort((a, b) => a.day - b.day)
    .map((one) => {
      const own = weekOf(one.day, weekStarts);
      if (own !== week) {
        week = own;
        straightSoFar = 0;
        daysWorked = 0;
      }
      if (one.workedMinutes > 0) daysWorked += 1;
      if (rule.seventhDayDoubleAfter !== null && daysWorked === 7) {
        return { ...one, ...seventhDay(one.workedMinutes, rule.seventhDayDoubleAfter) };
      }
      const paid = byDay(one.workedMinutes, rule);
      const over = Math.min(paid.straightMinutes, beyond(straightSoFar + paid.straightMinutes, rule.weekOvertimeAfter));
      straightSoFar += paid.straightMinutes - over;
      return {
        ...one,
        ...paid,
        straightMinutes: paid.straightMinutes - over,
        overtimeMinutes: paid.overtimeMinutes + over,
      };
    });
}

/** Under several rules at once each day is paid by the one that gives the most for it; the earlier rule where two give the same. */
export function bestPaid(
  days: readonly WorkDay[],
  rules: readonly PayRule[],
  weekStarts = 0,
): readonly (PaidDay & { readonly by: string })[] {
  const units = ({ straightMinutes, overtimeMinutes, doubleMinutes }: PaidDay): number =>
    straightMinutes * 2 + overtimeMinutes * 3 + doubleMinutes * 4;
  const all = rules.map((rule) => ({ rule, paid: paidDays(days, rule, weekStarts) }));
  const plain = { straight: [...days].sort((a, b) => a.day - b.day) };
  return plain.straight.map((one, index) => {
    const unpaid = {
      ...one,
      straightMinutes: one.workedMinutes,
      overtimeMinutes: 0,
      doubleMinutes: 0,
      by: "straight time",
    };
    return all.reduce<PaidDay & { readonly by: string }>((best, { rule, paid }) => {
      const day = paid[index];
      return day !== undefined && units(day) > units(best) ? { ...day, by: rule.id } : best;
    }, unpaid);
  });
}
