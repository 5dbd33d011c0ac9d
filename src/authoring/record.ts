/**
 * What really happened, as it is typed at night: `wren released 21:10`, `dawn.2 at 06:04`, `brick.1 35%`, turned into edits of the
 * plan's `actual`. Values are checked by the plan's own reader when the edited text is read again.
 */
import type { Day } from "../day/day.ts";
import type { Finding, PlanPath } from "../findings/finding.ts";
import { nearest } from "../findings/nearest.ts";
import type { Edit, Plan } from "../plan/index.ts";
import type { Id } from "../plan/plan.ts";
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
  },
  activity: { at: "at", began: "at", end: "end", ended: "end", done: "done" },
  stop: { arrived: "arrived", left: "left" },
  pack: { charge: "charge" },
  vehicle: { at: "at", since: "since", odometer: "odometer", fuel: "fuel", engineHours: "engineHours" },
  piece: { in: "in" },
};

const EXAMPLES: Readonly<Record<Kind, string>> = {
  person: "released 21:10",
  activity: "at 06:04",
  stop: "left 09:40",
  pack: "35%",
  vehicle: "fuel 60%",
  piece: "in PLACE",
};

type Kind = "person" | "activity" | "stop" | "pack" | "vehicle" | "piece";

export type Recorded =
  | { readonly ok: true; readonly edits: readonly Edit[] }
  | { readonly ok: false; readonly finding: Finding };

/** Reads the words behind `log PLAN`: an id, what happened, and its value (`-` takes an entry back). A group of packs stands for each; a pack's charge needs no word. */
export function record(plan: Plan, words: readonly string[]): Recorded {
  const [id = "", ...rest] = words;
  const kind = kindOf(plan, id);
  if (kind === null) return unclear(plan, words, `\`${id}\` is nobody and nothing of this plan`);
  if (kind === "pack" && rest.length === 1) return made(id, "charge", rest);
  const [word = "", ...value] = rest;
  const keys = new Map(Object.entries(WORDS[kind]));
  const key = keys.get(word);
  if (key === undefined || value.length === 0)
    return unclear(plan, words, `write \`${id}\` and one of: ${[...keys.keys()].join(", ")}, then its value`);
  return made(id, key, value);
}

/** Keys that hold a time, which other readers of YAML would take for a number. */
const TIMES: ReadonlySet<string> = new Set(["call", "released", "at", "end", "arrived", "left", "since"]);

/** Everything is quoted but plain words, shares, lengths and numbers. */
function made(id: string, key: string, value: readonly string[]): Recorded {
  const text = value.join(" ");
  if (text === "-") return { ok: true, edits: [{ path: ["actual", id, key], value: null }] };
  const quoted = /^[\w.% -]+$/.test(text) && !(TIMES.has(key) && /^\d+$/.test(text)) ? text : JSON.stringify(text);
  return { ok: true, edits: [{ path: ["actual", id, key], value: quoted }] };
}

/** The example is of the plan's own: of what was meant, where that is near. */
function unclear(plan: Plan, words: readonly string[], why: string): Recorded {
  const [id = "", ...rest] = words;
  const known = recordable(plan);
  const meant = kindOf(plan, id) === null ? nearest(id, known) : id;
  const of = meant ?? known[0] ?? "wren";
  const kind = kindOf(plan, of);
  const said = kind !== null && meant !== null && meant !== id && rest.length > 0;
  const example = said ? rest.join(" ") : EXAMPLES[kind ?? "person"];
  return { ok: false, finding: recordUnclear.raise({ said: words.join(" "), why, example: `${of} ${example}` }) };
}

/** A logged instant, and the place whose clock it is on, too. */
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
  const times: readonly (readonly [string, Instant | null | undefined, Id | null | undefined])[] = [
    ["call", actual.people.get(id)?.call, person?.slept],
    ["released", actual.people.get(id)?.released, person?.sleeps],
    ["at", actual.activities.get(id)?.at, location?.kind === "place" ? location.place : null],
    ["end", actual.activities.get(id)?.end, location?.kind === "place" ? location.place : null],
    ["arrived", actual.stops.get(id)?.arrived, stop?.place],
    ["left", actual.stops.get(id)?.left, stop?.place],
    ["since", vehicle?.since, vehicle?.place],
  ];
  const [, at = null, place = null] = times.find(([word, when]) => word === key && when != null) ?? [];
  return at === null ? null : { at, place };
}

export function kindOf(plan: Plan, id: string): Kind | null {
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
