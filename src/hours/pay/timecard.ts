/** Several days' hours as pay: straight, overtime and double, meals missed, short turnarounds, per diem; totals agree with `hours`. */
import type { Day } from "../../day/day.ts";
import { sumOf } from "../../lists.ts";
import type { Contract, Id, Plan } from "../../plan/plan.ts";
import { dayNumber, type Instant } from "../../time/index.ts";
import { assess, type PersonResult } from "../index.ts";
import type { PersonHours } from "../judge/person.ts";
import { payRuleOf } from "../rules/index.ts";
import type { PayRule } from "../rules/payRule.ts";
import { type CardDay, cardOf, type Timecard } from "./card.ts";
import { contractPay } from "./pay.ts";

/** The pay rules that a contract brings: its own, overtime beyond its day rate unless it says otherwise, then the laws it names. */
export function payRulesOf(contract: Contract | null): readonly PayRule[] {
  if (contract === null) return [];
  const own = contractPay(
    contract.id,
    contract.overtimeAfterMinutes ?? contract.dayRateMinutes,
    contract.doubleAfterMinutes,
  );
  return [own, ...contract.rules.flatMap((name) => payRuleOf(name) ?? [])];
}

const contractOf = (plan: Plan, person: Id): Contract | null =>
  plan.contracts.get(plan.crew.get(person)?.contract ?? "") ?? null;

interface Lived {
  readonly date: string;
  readonly day: number;
  readonly plan: Plan;
  readonly result: PersonResult;
}

/** Meals due and not had in breaches of the house rule that end after `since`, and begin before `until` where that is given. */
export const mealsMissed = (hours: PersonHours, since: Instant, mealEvery: number, until?: Instant): number =>
  hours.verdicts
    .flatMap(({ breaches }) => breaches)
    .filter(
      ({ limit, from, to }) =>
        limit.kind === "max" && limit.meal === true && to > since && (until === undefined || from < until),
    )
    .reduce((count, { from, to }) => count + Math.ceil((to - from) / mealEvery), 0);

function shortTurnaround({ plan, result }: Lived, contract: Contract | null): number {
  const rest = result.hours.restBeforeMinutes;
  return rest === null ? 0 : Math.max(0, (contract?.turnaroundMinutes ?? plan.rules.turnaround) - rest);
}

function personCard(id: Id, lived: readonly Lived[]): Timecard {
  const last = lived.at(-1);
  const contract = last === undefined ? null : contractOf(last.plan, id);
  const days = lived.map((one): CardDay => {
    const { dutyMinutes, drivingMinutes, restBeforeMinutes } = one.result.hours;
    const ridden = one.result.ledger.spans.filter(({ is, to }) => is === "riding" && to > one.result.since);
    return {
      date: one.date,
      day: one.day,
      workedMinutes: dutyMinutes,
      drivingMinutes,
      ridingMinutes: sumOf(ridden, ({ from, to }) => to - from),
      restBeforeMinutes,
      mealsMissed: mealsMissed(one.result.hours, one.result.since, one.plan.rules.mealEvery),
      shortTurnaroundMinutes: shortTurnaround(one, contract),
    };
  });
  return cardOf(id, contract, payRulesOf(contract), days);
}

/** Everyone's time card over a chain of days, oldest first; people in the order of the last day's plan, then of earlier ones. */
export function timecards(days: readonly Day[]): readonly Timecard[] {
  const lived = new Map<Id, Lived[]>();
  days.forEach((day, index) => {
    const { result } = assess({ days: days.slice(0, index + 1), patience: 1, now: null });
    for (const [id, person] of result.people) {
      const known = lived.get(id) ?? [];
      known.push({ date: day.plan.date, day: dayNumber(day.plan.date), plan: day.plan, result: person });
      lived.set(id, known);
    }
  });
  const last = [...(days.at(-1)?.plan.crew.keys() ?? [])];
  const order = [...last, ...[...lived.keys()].filter((id) => !last.includes(id))];
  return order.flatMap((id) => (lived.has(id) ? [personCard(id, lived.get(id) ?? [])] : []));
}
