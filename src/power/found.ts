/** Packs that were found with another charge than their rotation gave: by how much each fell short. */
import type { Id } from "../plan/plan.ts";
import type { Instant } from "../time/units.ts";
import type { Solution } from "./proof/solve.ts";
import { replay } from "./replay.ts";

/** A pack as it was found at a moment, Wh, and what its rotation gave then. */
export interface FoundPack {
  readonly pack: Id;
  readonly at: Instant;
  readonly wh: number;
  readonly computedWh: number;
  /** Of a full charge. */
  readonly fullWh: number;
  /** Less than computed, as a share of a full charge, whole percent; negative where it was more. */
  readonly shortPercent: number;
}

/** In the order of the packs, each in time order. */
export function foundPacks({ model, rotation }: Solution): readonly FoundPack[] {
  return model.packs.flatMap((pack) =>
    (pack.found ?? []).map(({ at, wh }): FoundPack => {
      // Without what was seen from then on, and with what was seen before.
      const packs = model.packs.map(({ found = [], seen = [], ...one }) => ({
        ...one,
        found: found.filter((other) => other.at < at),
        seen: seen.filter((other) => other.at < at),
      }));
      const { steps } = replay({ ...model, packs, to: at }, rotation);
      const computedWh = steps.get(pack.id)?.at(-1)?.whAfter ?? pack.startWh;
      const shortPercent = Math.round(((computedWh - wh) / pack.wh) * 100);
      return { pack: pack.id, at, wh, computedWh, fullWh: pack.wh, shortPercent };
    }),
  );
}
