/**
 * Repairs against a brute force that knows nothing of the search: on days broken in one place every edit and every pair is
 * judged, and the first repair is the least of them; each repair printed, applied, is free of what it clears and brings no
 * error. Days are broken by what `repair` can undo, so that an undoing or something smaller is there to be found.
 */
import { describe, expect, it } from "vitest";
import type { Edit } from "../../src/plan/index.ts";
import { candidatesFor } from "../../src/repair/candidates.ts";
import { repairsOf } from "../../src/repair/index.ts";
import { differenceOf, findingKey, isOpenError } from "../../src/repair/likeness.ts";
import { stepsFit } from "../../src/repair/promise.ts";
import { FEW } from "../../src/repair/search.ts";
import { byRank, lawMinutes, standingOf } from "../../src/repair/standing.ts";
import { problemOf } from "./problem.ts";

const DAY = `daywright: 1
date: 2027-01-20
clock: America/Chicago
zone: America/Chicago
history: { wren: { released: 2027-01-19T17:00-06:00 }, ilse: { released: 2027-01-19T17:00-06:00 } }
crew:
  wren: { role: camera, drives: wagon }
  ilse: { role: reporter, drives: wagon }
vehicles: { wagon: { range: 400 km, fuel: 90% }, car: {} }
places:
  lodge: { kind: lodging, mains: true, signal: good }
  pier: { shelter: true, signal: good }
  dock: { shelter: true, signal: good }
roads:
  - { link: [lodge, pier], drive: 30 min, bad: 35 min, km: 40 }
  - { link: [pier, dock], drive: 10 min, bad: 12 min, km: 1 }
  - { link: [dock, lodge], drive: 30 min, bad: 35 min, km: 40 }
hits:
  dawn: { at: "07:00", for: 3 min, place: pier, path: cell }
  web: { at: "11:00", for: 3 min, place: dock, path: cell, firm: false }
tasks:
  pictures: { place: pier, for: 40 min, who: [wren, ilse], needs: [tripod] }
  lunch: { kind: meal, place: dock, for: 40 min, who: all }
paths: { cell: { kind: cellular } }
kit:
  camera: { in: wagon, watts: 40, mount: wedge, during: hits }
  tripod: { in: wagon }
packs: { brick: { count: 2, wh: 98, mount: wedge, charge: 90%, in: wagon } }
runs: { wagon: { driver: wren, aboard: [wren, ilse], stops: [lodge, { place: pier, do: [dawn, pictures] }, { place: dock, do: [web, lunch] }, lodge] } }
`;

/** One fault each, by a change of the text; what the fault was is said for the reader of a failure. */
const FAULTS: readonly (readonly [what: string, from: string, to: string])[] = [
  ["the tripod left at the lodge", "tripod: { in: wagon }", "tripod: { in: lodge }"],
  ["too little charge", "charge: 90%", "charge: 20%"],
  ["too little fuel", "fuel: 90%", "fuel: 20%"],
  ["a task that takes too long", "pictures: { place: pier, for: 40 min", "pictures: { place: pier, for: 4 h"],
  ["a departure that is too late", "stops: [lodge,", 'stops: [{ place: lodge, leave: "06:10" },'],
  ["a hit for the web that is too early", 'web: { at: "11:00"', 'web: { at: "08:00"'],
  ["no signal there", "dock: { shelter: true, signal: good }", "dock: { shelter: true, signal: none }"],
  ["a duty day too long", "roads:", "rules: { dutyDay: 6 h 30 min }\nroads:"],
];

type Posed = Awaited<ReturnType<typeof problemOf>>;

/** Errors left, then the ranking, of a list of edits; null if it is no repair. */
async function valued({ problem, judgeEdits }: Posed, edits: readonly Edit[]) {
  const after = await judgeEdits(edits);
  if (after === null) return null;
  const keys = [...new Set(problem.targets.map(findingKey))];
  const open = new Set(after.findings.filter(({ accepted }) => accepted === null).map(findingKey));
  const cleared = keys.filter((key) => !open.has(key));
  if (cleared.length === 0) return null;
  if (differenceOf(problem.now.findings, after.findings).brought.some(isOpenError)) return null;
  if (lawMinutes(after.findings) > lawMinutes(problem.now.findings)) return null;
  return { cleared, left: keys.length - cleared.length, standing: standingOf(problem.now, after), edits: edits.length };
}

type Valued = NonNullable<Awaited<ReturnType<typeof valued>>>;

const byValue = (a: Omit<Valued, "cleared">, b: Omit<Valued, "cleared">): number => a.left - b.left || byRank(a, b);

describe("the first repair", () => {
  it("has nothing to do on the sound day", async () => {
    expect((await problemOf(DAY)).problem.targets).toEqual([]);
  });

  it.each(FAULTS)("is the least of all edits and pairs: %s", { timeout: 600_000 }, async (_, from, to) => {
    expect(DAY).toContain(from);
    const posed = await problemOf(DAY.replace(from, to));
    const { problem, judgeEdits } = posed;
    expect(problem.targets.length).toBeGreaterThan(0);
    const candidates = candidatesFor(problem);
    const { repairs, proof } = await repairsOf(problem, judgeEdits, { patience: 4, most: 5 });
    const alone: (Valued | null)[] = [];
    for (const { edits } of candidates) alone.push(await valued(posed, edits));
    const all = alone.flatMap((one) => one ?? []);
    const pairs =
      candidates.length > FEW
        ? []
        : candidates.flatMap((_, at) => candidates.slice(at + 1).map((_, n) => [at, at + 1 + n]));
    for (const steps of pairs.filter((pair) => stepsFit(candidates, pair))) {
      const value = await valued(
        posed,
        steps.flatMap((step) => candidates[step]?.edits ?? []),
      );
      // One step that clears as much makes the other needless.
      const isNeedless = steps.some((step) => value?.cleared.every((key) => alone[step]?.cleared.includes(key)));
      if (value !== null && !isNeedless) all.push(value);
    }
    const least = all.sort(byValue)[0];
    const [first] = repairs;
    expect(first === undefined).toBe(least === undefined);
    if (first === undefined || least === undefined) return;
    expect(
      byValue({ left: first.left, standing: first.standing, edits: first.edits.length }, least),
    ).toBeLessThanOrEqual(0);
    if (candidates.length <= FEW) expect(proof.completeTo).toBeGreaterThanOrEqual(2);
    // Each, applied, clears what it says and brings no error.
    for (const repair of repairs.slice(0, 3)) {
      const after = await judgeEdits(repair.edits);
      const open = new Set((after?.findings ?? []).filter(({ accepted }) => accepted === null).map(findingKey));
      expect(repair.clears.filter((finding) => open.has(findingKey(finding)))).toEqual([]);
      expect(differenceOf(problem.now.findings, after?.findings ?? []).brought.filter(isOpenError)).toEqual([]);
    }
  });
});
