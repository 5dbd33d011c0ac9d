/** Vehicles of one rule set that state different things, today or along the chain: how the day is counted is said, and asked. */
import type { Day } from "../../day/day.ts";
import type { Finding, Source } from "../../findings/finding.ts";
import type { Vehicle } from "../../plan/plan.ts";
import { two } from "../../time/civil.ts";
import { driven, optionsOf } from "../judge/applicableRules.ts";
import type { PersonHours } from "../judge/person.ts";
import { declarationOf } from "../rules/index.ts";
import { drivenVehicles } from "./dayQuestions.ts";
import { hoursReview, lawOpen } from "./findingsQuestions.ts";

/** A carrier names one hour for a driver's days. */
const CARRIERS_DAY: Source = { title: "the carrier's day", clause: "SOR/2005-313 s.1; 49 CFR 395.8" };

/** `06:00`. */
function startOf(vehicle: Vehicle): string {
  const { dayStarts } = optionsOf(vehicle);
  return `${two(Math.floor(dayStarts / 60))}:${two(dayStarts % 60)}`;
}

/** Whether rules count in the carrier's days at all. */
const inCarriersDays = ({ rules }: Vehicle): boolean => rules.some((name) => declarationOf(name).carriersDays);

/** Another hour on an earlier day of the chain. */
function moved(days: readonly Day[], vehicle: Vehicle): readonly Finding[] {
  for (const { plan } of days) {
    const then = plan.vehicles.get(vehicle.id);
    if (then === undefined || startOf(then) === startOf(vehicle)) continue;
    const question = `in the plan of ${plan.date} the days of ${vehicle.id} begin at ${startOf(then)}, in this one at ${startOf(vehicle)}: which hour does the carrier name? All are cut at the latter`;
    const facts = { who: vehicle.id, question, from: null, to: null };
    return [lawOpen.raise(facts, { path: vehicle.path, source: CARRIERS_DAY })];
  }
  return [];
}

/** One person's vehicles under one rule set. */
function mixed(day: Day, { id, bindings }: PersonHours): readonly Finding[] {
  const ask = (vehicle: Vehicle, question: string, source: Source): Finding =>
    hoursReview.raise(
      { who: id, question, limit: null, from: null, to: null },
      { who: id, path: vehicle.path, source },
    );
  return bindings.flatMap(({ rules, variants = [], dropped = [], forNextDrive = false }) => {
    if (forNextDrive) return [];
    const vehicles = driven(day, id).filter((vehicle) => vehicle.rules.some((name) => name === rules.id));
    const [first] = vehicles;
    const team = vehicles.find(({ drivers }) => drivers === 2);
    const single = vehicles.find(({ drivers }) => drivers !== 2);
    const teamRule = team?.rules.map(declarationOf).find((declared) => declared.title === rules.title)?.team ?? null;
    const found: Finding[] = [];
    if (first !== undefined && variants.some((variant) => variant.rules.dayStarts !== rules.dayStarts)) {
      const starts = vehicles.map((vehicle) => `for ${vehicle.id} at ${startOf(vehicle)}`).join(", ");
      const question = `days under ${rules.id} begin ${starts}: which hour does the carrier name for this driver? The stricter is counted`;
      found.push(ask(first, question, CARRIERS_DAY));
    }
    if (team !== undefined && single !== undefined && teamRule !== null) {
      const question = `${team.id} is claimed for two drivers, ${single.id} under the same rules is not: was the second driver there throughout? Counted as one driver`;
      found.push(ask(team, question, { title: rules.title, clause: teamRule.together }));
    }
    for (const { claim, by, notBy } of dropped) {
      const vehicle = vehicles.find((one) => one.id === by);
      const question = `${claim} is claimed for ${by} and not for ${notBy}, driven on the same day under the same rules: it is not counted. Does it hold for the whole day?`;
      if (vehicle !== undefined) found.push(ask(vehicle, question, { title: rules.title, clause: null }));
    }
    return found;
  });
}

/** Questions about the vehicle: weight, seats, what it is used for. */
export const vehicleQuestions = (
  days: readonly Day[],
  day: Day,
  people: readonly PersonHours[],
): readonly Finding[] => [
  ...drivenVehicles(day).flatMap((vehicle) => (inCarriersDays(vehicle) ? moved(days, vehicle) : [])),
  ...people.flatMap((person) => mixed(day, person)),
];
