/** The columns and cells of a table that show one moment on two clocks: the place's own first, then the control room's. */
import type { Day } from "../day/day.ts";
import type { Say } from "../findings/finding.ts";
import type { Id, Plan } from "../plan/plan.ts";
import { type Instant, instant, isoLocal, offsetText, type ZoneId } from "../time/index.ts";
import { column, DASH } from "./cells.ts";
import { clockNames, dayMark, zoneOfPlace } from "./say.ts";
import type { Cell, Column } from "./view.ts";

export interface Clocks {
  /** One column, or two where the control room goes by another clock than the places in use. */
  columns(label: string, key: string, spare?: number): readonly Column[];
  /** The cells under `columns`; a dash where there is no moment. */
  cells(at: Instant | null, place: Id | null): readonly Cell[];
  /** The column over `local` cells; the zone is named by the table's first pair. */
  column(label: string, key: string, spare?: number): Column;
  /** The place's clock alone, `04:00`, `02:10 +1`. */
  local(at: Instant | null, place: Id | null): Cell;
  /** `times on New York (UTC-05:00) and Chicago (UTC-06:00)`: said once for a whole report. */
  legend(day: Day): string;
}

/**
 * Clocks for tables over `places`; `desk` stands in for the plan's clock. The first zone in use is the main one and named
 * in the header; a time on another one names it.
 */
export function clocksOf(plan: Plan, say: Say, places: Iterable<Id>, desk: ZoneId = plan.clock): Clocks {
  const used = new Set([...places].map((place) => zoneOfPlace(plan, place)));
  const zones = used.size === 0 ? [plan.zone] : [...used];
  const main = zones[0] ?? plan.zone;
  const name = clockNames(plan);
  const two = zones.some((zone) => zone !== desk);
  const stamp = (at: Instant, zone: ZoneId): string => `${say.clock(at, zone)}${dayMark(plan, at, zone)}`;
  const local = (at: Instant | null, place: Id | null): Cell => {
    if (at === null) return DASH;
    const zone = zoneOfPlace(plan, place);
    const named = zone === main ? "" : ` ${name(zone)}`;
    return { text: `${stamp(at, zone)}${named}`, raw: isoLocal(at, zone), tone: "strong" };
  };
  return {
    columns(label, key, spare = 0) {
      if (!two) return [column(label, key, spare)];
      return [column(`${label}, ${name(main)}`, key, spare), column(name(desk), `${key}Desk`, spare + 2)];
    },
    cells(at, place) {
      if (!two) return [local(at, place)];
      if (at === null) return [local(at, place), DASH];
      return [local(at, place), { text: stamp(at, desk), raw: isoLocal(at, desk), tone: "muted" }];
    },
    column,
    local,
    legend: (day) =>
      `times on ${[...new Set([...zones, desk])].map((zone) => `${name(zone)} (${offsets(zone, day)})`).join(" and ")}`,
  };
}

/** The offsets of a zone from the first call to the last release: two in a night in which the clocks change. */
function offsets(zone: ZoneId, { people, span }: Day): string {
  const from = Math.min(...people.flatMap(({ call }) => call ?? []));
  const first = Number.isFinite(from) ? instant(from) : span.from;
  return [...new Set([offsetText(zone, first), offsetText(zone, span.to)])].join(", then ");
}
