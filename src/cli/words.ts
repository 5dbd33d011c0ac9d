/** `words KIND PLAN`: what completion asks for at a flag that takes a word of the plan on the line. Never fails. */
import { readPlan, solveDay } from "../index.ts";
import type { Io } from "./io/io.ts";
import { planFiles, readSource } from "./io/source.ts";

/** Flags that take a word of the plan, each with its kind of word. */
export const PLAN_WORDS: ReadonlyMap<string, string> = new Map([
  ["--for", "people"],
  ["--why", "instants"],
]);

/** The words, one a line; nothing for a plan that cannot be read. */
export async function planWords(io: Io, kind: string, plan: string): Promise<string> {
  try {
    const source = await readSource(io, plan, null);
    const reading = source.ok ? await readPlan(source.text, { file: source.file, files: planFiles(io) }) : null;
    if (reading?.ok !== true) return "";
    if (kind === "people") return lines(reading.plan.crew.keys());
    const solved = kind === "instants" ? await solveDay(reading) : null;
    return solved?.ok === true ? lines(solved.day.instants.keys()) : "";
  } catch {
    // At a press of Tab there is no one to tell.
    return "";
  }
}

const lines = (words: Iterable<string>): string => [...words].map((word) => `${word}\n`).join("");
