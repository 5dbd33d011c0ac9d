/**
 * What really happened, as it is typed at night: `wren released 21:10`, `dawn.2 at 06:04`, `brick.1 35%`, turned into edits of the
 * plan's `actual`. Values are checked by the plan's own reader when the edited text is read again.
 */
import type { Finding } from "../findings/finding.ts";
import { nearest } from "../findings/nearest.ts";
import type { Edit, Plan } from "../plan/index.ts";
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

type Kind = "person" | "activity" | "stop" | "pack" | "vehicle" | "piece";

export type Recorded =
  | { readonly ok: true; readonly edits: readonly Edit[] }
  | { readonly ok: false; readonly finding: Finding };

/** Reads the words behind `log PLAN`: an id, what happened, and its value (`-` takes an entry back). A group of packs stands for each; a pack's charge needs no word. */
export function record(plan: Plan, words: readonly string[]): Recorded {
  const [id = "", ...rest] = words;
  const kind = kindOf(plan, id);
  if (kind === null) {
    const near = nearest(id, recordable(plan));
    const meant = near === null ? null : [near, ...rest].join(" ");
    return unclear(words, `\`${id}\` is nobody and nothing of this plan`, meant);
  }
  if (kind === "pack" && rest.length === 1) return made(id, "charge", rest);
  const [word = "", ...value] = rest;
  const keys = new Map(Object.entries(WORDS[kind]));
  const key = keys.get(word);
  if (key === undefined || value.length === 0)
    return unclear(words, `write \`${id}\` and one of: ${[...keys.keys()].join(", ")}, then its value`);
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

const unclear = (words: readonly string[], why: string, meant: string | null = null): Recorded => ({
  ok: false,
  finding: recordUnclear.raise({ said: words.join(" "), why, meant }),
});

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
