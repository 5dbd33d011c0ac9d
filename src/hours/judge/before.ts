/** What is said of someone whose rest before the day is not stated, or stated so that it cannot be. */
import type { Day, PersonDay } from "../../day/day.ts";
import type { Finding, PlanPath } from "../../findings/finding.ts";
import {
  dateOfDay,
  type Instant,
  isoLocal,
  localDay,
  startOnClock,
  wallMinute,
  type ZoneId,
} from "../../time/index.ts";
import { releaseAfterCall, restNotStated } from "../findings.ts";
import type { PersonHours } from "./person.ts";

/** The clock of the bed that someone leaves. */
const bedZone = ({ plan }: Day, { slept }: PersonDay): ZoneId => plan.places.get(slept ?? "")?.zone ?? plan.zone;

/** The hour is left open: a time that no one stated would be taken for one that somebody did. */
export function eveningBefore(day: Day, person: PersonDay, call: Instant): string {
  const zone = bedZone(day, person);
  const evening = startOnClock(dateOfDay(localDay(call, zone) - 1), 20 * 60, zone);
  return isoLocal(evening, zone).replace("T20:00", "THH:MM");
}

/** The same hour on the clock, on the last day that lies before the call. */
function sameHourBefore(released: Instant, call: Instant, zone: ZoneId): string {
  const minute = wallMinute(released, zone);
  const sameDay = startOnClock(dateOfDay(localDay(call, zone)), minute, zone);
  const before = sameDay < call ? sameDay : startOnClock(dateOfDay(localDay(call, zone) - 1), minute, zone);
  return isoLocal(before, zone);
}

/** Raises where the release lies after the call; where none is stated, what the house asks for, unless law has `told` it. */
export function restUnknown(
  day: Day,
  person: PersonDay,
  hours: PersonHours,
  raised: readonly Finding[],
): Finding | null {
  const { id: who, call, lateRelease, previousRelease } = person;
  const crewPath = day.plan.crew.get(who)?.path ?? ["crew", who];
  if (call === null) return null;
  if (lateRelease !== null) {
    const stated = day.plan.history.get(who);
    const before = sameHourBefore(lateRelease, call, bedZone(day, person));
    const facts = { who, released: { at: lateRelease }, call: { at: call }, before, follows: stated === undefined };
    const path: PlanPath = stated?.released === lateRelease ? [...stated.path, "released"] : (stated?.path ?? crewPath);
    // A rest that law asks for is then not shown to be kept, which no one may accept.
    const law = hours.bindings.some(({ rules }) => rules.legallyBinding);
    return releaseAfterCall.raise(facts, { who, path, legalRules: law, at: call });
  }
  if (previousRelease !== null || raised.some(({ code }) => code === "rest-not-stated")) return null;
  const facts = {
    who,
    rule: houseRest(hours),
    needed: day.plan.rules.turnaround,
    evening: eveningBefore(day, person, call),
    missing: [],
  };
  return restNotStated.raise(facts, { who, path: crewPath, at: call });
}

/** The house's rest in its own words. */
const houseRest = ({ verdicts }: PersonHours): string =>
  verdicts.flatMap(({ rules }) => rules.limits).find(({ planKey }) => planKey === "turnaround")?.title ?? "turnaround";
