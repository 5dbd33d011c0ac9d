/** Questions of law that a day's vehicles, places and contracts raise: one a day and cause, or one a person. */
import type { Day } from "../../day/day.ts";
import type { Finding } from "../../findings/finding.ts";
import type { Vehicle } from "../../plan/plan.ts";
import type { PersonHours } from "../judge/person.ts";
import { ALL_SETS, declarationOf, ruleSet } from "../rules/index.ts";
import { NO_OPTIONS } from "../rules/options.ts";
import type { AskedVehicle } from "../rules/rule.ts";
import { lawOpen } from "./findingsQuestions.ts";

/** The vehicles that anyone drives on the day, in the order of their first departures. */
export function drivenVehicles(day: Day): readonly Vehicle[] {
  const moves = day.moves.toSorted((a, b) => a.leave - b.leave || (a.vehicle < b.vehicle ? -1 : 1));
  const moved = [...new Set(moves.map(({ vehicle }) => vehicle))];
  return moved.flatMap((id) => day.plan.vehicles.get(id) ?? []);
}

/** One a question: the first vehicle that gives reason to ask it. */
function ofVehicles(day: Day): readonly Finding[] {
  const vehicles = drivenVehicles(day);
  const asked = new Set<string>();
  return ALL_SETS.flatMap((name) => {
    const { title, asks } = ruleSet(name, NO_OPTIONS, day.plan.rules);
    const reason = asks.vehicle;
    if (reason === undefined || asked.has(reason.question)) return [];
    const first = vehicles.find((one) => one.rules.includes(name) && reason.applies(askedOf(one)));
    if (first === undefined) return [];
    asked.add(reason.question);
    const facts = { who: first.id, question: reason.question, from: null, to: null };
    return [lawOpen.raise(facts, { path: first.path, source: { title, clause: reason.clause } })];
  });
}

/** The zones of the places where a vehicle stops. */
const zonesOf = ({ stops, plan }: Day, { id }: Vehicle): readonly string[] =>
  stops.flatMap(({ vehicle, place }) => (vehicle === id ? [plan.places.get(place)?.zone ?? plan.zone] : []));

/** Vehicles too light for a set at home that may be heavy enough abroad: one a set. */
function abroad(day: Day): readonly Finding[] {
  return ALL_SETS.flatMap((name) => {
    const { abroad: rule, threshold, title } = declarationOf(name);
    if (rule === undefined || threshold === null || day.plan.date < rule.from) return [];
    const first = drivenVehicles(day).find((vehicle) => {
      const { totalKg, rules } = askedOf(vehicle);
      const zones = new Set(zonesOf(day, vehicle).filter((zone) => zone.startsWith(rule.zones)));
      return totalKg > rule.overKg && totalKg < threshold.leastKg && !rules.includes(name) && zones.size > 1;
    });
    if (first === undefined) return [];
    const facts = { who: first.id, question: rule.question, from: null, to: null };
    return [lawOpen.raise(facts, { path: first.path, source: { title, clause: rule.clause } })];
  });
}

const askedOf = (vehicle: Vehicle): AskedVehicle => ({
  ...vehicle,
  totalKg: (vehicle.grossKg ?? 0) + (vehicle.towingKg ?? 0),
});

/** The days of a record are cut on the home terminal's clock (395.8); a chain whose days name another clock moves it. */
function movedTerminal(days: readonly Day[], day: Day, people: readonly PersonHours[]): readonly Finding[] {
  const other = days.find(({ plan }) => plan.zone !== day.plan.zone);
  const bound = people.find(({ bindings }) => bindings.some(({ rules }) => rules.legallyBinding));
  if (other === undefined || bound === undefined) return [];
  const question = `the plan of ${other.plan.date} is on the clock of ${other.plan.zone}, this one on ${day.plan.zone}: has the home terminal moved? Days are cut on the latter`;
  const facts = { who: bound.id, question, from: null, to: null };
  return [
    lawOpen.raise(facts, {
      who: bound.id,
      path: ["zone"],
      source: { title: "49 CFR Part 395", clause: "49 CFR 395.8(f)" },
    }),
  ];
}

/** A rest shorter than a contract's turnaround: what it costs, and where it is measured, the contract says. */
function shortTurnaround(day: Day, { id, restBeforeMinutes }: PersonHours): readonly Finding[] {
  const contract = day.plan.contracts.get(day.plan.crew.get(id)?.contract ?? "");
  const asked = contract?.turnaroundMinutes ?? null;
  if (contract === undefined || asked === null || restBeforeMinutes === null || restBeforeMinutes >= asked) return [];
  const question = `the rest is ${asked - restBeforeMinutes} min short of the turnaround in ${contract.id}: is that from wrap to call or from door to door, and what does a forced call cost?`;
  const facts = { who: id, question, from: null, to: null };
  return [lawOpen.raise(facts, { who: id, path: contract.path, source: { title: "contract", clause: contract.id } })];
}

/** Everything that a day itself gives reason to ask, besides its people's records. */
export const dayQuestions = (days: readonly Day[], day: Day, people: readonly PersonHours[]): readonly Finding[] => [
  ...ofVehicles(day),
  ...abroad(day),
  ...movedTerminal(days, day, people),
  ...people.flatMap((person) => shortTurnaround(day, person)),
];
