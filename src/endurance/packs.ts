/** How many more hits of the plan's kind the packs carry from a moment on, and how many an hour the chargers add. */
import type { Day } from "../day/day.ts";
import { coldestOn } from "../legs/weather.ts";
import { sumOf } from "../lists.ts";
import type { Id } from "../plan/plan.ts";
import type { PowerResult } from "../power/index.ts";
import type { Instant } from "../time/units.ts";

/** How long the packs of one mount last, Wh. */
export interface PackEndurance {
  readonly mount: string;
  readonly packs: readonly Id[];
  /** Above their reserves now, Wh. */
  readonly wh: number;
  /** What one hit of the plan takes on average, Wh, with the cold in it. */
  readonly whAHit: number;
  /** Whole hits without a charger; what charging adds in an hour is beside it. */
  readonly hits: number;
  readonly hitsAnHour: number;
  /** The lowest stated temperature of the day, °C; null where none is stated. */
  readonly celsius: number | null;
}

/** What a pack holds at a moment of the rotation that the plan prints. */
function chargeAt({ solution }: PowerResult, pack: Id, start: number, at: Instant): number {
  const steps = solution.replay.steps.get(pack) ?? [];
  const step = steps.findLast((own) => own.from <= at);
  if (step === undefined) return start;
  const share = step.to <= step.from ? 1 : Math.min(1, (at - step.from) / (step.to - step.from));
  return step.whBefore + (step.whAfter - step.whBefore) * share;
}

/** One row for each mount that a hit needs. */
export function packEndurance(day: Day, power: PowerResult | undefined, at: Instant): readonly PackEndurance[] {
  if (power === undefined) return [];
  const { model } = power.built;
  const mounts = [...new Set(model.loads.map(({ mount }) => mount))];
  const places = [...day.plan.places.keys()];
  const celsius = coldestOn(day.plan.weather, { from: day.span.from, to: day.span.to }, places);
  return mounts.flatMap((mount): readonly PackEndurance[] => {
    const loads = new Set(model.loads.filter((load) => load.mount === mount).map(({ id }) => id));
    const taken = model.demands.flatMap(({ from, to, watts }) => {
      const own = sumOf(
        [...watts].filter(([load]) => loads.has(load)),
        ([, value]) => value,
      );
      return own > 0 ? [(own * (to - from)) / 60] : [];
    });
    const packs = model.packs.filter((pack) => pack.mount === mount);
    if (taken.length === 0 || packs.length === 0) return [];
    const whAHit = sumOf(taken, (wh) => wh) / taken.length;
    const wh = sumOf(packs, (pack) => Math.max(0, chargeAt(power, pack.id, pack.startWh, at) - pack.reserveWh));
    const watts = sumOf(
      model.chargers.filter((charger) => charger.mount === mount),
      ({ slots, watts: each, totalWatts }) => Math.min(slots * each, totalWatts ?? Number.POSITIVE_INFINITY),
    );
    const hits = Math.floor(wh / whAHit);
    return [{ mount, packs: packs.map(({ id }) => id), wh, whAHit, hits, hitsAnHour: watts / whAHit, celsius }];
  });
}
