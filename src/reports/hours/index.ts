/** `hours`: rest, wheel, what is left, next call; each limit with its clause; how rested whoever drives is likely to be. */
import type { Day, PersonDay } from "../../day/day.ts";
import type { Finding, Say } from "../../findings/finding.ts";
import type { HoursResult } from "../../hours/index.ts";
import type { Id } from "../../plan/plan.ts";
import type { ZoneId } from "../../time/index.ts";
import { type Clocks, clocksOf } from "../shared/clocks.ts";
import { deferralLine } from "../shared/closingLines.ts";
import { isoAt } from "../shared/stamps.ts";
import type { Block, Report } from "../shared/view.ts";
import { hoursData } from "./data.ts";
import {
  alertnessTable,
  breachesTable,
  FITNESS_SOURCES,
  fitnessTable,
  leadTable,
  limitsTable,
  type ShownRow,
} from "./tables.ts";

export interface HoursOptions {
  /** One person's view; null shows everyone. */
  readonly person: Id | null;
  /** Stands in for the control room's clock. */
  readonly clock: ZoneId | null;
}

const placesOf = (day: Day): readonly Id[] => day.people.flatMap(({ sleeps, slept }) => [sleeps ?? slept ?? []].flat());

function rowsOf(day: Day, result: HoursResult, say: Say, clocks: Clocks, person: Id | null): readonly ShownRow[] {
  return [...result.people].flatMap(([id, { hours, fitness, since }]): readonly ShownRow[] => {
    if (person !== null && person !== id) return [];
    const found = day.people.find((one) => one.id === id);
    const place = found === undefined ? null : bedOf(found);
    return [
      {
        hours,
        fitness,
        since,
        name: say.name(id),
        iso: (at, where = place) => isoAt(day.plan, at, where),
        clock: (at, where = place) => clocks.local(at, where),
      },
    ];
  });
}

/** Times of a person are told on the clock of the bed they are released to. */
const bedOf = ({ sleeps, slept }: PersonDay): Id | null => sleeps ?? slept;

/** Why each rule set binds whom. */
function bindingLines(rows: readonly ShownRow[]): readonly Block[] {
  const items = rows.flatMap(({ name, hours }) =>
    hours.bindings
      .filter(({ rules }) => rules.legallyBinding)
      .map(({ rules, because }) => ({ text: `${name}: ${rules.id}, ${because}` })),
  );
  return items.length === 0 ? [] : [{ kind: "list", items }];
}

/** The blocks that a day and a log share. */
export function hoursBlocks(head: string, legend: string, rows: readonly ShownRow[]): readonly Block[] {
  const tables = [leadTable(rows), breachesTable(rows), limitsTable(rows), fitnessTable(rows), alertnessTable(rows)];
  const told = rows.some(({ fitness }) => fitness !== null && fitness.wheel.length > 0);
  const sources = told
    ? FITNESS_SOURCES.map((text): Block => ({ kind: "line", cells: [{ text, tone: "muted" }] }))
    : [];
  return [
    { kind: "line", cells: [{ text: head, tone: "strong" }, { text: ` · ${legend}` }] },
    ...tables.slice(0, 2).filter((table) => table.rows.length > 0 || table.title === "Hours"),
    ...bindingLines(rows),
    ...tables.slice(2).filter((table) => table.rows.length > 0),
    ...sources,
    deferralLine(),
  ];
}

/** The report of one day's hours, with the chain of days behind it. */
export function hoursReport(
  day: Day,
  result: HoursResult,
  findings: readonly Finding[],
  say: Say,
  options: HoursOptions,
): Report {
  const clocks = clocksOf(day.plan, say, placesOf(day), options.clock ?? undefined);
  const rows = rowsOf(day, result, say, clocks, options.person);
  const { title, date } = day.plan;
  const head = title === null ? date : `${title} · ${date}`;
  return {
    command: "hours",
    blocks: hoursBlocks(head, clocks.legend(day), rows),
    data: hoursData(rows),
    findings,
    say,
  };
}
