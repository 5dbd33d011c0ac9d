/**
 * `asrun`: what really went out, from what was logged: hits planned and as run, people, vehicles, packs that fell short;
 * deviations first. What was not logged is said to be so and never assumed. Of several days in one go.
 */

import type { ActivityTimes, Day, PersonDay } from "../../day/day.ts";
import { sumOf } from "../../lists.ts";
import type { ActualVehicle, Id, Plan } from "../../plan/plan.ts";
import { type FoundPack, foundPacks } from "../../power/found.ts";
import type { PowerResult } from "../../power/index.ts";
import type { Instant, Interval } from "../../time/units.ts";
import { filled, line } from "../shared/blocks.ts";
import { placesInOrder } from "../shared/clocks.ts";
import { dayView, type ReportInput } from "../shared/dayView.ts";
import { headingLine } from "../shared/heading.ts";
import { had } from "../shared/judged.ts";
import { moment } from "../shared/kinds.ts";
import { inOrderOfCalls } from "../shared/people.ts";
import type { ReportMaker } from "../shared/report.ts";
import type { ReportParts } from "../shared/view.ts";
import {
  ASRUN_DATA,
  ASRUN_HITS,
  ASRUN_PACKS,
  ASRUN_PEOPLE,
  ASRUN_VEHICLES,
  type AsrunHit,
  type AsrunPack,
  type AsrunPerson,
  type AsrunRows,
  type AsrunVehicle,
} from "./rows.ts";

/** What `asrun` shows. */
interface AsrunInput extends ReportInput {
  /** Oldest first, `day` last; as many as were asked for. */
  readonly days: readonly Day[];
  /** The same days as they were written: a logged time takes the place of the planned one in a day. */
  readonly plans: readonly Plan[];
  /** The packs of the last day. */
  readonly power: PowerResult;
}

/** The last of the days gives the words and clocks. */
function asrunReport(input: AsrunInput): ReportParts {
  const { day: last, days, plans, power, person } = input;
  const places = days.flatMap((day) => placesInOrder(day));
  const view = dayView(input, places);
  const mine = (who: readonly Id[]): boolean => person === null || who.includes(person);
  const rows: AsrunRows = {
    hits: days
      .flatMap((day, at) => hitsOf(day, plans[at] ?? day.plan, mine))
      .sort((a, b) => deviation(b) - deviation(a)),
    people: days.flatMap((day) =>
      inOrderOfCalls(day.people)
        .filter((one) => one.call !== null && mine([one.id]))
        .map((one) => personRow(day, one)),
    ),
    vehicles: days.flatMap((day, at) => vehiclesOf(day, days.slice(0, at))),
    packs: days
      .flatMap((day) => packsOf(day, day === last ? foundPacks(power.solution) : []))
      .sort((a, b) => (b.shortPercent ?? 0) - (a.shortPercent ?? 0)),
  };
  const several = days.length > 1 ? (["date"] as const) : ([] as const);
  const missing = rows.hits.filter(({ made, start }) => made && start === null).length;
  return {
    blocks: [
      headingLine(last, view.clocks),
      line(
        missing === 0 ? "Every hit is logged." : `${missing} of ${rows.hits.length} hits have no logged time on air.`,
      ),
      ASRUN_HITS.table(view, rows.hits, {
        title: "Hits",
        show: [...several, "id", "planned", "start", "lateMinutes", "lengthMinutes", "path", "note"],
        empty: "No hits.",
      }),
      ASRUN_PEOPLE.table(view, rows.people, {
        title: "People",
        show: [...several, "id", "call", "release", "dutyMinutes", "meals", "note"],
        empty: "No one was called.",
      }),
      ASRUN_VEHICLES.table(view, rows.vehicles, {
        title: "Vehicles",
        show: [...several, "id", "place", "odometerKm", "km", "fuelPercent", "engineHours", "note"],
        empty: "No vehicle.",
      }),
      ...filled(
        ASRUN_PACKS.table(view, rows.packs, {
          title: "Packs found",
          show: [...several, "id", "percent", "shortPercent", "at", "note"],
          empty: "",
        }),
      ),
    ],
    data: ASRUN_DATA.json(rows, view),
  };
}

/** Not made first, then by how late; then what is not logged. */
const deviation = ({ made, logged, lateMinutes }: AsrunHit): number =>
  made ? (lateMinutes === null ? (logged ? 0 : 0.5) : Math.abs(lateMinutes)) : Number.MAX_SAFE_INTEGER;

