/**
 * Do the batteries last? Which pack is on which load at each hit, which in which slot and when somebody swaps it, and a proof.
 *
 * `assess` solves the last day of a chain; the packs come from the days before it, as far as those say more than the plan.
 */
import type { Day } from "../day/day.ts";
import type { Finding } from "../findings/finding.ts";
import type { JudgeInput, Judgement } from "../findings/judgement.ts";
import type { Id } from "../plan/plan.ts";
import type { SkyResult } from "../sky/index.ts";
import { buildModel, type Carried, type DayModel } from "./day/build.ts";
import type { Effort } from "./fast/effort.ts";
import { powerFindings } from "./judge.ts";
import { type Solution, solve } from "./proof/solve.ts";
import { diagnose, type Missing } from "./shortage/diagnose.ts";

export type { DayModel } from "./day/build.ts";
export { codes } from "./findings.ts";
export type { Solution } from "./proof/solve.ts";
export type { Cure } from "./shortage/cures.ts";
export type { Missing } from "./shortage/diagnose.ts";

export interface PowerResult {
  readonly built: DayModel;
  readonly solution: Solution;
  /** Null where everything is covered. */
  readonly missing: Missing | null;
  /** What the packs hold at the end, and where they stand: for the day after. */
  readonly left: Carried;
}

/** `cover` proves what is covered and is quick; `all` also proves margin and moves, for the `power` report. */
export type Goals = Effort["goals"];

/** Judges the batteries of the last of `days`. `sky` null: every hit counts as dark. */
export async function assess(
  { days, patience, brief }: JudgeInput,
  sky: SkyResult | null,
  goals: Goals = "cover",
): Promise<Judgement<PowerResult>> {
  const day = days.at(-1);
  if (day === undefined) throw new RangeError("no day to judge");
  let carried: Carried = new Map();
  for (const before of daysBefore(days)) carried = await after(before, carried, patience, await skyOf(before, sky));
  const effort: Effort = { patience, goals };
  const built = buildModel(day, sky, carried);
  const solution = await solve(built.model, effort);
  const missing = brief === true ? null : await diagnose(built, solution, effort);
  const findings: readonly Finding[] = powerFindings(built, solution, missing);
  return { result: { built, solution, missing, left: leftBy(built, solution) }, findings };
}

/** The same day with margin and moves proved as far as the counted budget goes, where `assess` was asked for `cover` only. */
export async function proved(result: PowerResult, patience: number): Promise<PowerResult> {
  const solution = await solve(result.built.model, { patience, goals: "all" });
  return { ...result, solution, left: leftBy(result.built, solution) };
}

/** The days whose ends matter: those before a plan that does not state every charge itself. */
function daysBefore(days: readonly Day[]): readonly Day[] {
  const stated = days.findLastIndex((day) => [...day.plan.packs.values()].every((pack) => pack.charge !== null));
  return days.slice(Math.max(0, stated), -1);
}

/** The light of an earlier day; not known where that of the last day is not. */
async function skyOf(day: Day, sky: SkyResult | null): Promise<SkyResult | null> {
  if (sky === null) return null;
  const { assess: light } = await import("../sky/index.ts");
  return (await light({ days: [day], patience: 1, now: null })).result;
}

/** What a day leaves: as planned, and as it went where its plan says so. Nothing where it states no charge to start from. */
async function after(day: Day, carried: Carried, patience: number, sky: SkyResult | null): Promise<Carried> {
  const built = buildModel(day, sky, carried);
  const unknown = new Set(built.unstated);
  const planned = leftBy(built, await solve(built.model, { patience, goals: "cover" }));
  const left = new Map([...planned].filter(([id]) => !unknown.has(id)));
  for (const [id, actual] of day.plan.actual.packs) {
    const at = actual.in ?? planned.get(id)?.at ?? day.plan.packs.get(id)?.in;
    const share = actual.charge ?? left.get(id)?.share;
    if (at !== undefined && share !== undefined) left.set(id, { share, at });
  }
  return left;
}

function leftBy({ model }: DayModel, { replay }: Solution): Carried {
  return new Map(
    model.packs.map((pack): [Id, { share: number; at: Id }] => {
      const last = replay.steps.get(pack.id)?.at(-1);
      return [pack.id, { share: (last?.whAfter ?? pack.startWh) / pack.wh, at: last?.at ?? pack.at }];
    }),
  );
}
