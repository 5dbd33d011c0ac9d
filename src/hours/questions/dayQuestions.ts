/** Questions of law that a day's vehicles, places and contracts raise: one a day and cause, or one a person. */
import type { Day } from "../../day/day.ts";
import type { Finding } from "../../findings/finding.ts";
import type { Vehicle } from "../../plan/plan.ts";
import { lawOpen } from "../findings.ts";
import type { PersonHours } from "../judge/person.ts";

/** A reason to ask that a vehicle is. */
interface Cause {
  readonly set: string;
  readonly clause: string;
  readonly title: string;
  readonly question: string;
  applies(vehicle: Vehicle): boolean;
}

/** GB: a broadcast vehicle is outside the duty limit up to this gross weight. */
const DEROGATION_KG = 3500;

const CAUSES: readonly Cause[] = [
  {
    set: "us-",
    title: "49 CFR Part 395",
    clause: "49 CFR 390.5T",
    question:
      "is the trip interstate? A feed or client in another state may make it so; if not, the state's own limits hold",
    applies: ({ commercial }) => commercial,
  },
  {
    set: "eu",
    title: "Regulation (EC) 561/2006",
    clause: "Reg 561/2006 Art 2, 13(1)(h)",
    question:
      "is this carriage of goods, and does the member state exempt broadcasting vehicles? National lists differ",
    applies: () => true,
  },
  {
    set: "gb-domestic",
    title: "GB domestic rules",
    clause: "Transport Act 1968 s.96 / GB domestic rules",
    question:
      "over 3.5 t the exemption of broadcasting from the duty limit is gone, and the limit is counted: is the plated weight right?",
    applies: ({ grossKg, towingKg }) => (grossKg ?? 0) + (towingKg ?? 0) > DEROGATION_KG,
  },
  {
    set: "ca-south",
    title: "SOR/2005-313",
    clause: "SOR/2005-313 s.1",
    question: "which hour does the carrier's day begin at? None is stated (`dayStarts`), and days are cut at midnight",
    applies: ({ dayStarts }) => dayStarts === null,
  },
];

const isNamed = (set: string, rules: string): boolean => (set.endsWith("-") ? rules.startsWith(set) : rules === set);

/** The vehicles that anyone drives on the day, in plan order. */
export function drivenVehicles(day: Day): readonly Vehicle[] {
  const moved = new Set(day.moves.map(({ vehicle }) => vehicle));
  return [...day.plan.vehicles.values()].filter(({ id }) => moved.has(id));
}

function ofVehicles(day: Day): readonly Finding[] {
  const vehicles = drivenVehicles(day);
  return CAUSES.flatMap(({ set, title, clause, question, applies }) => {
    const first = vehicles.find((one) => one.rules.some((rules) => isNamed(set, rules)) && applies(one));
    if (first === undefined) return [];
    const facts = { who: first.id, question, from: null, to: null };
    return [lawOpen.raise(facts, { path: first.path, source: { title, clause } })];
  });
}

/** The days of a record are cut on the home terminal's clock (395.8); a chain whose days name another clock moves it. */
function movedTerminal(days: readonly Day[], day: Day, people: readonly PersonHours[]): readonly Finding[] {
  const other = days.find(({ plan }) => plan.zone !== day.plan.zone);
  const bound = people.find(({ bindings }) => bindings.some(({ rules }) => rules.law));
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

/** Everything that a day itself gives reason to ask, beside its people's records. */
export const dayQuestions = (days: readonly Day[], day: Day, people: readonly PersonHours[]): readonly Finding[] => [
  ...ofVehicles(day),
  ...movedTerminal(days, day, people),
  ...people.flatMap((person) => shortTurnaround(day, person)),
];
