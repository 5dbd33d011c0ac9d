/** Every code that the program can say, from all topics: behind `explain`, the rules of SARIF and the documentation. */
import type { AnyEntry, Definition } from "./finding.ts";

/** The files that define codes, loaded only when the whole catalogue is asked for. */
const FILES: readonly (() => Promise<object>)[] = [
  () => import("../plan/findings.ts"),
  () => import("../day/findings/findings.ts"),
  () => import("../day/findings/findingsBookings.ts"),
  () => import("../day/findings/findingsFacts.ts"),
  () => import("../day/findings/findingsIdle.ts"),
  () => import("../day/findings/findingsMissed.ts"),
  () => import("../day/findings/findingsOrder.ts"),
  () => import("../day/findings/findingsOutage.ts"),
  () => import("../sky/findings.ts"),
  () => import("../hours/findings.ts"),
  () => import("../hours/fitness/findingsFitness.ts"),
  () => import("../hours/questions/findingsQuestions.ts"),
  () => import("../signal/findings.ts"),
  () => import("../signal/cable/findingsCable.ts"),
  () => import("../signal/dish/findingsDish.ts"),
  () => import("../power/findings.ts"),
  () => import("../kit/findings.ts"),
  () => import("../cautions/findings.ts"),
  () => import("../cautions/findingsWeather.ts"),
  () => import("../roads/findings.ts"),
  () => import("../bookings/findings.ts"),
  () => import("../authoring/findings.ts"),
  () => import("../reports/shared/findings.ts"),
];

const isDefinition = (exported: unknown): exported is Pick<Definition<never>, "entry"> =>
  typeof exported === "object" && exported !== null && "entry" in exported && "raise" in exported;

/** What is said of each code that a file defines. */
export const codesOf = (file: object): readonly AnyEntry[] =>
  Object.values(file)
    .filter(isDefinition)
    .map(({ entry }) => ({ ...entry, example: withoutMargin(entry.example) }));

/** A block of lines as it reads alone: without the line breaks around it and the margin that all its lines have; any other text as it is. */
function withoutMargin(text: string): string {
  if (!text.startsWith("\n")) return text;
  const lines = text.slice(1, text.lastIndexOf("\n")).split("\n");
  const margin = Math.min(...lines.map((line) => line.search(/\S/)));
  return lines.map((line) => line.slice(margin)).join("\n");
}

/** All entries by code, in code order. */
export async function catalogue(): Promise<ReadonlyMap<string, AnyEntry>> {
  const entries = (await Promise.all(FILES.map((load) => load()))).flatMap(codesOf);
  return new Map(entries.sort((a, b) => (a.code < b.code ? -1 : 1)).map((entry) => [entry.code, entry]));
}
