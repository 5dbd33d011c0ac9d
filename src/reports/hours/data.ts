/** `data` of `hours`: every documented key in its documented order; law and house rules first, fitness apart from them. */
import type { Fitness } from "../../hours/fitness/fitness.ts";
import { type Breach, breachesOf, type LimitState, type PersonHours } from "../../hours/index.ts";
import type { Id } from "../../plan/plan.ts";
import type { Instant } from "../../time/index.ts";
import type { Json } from "../shared/view.ts";

/** One person as a report shows them. */
export interface HoursRow {
  readonly hours: PersonHours;
  /** Breaches that ended before this belong to an earlier day. */
  readonly since: Instant | null;
  /** Null for a log, which knows nothing of nights. */
  readonly fitness: Fitness | null;
  /** Local at `place`, or where the person is released to. */
  iso(at: Instant | null, place?: Id | null): string | null;
}

/** The breaches of the day or log that is shown. */
export const shownBreaches = ({ hours, since }: HoursRow): readonly Breach[] =>
  breachesOf(hours).filter(({ to }) => since === null || to > since);

const limitJson = (
  row: HoursRow,
  { limit, allowedMinutes, usedMinutes, leftMinutes, runsOutAt }: LimitState,
): Json => ({
  id: limit.id,
  clause: limit.clause,
  allowedMinutes,
  usedMinutes,
  leftMinutes,
  runsOutAt: row.iso(runsOutAt),
});

const breachJson = (row: HoursRow, { limit, from, to }: Breach): Json => ({
  limit: limit.id,
  clause: limit.clause,
  from: row.iso(from),
  to: row.iso(to),
});

function personJson(row: HoursRow): Json {
  const { hours } = row;
  return {
    id: hours.id,
    rules: hours.bindings.map(({ rules }) => rules.id),
    restBeforeMinutes: hours.restBeforeMinutes,
    dutyMinutes: hours.dutyMinutes,
    drivingMinutes: hours.drivingMinutes,
    limits: hours.verdicts.flatMap(({ limits }) => limits.map((state) => limitJson(row, state))),
    breaches: shownBreaches(row).map((breach) => breachJson(row, breach)),
    drivingMustStopAt: row.iso(hours.drivingMustStopAt),
    earliestNextCall: row.iso(hours.earliestNextCall),
    earliestNextDrive: row.iso(hours.earliestNextDrive),
  };
}

/** The index has no more digits than its parameters. */
const hundredths = (index: number): number => Math.round(index * 100) / 100;

function fitnessJson(row: HoursRow): readonly Json[] {
  const { fitness } = row;
  if (fitness === null) return [];
  return [
    {
      id: row.hours.id,
      sleepMinutes: fitness.sleepMinutes,
      sleepStated: fitness.stated,
      up: row.iso(fitness.up, fitness.slept),
      crashRatio: fitness.crashRatio,
      wheel: fitness.wheel.map(({ from, to, place, awakeMinutes, nightMinutes, index }) => ({
        from: row.iso(from, place),
        to: row.iso(to, place),
        awakeMinutes,
        nightMinutes,
        alertness: index === null ? null : hundredths(index),
      })),
      curve: fitness.curve.map(({ at, index }) => ({ at: row.iso(at, fitness.slept), alertness: hundredths(index) })),
    },
  ];
}

export const hoursData = (rows: readonly HoursRow[]): Json => ({
  people: rows.map(personJson),
  fitness: rows.flatMap(fitnessJson),
});
