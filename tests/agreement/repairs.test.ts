/**
 * Agreement 5: repairs repair. On random days broken in one place the undoing is found or something smaller; each repair that
 * is printed there, and over all fixtures and cases, applied and read again from the file, is free of what it clears and of
 * new errors.
 */
import { describe, expect, it } from "vitest";
import type { Finding } from "../../src/index.ts";
import { repairable, repairsOf } from "../../src/repair/index.ts";
import { differenceOf, findingKey, isHarm, isOpenError } from "../../src/repair/likeness.ts";
import { byRank, lawMinutes, standingOf } from "../../src/repair/standing.ts";
import { runs } from "../fuzz.ts";
import { brokenDay } from "../repair/brokenDays.ts";
import { editText, failings, PLANS, type Posed, posed, written } from "../repair/posed.ts";

const MOST = 3;

const search = (plan: Posed, targets: readonly Finding[]) =>
  repairsOf({ now: plan.now, text: plan.text, targets }, plan.judgeEdits, { patience: 1, most: MOST });

async function faultsOf(plan: Posed, repairs: Awaited<ReturnType<typeof search>>["repairs"]): Promise<string[]> {
  const faults: string[] = [];
  for (const { edits, clears } of repairs)
    for (const fault of await failings(plan, edits, clears)) faults.push(`${plan.file} ${editText(edits)}: ${fault}`);
  return faults;
}

/** What is wrong with the repairs of a broken day; null if it is none to look at: nothing an edit helps against broke, or the undoing breaks something else. */
async function judgedBroken(seed: number): Promise<readonly string[] | null> {
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

describe("repairs", () => {
  it("of random days broken in one place are the undoing or smaller", { timeout: 14_400_000 }, async () => {
    const from = Number(process.env["DAYWRIGHT_SEED"] ?? 1);
    const most = runs(50, 5000);
    const faults: string[] = [];
    let judged = 0;
    for (let seed = from; judged < most; seed++) {
      const found = await judgedBroken(seed);
      if (found === null) continue;
      judged += 1;
      faults.push(...found);
    }
    expect(faults).toEqual([]);
  });

  it("of the fixtures and cases clear what they say and bring no error", { timeout: 600_000 }, async () => {
    const faults: string[] = [];
    let found = 0;
    for (const file of PLANS) {
      const plan = await posed(file);
      const targets = plan === null ? [] : repairable(plan.now.findings.filter(isOpenError));
      if (plan === null || targets.length === 0) continue;
      const { repairs } = await search(plan, targets);
      found += repairs.length;
      faults.push(...(await faultsOf(plan, repairs)));
    }
    expect(faults).toEqual([]);
    expect(found).toBeGreaterThan(20);
  });
});
