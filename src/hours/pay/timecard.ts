/** Several days' hours as pay: straight, overtime and double, meals missed, short turnarounds, per diem; totals agree with `hours`. */
import type { Day } from "../../day/day.ts";
import { mostOf, sumOf } from "../../lists.ts";
import type { Contract, Id, Plan } from "../../plan/plan.ts";
import { dateText, dayNumber, type Instant, instant } from "../../time/index.ts";
import { isCarried, isDuty, type LogSpan, mealsOf } from "../count/spans.ts";
import { assess, type PersonHoursResult } from "../index.ts";
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
  readonly result: PersonHoursResult;
}

/** What counts as a missed meal, and in which stretch. */
interface Meals {
  readonly since: Instant;
  /** Left out where the record ends with it. */
  readonly until?: Instant;
  readonly rules: readonly PayRule[];
}

/**
 * Meals due and not had by each limit that says how often people eat, the most of them: one when the time is up, another
 * each time it is up again, or as many as the law pays for in a day. Null where no limit says when a meal is due.
 */
export function mealsMissed({ verdicts }: PersonHours, { since, until, rules }: Meals): number | null {
  const counts = verdicts.flatMap(({ rules: set, breaches }) =>
    set.limits.flatMap((limit): readonly number[] => {
      if (limit.kind !== "max" || limit.meal !== true) return [];
      const missed = breaches
        .filter((one) => one.limit.id === limit.id && one.to > since && (until === undefined || one.from < until))
        .reduce((count, { from, to }) => count + Math.ceil((to - from) / limit.allows), 0);
      const most = rules.find(({ id }) => id === set.id)?.mealsPaidADay ?? null;
      return [most === null ? missed : Math.min(most, missed)];
    }),
  );
  return mostOf(counts);
}

/** What meals that are too short to be one make of a card. */
interface ShortMeals {
  /** Worked. */
  readonly workedMinutes: number;
  /** Not worked unless a question is answered otherwise. */
  readonly asked: number;
}

/** The meals of a day that are shorter than the rules take for granted. */
export function shortMeals(
  spans: readonly Pick<LogSpan, "from" | "to" | "is">[],
  rules: readonly PayRule[],
): ShortMeals {
  const worked = Math.max(0, ...rules.flatMap(({ mealWorkedUnder }) => mealWorkedUnder ?? []));
  const asked = Math.max(0, ...rules.flatMap(({ mealAskedUnder }) => mealAskedUnder ?? []));
  const lengths = mealsOf(spans).map(({ from, to }) => to - from);
  return {
    workedMinutes: sumOf(lengths, (length) => (length < worked ? length : 0)),
    asked: lengths.filter((length) => length >= worked && length < asked).length,
  };
}

function shortTurnaround({ plan, result }: Lived, contract: Contract | null): number {
  const rest = result.hours.restBeforeMinutes;
  return rest === null ? 0 : Math.max(0, (contract?.turnaroundMinutes ?? plan.rules.turnaround) - rest);
}

/** Whether work of a day that began on one date ends on another, on the plan's clock. */
function goesOverMidnight(spans: readonly LogSpan[], { plan }: Lived): boolean {
  const work = spans.filter((span) => isDuty(span));
  const [first, last] = [work[0], work.at(-1)];
  if (first === undefined || last === undefined) return false;
  return dateText(first.from, plan.zone) !== dateText(instant(last.to - 1), plan.zone);
}

function personCard(id: Id, lived: readonly Lived[]): Timecard {
  const last = lived.at(-1);
  const contract = last === undefined ? null : contractOf(last.plan, id);
  const rules = payRulesOf(contract);
  const days = lived.map((one): CardDay => {
    const own = one.result.ledger.spans.filter(({ to }) => to > one.result.since);
    const { dutyMinutes, drivingMinutes, restBeforeMinutes } = one.result.hours;
    const short = shortMeals(own, rules);
    return {
      date: one.date,
      day: one.day,
      workedMinutes: dutyMinutes + short.workedMinutes,
      drivingMinutes,
      ridingMinutes: sumOf(own.filter(isCarried), ({ from, to }) => to - from),
      restBeforeMinutes,
      mealsAsked: short.asked,
      mealsMissed: mealsMissed(one.result.hours, { since: one.result.since, rules }),
      overMidnight: goesOverMidnight(own, one),
      shortTurnaroundMinutes: shortTurnaround(one, contract),
    };
  });
  return cardOf(id, contract, rules, days);
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
