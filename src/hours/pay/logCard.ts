/** A log as time cards: the shifts that begin on one date are that day's work. */
import type { HoursLog, LogPerson } from "../../plan/log/log.ts";
import { dateText } from "../../time/index.ts";
import { type Instant, type Interval, overlap } from "../../time/units.ts";
import { calendarsOf } from "../calendar.ts";
import { logHours } from "../logHours.ts";
import type { PersonHours } from "../person.ts";
import { HOUSE_DEFAULTS, PARTING } from "../rules/house.ts";
import { type CardDay, cardOf, sumKnown, type Timecard } from "./card.ts";
import { mealsMissed, PAY_LAWS } from "./timecard.ts";

type Span = LogPerson["spans"][number];

const isRest = ({ is }: Span): boolean => is === "off" || is === "berth";
const isDuty = ({ is }: Span): boolean => ["duty", "driving", "riding", "standby"].includes(is);

interface Shift extends Interval {
  /** Null where the log does not reach back to the start of that rest. */
  readonly restBefore: number | null;
}

/** Stretches with work in them, parted by rests of at least `PARTING`. */
function shiftsOf({ spans, releasedAt }: LogPerson): readonly Shift[] {
  const shifts: { from: Instant; to: Instant; restBefore: number | null }[] = [];
  let end: Instant | null = releasedAt;
  for (const span of spans.filter((one) => !isRest(one))) {
    const last = shifts.at(-1);
    if (last !== undefined && span.from - last.to < PARTING) last.to = span.to;
    else shifts.push({ from: span.from, to: span.to, restBefore: end === null ? null : span.from - end });
    end = span.to;
  }
  return shifts.filter((shift) => spans.some((span) => isDuty(span) && overlap(span, shift) > 0));
}

/** What began on one date, as one day. */
function dayOf(log: HoursLog, person: LogPerson, hours: PersonHours | undefined, shifts: readonly Shift[]): CardDay[] {
  const [first] = shifts;
  if (first === undefined) return [];
  const minutes = (counts: (span: Span) => boolean): number =>
    shifts.reduce(
      (sum, shift) => sum + person.spans.reduce((own, span) => own + (counts(span) ? overlap(span, shift) : 0), 0),
      0,
    );
  const house = hours !== undefined && log.rules.includes("house") ? hours : null;
  const short = ({ restBefore }: Shift): number | null =>
    house === null || restBefore === null ? null : Math.max(0, HOUSE_DEFAULTS.turnaround - restBefore);
  const missed = ({ from, to }: Shift): number | null =>
    house === null ? null : mealsMissed(house, from, HOUSE_DEFAULTS.mealEvery, to);
  return [
    {
      date: dateText(first.from, log.zone),
      day: calendarsOf(log.zone)(0).dayOf(first.from),
      workedMinutes: minutes(isDuty),
      drivingMinutes: minutes(({ is }) => is === "driving"),
      ridingMinutes: minutes(({ is }) => is === "riding"),
      restBeforeMinutes: first.restBefore,
      mealsMissed: sumKnown(shifts.map(missed)),
      shortTurnaroundMinutes: sumKnown(shifts.map(short)),
    },
  ];
}

/** The days of a person's log on which work began, in order. */
function daysOf(log: HoursLog, person: LogPerson, hours: PersonHours | undefined): readonly CardDay[] {
  const shifts = shiftsOf(person);
  const dateOf = ({ from }: Shift): string => dateText(from, log.zone);
  const dates = [...new Set(shifts.map(dateOf))];
  return dates.flatMap((date) =>
    dayOf(
      log,
      person,
      hours,
      shifts.filter((shift) => dateOf(shift) === date),
    ),
  );
}

/** Everyone's card under the pay rules that the log names; straight time where it names none. */
export function logCards(log: HoursLog): readonly Timecard[] {
  const hours = logHours(log, null);
  const rules = log.rules.flatMap((name) => PAY_LAWS.get(name) ?? []);
  return log.people.map((person) =>
    cardOf(
      person.id,
      null,
      rules,
      daysOf(
        log,
        person,
        hours.find(({ id }) => id === person.id),
      ),
    ),
  );
}
