/** Which rules bind whom on a day, and why: the house rules everyone, a vehicle's whoever drives it, labour law by contract. */

import type { Day } from "../../day/day.ts";
import { wordList } from "../../findings/figures.ts";
import type { Id, Plan, Vehicle } from "../../plan/plan.ts";
import { houseSet, type RuleSetId, ruleSet } from "../rules/index.ts";
import { NO_OPTIONS, type RuleOptions } from "../rules/options.ts";
import type { RuleSet } from "../rules/rule.ts";

/** The same rules as one or several vehicles state them. */
export interface StatedVariant {
  readonly rules: RuleSet;
  readonly vehicles: readonly Id[];
}

/** An exception that one vehicle claims and another, driven on the same day under the same rules, does not. */
export interface DroppedClaim {
  readonly claim: string;
  readonly by: Id;
  readonly notBy: Id;
}

/** A rule set and why it binds the person. */
export interface ApplicableRules {
  readonly rules: RuleSet;
  readonly because: string;
  /** The same rules with the week or the days of other vehicles: each is judged, and the strictest reading is shown. */
  readonly variants?: readonly StatedVariant[];
  readonly dropped?: readonly DroppedClaim[];
  /** Nothing is driven under it today: it is shown for the next drive, and nothing is found by it. */
  readonly forNextDrive?: boolean;
}

/** The options that a vehicle states for its rules. */
export const optionsOf = ({ week, claims, drivers, dayStarts }: Vehicle): RuleOptions => ({
  weeks: week === null ? [] : [week],
  claims,
  drivers: drivers ?? NO_OPTIONS.drivers,
  dayStarts: dayStarts ?? NO_OPTIONS.dayStarts,
});

/** The vehicles that someone is at the wheel of, in the order in which they first drive them. */
export function driven(day: Day, person: Id): readonly Vehicle[] {
  const first = new Map<Id, number>();
  for (const { vehicle, wheel } of day.moves) {
    for (const { driver, from } of wheel) {
      if (driver === person) first.set(vehicle, Math.min(first.get(vehicle) ?? from, from));
    }
  }
  const order = [...first].sort(([a, from], [b, then]) => from - then || (a < b ? -1 : 1));
  return order.flatMap(([id]) => day.plan.vehicles.get(id) ?? []);
}

function why(vehicles: readonly Vehicle[]): string {
  const [first] = vehicles;
  const because = vehicles.length === 1 ? (first?.commercialBecause ?? null) : null;
  const names = wordList(
    vehicles.map(({ id }) => id),
    "and",
  );
  return because === null
    ? `drives ${names}, which state${vehicles.length === 1 ? "s" : ""} them`
    : `drives ${names} (${because})`;
}

/** Claims that some of the vehicles make and others do not. */
const droppedOf = (vehicles: readonly Vehicle[], known: readonly string[]): readonly DroppedClaim[] =>
  known.flatMap((claim) => {
    const by = vehicles.find(({ claims }) => claims.includes(claim));
    const notBy = vehicles.find(({ claims }) => !claims.includes(claim));
    return by === undefined || notBy === undefined ? [] : [{ claim, by: by.id, notBy: notBy.id }];
  });

/** Where vehicles state different variants, the limits that differ name the vehicles they are stated for. */
function named(variants: readonly StatedVariant[]): readonly StatedVariant[] {
  if (variants.length < 2) return variants;
  return variants.map(({ rules, vehicles }) => {
    const differs = (id: string, title: string): boolean =>
      variants.some((other) => other.rules.limits.some((limit) => limit.id === id && limit.title !== title));
    const limits = rules.limits.map((limit) =>
      differs(limit.id, limit.title) ? { ...limit, title: `${limit.title} (${wordList(vehicles, "and")})` } : limit,
    );
    return { rules: { ...rules, limits }, vehicles };
  });
}

/**
 * One binding a rule set. A claim holds only where every vehicle driven under the set makes it, and two share the wheel
 * only where each vehicle is claimed for two, since the second has to be there throughout (561/2006 Art 4(o)). Weeks and
 * days that differ are each judged.
 */
