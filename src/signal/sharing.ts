/** Who holds a path and when; hits without one; spares that fail with the main path. */

import type { Day } from "../day/day.ts";
import type { Finding } from "../findings/finding.ts";
import { groupBy } from "../lists.ts";
import type { Hit, Id, SignalPath } from "../plan/plan.ts";
import { type Instant, instant, overlap } from "../time/units.ts";
import { isCellular } from "./cellular.ts";
import { pathDoubleBooked, pathMissing, spareFailsToo, spareMissing } from "./findings.ts";
import type { PathUse } from "./use.ts";

interface Hold {
  readonly use: PathUse;
  readonly from: Instant;
  readonly to: Instant;
}

/** From the line check (or in position) until the desk lets go; `late` moves nothing and holds nothing. */
function holdOf(use: PathUse): Hold | null {
  const { lineCheck, inPosition, start, end, clearEnd } = use.times;
  const from = lineCheck?.from ?? inPosition ?? start;
  const to = clearEnd ?? end;
  return use.as === "spare" || from === null || to === null ? null : { use, from, to };
}

/** Two users of one path at once; a clear ends where the same visit's next in position begins, which the Day sees to. */
export function sharingFindings(uses: readonly PathUse[]): readonly Finding[] {
  const holds = uses.flatMap((use) => holdOf(use) ?? []);
  return holds.flatMap((hold, i) =>
    holds.slice(0, i).flatMap((other) => {
      if (other.use.path.id !== hold.use.path.id || overlap(other, hold) === 0) return [];
      const facts = {
        path: hold.use.path.id,
        first: other.use.activity.id,
        second: hold.use.activity.id,
        from: { at: instant(Math.max(other.from, hold.from)) },
        to: { at: instant(Math.min(other.to, hold.to)) },
      };
      return [pathDoubleBooked.raise(facts, { path: hold.use.where, at: facts.from.at })];
    }),
  );
}

/** Why a spare fails with the main path, or null. */
export function failsWith(main: SignalPath, spare: SignalPath): string | null {
  if (main.id === spare.id) return "it is the same path";
  if (isCellular(main.kind) && isCellular(spare.kind)) return "both use the mobile networks of that place";
  if (main.kind !== spare.kind) return null;
  if (main.kind === "satellite") {
    if (main.vehicle !== null && main.vehicle === spare.vehicle) return "both use the dish of one vehicle";
    return main.slotEast !== null && main.slotEast === spare.slotEast ? "both use one satellite" : null;
  }
  return main.kind === "cable" ? "both are one cable run" : "both use the same network";
}

/** Hits without a path, without a spare, or with a spare that is none: one finding a cause. */
export function spareFindings(day: Day): readonly Finding[] {
  const hits = [...day.plan.hits.values()];
  const noPaths = day.plan.paths.size === 0;
  const grouped = (of: readonly Hit[], raise: (hits: readonly Id[], first: Hit) => Finding): readonly Finding[] => {
    const [first] = of;
    return first === undefined
      ? []
      : [
          raise(
            of.map((hit) => hit.id),
            first,
          ),
        ];
  };
  const pathless = hits.filter((hit) => hit.signalPath === null);
  const lone = hits.filter((hit) => hit.signalPath !== null && hit.spare === null);
  return [
    ...grouped(pathless, (ids, first) => pathMissing.raise({ hits: ids }, { path: first.path, otherwise: noPaths })),
    ...grouped(lone, (ids, first) => spareMissing.raise({ hits: ids }, { path: first.path })),
    ...pairs(day, hits),
  ];
}

function pairs(day: Day, hits: readonly Hit[]): readonly Finding[] {
  const paired = hits.flatMap((hit) => {
    const main = day.plan.paths.get(hit.signalPath ?? "");
    const spare = day.plan.paths.get(hit.spare ?? "");
    return main === undefined || spare === undefined ? [] : [{ hit, main, spare }];
  });
  return [...groupBy(paired, ({ main, spare }) => `${main.id} ${spare.id}`).values()].flatMap((group) => {
    const [{ hit, main, spare }] = group;
    const because = failsWith(main, spare);
    if (because === null) return [];
    const facts = { hits: group.map((own) => own.hit.id), path: main.id, spare: spare.id, because };
    return [spareFailsToo.raise(facts, { path: [...hit.path, "spare"] })];
  });
}
