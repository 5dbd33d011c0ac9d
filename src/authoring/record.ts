/**
 * What really happened, as it is typed at night: `wren released 21:10`, `dawn.2 at 06:04`, `brick.1 35%`, turned into edits of the
 * plan's `actual`. Values are checked by the plan's own reader when the edited text is read again.
 */
import type { Day } from "../day/day.ts";
import type { Finding, PlanPath } from "../findings/finding.ts";
import { nearest } from "../findings/nearest.ts";
import type { Edit, Plan } from "../plan/index.ts";
import type { Id, Stop } from "../plan/plan.ts";
import type { Instant } from "../time/index.ts";
import { recordUnclear } from "./findings.ts";

/** The kinds of thing that something can happen to, the words for it, and the keys of `actual` that they write. */
const WORDS: Readonly<Record<Kind, Readonly<Record<string, string>>>> = {
  person: {
    call: "call",
    called: "call",
    released: "released",
    release: "released",
    asleep: "asleep",
    slept: "asleep",
    up: "up",
    inBed: "inBed",
    note: "note",
  },
  activity: { at: "at", began: "at", end: "end", ended: "end", done: "done", path: "path", note: "note" },
  stop: { arrived: "arrived", left: "left", driver: "driver", note: "note" },
  pack: { charge: "charge", in: "in", note: "note" },
  vehicle: {
    at: "at",
    since: "since",
    odometer: "odometer",
    fuel: "fuel",
    fuelAt: "fuelAt",
    engineHours: "engineHours",
    note: "note",
  },
  piece: { in: "in", note: "note" },
};

/** What is read off at a moment, which may be typed behind it, and the key that the moment is written to. */
const READINGS: ReadonlyMap<string, { readonly value: RegExp; readonly moment: string; readonly always: boolean }> =
  new Map([
    ["pack charge", { value: /^([-+\d.,]+(?:\s?%)?)(?:\s+(?:at\s+)?(.+))?$/, moment: "at", always: true }],
    ["vehicle fuel", { value: /^([-+\d.,]+(?:\s?%)?)(?:\s+(?:at\s+)?(.+))?$/, moment: "fuelAt", always: true }],
    ["pack in", { value: /^(\S+)(?:\s+(?:(?:since|at)\s+)?(.+))?$/, moment: "at", always: true }],
    ["vehicle at", { value: /^(\S+)(?:\s+(?:(?:since|at)\s+)?(.+))?$/, moment: "since", always: false }],
  ]);

const EXAMPLES: Readonly<Record<Kind, string>> = {
  person: "released 21:10",
  activity: "at 06:04",
  stop: "left 09:40",
  pack: "35%",
  vehicle: "fuel 60%",
  piece: "in PLACE",
};

type Kind = "person" | "activity" | "stop" | "pack" | "vehicle" | "piece";

/** What one thing said to `log` becomes: edits of the plan, or the finding that says why not. */
export type Recorded =
  | { readonly ok: true; readonly edits: readonly Edit[] }
  | { readonly ok: false; readonly finding: Finding };

/**
 * Reads the words behind `log PLAN`: an id, what happened, and its value (`-` takes an entry back). A group of packs stands
 * for each, `all` for everyone of the crew; a pack's charge needs no word. `moment` is when this is logged, as a plan writes it: charges and fuel are read
 * off then, unless a moment is typed behind them; null leaves it out.
 */
export function record(plan: Plan, words: readonly string[], moment: string | null): Recorded {
  const [id = "", ...rest] = words;
  if (id === "all" && plan.crew.size > 0) return ofEveryone(plan, rest, moment);
  const kind = entryKindOf(plan, id);
  if (kind === null)
    return unclear(plan, words, `\`${id}\` is no person, hit, task, stop, pack, vehicle or piece of this plan`);
  if (kind === "pack" && /^[-+]?\d/.test(rest[0] ?? "")) return made(plan, kind, id, "charge", rest, moment);
  const [word = "", ...value] = rest;
  const keys = new Map(Object.entries(WORDS[kind]));
  const key = keys.get(word);
  if (key === undefined || value.length === 0)
    return unclear(plan, words, `write \`${id}\` and one of: ${[...keys.keys()].join(", ")}, then its value`);
  return made(plan, kind, id, key, value, moment);
}

/** `all released 21:10`: the same of each person. */
function ofEveryone(plan: Plan, rest: readonly string[], moment: string | null): Recorded {
  const each = [...plan.crew.keys()].map((id) => record(plan, [id, ...rest], moment));
  if (each.every((one) => one.ok)) return { ok: true, edits: each.flatMap(({ edits }) => edits) };
  return unclear(
    plan,
    ["all", ...rest],
    `write \`all\` and one of: ${Object.keys(WORDS.person).join(", ")}, then its value`,
  );
}

