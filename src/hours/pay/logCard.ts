/** A log as time cards: the shifts that begin on one date are that day's work. */
import { groupBy, type Some, sumOf } from "../../lists.ts";
import { houseDefaults } from "../../plan/houseRules.ts";
import type { HoursLog, LogPerson } from "../../plan/log/log.ts";
import { dateText, type ZoneId } from "../../time/index.ts";
import { type Instant, type Interval, instant, overlap } from "../../time/units.ts";
import { calendarsOf } from "../count/calendar.ts";
import { type Calendar, isCarried, isDuty, isRest, type LogSpan } from "../count/spans.ts";
import { logHours, recordOf } from "../judge/logHours.ts";
import type { PersonHours } from "../judge/person.ts";
import { payRuleOf } from "../rules/index.ts";
import type { PayRule } from "../rules/payRule.ts";
import { HOUSE_PARTING } from "../rules/sets/house.ts";
import { type CardDay, cardOf, sumKnown, type Timecard } from "./card.ts";
import { mealsMissed, shortMeals } from "./timecard.ts";

interface Shift extends Interval {
  /** Null where the log does not reach back to the start of that rest. */
  readonly restBefore: number | null;
}

/** Stretches with work in them, parted by rests of at least `PARTING`. */
function shiftsOf(spans: readonly LogSpan[], releasedAt: Instant | null): readonly Shift[] {
  const shifts: { from: Instant; to: Instant; restBefore: number | null }[] = [];
  let end = releasedAt;
  for (const span of spans.filter((one) => !isRest(one))) {
    const last = shifts.at(-1);
    if (last !== undefined && span.from - last.to < HOUSE_PARTING) last.to = span.to;
    else shifts.push({ from: span.from, to: span.to, restBefore: end === null ? null : span.from - end });
    end = span.to;
  }
  return shifts.filter((shift) => spans.some((span) => isDuty(span) && overlap(span, shift) > 0));
}

/** What a log's days are paid by. */
interface CardContext {
  readonly calendar: Calendar;
  readonly zone: ZoneId;
  readonly hours: PersonHours | null;
  readonly rules: readonly PayRule[];
  /** Null where the log does not name the house rules. */
  readonly askedTurnaround: number | null;
}

/** No more missed meals in a day than the law pays for. */
function atMost(missed: number | null, rules: readonly PayRule[]): number | null {
  const most = rules.flatMap(({ mealsPaidADay }) => mealsPaidADay ?? []);
  return missed === null || most.length < rules.length || most.length === 0 ? missed : Math.min(missed, ...most);
}

/** What began on one date, as one day. */
function dayOf(
  date: string,
  shifts: Some<Shift>,
  spans: readonly LogSpan[],
  { calendar, zone, hours, rules, askedTurnaround }: CardContext,
): CardDay {
  const [first] = shifts;
  const minutes = (counts: (span: LogSpan) => boolean): number =>
    sumOf(spans.filter(counts), (span) => sumOf(shifts, (shift) => overlap(span, shift)));
  const short = ({ restBefore }: Shift): number | null =>
    askedTurnaround === null || restBefore === null ? null : Math.max(0, houseDefaults().turnaround - restBefore);
  const missed = ({ from, to }: Shift): number | null =>
    hours === null ? null : mealsMissed(hours, { since: from, until: to, rules });
  const missedMeals = shifts.map(missed);
  const inShifts = spans.filter((span) => shifts.some((shift) => overlap(span, shift) > 0));
  const meals = shortMeals(inShifts, rules);
  return {
    date,
    day: calendar.dayOf(first.from),
    workedMinutes: minutes(isDuty) + meals.workedMinutes,
    drivingMinutes: minutes(({ is }) => is === "driving"),
    ridingMinutes: minutes(isCarried),
    restBeforeMinutes: first.restBefore,
    mealsAsked: meals.asked,
    mealsMissed: atMost(sumKnown(missedMeals), rules),
    overMidnight: shifts.some(({ from, to }) => dateText(from, zone) !== dateText(instant(to - 1), zone)),
    shortTurnaroundMinutes: sumKnown(shifts.map(short)),
  };
}

/** Everyone's card under the pay rules that the log names; straight time where it names none. */
export function logCards(log: HoursLog): readonly Timecard[] {
  const hours = new Map(logHours(log, null).map((one) => [one.id, one]));
  const rules = log.rules.flatMap((name) => payRuleOf(name) ?? []);
  const calendar = calendarsOf(log.zone)(0);
  const cardFor = (person: LogPerson): Timecard => {
    const own = hours.get(person.id) ?? null;
    const turnarounds = own?.bindings.flatMap(({ rules: { limits } }) =>
      limits.flatMap((limit) => (limit.kind === "rest" && limit.planKey === "turnaround" ? [limit.requires] : [])),
    );
    const context = {
      calendar,
      zone: log.zone,
      hours: own,
      rules,
      askedTurnaround: turnarounds?.[0] ?? null,
    };
    const { spans } = recordOf(person, calendar);
    const byDate = groupBy(shiftsOf(spans, person.releasedAt), ({ from }) => dateText(from, log.zone));
    const days = [...byDate].map(([date, shifts]) => dayOf(date, shifts, spans, context));
    return cardOf(person.id, null, rules, days);
  };
  return log.people.map(cardFor);
}
