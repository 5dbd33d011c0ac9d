/** The judge of relief: every rule set that would bind a person who drives so, over the chain of days. */
import type { Day } from "../../day/day.ts";
import { bindingsOf } from "../../hours/bind.ts";
import { calendarOf } from "../../hours/calendar.ts";
import { judge } from "../../hours/judge.ts";
import { ledgerOf } from "../../hours/ledger.ts";
import type { HoursJudge } from "./propose.ts";
import { personVerdict } from "./verdict.ts";

/** Judges people of the last of `days` as `hours` does: breaches since their last release, and what every limit leaves. */
export function hoursJudge(days: readonly Day[]): HoursJudge {
  const before = days.slice(0, -1);
  const zone = days.at(-1)?.plan.zone;
  const calendar = zone === undefined ? null : calendarOf(zone, 0);
  return (day, who) => {
    if (calendar === null) throw new RangeError("no day to judge");
    const person = day.people.find(({ id }) => id === who);
    const { record } = ledgerOf([...before, day], who, calendar);
    const verdicts = bindingsOf(day, who).map(({ rules }) => judge(record, rules, calendar));
    return personVerdict(who, verdicts, person?.previousRelease ?? person?.call ?? day.span.from);
  };
}
