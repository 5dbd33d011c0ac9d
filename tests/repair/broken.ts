/** What `repair` finds on a random day that was broken in one place, against the edit that undoes the fault. */
import type { Finding } from "../../src/index.ts";
import { repairable, repairsOf } from "../../src/repair/index.ts";
import { differenceOf, findingKey, isHarm, isOpenError } from "../../src/repair/likeness.ts";
import { byRank, lawMinutes, standingOf } from "../../src/repair/standing.ts";
import { brokenDay } from "./brokenDays.ts";
import { editText, failings, type Posed, posed, written } from "./posed.ts";

const MOST = 3;

/** The repairs of a plan, as `repair` searches them. */
export const search = (plan: Posed, targets: readonly Finding[]) =>
  repairsOf({ now: plan.now, text: plan.text, targets }, plan.judgeEdits, { patience: 1, most: MOST });

/** What does not hold of repairs that were found: each clears what it says and brings no error. */
export async function faultsOf(plan: Posed, repairs: Awaited<ReturnType<typeof search>>["repairs"]): Promise<string[]> {
  const faults: string[] = [];
  for (const { edits, clears } of repairs)
    for (const fault of await failings(plan, edits, clears)) faults.push(`${plan.file} ${editText(edits)}: ${fault}`);
  return faults;
}

/** What is wrong with the repairs of a broken day; null if it is none to look at: nothing an edit helps against broke, or the undoing breaks something else. */
export async function judgedBroken(seed: number): Promise<readonly string[] | null> {
  const day = brokenDay(seed);
  const sound = day === null ? null : await posed("sound.yaml", day.sound);
  const plan = day === null ? null : await posed(`broken${seed}.yaml`, day.broken.text);
  if (day === null || sound === null || plan === null) return null;
  const before = new Set(sound.now.findings.filter(isOpenError).map(findingKey));
  const broke = plan.now.findings.filter((one) => isOpenError(one) && !before.has(findingKey(one)));
  const undone =
    broke.length === 0 || repairable(broke).length < broke.length ? null : await written(plan, day.broken.undo);
  if (undone === null) return null;
  const open = new Set(undone.findings.filter(isOpenError).map(findingKey));
  if (broke.some((one) => open.has(findingKey(one)))) return null;
  if (differenceOf(plan.now.findings, undone.findings).brought.some(isHarm)) return null;
  if (lawMinutes(undone.findings) > lawMinutes(plan.now.findings)) return null;
  const { repairs } = await search(plan, broke);
  const faults = await faultsOf(plan, repairs);
  const [first] = repairs;
  const undoing = { standing: standingOf(plan.now, undone), edits: day.broken.undo.length };
  if (first === undefined) faults.push(`${plan.file}: nothing found against ${day.broken.what}`);
  else if (first.left > 0 || byRank({ standing: first.standing, edits: first.edits.length }, undoing) > 0)
    faults.push(`${plan.file}: ${editText(first.edits)} is no smaller than undoing ${day.broken.what}`);
  return faults;
}
