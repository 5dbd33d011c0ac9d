/** Judges a log file: everyone in it under the rule sets that it names, up to a moment inside it. */

import type { Finding } from "../../findings/finding.ts";
import { houseDefaults } from "../../plan/houseRules.ts";
import type { HoursLog, LogPerson } from "../../plan/log/log.ts";
import { type Instant, instant } from "../../time/units.ts";
import { calendarsOf } from "../count/calendar.ts";
import type { Calendar, HoursRecord } from "../count/spans.ts";
import { momentOutside } from "../findings.ts";
import { ruleSet } from "../rules/index.ts";
import { NO_OPTIONS } from "../rules/options.ts";
import type { ApplicableRules } from "./applicableRules.ts";
import { type PersonHours, personHours } from "./person.ts";

/** A person's record. Totals from before it are laid on the day before it begins, where they count longest. */
export function recordOf(person: LogPerson, calendar: Calendar): HoursRecord {
  const first = person.spans[0];
  const day = first === undefined ? 0 : calendar.dayOf(instant((person.releasedAt ?? first.from) - 1));
  const before =
    person.dutyMinutesBefore === null ? [] : [{ day, dutyMinutes: person.dutyMinutesBefore, drivingMinutes: 0 }];
  return { spans: person.spans.map((span) => ({ ...span, pause: false })), before };
}

/** Everyone's hours at `at`, or at the end of each one's log. */
export function logHours(log: HoursLog, at: Instant | null): readonly PersonHours[] {
  const options = { ...NO_OPTIONS, ...log.options };
  const calendars = calendarsOf(log.zone);
  const bindings = log.rules.map(
    (name): ApplicableRules => ({ rules: ruleSet(name, options, houseDefaults()), because: "named in the log" }),
  );
  return log.people.map((person) =>
    personHours({
      id: person.id,
      recordIn: (calendar) => recordOf(person, calendar),
      bindings,
      calendars,
      drives: true,
      released: false,
      ...(at === null ? {} : { at }),
    }),
  );
}

/** What to tell where nothing of a person's log lies before `at`, or it ends earlier; nothing where `at` is inside. */
export function momentOutsideOf({ id, path, spans }: LogPerson, at: Instant | null): readonly Finding[] {
  const from = spans[0]?.from;
  const to = spans.at(-1)?.to;
  if (at === null || from === undefined || to === undefined || (at > from && at <= to)) return [];
  const facts = { who: id, asked: { at }, from: { at: from }, to: { at: to }, before: at <= from };
  return [momentOutside.raise(facts, { who: id, path })];
}
