/** A log as time cards: the shifts that begin on one date are that day's work. */
import { groupBy, type Some, sumOf } from "../../lists.ts";
import { HOUSE_DEFAULTS } from "../../plan/houseRules.ts";
import type { HoursLog, LogPerson } from "../../plan/log/log.ts";
import { dateText } from "../../time/index.ts";
import { type Instant, type Interval, overlap } from "../../time/units.ts";
import { calendarsOf } from "../count/calendar.ts";
import type { Calendar, LogSpan } from "../count/spans.ts";
import { logHours, recordOf } from "../judge/logHours.ts";
import { isDuty, isRest, type PersonHours } from "../judge/person.ts";
import { PARTING } from "../rules/house.ts";
import { payRuleOf } from "../rules/index.ts";
import { type CardDay, cardOf, sumKnown, type Timecard } from "./card.ts";
import { mealsMissed } from "./timecard.ts";

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
    if (last !== undefined && span.from - last.to < PARTING) last.to = span.to;
    else shifts.push({ from: span.from, to: span.to, restBefore: end === null ? null : span.from - end });
    end = span.to;
  }
  return shifts.filter((shift) => spans.some((span) => isDuty(span) && overlap(span, shift) > 0));
}

/** What began on one date, as one day; `house` null where the log does not name the house rules. */
function dayOf(
  date: string,
  shifts: Some<Shift>,
  spans: readonly LogSpan[],
  calendar: Calendar,
  house: PersonHours | null,
): CardDay {
  const [first] = shifts;
  const minutes = (counts: (span: LogSpan) => boolean): number =>
    sumOf(spans.filter(counts), (span) => sumOf(shifts, (shift) => overlap(span, shift)));
  const short = ({ restBefore }: Shift): number | null =>
    house === null || restBefore === null ? null : Math.max(0, HOUSE_DEFAULTS.turnaround - restBefore);
  const missed = ({ from, to }: Shift): number | null =>
    house === null ? null : mealsMissed(house, from, HOUSE_DEFAULTS.mealEvery, to);
  return {
    date,
    day: calendar.dayOf(first.from),
    workedMinutes: minutes(isDuty),
    drivingMinutes: minutes(({ is }) => is === "driving"),
    ridingMinutes: minutes(({ is }) => is === "riding"),
    restBeforeMinutes: first.restBefore,
    mealsMissed: sumKnown(shifts.map(missed)),
    shortTurnaroundMinutes: sumKnown(shifts.map(short)),
  };
}

/** Everyone's card under the pay rules that the log names; straight time where it names none. */
export function logCards(log: HoursLog): readonly Timecard[] {
  const hours = new Map(logHours(log, null).map((one) => [one.id, one]));
  const rules = log.rules.flatMap((name) => payRuleOf(name) ?? []);
  const calendar = calendarsOf(log.zone)(0);
  const cardFor = (person: LogPerson): Timecard => {
    const own = hours.get(person.id);
    const house = own?.bindings.some(({ rules }) => !rules.legallyBinding) === true ? own : null;
    const { spans } = recordOf(person, calendar);
    const byDate = groupBy(shiftsOf(spans, person.releasedAt), ({ from }) => dateText(from, log.zone));
    const days = [...byDate].map(([date, shifts]) => dayOf(date, shifts, spans, calendar, house));
    return cardOf(person.id, null, rules, days);
  };
  return log.people.map(cardFor);
}
