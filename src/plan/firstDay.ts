/** What a file that several days share states of a state of things is true of the first of them: later ones go on from there. */
import type { PlanPath } from "../findings/finding.ts";
import type { Plan } from "./plan.ts";

/** Whether a day that follows another has the value at `path` from a file that it shares with that day. */
export function isFirstDays({ source }: Plan, path: PlanPath): boolean {
  const [own, stated] = [source.locate(["follows"]), source.locate(path)];
  return own !== null && stated !== null && own.file !== stated.file;
}
