/** A plan and its variants side by side: what each gives up, costs and risks, and by when one must decide. */
import type { Day } from "../day/day.ts";
import { timecards } from "../hours/pay/timecard.ts";
import { leastOf, mostOf, sumOf } from "../lists.ts";
import type { Id } from "../plan/plan.ts";
import { byRank, type EarlierPerson, hitsLost, type Standing, standingOf } from "../repair/standing.ts";
import { type Instant, instant } from "../time/units.ts";
import type { Version } from "./engines.ts";
import { dayChanges } from "./index.ts";

/** A version of the day to compare: its name, its edits and the judged days. */
export interface VariantInput {
  readonly label: string;
  /** As they were written: `hits.noon.at=14:00`; none for a file. */
  readonly edits: readonly string[];
  /** Null where it is no plan, or its day cannot be computed. */
  readonly version: Version | null;
  /** Why there is none. */
  readonly refused: string | null;
}

/** A version with its figures and its place in the ranking; null where it has no day. */
export interface Variant extends Omit<VariantInput, "version"> {
  readonly figures: VariantFigures | null;
  /** From 1; null for one that is no plan. */
  readonly rank: number | null;
}

/** What versions are compared by. */
export interface VariantFigures {
  readonly standing: Standing;
  readonly hitsMade: readonly Id[];
  readonly hitsLost: readonly Id[];
  /** That everyone is in position in time, 0 to 1. */
  readonly chances: readonly { readonly hit: Id; readonly share: number }[];
  /** Of all of them: at least this, as what makes one drive slow makes others slow. */
  readonly chanceOfAll: number | null;
  readonly firstCall: ComparedMoment | null;
  readonly lastRelease: ComparedMoment | null;
  readonly earlierPeople: readonly EarlierPerson[];
  readonly leastRestMinutes: number | null;
  /** Of all limits at the wheel of everyone who drives. */
  readonly leastDrivingLeftMinutes: number | null;
  readonly leastPackWh: number | null;
  readonly overtimeMinutes: number;
  readonly mealsMissed: number;
  readonly shortTurnarounds: number;
  readonly errors: number;
  readonly warnings: number;
  /** Nothing differs from the plan. */
  readonly same: boolean;
  /** By when the first person must know of it; null for the plan itself. */
  readonly decideBy: ComparedMoment | null;
}

/** A moment and the place whose clock it is shown on. */
export interface ComparedMoment {
  readonly at: Instant;
  readonly place: Id | null;
}

/** The plan first, then its variants in the order given; ranked by what they break and lose. */
export function compareVariants(plan: Version, inputs: readonly VariantInput[]): readonly Variant[] {
  const all: readonly VariantInput[] = [{ label: "plan", edits: [], version: plan, refused: null }, ...inputs];
  const figures = all.map(({ version }) => (version === null ? null : figuresOf(plan, version)));
  const order = all
    .flatMap((input, at) => {
      const own = figures[at];
      return own == null ? [] : [{ at, standing: own.standing, edits: input.edits.length }];
    })
    .sort(byRank);
  return all.map(({ label, edits, refused }, at) => {
    const rank = order.findIndex((one) => one.at === at);
    return { label, edits, refused, figures: figures[at] ?? null, rank: rank < 0 ? null : rank + 1 };
  });
}

function figuresOf(plan: Version, version: Version): VariantFigures {
  const { day, days, findings, results } = version;
  const lost = hitsLost(plan.day, version);
  const standing = standingOf(plan, version);
  const chances = (results.roads?.hits ?? []).map(({ target, printed }) => ({ hit: target.hit, share: printed }));
  const open = findings.filter(({ accepted }) => accepted === null);
  const cards = timecards(days);
  const today = cards.flatMap((card) => card.days.filter(({ date }) => date === day.plan.date));
  const { people, changes, found, gone } = dayChanges(plan, version);
  const first = people.find(({ tellBy }) => tellBy !== null);
  return {
    standing,
    hitsMade: day.activities.flatMap(({ id, activity }) =>
      activity.kind === "hit" && !isLost(version, id) ? [id] : [],
    ),
    hitsLost: lost,
    chances,
    chanceOfAll: chances.length === 0 ? null : chances.reduce((all, { share }) => all * share, 1),
    firstCall: edgeOf(day, "call"),
    lastRelease: edgeOf(day, "release"),
    earlierPeople: standing.earlierPeople,
    leastRestMinutes: leastOf(
      [...(results.hours?.people.values() ?? [])].flatMap(({ hours }) => hours.restBeforeMinutes ?? []),
    ),
    leastDrivingLeftMinutes: drivingLeft(version),
    leastPackWh: results.power?.solution.replay.leastMarginWh ?? null,
    overtimeMinutes: sumOf(today, ({ overtimeMinutes, doubleMinutes }) => overtimeMinutes + doubleMinutes),
    mealsMissed: sumOf(today, ({ mealsMissed }) => mealsMissed ?? 0),
    shortTurnarounds: sumOf(today, ({ shortTurnaroundMinutes }) => ((shortTurnaroundMinutes ?? 0) > 0 ? 1 : 0)),
    errors: open.filter(({ level }) => level === "error").length,
    warnings: open.filter(({ level }) => level === "warning").length,
    same: changes.length + found.length + gone.length === 0,
    decideBy: first === undefined || first.tellBy === null ? null : { at: first.tellBy, place: first.bed },
  };
}

const isLost = (version: Version, id: Id): boolean => hitsLost(version.day, version).includes(id);

/** The first call or the last release, with its place. */
function edgeOf(day: Day, edge: "call" | "release"): ComparedMoment | null {
  const duties = day.people.flatMap(({ duties }) => duties);
  const moments = duties.map((duty) => duty[edge]);
  const at = edge === "call" ? leastOf(moments) : mostOf(moments);
  const own = duties.find((duty) => duty[edge] === at);
  if (at === null || own === undefined) return null;
  return { at: instant(at), place: edge === "call" ? own.callPlace : own.releasePlace };
}

/** The least that any limit on driving leaves anyone who drives that day. */
function drivingLeft({ day, results }: Version): number | null {
  const drivers = new Set(day.moves.flatMap(({ driver, wheel }) => [driver, ...wheel.map((span) => span.driver)]));
  return leastOf(
    [...(results.hours?.people ?? [])]
      .filter(([id]) => drivers.has(id))
      .flatMap(([, { hours }]) => hours.verdicts)
      .flatMap(({ limits }) => limits)
      .flatMap(({ limit, leftMinutes }) =>
        limit.kind === "max" && limit.counts === "driving" && leftMinutes !== null ? [leftMinutes] : [],
      ),
  );
}
