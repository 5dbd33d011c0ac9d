/** Which rules bind whom on a day, and why: the house rules everyone, a vehicle's whoever drives it. */
import type { Day } from "../../day/day.ts";
import type { Id, Plan, Vehicle } from "../../plan/plan.ts";
import { houseRules } from "../rules/house.ts";
import { ruleSet } from "../rules/index.ts";
import { NO_OPTIONS, type RuleOptions } from "../rules/options.ts";
import type { Binding } from "./person.ts";

/** The options that a vehicle states for its rules. */
export function optionsOf({ week, claims, drivers, dayStarts }: Vehicle): RuleOptions {
  const claimed = (name: string): boolean => claims.includes(name);
  return {
    ...NO_OPTIONS,
    week: week === "60/7" ? "60/7" : "70/8",
    cycle: week === "cycle 2" ? 2 : 1,
    adverse: claimed("adverse"),
    shortHaul: claimed("shortHaul"),
    nonCdlShortHaul: claimed("nonCdlShortHaul"),
    sixteenHour: claimed("sixteenHour"),
    deferral: claimed("deferral"),
    homeHour: claimed("homeHour"),
    homeTwoHours: claimed("homeTwoHours"),
    stoppingPlace: claimed("stoppingPlace"),
    ...(drivers === null ? {} : { drivers }),
    ...(dayStarts === null ? {} : { dayStarts }),
  };
}

/** The vehicles that someone is at the wheel of, in plan order. */
export function driven(day: Day, person: Id): readonly Vehicle[] {
  const at = new Set(
    day.moves.filter(({ wheel }) => wheel.some(({ driver }) => driver === person)).map(({ vehicle }) => vehicle),
  );
  return [...day.plan.vehicles.values()].filter(({ id }) => at.has(id));
}

const why = ({ id, commercialBecause }: Vehicle): string =>
  commercialBecause === null ? `drives ${id}, which states them` : `drives ${id} (${commercialBecause})`;

/**
 * One binding a rule set. Someone who drives several vehicles under it shares the wheel only where each is claimed for
 * two, since the second has to be there throughout (561/2006 Art 4(o)); days that begin at different hours are all kept.
 */
function bindingOf(name: string, vehicles: readonly Vehicle[], plan: Plan): readonly Binding[] {
  const [first] = vehicles;
  if (first === undefined) return [];
  const drivers = vehicles.every((vehicle) => optionsOf(vehicle).drivers === 2) ? 2 : 1;
  const made = vehicles.flatMap((vehicle) => {
    const { dayStarts } = optionsOf(vehicle);
    return ruleSet(name, { ...optionsOf(first), drivers, dayStarts }, plan.rules) ?? [];
  });
  const [rules, ...others] = [...new Map(made.map((one) => [one.dayStarts, one])).values()];
  return rules === undefined ? [] : [{ rules, because: why(first), otherDays: others }];
}

function ofVehicles(vehicles: readonly Vehicle[], plan: Plan): readonly Binding[] {
  const names = new Set(vehicles.flatMap(({ rules }) => rules));
  return [...names].flatMap((name) =>
    bindingOf(
      name,
      vehicles.filter(({ rules }) => rules.includes(name)),
      plan,
    ),
  );
}

/** Labour law that a contract names and that limits a day. */
function ofContract(plan: Plan, person: Id): readonly Binding[] {
  const contract = plan.contracts.get(plan.crew.get(person)?.contract ?? "");
  return (contract?.rules ?? []).flatMap((name) => {
    const rules = ruleSet(name, NO_OPTIONS, plan.rules);
    return rules === null || rules.limits.length === 0 ? [] : [{ rules, because: `contract ${contract?.id ?? ""}` }];
  });
}

/** The rule sets that bind someone on a day: law first, in the order in which vehicles and contract name them, then the house. */
export function bindingsOf(day: Day, person: Id): readonly Binding[] {
  const { plan } = day;
  const law = [...ofVehicles(driven(day, person), plan), ...ofContract(plan, person)];
  return [...law, { rules: houseRules(plan.rules), because: "binds everyone in the plan" }];
}
