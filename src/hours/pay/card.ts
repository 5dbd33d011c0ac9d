/** One person's days as pay: straight, overtime and double by the best of the rules, what was missed, money where a contract states it. */
import { sumOf } from "../../lists.ts";
import type { Contract, Id } from "../../plan/plan.ts";
import type { PayRule } from "../rules/payRule.ts";
import { bestPaid, type PaidDay } from "./pay.ts";

/** A day as it was worked. */
export interface CardDay {
  readonly date: string;
  /** Day number of the calendar. */
  readonly day: number;
  readonly workedMinutes: number;
  readonly drivingMinutes: number;
  /** As a passenger; counted as worked. */
  readonly ridingMinutes: number;
  readonly restBeforeMinutes: number | null;
  /** A shift that began on it went on past midnight. */
  readonly overMidnight: boolean;
  /** Meals so short that it is a question whether they are unpaid. */
  readonly mealsAsked: number;
  /** Meals that were due and not had: one when the time is up, another each time it is up again; null where no rule says when. */
  readonly mealsMissed: number | null;
  /** Minutes by which the rest before fell short of what is asked for; 0 where it did not; null where nothing is asked for. */
  readonly shortTurnaroundMinutes: number | null;
}

/** A day of a timecard, minutes. */
export interface TimecardDay extends CardDay, PaidDay {
  /** What a day rate pays beyond the work of a day that is shorter. */
  readonly dayRateMinutes: number;
  /** By which rule the day is paid. */
  readonly by: string;
}

/** A person's timecard under a contract, minutes and the contract's own currency. */
export interface Timecard {
  readonly id: Id;
  readonly contract: Id | null;
  /** Whether a rule counts by the workweek, so that it matters on which day that begins. */
  readonly byWeek: boolean;
  /** The clause by which some of the riding need not be worked, where a rule has one. */
  readonly ridingClause: string | null;
  /** The clause about the workday, where a rule has one and a shift went over midnight. */
  readonly workdayClause: string | null;
  readonly days: readonly TimecardDay[];
  readonly totals: {
    readonly workedMinutes: number;
    readonly straightMinutes: number;
    readonly overtimeMinutes: number;
    readonly doubleMinutes: number;
    readonly drivingMinutes: number;
    readonly ridingMinutes: number;
    readonly dayRateMinutes: number;
    readonly mealsAsked: number;
    /** Null where no day's are known. */
    readonly mealsMissed: number | null;
    readonly shortTurnarounds: number | null;
    /** Days with work in them. */
    readonly daysWorked: number;
  };
  /** In the contract's own money; null where it states none. */
  readonly mealPenalties: number | null;
  readonly turnaroundPenalties: number | null;
  readonly perDiem: number | null;
}

/** The sum of what is known; null where nothing is. */
export function sumKnown(values: readonly (number | null)[]): number | null {
  const known = values.flatMap((value) => value ?? []);
  return known.length === 0 ? null : sumOf(known, (value) => value);
}

const times = (count: number | null, amount: number | null): number | null =>
  count === null || amount === null ? null : count * amount;

const dayRate = (worked: number, contract: Contract | null): number =>
  worked === 0 ? 0 : Math.max(0, (contract?.dayRateMinutes ?? 0) - worked);

/** Pays days in order under one contract, if any, and the rules. */
export function cardOf(
  id: Id,
  contract: Contract | null,
  rules: readonly PayRule[],
  worked: readonly CardDay[],
): Timecard {
  const paid = bestPaid(worked, rules);
  const days = worked.flatMap((one, index): readonly TimecardDay[] => {
    const pay = paid[index];
    return pay === undefined ? [] : [{ ...one, ...pay, dayRateMinutes: dayRate(one.workedMinutes, contract) }];
  });
  const totals = {
    workedMinutes: sumOf(days, (day) => day.workedMinutes),
    straightMinutes: sumOf(days, (day) => day.straightMinutes),
    overtimeMinutes: sumOf(days, (day) => day.overtimeMinutes),
    doubleMinutes: sumOf(days, (day) => day.doubleMinutes),
    drivingMinutes: sumOf(days, (day) => day.drivingMinutes),
    ridingMinutes: sumOf(days, (day) => day.ridingMinutes),
    dayRateMinutes: sumOf(days, (day) => day.dayRateMinutes),
    mealsAsked: sumOf(days, (day) => day.mealsAsked),
    mealsMissed: sumKnown(days.map((day) => day.mealsMissed)),
    shortTurnarounds: sumKnown(
      days.map(({ shortTurnaroundMinutes: short }) => (short === null ? null : Math.sign(short))),
    ),
    daysWorked: days.filter((day) => day.workedMinutes > 0).length,
  };
  return {
    id,
    contract: contract?.id ?? null,
    byWeek: rules.some(({ weekOvertimeAfter }) => weekOvertimeAfter !== null),
    ridingClause: rules.find((rule) => rule.ridingClause !== null)?.ridingClause ?? null,
    workdayClause: days.some(({ overMidnight }) => overMidnight)
      ? (rules.find((rule) => rule.workdayClause !== null)?.workdayClause ?? null)
      : null,
    days,
    totals,
    mealPenalties: times(totals.mealsMissed, contract?.mealPenalty ?? null),
    turnaroundPenalties: times(totals.shortTurnarounds, contract?.shortTurnaround ?? null),
    perDiem: times(totals.daysWorked, contract?.perDiem ?? null),
  };
}
