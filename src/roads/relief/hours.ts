/** The judge of relief: every rule set that would bind a person who drives so, over the chain of days. */
import type { Day } from "../../day/day.ts";
import { calendarsOf } from "../../hours/count/calendar.ts";
import { judgeReadings, minutesOver } from "../../hours/count/pairing.ts";
import { bindingsOf } from "../../hours/judge/applicableRules.ts";
import type { Verdict } from "../../hours/judge/judge.ts";
import { ledgerOf } from "../../hours/judge/ledger.ts";
import type { RuleSet } from "../../hours/rules/rule.ts";
import { leastOf } from "../../lists.ts";
import type { Id } from "../../plan/plan.ts";
import { type Instant, instant } from "../../time/units.ts";
import type { HoursJudge } from "./propose.ts";
import { breachTotal, leastLeft, longestSleep, personVerdict } from "./verdict.ts";

/** The person's day up to an instant: what was left of every limit then. */
function until(day: Day, who: Id, at: Instant): Day {
  const people = day.people.map((person) => {
    if (person.id !== who) return person;
    const spans = person.spans.flatMap((span) =>
      span.from >= at ? [] : [{ ...span, to: instant(Math.min(span.to, at)) }],
    );
    return { ...person, spans, release: at };
  });
  return { ...day, people };
}

/** Judges people of the last of `days` as `hours` does: breaches since their last release, sleep, and what limits leave. */
export function hoursJudge(days: readonly Day[]): HoursJudge {
  const before = days.slice(0, -1);
  const zone = days.at(-1)?.plan.zone;
  const calendars = zone === undefined ? null : calendarsOf(zone);
  const verdictsOf = (day: Day, who: Id): readonly Verdict[] => {
    if (calendars === null) throw new RangeError("no day to judge");
    const { recordIn } = ledgerOf([...before, day], who);
    const judged = (rules: RuleSet): Verdict => {
      const calendar = calendars(rules.dayStarts);
      return judgeReadings(recordIn(calendar), rules, calendar).strictest;
    };
    return bindingsOf(day, who).map(({ rules, variants = [] }) =>
      variants
        .map((variant) => judged(variant.rules))
        .reduce((a, b) => (minutesOver(b) > minutesOver(a) ? b : a), judged(rules)),
    );
  };
  return {
    judge(day, who) {
      const person = day.people.find(({ id }) => id === who);
      const since = person?.previousRelease ?? person?.call ?? day.span.from;
      return personVerdict(breachTotal(who, verdictsOf(day, who), since), longestSleep(person?.spans ?? []));
    },
    leastLeft(day, who) {
      const wheel = day.people.find(({ id }) => id === who)?.spans.filter(({ is }) => is === "driving") ?? [];
      return leastOf(wheel.flatMap(({ to }) => leastLeft(verdictsOf(until(day, who, to), who)) ?? []));
    },
  };
}
