/** How long each person can go on: awake since, may drive until, rests from, may be called again from. */
import type { Day } from "../day/day.ts";
import type { HoursResult } from "../hours/index.ts";
import { bindingRests } from "../hours/judge/bindingRests.ts";
import type { Id } from "../plan/plan.ts";
import { after, type Instant } from "../time/units.ts";
import { FARTHEST, longest } from "./order.ts";
import type { Aboard, Rolling } from "./rolling.ts";
import type { VehicleEndurance } from "./vehicles.ts";

/** How long a person has been awake and may go on. */
export interface PersonEndurance {
  readonly who: Id;
  /** Null where nothing says when they got up. */
  readonly awakeSince: Instant | null;
  readonly awakeAssumed: boolean;
  /** By law, alone and without a break, in the vehicle they are in; null for who may not drive it. */
  readonly mayDriveUntil: Instant | null;
  /** No law ends it within two days. */
  readonly unlimited: boolean;
  /** When their vehicle must stop for good by law, else their release. */
  readonly restsFrom: Instant | null;
  /** After the longest rest that binds them. */
  readonly calledFrom: Instant | null;
}

/** Everyone with something to do on the last of `days`, in plan order. */
export function peopleEndurance(
  days: readonly Day[],
  hours: HoursResult | undefined,
  vehicles: readonly { readonly aboard: Aboard; readonly rolling: Rolling; readonly found: VehicleEndurance }[],
  at: Instant,
): readonly PersonEndurance[] {
  const day = days.at(-1);
  if (day === undefined) return [];
  return day.people
    .filter(({ call }) => call !== null)
    .map(({ id, release }): PersonEndurance => {
      const own = vehicles.find(({ aboard }) => aboard.who.includes(id));
      const drives = own?.aboard.drivers.includes(id) === true;
      const from = own?.aboard.from ?? at;
      const alone = (m: number): boolean =>
        m === 0 ||
        own === undefined ||
        own.rolling.of(own.aboard, id, [{ from, to: after(from, m), driver: id }]).law === 0;
      const restsFrom = own === undefined || own.found.lawBecause === null ? release : own.found.lawUntil;
      const until = drives ? longest(FARTHEST, alone) : null;
      const rest = Math.max(0, ...bindingRests(days, id).map((binding) => binding.minutes));
      const night = hours?.people.get(id)?.fitness;
      const up = night?.up ?? null;
      return {
        who: id,
        awakeSince: up !== null && up <= at ? up : null,
        awakeAssumed: night?.upAssumed ?? false,
        mayDriveUntil: until === null ? null : after(from, until),
        unlimited: until === FARTHEST,
        restsFrom,
        calledFrom: restsFrom === null ? null : after(restsFrom, rest),
      };
    });
}
