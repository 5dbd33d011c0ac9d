/** The days of versions that were tried lately: one that is judged a second time, by other engines, is not computed again. */
import type { Day } from "../day/day.ts";
import type { Edit } from "../plan/edit/splice.ts";

/** A version of a plan with its days; null if it is no plan. */
export interface TriedVersion {
  readonly text: string;
  readonly days: readonly Day[];
}

/** Versions that are kept for one plan. */
const KEPT = 32;

const known = new WeakMap<object, Map<string, TriedVersion | null>>();

/** The version of `plan` with these edits: one that is known, else made. */
export async function triedVersion(
  plan: object,
  text: string,
  edits: readonly Edit[],
  make: () => Promise<TriedVersion | null>,
): Promise<TriedVersion | null> {
  const versions = known.get(plan) ?? new Map<string, TriedVersion | null>();
  known.set(plan, versions);
  const key = `${JSON.stringify(edits)}\n${text}`;
  const ready = versions.get(key);
  if (ready !== undefined) return ready;
  const version = await make();
  const [oldest] = versions.keys();
  if (versions.size >= KEPT && oldest !== undefined) versions.delete(oldest);
  versions.set(key, version);
  return version;
}
