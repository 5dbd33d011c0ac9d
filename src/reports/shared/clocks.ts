/** The one way in which reports and sheets tell a moment: on its place's own clock first, then on the control room's. */
import type { Day } from "../../day/day.ts";
import type { Wording } from "../../findings/finding.ts";
import type { Id, Plan } from "../../plan/plan.ts";
import {
  dayNumber,
  type Instant,
  instant,
  isoLocal,
  localDay,
  MINUTES_A_DAY,
  offsetMinutes,
  offsetText,
  shortDateOf,
  type ZoneId,
} from "../../time/index.ts";
import { DASH, wordColumn } from "./cells.ts";
import type { Cell, Column } from "./view.ts";
import { clockNames, dayMark, zoneOfPlace } from "./wording.ts";

/** The clocks of a report, the main one first. */
export interface ReportClocks {
  /** The zones of the places in use, the main one first: a time without a clock's name is on it. */
  readonly zones: readonly ZoneId[];
  readonly main: ZoneId;
  /** What a clock is called: `Chicago`. */
  name(zone: ZoneId): string;
  /** `06:00`; with its weekday on another day than the plan's on that clock, `Tue 23:30`. */
  text(at: Instant, zone: ZoneId): string;
  /** The place's clock alone, `04:00`; named where it is not the main one. A dash where there is no moment. */
  local(at: Instant | null, place: Id | null): Cell;
  /** As `local` with the day of the week, `Thu 04:00`; with the date beyond six days from the plan's. */
  weekday(at: Instant | null, place: Id | null): Cell;
  /** One column, or two where the main clock is not the control room's; that one may be left out two steps sooner. */
  columns(label: string, key: string, spare?: number, deskSpare?: number): readonly Column[];
  /** The cells under `columns`; dashes where there is no moment. */
  cells(at: Instant | null, place: Id | null): readonly Cell[];
  /** `times on New York (UTC-05:00) and Chicago (UTC-06:00)`: said once for a whole report. */
  legend(day: Day): string;
  /** Behind the legend of a table whose columns name no clock: `; times are CT unless marked`; empty where there is one clock. */
  unmarked(): string;
}

/** The places that a day stops at, in order, then all others of its plan: the first is where its main clock is. */
export const placesInOrder = ({ stops, plan }: Day): readonly Id[] => [
  ...stops.map(({ place }) => place),
  ...plan.places.keys(),
];

/** Clocks for tables over `places`; `desk` stands in for the plan's clock. The first zone in use is the main one. */
export function clocksOf(plan: Plan, say: Wording, places: Iterable<Id>, desk: ZoneId = plan.clock): ReportClocks {
  const used = [...new Set([...places].map((place) => zoneOfPlace(plan, place)))];
  const [main = plan.zone] = used;
  const zones = used.length === 0 ? [main] : used;
  const name = clockNames(plan);
  const two = !alike(plan, main, desk);
  const text = (at: Instant, zone: ZoneId): string => `${dayMark(plan, at, zone)}${say.clock(at, zone)}`;
  const inWords =
    (words: (at: Instant, zone: ZoneId) => string) =>
    (at: Instant | null, place: Id | null): Cell => {
      if (at === null) return DASH;
      const zone = zoneOfPlace(plan, place);
      const named = zone === main ? "" : ` ${name(zone)}`;
      return { text: `${words(at, zone)}${named}`, raw: isoLocal(at, zone), tone: "strong" };
    };
  const local = inWords(text);
  const weekday = inWords((at, zone) => {
    const day = localDay(at, zone);
    const date = shortDateOf(day);
    const near = Math.abs(day - dayNumber(plan.date)) < 7;
    return `${near ? date.slice(0, 3) : date} ${say.clock(at, zone)}`;
  });
  return {
    zones,
    main,
    name,
    text,
    local,
    weekday,
    columns(label, key, spare = 0, deskSpare = spare + 2) {
      if (!two) return [wordColumn(label, key, spare)];
      return [
        wordColumn(`${label}, ${name(main)}`, key, spare),
        { ...wordColumn(name(desk), `${key}Desk`, deskSpare), of: label },
      ];
    },
    cells(at, place) {
      const own = local(at, place);
      if (at === null) return two ? [own, DASH] : [own];
      if (two) return [own, { text: text(at, desk), raw: isoLocal(at, desk), tone: "muted" }];
      // The main clock is the control room's: a place on another one has both in its cell.
      return alike(plan, zoneOfPlace(plan, place), desk)
        ? [own]
        : [{ ...own, text: `${own.text} (${text(at, desk)})` }];
    },
    legend(day) {
      const all = [...new Set([...zones, desk])];
      return `times on ${all.map((zone) => `${name(zone)} (${offsets(zone, day)})`).join(" and ")}`;
    },
    unmarked: () => (new Set([...zones, desk]).size > 1 ? `; times are ${name(main)} unless marked` : ""),
  };
}

/** Whether two zones show the same time from the day before the plan's to the day after its end. */
function alike({ date, untilDays }: Plan, one: ZoneId, other: ZoneId): boolean {
  const days = Array.from({ length: untilDays + 3 }, (_, at) => instant((dayNumber(date) - 1 + at) * MINUTES_A_DAY));
  return one === other || days.every((at) => offsetMinutes(one, at) === offsetMinutes(other, at));
}

/** The offsets of a zone from the first call to the last release: two in a night in which the clocks change. */
function offsets(zone: ZoneId, { people, span }: Day): string {
  const from = Math.min(...people.flatMap(({ call }) => call ?? []));
  const first = Number.isFinite(from) ? instant(from) : span.from;
  return [...new Set([offsetText(zone, first), offsetText(zone, span.to)])].join(", then ");
}
