/** The judge of relief: every rule set that would bind a person who drives so, over the chain of days. */
import type { Day } from "../../day/day.ts";
import { calendarsOf } from "../../hours/count/calendar.ts";
import { judgeReadings, minutesOver } from "../../hours/count/pairing.ts";
import { bindingsOf } from "../../hours/judge/applicableRules.ts";
import type { Verdict } from "../../hours/judge/judge.ts";
import { ledgerOf } from "../../hours/judge/ledger.ts";
import type { RuleSet } from "../../hours/rules/rule.ts";
import type { HoursJudge } from "./propose.ts";
import { personVerdict } from "./verdict.ts";

/** Judges people of the last of `days` as `hours` does: breaches since their last release, and what every limit leaves. */
export function hoursJudge(days: readonly Day[]): HoursJudge {
  const before = days.slice(0, -1);
  const zone = days.at(-1)?.plan.zone;
  const calendars = zone === undefined ? null : calendarsOf(zone);
  return (day, who) => {
    if (calendars === null) throw new RangeError("no day to judge");
    const person = day.people.find(({ id }) => id === who);
    const { recordIn } = ledgerOf([...before, day], who);
    const judged = (rules: RuleSet): Verdict => {
      const calendar = calendars(rules.dayStarts);
      return judgeReadings(recordIn(calendar), rules, calendar).strictest;
    };
    const verdicts = bindingsOf(day, who).map(({ rules, variants = [] }) =>
      variants
        .map((variant) => judged(variant.rules))
        .reduce((a, b) => (minutesOver(b) > minutesOver(a) ? b : a), judged(rules)),
    );
    return personVerdict(who, verdicts, person?.previousRelease ?? person?.call ?? day.span.from);
  };
}