function made(
  plan: Plan,
  kind: Kind,
  id: string,
  key: string,
  value: readonly string[],
  moment: string | null,
): Recorded {
  const said = value.join(" ");
  // Only a note keeps its blanks: patterns try each of a long row.
  const text = key === "note" ? said : said.replace(/\s+/g, " ");
  const reading = READINGS.get(`${kind} ${key}`);
  const path = ["actual", id];
  if (text === "-") {
    const keys = reading !== undefined && states(plan, id, reading.moment) ? [key, reading.moment] : [key];
    return { ok: true, edits: keys.map((one) => ({ path: [...path, one], value: null })) };
  }
  const [, found, typed] = reading?.value.exec(text) ?? [];
  // Where a pack was seen keeps the moment at which its charge was read, unless another is typed.
  const isKnown = kind === "pack" && key === "in" && states(plan, id, "at");
  const when = typed ?? (reading?.always === true && !isKnown ? moment : null);
  const pairs: readonly (readonly [string, string])[] =
    reading === undefined || found === undefined || when === null
      ? [[key, written(key, text)]]
      : [
          [key, written(key, found)],
          [reading.moment, written(reading.moment, when)],
        ];
  // A pack's charge may stand alone, `brick.1: 35%`: then the entry is written anew.
  if (kind === "pack" && pairs.length > 1 - Number(states(plan, id, "charge")) && standsAlone(plan, id)) {
    const kept = key === "charge" ? [] : chargeOf(plan, id).map((share) => ["charge", share]);
    return {
      ok: true,
      edits: [{ path, value: `{ ${[...kept, ...pairs].map((pair) => pair.join(": ")).join(", ")} }` }],
    };
  }
  return { ok: true, edits: pairs.map(([one, said]) => ({ path: [...path, one], value: said })) };
}

/** Whether nothing but a charge is stated of a pack. */
const standsAlone = (plan: Plan, id: string): boolean => !["in", "note", "at"].some((key) => states(plan, id, key));

/** The charge that is stated of a pack, as a plan writes it. */
function chargeOf({ actual, groups }: Plan, id: string): readonly string[] {
  const charge = actual.packs.get(groups.get(id)?.[0] ?? id)?.charge ?? null;
  return charge === null ? [] : [`${Number((charge * 100).toFixed(4))}%`];
}

/** Whether `actual` has the key already. A group is read from its first. */
function states({ actual, groups }: Plan, id: string, key: string): boolean {
  const entry = actual.packs.get(groups.get(id)?.[0] ?? id) ?? actual.vehicles.get(id) ?? {};
  return Object.entries(entry).some(([one, value]) => one === key && value !== null);
}

/** Keys that hold a time, which other readers of YAML would take for a number. */
const TIMES: ReadonlySet<string> = new Set([
  "call",
  "released",
  "up",
  "inBed",
  "at",
  "end",
  "arrived",
  "left",
  "since",
  "fuelAt",
]);

/** As YAML: everything is quoted but plain words, shares, lengths and numbers; `23:00 -1d to 07:00` is a night. */
function written(key: string, text: string): string {
  const [from, to] = key === "inBed" ? text.split(/\s+(?:to|-|–)\s+/) : [];
  if (from !== undefined && to !== undefined) return `[[${JSON.stringify(from)}, ${JSON.stringify(to)}]]`;
  const bare = /^[\w.% -]+$/.test(text) && !(TIMES.has(key) && /^\d+$/.test(text)) && key !== "note";
  return bare ? text : JSON.stringify(text);
}

/** The example is of the plan's own: of what was meant, where that is near. */
function unclear(plan: Plan, words: readonly string[], why: string): Recorded {
  const [id = "", ...rest] = words;
  const stop = stopMeant(plan, words);
  if (stop !== null) return { ok: false, finding: recordUnclear.raise({ said: words.join(" "), why, example: stop }) };
  if (id === "all")
    return {
      ok: false,
      finding: recordUnclear.raise({ said: words.join(" "), why, example: `all ${EXAMPLES.person}` }),
    };
  const known = recordable(plan);
  const meant = entryKindOf(plan, id) === null ? nearest(id, known) : id;
  const of = meant ?? known[0] ?? "wren";
  const kind = entryKindOf(plan, of);
  const said = kind !== null && meant !== null && meant !== id && rest.length > 0;
  const usual = EXAMPLES[kind ?? "person"];
  // The time that was typed, with a word that goes with it.
  const time = /\d:\d\d$/.test(usual) ? rest.findIndex((word) => /^\d/.test(word)) : -1;
  const worded = time < 0 ? usual : [usual.split(" ")[0], ...rest.slice(time)].join(" ");
  const example = said ? rest.join(" ") : worded;
  return { ok: false, finding: recordUnclear.raise({ said: words.join(" "), why, example: `${of} ${example}` }) };
}

