/** Random days with two vehicles of different rules, and what a plain reading says of each person under each rule set. */
import type { Day, PersonDay, PersonSpan } from "../../../src/day/day.ts";
import type { Id, Vehicle } from "../../../src/plan/plan.ts";
import { dayAt } from "./logs.ts";
import type { Marks, Minutes } from "./minutes.ts";
import { everyWay, NAIVE, type TriedOptions } from "./sets.ts";

const pick = <T>(random: () => number, from: readonly T[]): T => from[Math.floor(random() * from.length)] as T;

const RULES = [
  "us-property",
  "us-property",
  "us-passenger",
  "us-production",
  "ca-south",
  "eu",
  "eu",
  "gb-domestic",
  "none",
];
const CLAIMS: Readonly<Record<string, readonly string[]>> = {
  "us-property": ["adverse", "shortHaul", "nonCdlShortHaul"],
  "us-passenger": ["adverse"],
  "ca-south": ["adverse"],
  eu: ["homeHour"],
};

function vehicle(random: () => number, name: string, rule: string): string {
  const some = (share: number): boolean => random() < share;
  if (rule === "none") return `${name}: { gross: 5000 lb, seats: 4 }`;
  const claims = (CLAIMS[rule] ?? []).filter(() => some(0.4));
  const both = rule === "eu" && some(0.25) ? `[eu, eu-working-time]` : rule;
  const week =
    rule.startsWith("us-") && some(0.5) ? ", week: 60/7" : rule === "ca-south" && some(0.5) ? ", week: cycle 2" : "";
  const drivers = rule === "eu" && some(0.4) ? ", drivers: 2" : "";
  const days = rule === "ca-south" && some(0.5) ? ', dayStarts: "06:00"' : "";
  const berth = some(0.4) ? ", berth: true" : "";
  return `${name}: { gross: 16000 lb, seats: 4, rules: ${both}${week}${drivers}${days}${berth}${claims.length > 0 ? `, claims: [${claims.join(", ")}]` : ""} }`;
}

const clock = (minute: number): string =>
  `"${String(Math.floor(minute / 60) % 24).padStart(2, "0")}:${String(minute % 60).padStart(2, "0")}${minute >= 1440 ? " +1d" : ""}"`;

/** A day in which two people go out in one vehicle and on in another; `turned` lists the vehicles the other way round. */
export function randomPlan(random: () => number, turned: boolean): string {
  const length = (most: number): number => 5 * (1 + Math.floor((random() * most) / 5));
  const out = length(330);
  const [work, on] = [length(400), length(330)];
  const first = pick(random, [240, 300, 330, 360, 420]);
  const second = first + out + 60 + work + length(120);
  const rules = [pick(random, RULES), pick(random, RULES)] as const;
  const vehicles = [vehicle(random, "alpha", rules[0]), vehicle(random, "beta", rules[1])];
  if (turned) vehicles.reverse();
  const released = pick(random, ["2027-01-19T15:00", "2027-01-19T18:00", "2027-01-19T19:30", "2027-01-19T20:30"]);
  const kind = pick(random, ["work", "meal", "standdown"]);
  const relieve = (total: number): string =>
    total > 60 && random() < 0.5 ? `, relieve: [{ after: ${Math.floor(total / 2)} min, driver: bea }]` : "";
  const asleep = random() < 0.3 ? ", asleep: [bea]" : "";
  const relieved = relieve(out);
  const aboard = asleep === "" ? "" : relieved === "" ? asleep : "";
  return `daywright: 1
date: 2027-01-20
clock: America/Chicago
zone: America/Chicago
crew:
  tomas: { role: engineer, drives: [alpha, beta], slept: a, sleeps: a }
  bea: { role: producer, drives: [alpha, beta], slept: a, sleeps: a }
history:
  tomas: { released: ${released}-06:00 }
  bea: { released: ${released}-06:00 }
vehicles:
  ${vehicles.join("\n  ")}
places:
  a: { at: [46.60, -90.88] }
  b: { at: [46.81, -90.82] }
roads:
  - { link: [a, b], drive: ${out} min, bad: ${out} min, oneWay: true }
  - { link: [b, a], drive: ${on} min, bad: ${on} min, oneWay: true }
tasks:
  job: { what: work, place: b, for: ${work} min, who: all, kind: ${kind} }
runs:
  alpha: { driver: tomas, aboard: [tomas, bea], stops: [{ place: a, leave: ${clock(first)}${relieved}${aboard} }, { place: b, do: [job] }] }
  beta: { driver: ${pick(random, ["tomas", "bea"])}, aboard: [tomas, bea], stops: [{ place: b, leave: ${clock(second)} }, a] }
`;
}

