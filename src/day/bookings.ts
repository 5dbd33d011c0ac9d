/** Plans of several crews side by side: who or what two of them use at the same time, and plans that are versions of one. */
import type { Finding, PlanPath, Span } from "../findings/finding.ts";
import type { Id } from "../plan/plan.ts";
import { type Interval, instant } from "../time/units.ts";
import type { Day } from "./day.ts";
import { bookedTwice, dateTwice } from "./findings/findingsBookings.ts";

/** What a plan uses while its day lasts: plain data, so that it can come from another thread. */
export interface Claim extends Interval {
  readonly file: string | null;
  /** Of its own file; null where it states none. */
  readonly plan: Id | null;
  /** Ids of people, vehicles, packs, pieces and paths, with where the plan says them. */
  readonly uses: readonly Use[];
  /** The plan's date. */
  readonly span: Span | null;
}

interface Use {
  readonly id: Id;
  readonly span: Span | null;
}

/** Null for a day on which no one has a duty. */
export function claimOf(day: Day, file: string | null): Claim | null {
  const { plan } = day;
  const duties = day.people.flatMap(({ id, call, release }) =>
    call === null || release === null ? [] : [{ id, call, release }],
  );
  if (duties.length === 0) return null;
  const at = (path: PlanPath): Span | null => plan.source.locate(path);
  const vehicles = [...plan.runs.keys()];
  const places = new Set(day.stops.map(({ place }) => place));
  const isThere = (where: Id): boolean => vehicles.includes(where) || places.has(where);
  const paths = new Set(
    day.activities.flatMap(({ activity, state }) => (state === "missed" ? [] : (activity.signalPath ?? []))),
  );
  const uses: readonly Use[] = [
    ...duties.map(({ id }) => ({ id, span: at(["crew", id]) })),
    ...vehicles.map((id) => ({ id, span: at(["vehicles", id]) })),
    ...[...plan.packs.values()].flatMap(({ id, in: where, path }) => (isThere(where) ? [{ id, span: at(path) }] : [])),
    ...[...plan.kit.values()].flatMap(({ id, in: where, path }) => (isThere(where) ? [{ id, span: at(path) }] : [])),
    ...[...paths].map((id) => ({ id, span: at(["paths", id]) })),
  ];
  return {
    file,
    plan: plan.id,
    from: instant(Math.min(...duties.map(({ call }) => call))),
    to: instant(Math.max(...duties.map(({ release }) => release))),
    uses,
    span: at(["date"]),
  };
}

/** What a plan has in common with others at the same time, and the files of those. */
interface Clash {
  readonly both: readonly Id[];
  readonly others: string[];
}

/** What is wrong between plans, by the file that it concerns. */
export function compareClaims(claims: readonly Claim[]): ReadonlyMap<string, readonly Finding[]> {
  const found = new Map<string, Finding[]>();
  const add = ({ file }: Claim, finding: Finding): void => {
    if (file === null) return;
    const all = found.get(file);
    if (all === undefined) found.set(file, [finding]);
    else all.push(finding);
  };
  const inTime = claims.toSorted((a, b) => a.from - b.from);
  const versions = new Map<Id, Claim>();
  for (const claim of claims) {
    const first = claim.plan === null ? undefined : versions.get(claim.plan);
    if (claim.plan !== null && first === undefined) versions.set(claim.plan, claim);
    if (first !== undefined)
      add(claim, dateTwice.raise({ plan: claim.plan ?? "", other: first.file ?? "" }, { span: claim.span }));
  }
  // Many plans that share the same are one finding for each plan, not one for each two.
  const shared = new Map<Claim, Map<string, Clash>>();
  const share = (mine: Claim, theirs: Claim, both: readonly Id[]): void => {
    const clashes = shared.get(mine) ?? new Map<string, Clash>();
    shared.set(mine, clashes);
    const key = both.toSorted().join(" ");
    const clash = clashes.get(key) ?? { both, others: [] };
    clashes.set(key, clash);
    clash.others.push(theirs.file ?? "");
  };
  inTime.forEach((one, index) => {
    for (let at = index + 1; at < inTime.length; at += 1) {
      const other = inTime[at];
      if (other === undefined || other.from >= one.to) break;
      if (one.plan !== null && one.plan === other.plan) continue;
      const both = one.uses.filter(({ id }) => other.uses.some((use) => use.id === id)).map(({ id }) => id);
      if (both.length === 0) continue;
      share(one, other, both);
      share(other, one, both);
    }
  });
  for (const [claim, clashes] of shared) for (const clash of clashes.values()) add(claim, booked(claim, clash));
  return found;
}

function booked(claim: Claim, { both, others }: Clash): Finding {
  const span = claim.uses.find(({ id }) => both.includes(id))?.span ?? claim.span;
  return bookedTwice.raise({ what: both, others }, { span });
}
