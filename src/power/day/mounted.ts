/** Packs that are mounted outside in the frost: when what comes off a load is warm enough to charge. */
import { groupBy } from "../../lists.ts";
import type { Id } from "../../plan/plan.ts";
import { type Instant, type Interval, instant } from "../../time/units.ts";
import { FROZEN_MINUTES, INDOORS_CELSIUS, WARM_CELSIUS } from "../physics.ts";
import type { DayDemand } from "./demands.ts";
import { type Surroundings, stretchesWhere } from "./surroundings.ts";

/** A load that stands outside, from its first use at a place to its last one there. */
export interface Mounted extends Interval {
  readonly load: Id;
  readonly place: Id;
}

/** Where the loads of these demands stand outside; two uses at one place are one stretch where nothing else comes between. */
export function mountedOutside(demands: readonly DayDemand[]): readonly Mounted[] {
  const uses = demands.flatMap(({ demand, outside: place }): readonly Mounted[] =>
    place === null ? [] : [...demand.watts.keys()].map((load) => ({ load, place, from: demand.from, to: demand.to })),
  );
  return [...groupBy(uses, ({ load }) => load).values()].flatMap((own) => {
    const stretches: Mounted[] = [];
    for (const use of own.toSorted((a, b) => a.from - b.from)) {
      const last = stretches.at(-1);
      if (last?.place !== use.place) stretches.push(use);
      else stretches[stretches.length - 1] = { ...last, to: instant(Math.max(last.to, use.to)) };
    }
    return stretches;
  });
}

/** When a pack that comes off this load at `at` is warm: `at` itself unless it was in the frost for an hour. */
export function warmOff(around: Surroundings, { place, from, to }: Mounted, bay: Id, at: Instant): Instant {
  const end = instant(Math.min(to, at));
  const inFrost = stretchesWhere(
    around,
    { from, to: end },
    (minute) => (around.outdoors(place, minute) ?? INDOORS_CELSIUS) < 0,
  );
  if (!inFrost.some((frost) => frost.to - frost.from >= FROZEN_MINUTES)) return at;
  const isWarm = (minute: Instant): boolean => (around.inside(bay, minute) ?? INDOORS_CELSIUS) >= WARM_CELSIUS;
  const [warm] = stretchesWhere(around, { from: end, to: at }, isWarm);
  return instant(Math.max(at, (warm?.from ?? at) + around.day.plan.rules.warmUp));
}