/**
 * `van arrived shore 06:20` and `shore arrived 06:20` as the stop that is meant, `van.2 arrived 06:20`; without a place the first
 * of which that is not logged yet. Null for other words.
 */
function stopMeant(plan: Plan, [id = "", ...rest]: readonly string[]): string | null {
  const verb = rest.find((word) => Object.hasOwn(WORDS.stop, word) && word !== "note");
  const place = [id, ...rest].find((word) => plan.places.has(word));
  const stops = [...plan.runs.values()].flatMap((run) => (id === place || id === run.vehicle ? run.stops : []));
  const own = stops.filter((stop) => stop.place === (place ?? stop.place));
  const isLogged = ({ id: stop }: Stop): boolean =>
    Object.entries(plan.actual.stops.get(stop) ?? {}).some(([key, value]) => key === verb && value !== null);
  // Nobody arrives where the day begins.
  const ahead = (verb === "arrived" ? own.slice(1) : own).filter((stop) => !isLogged(stop));
  const meant = place === undefined ? ahead[0] : own[0];
  if (verb === undefined || meant === undefined) return null;
  const value = rest.filter((word) => word !== verb && word !== place);
  return [meant.id, verb, ...(value.length > 0 ? value : ["06:00"])].join(" ");
}

/** A logged instant, and the place whose clock it is also on. */
export interface LoggedTime {
  readonly at: Instant;
  readonly place: Id | null;
}

/** What the plan reads at a path of `actual`; null where that holds no time. A group is read from its first. */
export function loggedTime({ plan, people }: Day, [, name, key]: PlanPath): LoggedTime | null {
  const id = plan.groups.get(String(name))?.[0] ?? String(name);
  const { actual } = plan;
  const person = people.find((one) => one.id === id);
  const location = (plan.hits.get(id) ?? plan.tasks.get(id))?.location;
  const stop = [...plan.runs.values()].flatMap((run) => run.stops).find((one) => one.id === id);
  const vehicle = actual.vehicles.get(id);
  if (actual.packs.has(id)) {
    const found = actual.packs.get(id)?.at ?? null;
    return found === null ? null : { at: found, place: null };
  }
  const times: readonly (readonly [string, Instant | null | undefined, Id | null | undefined])[] = [
    ["call", actual.people.get(id)?.call, person?.slept],
    ["released", actual.people.get(id)?.released, person?.sleeps],
    ["up", actual.people.get(id)?.up, person?.slept],
    ["inBed", actual.people.get(id)?.inBed[0]?.from, person?.slept],
    ["at", actual.activities.get(id)?.at, location?.kind === "place" ? location.place : null],
    ["end", actual.activities.get(id)?.end, location?.kind === "place" ? location.place : null],
    ["arrived", actual.stops.get(id)?.arrived, stop?.place],
    ["left", actual.stops.get(id)?.left, stop?.place],
    ["since", vehicle?.since, vehicle?.place],
    ["fuelAt", vehicle?.fuelAt, vehicle?.place],
  ];
  const [, at = null, place = null] = times.find(([word, when]) => word === key && when != null) ?? [];
  return at === null ? null : { at, place };
}

/** What kind of thing an id of the plan names; null where it names none. */
export function entryKindOf(plan: Plan, id: string): Kind | null {
  if (plan.crew.has(id)) return "person";
  if (plan.hits.has(id) || plan.tasks.has(id)) return "activity";
  if (plan.packs.has(id) || plan.packs.has(plan.groups.get(id)?.[0] ?? "")) return "pack";
  if (plan.vehicles.has(id)) return "vehicle";
  if (plan.kit.has(id)) return "piece";
  const stops = [...plan.runs.values()].flatMap((run) => run.stops);
  return stops.some((stop) => stop.id === id) ? "stop" : null;
}

/** The ids that something can be recorded of. */
export const recordable = (plan: Plan): readonly string[] => [
  ...plan.crew.keys(),
  ...plan.hits.keys(),
  ...plan.tasks.keys(),
  ...plan.packs.keys(),
  ...plan.vehicles.keys(),
  ...plan.kit.keys(),
  ...[...plan.runs.values()].flatMap((run) => run.stops.map((stop) => stop.id)),
];