function bindingOf(name: RuleSetId, vehicles: readonly Vehicle[], plan: Plan): ApplicableRules {
  const options = vehicles.map(optionsOf);
  const claims = (options[0]?.claims ?? []).filter((claim) => options.every((one) => one.claims.includes(claim)));
  const drivers = options.every((one) => one.drivers === 2) ? 2 : 1;
  const variants = new Map<string, { rules: RuleSet; vehicles: Id[] }>();
  for (const vehicle of vehicles) {
    const { weeks, dayStarts } = optionsOf(vehicle);
    const rules = ruleSet(name, { weeks, claims, drivers, dayStarts }, plan.rules);
    const key = `${rules.dayStarts} ${rules.limits.map(({ title }) => title).join("|")}`;
    const known = variants.get(key);
    if (known === undefined) variants.set(key, { rules, vehicles: [vehicle.id] });
    else known.vehicles.push(vehicle.id);
  }
  const [first, ...others] = named([...variants.values()]);
  const rules = first?.rules ?? ruleSet(name, NO_OPTIONS, plan.rules);
  const because = why(vehicles);
  const all = [...new Set(vehicles.flatMap((vehicle) => vehicle.claims))].sort();
  const dropped = droppedOf(vehicles, all);
  return { rules, because, variants: others, dropped };
}

function ofVehicles(vehicles: readonly Vehicle[], plan: Plan): readonly ApplicableRules[] {
  const names = [...new Set(vehicles.flatMap(({ rules }) => rules))];
  return names.map((name) =>
    bindingOf(
      name,
      vehicles.filter(({ rules }) => rules.includes(name)),
      plan,
    ),
  );
}

/** What binds someone without driving, and limits a day: by their own entry, then by their contract. */
function ofPerson(plan: Plan, person: Id): readonly ApplicableRules[] {
  const found = plan.crew.get(person);
  const contract = plan.contracts.get(found?.contract ?? "");
  const named = [
    ...(found?.rules ?? []).map((name) => ({ name, because: "stated for the person" })),
    ...(contract?.rules ?? []).map((name) => ({ name, because: `contract ${contract?.id ?? ""}` })),
  ];
  return named.flatMap(({ name, because }) => {
    const rules = ruleSet(name, NO_OPTIONS, plan.rules);
    return rules.limits.length === 0 ? [] : [{ rules, because }];
  });
}

/** Rules under which someone drove on an earlier day of the chain and does not today: the latest such day's. */
function forNextDrive(
  before: readonly Day[],
  person: Id,
  bound: readonly ApplicableRules[],
): readonly ApplicableRules[] {
  const found = new Map<string, ApplicableRules>();
  for (const day of before.toReversed()) {
    for (const binding of ofVehicles(driven(day, person), day.plan)) {
      const { id } = binding.rules;
      if (found.has(id) || bound.some(({ rules }) => rules.id === id)) continue;
      found.set(id, { ...binding, because: `drove on ${day.plan.date}; for the next drive`, forNextDrive: true });
    }
  }
  return [...found.values()];
}

/** One binding a set: the first reason holds. */
const once = (bindings: readonly ApplicableRules[]): readonly ApplicableRules[] =>
  bindings.filter(({ rules }, i) => bindings.findIndex((other) => other.rules.id === rules.id) === i);

/**
 * The rule sets that bind someone on a day: law first, in the order in which vehicles are driven and the contract names
 * them, then those of earlier days (`before`, oldest first) for the next drive, then the house.
 */
export function bindingsOf(day: Day, person: Id, before: readonly Day[] = []): readonly ApplicableRules[] {
  const { plan } = day;
  const law = once([...ofVehicles(driven(day, person), plan), ...ofPerson(plan, person)]);
  const house = { rules: houseSet(plan.rules), because: "binds everyone in the plan" };
  return [...law, ...forNextDrive(before, person, law), house];
}
