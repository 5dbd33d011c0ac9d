/** `words KIND PLAN [COMMAND]`: what completion asks for where a command takes a word of the plan on the line. Never fails. */
import { authoring, type Plan, readPlan, solveDay } from "../index.ts";
import type { Io } from "./io/io.ts";
import { planFiles, readSource } from "./io/source.ts";

/** Flags that take a word of the plan, each with its kind of word. */
export const PLAN_WORDS: ReadonlyMap<string, string> = new Map([
  ["--for", "views"],
  ["--why", "instants"],
]);

/** Commands that take words of the plan behind its name, each with their kind. */
export const WORDS_BEHIND_PLAN: ReadonlyMap<string, string> = new Map([["log", "recordable"]]);

/** The words, one a line; nothing for a plan that cannot be read. `command` is the one on the line, where that matters. */
export async function planWords(io: Io, kind: string, plan: string, command: string | null): Promise<string> {
  try {
    const source = await readSource(io, plan, null);
    const reading = source.ok ? await readPlan(source.text, { file: source.file, files: planFiles(io) }) : null;
    if (reading?.ok !== true) return "";
    if (kind === "views") return lines(viewsOf(reading.plan, command));
    if (kind === "recordable") return lines((await authoring()).recordable(reading.plan));
    const solved = kind === "instants" ? await solveDay(reading) : null;
    return solved?.ok === true ? lines(solved.day.instants.keys()) : "";
  } catch {
    // At a press of Tab there is no one to tell.
    return "";
  }
}

/** Whose view there is: of a sheet also a vehicle's, a hit's and a place's. */
const viewsOf = ({ crew, vehicles, hits, places }: Plan, command: string | null): readonly string[] => [
  ...crew.keys(),
  ...(command === "sheet" ? [...vehicles.keys(), ...hits.keys(), ...places.keys()] : []),
];

const lines = (words: Iterable<string>): string => [...words].map((word) => `${word}\n`).join("");