function hitsOf(day: Day, plan: Plan, mine: (who: readonly Id[]) => boolean): readonly AsrunHit[] {
  const times = new Map(day.activities.map((one) => [one.id, one]));
  return [...plan.hits.values()]
    .filter(({ id: own, who }) => mine(times.get(own)?.who ?? who ?? []))
    .map((hit): AsrunHit => {
      const fact = plan.actual.activities.get(hit.id);
      const one = times.get(hit.id);
      const start = fact?.at ?? null;
      const place = one?.place ?? null;
      const end = fact?.end ?? null;
      return {
        date: day.plan.date,
        id: hit.id,
        planned: { at: hit.at, place },
        start: moment(start, place),
        lengthMinutes: start === null || end === null ? null : end - start,
        lateMinutes: start === null ? null : start - hit.at,
        path: fact?.signalPath ?? null,
        made: fact?.done ?? true,
        logged: fact !== undefined,
        note: fact?.note ?? null,
      };
    });
}

function personRow(day: Day, { id: own, duties }: PersonDay): AsrunPerson {
  const fact = day.plan.actual.people.get(own);
  const [call, released] = [fact?.call ?? null, fact?.released ?? null];
  const eaten = day.activities.filter((one) => isMeal(one) && one.who.includes(own) && wasLogged(day, one));
  return {
    date: day.plan.date,
    id: own,
    call: moment(call, duties[0]?.callPlace ?? null),
    release: moment(released, duties.at(-1)?.releasePlace ?? null),
    dutyMinutes:
      call === null || released === null || released <= call
        ? null
        : released - call - sumOf(eaten, mealMinutes) - sumOf(betweenDuties(duties), stoodDown(call, released)),
    meals: eaten.length === 0 ? null : eaten.length,
    note: fact?.note ?? null,
  };
}

const isMeal = ({ activity }: ActivityTimes): boolean => activity.kind === "meal";
const wasLogged = (day: Day, { id: own }: ActivityTimes): boolean => day.plan.actual.activities.get(own)?.done === true;
const mealMinutes = ({ start, end }: ActivityTimes): number => (start === null || end === null ? 0 : end - start);

/** The stand-downs between someone's duties: they were released then. */
const betweenDuties = (duties: PersonDay["duties"]): readonly Interval[] =>
  duties.slice(1).flatMap(({ call }, index) => {
    const from = duties[index]?.release;
    return from === undefined ? [] : [{ from, to: call }];
  });

/** The minutes of one that lie between a call and a release. */
const stoodDown =
  (call: Instant, released: Instant) =>
  ({ from, to }: Interval): number =>
    Math.max(0, Math.min(to, released) - Math.max(from, call));

function vehiclesOf(day: Day, before: readonly Day[]): readonly AsrunVehicle[] {
  return [...day.plan.runs.keys()].map((vehicle): AsrunVehicle => {
    const fact: ActualVehicle | undefined = day.plan.actual.vehicles.get(vehicle);
    const earlier = before.flatMap((one) => one.plan.actual.vehicles.get(vehicle)?.odometerKm ?? []).at(-1);
    const odometerKm = fact?.odometerKm ?? null;
    return {
      date: day.plan.date,
      id: vehicle,
      place: fact?.place ?? null,
      odometerKm,
      km: odometerKm === null || earlier === undefined ? null : Math.round(odometerKm - earlier),
      fuelPercent: fact?.fuel == null ? null : Math.round(fact.fuel * 100),
      engineHours: fact?.engineHours ?? null,
      note: fact?.note ?? null,
    };
  });
}

const packsOf = (day: Day, found: readonly FoundPack[]): readonly AsrunPack[] =>
  [...day.plan.actual.packs].flatMap(([own, { charge, at, note }]): readonly AsrunPack[] => {
    if (charge === null) return [];
    const short = found.find((one) => one.pack === own && one.at === at)?.shortPercent ?? null;
    const percent = Math.round(charge * 100);
    return [{ date: day.plan.date, id: own, percent, shortPercent: short, at: moment(at, null), note }];
  });

/** The report `asrun`. */
export const asrunMaker: ReportMaker = {
  place: 110,
  topics: ["power"],
  make: (input, judged, { daysBefore = 0, plans = judged.days.map(({ plan }) => plan) }) => {
    const days = judged.days.slice(-1 - daysBefore);
    return asrunReport({ ...input, days, plans: plans.slice(-1 - daysBefore), power: had(judged.results.power) });
  },
  schema: () => ASRUN_DATA.schema,
};
