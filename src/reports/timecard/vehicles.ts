/** Odometers and engine hours where they were logged: what each vehicle ran between one reading and the next. */
import type { Day } from "../../day/day.ts";
import { numberCell } from "../shared/cells.ts";
import { column, columns } from "../shared/columns.ts";
import { idKind, type Kind, type Named, numberKind, orNull, said, textKind } from "../shared/kinds.ts";

/** Odometer and engine hours of a vehicle on a date; null where not logged, and since the reading before for the first. */
export type MeterReading = ReturnType<typeof readingsOf>[number];

/** A tenth is what such a clock shows; differences of floats show more. */
const tenth = (value: number): number => Math.round(value * 10) / 10;

const since = (now: number | null, before: number | null): number | null =>
  now === null || before === null ? null : tenth(now - before);

/** Readings by vehicle in the order of the last plan, then by day. */
export function readingsOf(days: readonly Day[]) {
  const vehicles = new Set([...days].reverse().flatMap((day) => [...day.plan.vehicles.keys()]));
  return [...vehicles].flatMap((vehicle) => {
    let odometer: number | null = null;
    let engine: number | null = null;
    return days.flatMap(({ plan }) => {
      const logged = plan.actual.vehicles.get(vehicle);
      const odometerKm = logged?.odometerKm ?? null;
      const engineHours = logged?.engineHours ?? null;
      if (odometerKm === null && engineHours === null) return [];
      const drivenKm = since(odometerKm, odometer);
      const ranHours = since(engineHours, engine);
      odometer = odometerKm ?? odometer;
      engine = engineHours ?? engine;
      return [{ vehicle, date: plan.date, odometerKm, drivenKm, engineHours, ranHours }];
    });
  });
}

const tenths = (unit: string): Kind<number, unknown> => ({
  ...numberKind,
  cell: (value) => numberCell(value, 1, unit),
});
const km = tenths(" km");
const engine = tenths(" h");

/** A row for each reading. */
export const READINGS = columns<MeterReading, Named>()({
  vehicle: column("Vehicle", idKind, { tone: "strong" }),
  date: column("Day", textKind),
  odometerKm: column("Odometer", orNull(km)),
  drivenKm: column("Driven", said(orNull(km), "since the reading before")),
  engineHours: column("Engine", orNull(engine)),
  ranHours: column("Ran", orNull(engine)),
});
