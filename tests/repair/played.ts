/**
 * The search over a judge that the test plays: what each step clears and brings is stated, so that which versions must be
 * judged, in which order and by whom can be counted on paper.
 */
import type { Finding } from "../../src/findings/finding.ts";
import type { AimedCandidate, JudgedPlan, JudgeEdits, Scope } from "../../src/repair/outcome.ts";
import { type SearchOptions, search } from "../../src/repair/search.ts";
import { leg } from "../day/parts.ts";
import { at, day } from "../roads/days.ts";
import { finding } from "./finding.ts";
import { problemOf } from "./problem.ts";

export const QUIET = day([
  { vehicle: "wagon", people: ["wren"], leave: at(300), way: [[leg("lodge", "pier", 30, 30), "drive", { work: 10 }]] },
]);

/** A day that has packs. */
export const packedDay = async () =>
  (
    await problemOf(`daywright: 1
date: 2027-01-20
clock: America/Chicago
zone: America/Chicago
crew: { wren: { role: camera, drives: wagon } }
vehicles: { wagon: {} }
places: { pier: {}, lodge: {} }
roads: [{ link: [pier, lodge], drive: 10 min, bad: 12 min, km: 8 }]
packs: { brick: { count: 2, wh: 98, mount: wedge, in: wagon } }
runs: { wagon: { driver: wren, aboard: [wren], stops: [{ place: lodge, leave: "06:00" }, pier] } }
`)
  ).problem.now.day;

/** What is wrong: a hit, a task or a piece by its name. */
export const wrong = (what: string, more: Partial<Finding> = {}): Finding =>
  finding({ facts: { what }, path: ["hits", what], ...more });

/** A law or a rule of the house that is broken by some minutes, as a warning that was there before or that a step brings. */
export const house = (minutes: number): Finding =>
  finding({
    ...{
      code: "limit-exceeded",
      level: "warning",
      source: { title: "house rules", clause: null },
      shortMinutes: minutes,
    },
  });

export interface World {
  /** What is wrong with the plan as it is, and what of it is to be repaired. */
  readonly now: readonly Finding[];
  readonly targets?: readonly Finding[];
  readonly candidates: readonly AimedCandidate[];
  /** What is wrong after some steps, which write these values; null if that is no plan. */
  after(steps: readonly number[], values: readonly string[], scope: Scope | undefined): readonly Finding[] | null;
  readonly own?: JudgedPlan["day"];
}

const MUCH: SearchOptions = { budget: 1000, deepest: 3, together: 12, most: 3 };

/** A step that writes one value of a task of its own. */
export const step = (n: number, codes: readonly string[] = ["hit-missed"], more: Partial<AimedCandidate> = {}) => ({
  edits: [{ path: ["tasks", `t${n}`, "for"], value: `${n}` }],
  codes,
  ...more,
});

export const steps = (count: number, codes?: readonly string[]): AimedCandidate[] =>
  Array.from({ length: count }, (_, n) => step(n, codes));

/** By whom a version is judged: by all in brief, as `check` does, or by some engines. */
export const by = (scope: Scope | undefined): string => {
  if (scope === undefined) return "whole";
  if (scope.topics === undefined) return scope.chores === false ? "no chores" : "brief";
  return `${scope.chores === false ? "part" : "chores"}:${scope.topics.join(",")}`;
};

export async function searched(world: World, options: Partial<SearchOptions> = {}) {
  const asked: string[] = [];
  const { own = QUIET, candidates, now } = world;
  const stepOf = new Map(candidates.flatMap(({ edits }, n) => edits.map(({ path }) => [path.join(" "), n] as const)));
  const judge: JudgeEdits = async (edits, scope) => {
    const used = [...new Set(edits.map(({ path }) => stepOf.get(path.join(" ")) ?? -1))];
    const values = edits.map(({ value }) => value ?? "");
    const isLength = used.some((n) => candidates[n]?.length !== undefined);
    asked.push(`${isLength ? values.join("+") : used.join("+")} ${by(scope)}`);
    const findings = world.after(used, values, scope);
    return findings === null ? null : { day: own, findings };
  };
  const progress: [number, number | null][] = [];
  const { repairs, proof } = await search({ day: own, findings: now }, world.targets ?? now, candidates, judge, {
    ...MUCH,
    ...options,
    progress: (judged, best) => progress.push([judged, best?.open ?? null]),
  });
  return {
    ...{ asked, proof, repairs, progress },
    brief: asked.filter((one) => one.endsWith(" brief")).map((one) => one.slice(0, -" brief".length)),
    found: repairs.map(({ edits }) => edits.map(({ value }) => value).join("+")),
  };
}

export const [A, B, C] = [wrong("a"), wrong("b"), wrong("c")];

/** Each step clears the targets that `clears` names for it. */
export const clearing =
  (now: readonly Finding[], clears: Readonly<Record<number, readonly Finding[]>>): World["after"] =>
  (used) =>
    now.filter((one) => !used.some((n) => clears[n]?.includes(one)));
