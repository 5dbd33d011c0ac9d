/** `hours` of a log file: the same tables and keys, on the log's own clock. */

import type { Finding, Wording } from "../../findings/finding.ts";
import { logHours, momentOutsideOf, type PersonHours } from "../../hours/index.ts";
import { personFindings } from "../../hours/judge/limitFindings.ts";
import { ruleSet } from "../../hours/rules/index.ts";
import { NO_OPTIONS } from "../../hours/rules/options.ts";
import { leastOf } from "../../lists.ts";
import { houseDefaults } from "../../plan/houseRules.ts";
import type { HoursLog } from "../../plan/log/log.ts";
import {
  type ClockStyle,
  cityText,
  clockText,
  dateText,
  type Instant,
  isoLocal,
  lengthText,
  localDay,
  offsetMinutes,
  offsetText,
  shortDateOf,
  type ZoneId,
} from "../../time/index.ts";
import { DASH, wordColumn as plainColumn } from "../shared/cells.ts";
import type { FindingForm, PlanHead } from "../shared/envelope.ts";
import type { Words } from "../shared/kinds.ts";
import type { Cell, Report } from "../shared/view.ts";
import { hoursBlocks } from "./index.ts";
import { HOURS_DATA, type HoursRow } from "./rows.ts";

/** At which moment a log is judged, for whom, and what is shown. */
export interface LogReportOptions {
  /** The moment judged; null for the end of the log. */
  readonly at: Instant | null;
  readonly person: string | null;
  readonly shown: LogClock;
}

/** How times are shown. */
export interface LogClock {
  /** In place of the log's own; null where none is asked for. */
  readonly clock: ZoneId | null;
  readonly style: ClockStyle | null;
}

/** The words of a log: times with their date on its clock or the one asked for, ids as names. */
export function sayOfLog(log: HoursLog, { clock, style: asked }: LogClock): Wording {
  const [shown, style] = [clock ?? log.zone, asked ?? undefined];
  return {
    time: (at) => `${shortDateOf(localDay(at, shown))} ${clockText(at, shown, style)}`,
    clock: (at, zone) => clockText(at, zone, style),
    length: lengthText,
    name: (id) => id,
  };
}

/** `Thu 21 08:40`: a log's days are near each other, and tables are narrow. */
const shortTime = (at: Instant, zone: ZoneId, say: Wording): string =>
  `${shortDateOf(localDay(at, zone)).slice(0, 6).trim()} ${say.clock(at, zone)}`;

/** What the envelope says of a log: its clock, and the day on which it begins. */
export function logHead(log: HoursLog): PlanHead {
  const first = log.people.flatMap(({ spans }) => spans[0]?.from ?? []);
  const from = leastOf(first);
  return { file: log.file, title: log.title, date: from === null ? null : dateText(from, log.zone), clock: log.zone };
}

/** How the findings of a log are written. */
export function logFindingForm(log: HoursLog, say: Wording): FindingForm {
  return { say, zoneAt: () => log.zone, locate: (path) => log.locate(path), file: log.file };
}

function findingsOf(log: HoursLog, hours: PersonHours, at: Instant | null): readonly Finding[] {
  const person = log.people.find(({ id }) => id === hours.id);
  const first = person?.spans[0];
  if (person === undefined || first === undefined) return [];
  const raised = personFindings({
    hours,
    // What follows the moment judged is not asked about.
    spans: person.spans
      .filter(({ from }) => hours.judgedAt !== null && from < hours.judgedAt)
      .map((span) => ({ ...span, pause: false })),
    startsReleased: person.releasedAt !== null,
    from: first.from,
    path: person.path,
    where: () => null,
    mealsFor: () => ({ count: 1, room: null, pair: null }),
    evening: () => null,
    missing: [],
    offset: (at) => offsetMinutes(log.zone, at),
    // A log knows no places: whether its meals were free is always open.
    atVenue: () => true,
    labour: log.rules.map((name) => ruleSet(name, NO_OPTIONS, houseDefaults())),
  });
  return [...momentOutsideOf(person, at), ...raised].map((finding) => {
    const span = person.spans.find(({ from, to }) => finding.at !== null && from <= finding.at && finding.at < to);
    const path = span?.path ?? finding.path;
    return { ...finding, path, span: path === null ? null : log.locate(path) };
  });
}

/** A log's one clock; JSON keeps the log's own. */
function wordsOf(log: HoursLog, say: Wording, zone: ZoneId): Words {
  const local = (at: Instant | null): Cell =>
    at === null ? DASH : { text: shortTime(at, zone, say), raw: isoLocal(at, log.zone), tone: "strong" };
  return {
    say,
    iso: (at) => isoLocal(at, log.zone),
    clocks: {
      local,
      weekday: local,
      cells: (at) => [local(at)],
      columns: (label, key, spare) => [plainColumn(label, key, spare)],
    },
  };
}

/** The report of a log, with its findings: breaches are errors, open questions warnings. */
export function hoursLogReport(log: HoursLog, { at, person, shown }: LogReportOptions): Report {
  const say = sayOfLog(log, shown);
  const zone = shown.clock ?? log.zone;
  const people = logHours(log, at).filter(({ id }) => person === null || id === person);
  const rows = people.map((hours): HoursRow => ({ hours, fitness: null, since: null, name: hours.id, bed: null }));
  const words = wordsOf(log, say, zone);
  const from = log.people[0]?.spans[0]?.from;
  const legend = `times on ${cityText(zone)}${from === undefined ? "" : ` (${offsetText(zone, from)})`}`;
  return {
    command: "hours",
    blocks: hoursBlocks(log.title ?? log.file ?? "log", legend, rows, words),
    data: HOURS_DATA.json(rows, words),
    findings: people.flatMap((hours) => findingsOf(log, hours, at)),
    say,
  };
}
