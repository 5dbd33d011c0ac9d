/** What is short where a demand cannot be covered, in figures: packs, energy, charging, moments for hands. */

import type { Id } from "../../plan/plan.ts";
import type { DayModel } from "../day/build.ts";
import { frozenMinutes, hotMinutes } from "../day/idleChargers.ts";
import type { Demand } from "../model.ts";

/** How many packs, Wh or watts are needed and there. */
export interface Shortage {
  /** Packs of one mount wanted at once, and how many there are: of the mount that lacks most; null where none lacks. */
  readonly packs: { readonly needed: number; readonly there: number } | null;
  /** A load that no pack of its mount could run to the end, were it full; null where there is none. */
  readonly beyond: {
    readonly load: Id;
    readonly needsWh: number;
    readonly givesWh: number;
    readonly packWh: number;
  } | null;
  /** Wh that the worst pack lacks; null where no amount helps. */
  readonly missingWh: number | null;
  /** Slots of all chargers, and the longest that one of them has power before the demand; null where there is no charger. */
  readonly charging: { readonly slots: number; readonly minutes: number; readonly watts: number } | null;
  /**
   * Why no charger has power before the demand, though an engine or a lead is there; `hands` where one has, but nobody who may
   * work at a charger is at one before it. Null where one can be used, or none is there.
   */
  readonly because: "frost" | "heat" | "overload" | "hands" | null;
  /** Whether the swaps that it needs would take somebody's rest below what binds it. */
  readonly forRest: boolean;
  /** Who alone could make them, but sleeps aboard then; empty where that would not help, or others can. */
  readonly asleep: readonly Id[];
  /** Moments with hands free before the demand. */
  readonly moments: number;
  /** Packs that fit and are taken as empty, as no one has stated their charge, where more charge would help. */
  readonly unstated: readonly Id[];
}

/** `wanted` are the demands that go before, and `first` itself. */
export function shortageOf(
  built: DayModel,
  first: Demand,
  wanted: readonly Demand[],
  missingWh: number | null,
  { forRest, asleep }: Pick<Shortage, "forRest" | "asleep">,
): Shortage {
  const { model } = built;
  const chargers = model.chargers.map(({ on, slots, watts }) => ({
    slots,
    watts,
    minutes: on.reduce((sum, { from, to }) => sum + Math.max(0, Math.min(to, first.from) - from), 0),
  }));
  const [packs, beyond] = [packsShort(model, first, wanted), beyondEveryPack(model, first)];
  const slots = chargers.reduce((sum, one) => sum + one.slots, 0);
  const minutes = Math.max(...chargers.map((one) => one.minutes));
  const watts = Math.max(...chargers.map((one) => one.watts));
  return {
    packs,
    beyond,
    missingWh,
    charging: chargers.length === 0 ? null : { slots, minutes, watts },
    because: chargers.length === 0 ? null : minutes > 0 ? (isReached(built, first) ? null : "hands") : reasonFor(built),
    forRest,
    asleep,
    moments: model.touches.filter((touch) => touch.at <= first.from && touch.reach.length > 0).length,
    unstated: packs === null && beyond === null && missingWh !== null ? unstatedFor(built, first) : [],
  };
}

/** The packs without a stated charge that fit a load of the demand. */
function unstatedFor({ model, unstated }: DayModel, { watts }: Demand): readonly Id[] {
  const mounts = new Set(model.loads.filter(({ id }) => watts.has(id)).map(({ mount }) => mount));
  return model.packs.filter(({ id, mount }) => unstated.includes(id) && mounts.has(mount)).map(({ id }) => id);
}

/** Whether someone may work at a charger before the demand. */
function isReached({ model }: DayModel, first: Demand): boolean {
  const bays = new Set(model.chargers.map(({ bay }) => bay));
  return model.touches.some(({ at, reach }) => at <= first.from && reach.some((bay) => bays.has(bay)));
}

/** What keeps chargers from the power that is there. */
function reasonFor(built: DayModel): Shortage["because"] {
  const bays = [...built.around.day.plan.chargers.values()].map((charger) => charger.in);
  if (built.overloads.length > 0) return "overload";
  if (bays.some((bay) => frozenMinutes(built, bay) > 0)) return "frost";
  return bays.some((bay) => hotMinutes(built, bay) > 0) ? "heat" : null;
}

/** A pack to ask for is named in steps of this, Wh. */
const PACK_STEP_WH = 10;

/** A hit keeps the same pack from beginning to end: what one load needs more of than the fullest pack gives, that which lacks most. */
function beyondEveryPack({ packs, loads }: DayModel["model"], first: Demand): Shortage["beyond"] {
  if (first.kind === "standby") return null;
  const found = [...first.watts].flatMap(([load, watts]) => {
    const mount = loads.find((one) => one.id === load)?.mount;
    const [best] = packs
      .filter((pack) => pack.mount === mount)
      .toSorted((a, b) => b.wh - b.reserveWh - (a.wh - a.reserveWh));
    if (best === undefined) return [];
    const [needsWh, givesWh] = [(watts * (first.to - first.from)) / 60, best.wh - best.reserveWh];
    const share = givesWh / best.wh;
    const packWh = Math.ceil(needsWh / share / PACK_STEP_WH - 1e-9) * PACK_STEP_WH;
    return needsWh > givesWh + 1e-9 ? [{ load, needsWh, givesWh, packWh }] : [];
  });
  return found.toSorted((a, b) => b.needsWh - b.givesWh - (a.needsWh - a.givesWh))[0] ?? null;
}

function packsShort({ packs, loads }: DayModel["model"], first: Demand, wanted: readonly Demand[]): Shortage["packs"] {
  const mountOf = (load: string): string | undefined => loads.find((one) => one.id === load)?.mount;
  const mounts = new Set([...first.watts.keys()].map(mountOf));
  const starts = wanted.map(({ from }) => from).filter((from) => first.from <= from && from < first.to);
  const counts = [...mounts].flatMap((mount) =>
    [first.from, ...starts].map((at) => {
      const using = wanted.filter(({ from, to }) => from <= at && at < to).flatMap(({ watts }) => [...watts.keys()]);
      return {
        needed: using.filter((load) => mountOf(load) === mount).length,
        there: packs.filter((pack) => pack.mount === mount).length,
      };
    }),
  );
  const [worst] = counts.toSorted((a, b) => b.needed - b.there - (a.needed - a.there));
  return worst === undefined || worst.needed <= worst.there ? null : worst;
}
