/** Several days' hours as pay: straight, overtime and double, meals missed, short turnarounds, per diem; totals agree with `hours`. */
import type { Day } from "../../day/day.ts";
import type { Contract, Id, Plan } from "../../plan/plan.ts";
import { dayOfDate } from "../../time/index.ts";
import { assess, type PersonResult } from "../index.ts";
import { bestPaid, CALIFORNIA_PAY, contractPay, type PaidDay, type PayRule, US_LABOR_PAY } from "./pay.ts";

export interface TimecardDay extends PaidDay {
  readonly date: string;
  readonly restBeforeMinutes: number | null;
  readonly drivingMinutes: number;
  /** Meals that were due and not had: one when the time is up, another each time it is up again. */
  readonly mealsMissed: number;
  /** Minutes by which the rest before fell short of the contract's turnaround, else of the house's; 0 where it did not. */
  readonly shortTurnaroundMinutes: number;
  /** What a day rate pays beyond the work of a day that is shorter. */
  readonly dayRateMinutes: number;
  /** By which rule the day is paid. */
  readonly by: string;
}

export interface Timecard {
  readonly id: Id;
  readonly contract: Id | null;
  readonly days: readonly TimecardDay[];
  readonly totals: {
    readonly workedMinutes: number;
    readonly straightMinutes: number;
    readonly overtimeMinutes: number;
    readonly doubleMinutes: number;
    readonly drivingMinutes: number;
    readonly dayRateMinutes: number;
    readonly mealsMissed: number;
    readonly shortTurnarounds: number;
    /** Days with work in them. */
    readonly daysWorked: number;
  };
  /** In the contract's own money; null where it states none. */
  readonly mealPenalties: number | null;
  readonly turnaroundPenalties: number | null;
  readonly perDiem: number | null;
}

const LAWS: ReadonlyMap<string, PayRule> = new Map([
  ["california", CALIFORNIA_PAY],
  ["us-labor", US_LABOR_PAY],
]);

/** The pay rules that a contract brings: its own, overtime beyond its day rate unless it says otherwise, then the laws it names. */
export function payRulesOf(contract: Contract | null): readonly PayRule[] {
  if (contract === null) return [];
  const own = contractPay(
    contract.id,
    contract.overtimeAfterMinutes ?? contract.dayRateMinutes,
    contract.doubleAfterMinutes,
  );
  return [own, ...contract.rules.flatMap((name) => LAWS.get(name) ?? [])];
}

const contractOf = (plan: Plan, person: Id): Contract | null =>
  plan.contracts.get(plan.crew.get(person)?.contract ?? "") ?? null;

interface Lived {
  readonly date: string;
  readonly day: number;
  readonly plan: Plan;
  readonly result: PersonResult;
}

function mealsMissed({ plan, result }: Lived): number {
  return result.hours.verdicts
    .flatMap(({ breaches }) => breaches)
    .filter(({ limit, to }) => limit.id === "house.mealEvery" && to > result.since)
    .reduce((count, { from, to }) => count + Math.ceil((to - from) / plan.rules.mealEvery), 0);
}

const dayRate = (worked: number, contract: Contract | null): number =>
  worked === 0 ? 0 : Math.max(0, (contract?.dayRateMinutes ?? 0) - worked);

function shortTurnaround({ plan, result }: Lived, contract: Contract | null): number {
  const rest = result.hours.restBeforeMinutes;
  return rest === null ? 0 : Math.max(0, (contract?.turnaroundMinutes ?? plan.rules.turnaround) - rest);
}

const sum = (days: readonly TimecardDay[], of: (day: TimecardDay) => number): number =>
  days.reduce((total, day) => total + of(day), 0);

const times = (count: number, amount: number | null): number | null => (amount === null ? null : count * amount);

function cardOf(id: Id, lived: readonly Lived[]): Timecard {
  const last = lived.at(-1);
  const contract = last === undefined ? null : contractOf(last.plan, id);
  const worked = lived.map(({ day, result }) => ({ day, workedMinutes: result.hours.dutyMinutes }));
  const paid = bestPaid(worked, payRulesOf(contract));
  const days = lived.flatMap((one, index): readonly TimecardDay[] => {
    const pay = paid[index];
    if (pay === undefined) return [];
    const { restBeforeMinutes, drivingMinutes } = one.result.hours;
    const shortTurnaroundMinutes = shortTurnaround(one, contract);
    return [
      {
        ...pay,
        date: one.date,
        restBeforeMinutes,
        drivingMinutes,
        dayRateMinutes: dayRate(pay.workedMinutes, contract),
        mealsMissed: mealsMissed(one),
        shortTurnaroundMinutes,
      },
    ];
  });
  const totals = {
    workedMinutes: sum(days, (day) => day.workedMinutes),
    straightMinutes: sum(days, (day) => day.straightMinutes),
    overtimeMinutes: sum(days, (day) => day.overtimeMinutes),
    doubleMinutes: sum(days, (day) => day.doubleMinutes),
    drivingMinutes: sum(days, (day) => day.drivingMinutes),
    dayRateMinutes: sum(days, (day) => day.dayRateMinutes),
    mealsMissed: sum(days, (day) => day.mealsMissed),
    shortTurnarounds: days.filter((day) => day.shortTurnaroundMinutes > 0).length,
    daysWorked: days.filter((day) => day.workedMinutes > 0).length,
  };
  return {
    id,
    contract: contract?.id ?? null,
    days,
    totals,
    mealPenalties: times(totals.mealsMissed, contract?.mealPenalty ?? null),
    turnaroundPenalties: times(totals.shortTurnarounds, contract?.shortTurnaround ?? null),
    perDiem: times(totals.daysWorked, contract?.perDiem ?? null),
  };
}

/** Everyone's time card over a chain of days, oldest first; people in the order of the last day's plan, then of earlier ones. */
export function timecards(days: readonly Day[]): readonly Timecard[] {
  const lived = new Map<Id, Lived[]>();
  days.forEach((day, index) => {
    const { result } = assess({ days: days.slice(0, index + 1), patience: 1, now: null });
    for (const [id, person] of result.people) {
      const known = lived.get(id) ?? [];
      known.push({ date: day.plan.date, day: dayOfDate(day.plan.date) ?? 0, plan: day.plan, result: person });
      lived.set(id, known);
    }
  });
  const last = [...(days.at(-1)?.plan.crew.keys() ?? [])];
  const order = [...last, ...[...lived.keys()].filter((id) => !last.includes(id))];
  return order.flatMap((id) => (lived.has(id) ? [cardOf(id, lived.get(id) ?? [])] : []));
}
