/** The JSON of `timecard`. */
import { id, list, number, object, orNull, type Shape, said, text, whole } from "./shape.ts";

const paid = {
  workedMinutes: whole,
  straightMinutes: whole,
  overtimeMinutes: whole,
  doubleMinutes: whole,
  dayRateMinutes: said(whole, "what a day rate pays beyond the work of a shorter day"),
};

const day = object({
  date: text,
  ...paid,
  drivingMinutes: whole,
  ridingMinutes: said(whole, "as a passenger, counted as worked"),
  restBeforeMinutes: orNull(whole),
  shortTurnaroundMinutes: said(orNull(whole), "null where nothing asks for a turnaround, or the rest is not known"),
  mealsMissed: said(orNull(whole), "null where no rule says when a meal is due"),
  by: said(text, "the contract or law that the day is paid by"),
});

const person = object({
  id,
  contract: orNull(id),
  days: list(day),
  totals: object({
    ...paid,
    drivingMinutes: whole,
    ridingMinutes: whole,
    mealsMissed: orNull(whole),
    shortTurnarounds: orNull(whole),
    daysWorked: whole,
  }),
  mealPenalties: said(orNull(number), "in the contract's own money"),
  turnaroundPenalties: orNull(number),
  perDiem: orNull(number),
});

const reading = object({
  vehicle: id,
  date: text,
  odometerKm: orNull(number),
  drivenKm: said(orNull(number), "since the reading before"),
  engineHours: orNull(number),
  ranHours: orNull(number),
});

export const data: Shape = object({ people: list(person), vehicles: list(reading) });
