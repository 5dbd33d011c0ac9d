/** Lays an example of `explain` on a day, in each of the ways in which a reader may take it. */
import { readFileSync } from "node:fs";
import { isMap, parseDocument, type YAMLMap } from "yaml";

const read = (name: string): string => readFileSync(new URL(`../../fixtures/${name}`, import.meta.url), "utf8");

/** The demo's crew, places and gear with nothing wrong. */
export const DAY = read("examples/day.yaml");
/** Two people and one vehicle. */
export const SMALLEST = read("smallest.yaml");

/** An entry of a section joins the day's of that name key by key, or stands in its place: `pier: {}` has no coordinates. */
export type Depth = "keys" | "entries";

/** The day with what the example says of it; what is no map stands in the place of the day's. */
export function laid(day: string, example: string, depth: Depth): string {
  const plan = parseDocument(day);
  const excerpt = parseDocument(example);
  if (!isMap(plan.contents) || !isMap(excerpt.contents)) throw new Error(`no entries in ${example}`);
  lay(plan.contents, excerpt.contents, depth === "keys" ? 2 : 1);
  return String(plan);
}

function lay(under: YAMLMap, over: YAMLMap, levels: number): void {
  for (const { key, value } of over.items) {
    const had = under.get(String(key), true);
    if (levels > 0 && isMap(had) && isMap(value)) lay(had, value, levels - 1);
    else under.set(String(key), value);
  }
}

/** The day's other sections, and then the example as it is written, whether it can be read or not. */
export function appended(day: string, example: string): string {
  const plan = parseDocument(day);
  for (const [, key = ""] of example.matchAll(/^(\w+):/gm)) plan.delete(key);
  return `${String(plan)}\n${example}\n`;
}
