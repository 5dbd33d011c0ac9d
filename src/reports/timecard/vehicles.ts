/** Odometers and engine hours where they were logged: what each vehicle ran between one reading and the next. */
import type { Day } from "../../day/day.ts";
import type { Say } from "../../findings/finding.ts";
import type { Id } from "../../plan/plan.ts";
import { column, figureColumn, named, numberCell } from "../shared/cells.ts";
import type { Json, Table } from "../shared/view.ts";

export interface Reading {
  readonly vehicle: Id;
  readonly date: string;
  readonly odometerKm: number | null;
  /** Since the reading before it; null for the first. */
  readonly drivenKm: number | null;
  readonly engineHours: number | null;
  readonly ranHours: number | null;
}

/** A tenth is what such a clock shows; differences of floats show more. */
const tenth = (value: number): number => Math.round(value * 10) / 10;

const since = (now: number | null, before: number | null): number | null =>
  now === null || before === null ? null : tenth(now - before);

/** Readings by vehicle in the order of the last plan, then by day. */
export function readingsOf(days: readonly Day[]): readonly Reading[] {
  const vehicles = new Set([...days].reverse().flatMap((day) => [...day.plan.vehicles.keys()]));
  return [...vehicles].flatMap((vehicle) => {
    let odometer: number | null = null;
    let engine: number | null = null;
    return days.flatMap(({ plan }): readonly Reading[] => {
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

/** Null where nothing was logged. */
export function readingsTable(readings: readonly Reading[], say: Say): Table | null {
  if (readings.length === 0) return null;
  return {
    kind: "table",
    title: "Vehicles, as logged",
    columns: [
      column("Vehicle", "vehicle"),
      column("Day", "date"),
      figureColumn("Odometer", "odometerKm"),
      figureColumn("Driven", "drivenKm"),
      figureColumn("Engine", "engineHours"),
      figureColumn("Ran", "ranHours"),
    ],
    rows: readings.map(({ vehicle, date, odometerKm, drivenKm, engineHours, ranHours }) => [
      { ...named(say, vehicle), tone: "strong" },
      { text: date },
      numberCell(odometerKm, 1, " km"),
      numberCell(drivenKm, 1, " km"),
      numberCell(engineHours, 1, " h"),
      numberCell(ranHours, 1, " h"),
    ]),
    empty: "",
  };
}

export const readingsJson = (readings: readonly Reading[]): Json => readings.map((reading) => ({ ...reading }));
