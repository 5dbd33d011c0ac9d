/** Packs that are mounted outside in the frost: when what comes off a load is warm enough to charge. */
import { groupBy } from "../../lists.ts";
import type { Id } from "../../plan/plan.ts";
import { type Instant, type Interval, instant } from "../../time/units.ts";
import { FROZEN_MINUTES, INDOORS_CELSIUS, WARM_CELSIUS } from "../physics.ts";
import type { DayDemand } from "./demands.ts";
import type { Surroundings } from "./surroundings.ts";

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
  const end = Math.min(to, at);
  let frozen = 0;
  for (let minute = from; minute < end && frozen < FROZEN_MINUTES; minute = instant(minute + 1))
    frozen = (around.outdoors(place, minute) ?? INDOORS_CELSIUS) < 0 ? frozen + 1 : 0;
  if (frozen < FROZEN_MINUTES) return at;
  const isWarm = (minute: number): boolean => (around.inside(bay, instant(minute)) ?? INDOORS_CELSIUS) >= WARM_CELSIUS;
  let warmed = end;
  while (warmed < at && !isWarm(warmed)) warmed++;
  return instant(Math.max(at, warmed + around.day.plan.rules.warmUp));
}
