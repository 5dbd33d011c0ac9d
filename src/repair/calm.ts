/** How long a search goes on without a gain: counted by what its judgements cost, never by the clock. */
import type { Engine } from "./codes.ts";
import type { JudgedPlan } from "./outcome.ts";

/** Work that passed since the last gain, against a most. */
export class Calm {
  private readonly most: number;
  private passed = 0;
  private work = 0;
  private judged = 0;

  constructor(most: number) {
    this.most = most;
  }

  /** One judgement, of so much work. */
  count(work: number): void {
    this.work += work;
    this.judged += 1;
    this.passed += work;
  }

  /** Something was cleared just now. */
  gain(): void {
    this.passed = 0;
  }

  /** Whether so many more judgements, as dear as those so far, may pass without a gain. */
  hasRoomFor(count: number): boolean {
    const each = this.judged === 0 ? 0 : this.work / this.judged;
    return this.passed + (count - 1) * each < this.most;
  }
}

/** Reading a version; its instants; each of them once more for every hit and task where some are missed; its packs. */
const COST = { version: 5_000, instant: 250, refusal: 20, packs: 20_000 } as const;

/**
 * What a judgement costs, about in microseconds: of `outcome`, or of a text that is no plan; `topics` where it was by some
 * engines alone.
 */
export function workOf(now: JudgedPlan, outcome: JudgedPlan | null, topics: readonly Engine[] = ["power"]): number {
  if (outcome === null) return COST.version;
  const { instants, activities, plan } = outcome.day;
  const isMissed = activities.some(({ state }) => state === "missed");
  const refusals = isMissed ? COST.refusal * activities.length : 0;
  const hasPacks = topics.includes("power") && (plan.packs.size > 0 || now.day.plan.packs.size > 0);
  return COST.version + (COST.instant + refusals) * instants.size + (hasPacks ? COST.packs : 0);
}