const NORTH_AMERICA = ["us-property", "us-passenger", "us-production", "ca-south"];

/** Whether driving a vehicle is driving under a rule set, from the rules' text. */
function drivesUnder(set: string, { rules, commercial }: Vehicle): boolean {
  const names: readonly string[] = rules;
  if (NORTH_AMERICA.includes(set)) return names.some((name) => NORTH_AMERICA.includes(name));
  if (set === "gb-domestic") return names.includes("eu") || (names.includes("gb-domestic") && commercial);
  return set !== "eu" || names.includes("eu");
}

/** A person's day as minutes, as a rule set sees its vehicles. */
function minutesOf(day: Day, spans: readonly PersonSpan[], set: string, startHour: number): Minutes {
  const start = spans[0]?.from ?? 0;
  const length = (spans.at(-1)?.to ?? start) - start;
  const is = new Array<string>(length);
  const light = new Array<boolean>(length);
  for (const span of spans) {
    const vehicle = span.vehicle === null ? undefined : day.plan.vehicles.get(span.vehicle);
    const word = span.is === "berth" && span.vehicle !== null && vehicle?.berth !== true ? "riding" : span.is;
    is.fill(word, span.from - start, span.to - start);
    light.fill(vehicle === undefined || !drivesUnder(set, vehicle), span.from - start, span.to - start);
  }
  return { length, is, light, day: Int32Array.from({ length }, (_, i) => dayAt(start + i, startHour)) };
}

function optionsOf({ week, claims, drivers, dayStarts }: Vehicle): TriedOptions {
  const has = (claim: string): boolean => claims.includes(claim);
  return {
    week: week === "60/7" ? "60/7" : "70/8",
    cycle: week === "cycle 2" ? 2 : 1,
    adverse: has("adverse"),
    shortHaul: has("shortHaul"),
    nonCdlShortHaul: has("nonCdlShortHaul"),
    sixteenHour: false,
    deferral: false,
    homeHour: has("homeHour"),
    homeTwoHours: false,
    drivers: drivers === 2 ? 2 : 1,
    dayStarts: dayStarts ?? 0,
  };
}

/** What all vehicles claim, with the week and the days of one of them. */
function together(all: readonly TriedOptions[], one: TriedOptions): TriedOptions {
  const every = (claim: "adverse" | "shortHaul" | "nonCdlShortHaul" | "homeHour"): boolean =>
    all.every((o) => o[claim]);
  return {
    ...one,
    adverse: every("adverse"),
    shortHaul: every("shortHaul"),
    nonCdlShortHaul: every("nonCdlShortHaul"),
    homeHour: every("homeHour"),
    drivers: all.every(({ drivers }) => drivers === 2) ? 2 : 1,
  };
}

/** The marks of every reading of one person's day under each rule set of the vehicles they drive. */
export function readingsOf(day: Day, person: PersonDay): ReadonlyMap<string, readonly Marks[]> {
  const driven = new Set<Id>(
    day.moves.flatMap(({ vehicle: id, wheel }) => (wheel.some(({ driver }) => driver === person.id) ? [id] : [])),
  );
  const vehicles = [...driven].flatMap((id) => day.plan.vehicles.get(id) ?? []);
  const found = new Map<string, readonly Marks[]>();
  for (const set of new Set<string>(vehicles.flatMap(({ rules }) => rules))) {
    const naive = NAIVE.get(set);
    const own = vehicles.filter(({ rules }) => rules.some((name) => name === set)).map(optionsOf);
    if (naive === undefined) throw new Error(set);
    found.set(
      set,
      own.flatMap((one) => {
        const options = together(own, one);
        const carriers = set === "ca-south" || set.startsWith("us-");
        const startHour = carriers ? options.dayStarts / 60 : 0;
        const minutes = minutesOf(day, person.spans, set, startHour);
        return everyWay(naive, minutes, { ...options, dayStarts: startHour * 60 }).map(({ marks }) => marks);
      }),
    );
  }
  return found;
}
