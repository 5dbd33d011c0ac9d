/** Every code that the program can say, from all topics: behind `explain`, the rules of SARIF and the documentation. */
import type { AnyEntry } from "./finding.ts";

interface Codes {
  readonly codes: readonly AnyEntry[];
}

/** Each topic's own list, loaded only when the whole catalogue is asked for. */
const TOPICS: readonly (() => Promise<Codes>)[] = [
  () => import("../plan/findings.ts"),
  () => import("../day/findings/findings.ts"),
  () => import("../sky/findings.ts"),
  () => import("../hours/findings.ts"),
  () => import("../signal/findings.ts"),
  () => import("../power/findings.ts"),
  () => import("../kit/findings.ts"),
  () => import("../cautions/findings.ts"),
  () => import("../roads/findings.ts"),
  () => import("../bookings/findings.ts"),
  () => import("../authoring/findings.ts"),
  () => import("../reports/shared/findings.ts"),
];

/** All entries by code, in code order. */
export async function catalogue(): Promise<ReadonlyMap<string, AnyEntry>> {
  const entries = (await Promise.all(TOPICS.map((load) => load()))).flatMap(({ codes }) => codes);
  return new Map(entries.sort((a, b) => (a.code < b.code ? -1 : 1)).map((entry) => [entry.code, entry]));
}
