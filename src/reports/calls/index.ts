/** `calls`: who is called when and where, when wheels roll, the hits on both clocks, the release; and why a time is what it is. */
import type { ActivityTimes, Day, Move, PersonDay, Why } from "../../day/day.ts";
import type { Say } from "../../findings/finding.ts";
import type { Id } from "../../plan/plan.ts";
import { type Instant, lengthText, type ZoneId } from "../../time/index.ts";
import { column, crewCell, figureColumn, lengthCell, named, namesCell, textCell, whereCell } from "../shared/cells.ts";
import { type Clocks, clocksOf } from "../shared/clocks.ts";
import type { DayView } from "../shared/dayView.ts";
import { headingLine } from "../shared/heading.ts";
import { silences } from "../shared/reach.ts";
import { reachTable } from "../shared/reachView.ts";
import type { Cell, Report, Table } from "../shared/view.ts";
import { whyTable } from "../shared/why.ts";
import { type CallsRows, callsData } from "./data.ts";

export interface CallsOptions {
  /** One person's view; null shows everyone. */
  readonly person: Id | null;
  /** The chain to print instead of the tables. */
  readonly why: Why | null;
  /** Stands in for the control room's clock. */
  readonly clock: ZoneId | null;
}

/** The report of one day's calls. */
export function callsReport(day: Day, say: Say, options: CallsOptions): Report {
  const rows = rowsFor(day, options.person);
  const clocks = clocksOf(day.plan, say, placesOf(day), options.clock ?? undefined);
  const view: DayView = { day, say, clocks };
  const blocks =
    options.why === null
      ? [
          headingLine(day, clocks),
          callsTable(view, rows.people),
          hitsTable(view, rows.activities),
          movesTable(view, rows.moves),
          tasksTable(view, rows.activities),
          reachTable(say, clocks, rows.silences),
        ]
      : whyTable(day.plan, say, clocks, options.why);
  return {
    command: "calls",
    blocks: blocks.filter((block) => block.kind !== "table" || block.rows.length > 0 || block.title === "Calls"),
    data: callsData(day, rows, options.why),
    findings: day.findings,
    say,
  };
}

const placesOf = (day: Day): readonly Id[] => [
  ...day.stops.map((stop) => stop.place),
  ...day.activities.flatMap((activity) => activity.place ?? []),
  ...day.people.flatMap((person) => person.duties.flatMap((duty) => [duty.callPlace, duty.releasePlace])),
];

/** What concerns one person: their own times, the legs they ride, the stops of those legs, what they attend. */
function rowsFor(day: Day, person: Id | null): CallsRows {
  const all = silences(day);
  if (person === null) {
    const { people, stops, moves, activities } = day;
    return { people, stops, moves, activities, silences: all };
  }
  const moves = day.moves.filter((move) => move.driver === person || move.riders.includes(person));
  const activities = day.activities.filter((activity) => activity.who.includes(person));
  const touched = new Set([...activities.flatMap((activity) => activity.stops), ...moves.map((move) => move.id)]);
  const arrived = new Set(moves.map((move) => `${move.vehicle} ${move.arrive}`));
  return {
    people: day.people.filter((one) => one.id === person),
    stops: day.stops.filter((stop) => touched.has(stop.stop.id) || arrived.has(`${stop.vehicle} ${stop.arrive}`)),
    moves,
    activities,
    silences: all.filter((silence) => silence.who.includes(person)),
  };
}

function callsTable(view: DayView, people: readonly PersonDay[]): Table {
  const { clocks } = view;
  return {
    kind: "table",
    title: "Calls",
    columns: [
      column("Who", "who"),
      ...clocks.columns("Call", "call"),
      column("Where", "place"),
      column("Wheels", "wheels", 3),
      column("In position", "inPosition", 2),
      ...clocks.columns("Release", "release"),
      figureColumn("Call to release", "callToReleaseMinutes", 1),
    ],
    rows: people.flatMap((person) => callRows(view, person)),
    empty: "Nobody is in this plan's crew.",
  };
}

/** One row for each call; after a stand-down a person has several a day. */
function callRows(view: DayView, person: PersonDay): readonly (readonly Cell[])[] {
  const { say, clocks } = view;
  const name: Cell = { ...named(say, person.id), tone: "strong" };
  if (person.duties.length === 0) {
    const blank = callsBlank(view);
    return [[name, { text: "nothing to do", tone: "muted", raw: null }, ...blank.slice(1)]];
  }
  return person.duties.map((duty) => {
    const during = (at: Instant): boolean => duty.call <= at && at < duty.release;
    const wheels = view.day.moves.find(
      (move) => during(move.leave) && (move.driver === person.id || move.riders.includes(person.id)),
    );
    const ready = view.day.activities.find(
      (one) =>
        one.activity.kind === "hit" && one.inPosition !== null && during(one.inPosition) && one.who.includes(person.id),
    );
    const lobby = duty.callPlace === person.slept && duty === person.duties[0];
    return [
      name,
      ...clocks.cells(duty.call, duty.callPlace),
      { text: lobby ? `lobby, ${say.name(duty.callPlace)}` : say.name(duty.callPlace), raw: duty.callPlace },
      clocks.local(wheels?.leave ?? null, wheels?.from ?? null),
      clocks.local(ready?.inPosition ?? null, ready?.place ?? null),
      ...clocks.cells(duty.release, duty.releasePlace),
      lengthCell(duty.release - duty.call),
    ];
  });
}

/** As many blank cells as a row has after the name. */
const callsBlank = ({ clocks }: DayView): readonly Cell[] =>
  [...clocks.cells(null, null), ...clocks.cells(null, null), ...Array.from({ length: 4 })].map(() => ({
    text: "",
    raw: null,
  }));

function hitsTable({ day, say, clocks }: DayView, activities: readonly ActivityTimes[]): Table {
  const hits = activities.filter((one) => one.activity.kind === "hit");
  return {
    kind: "table",
    title: "Hits",
    columns: [
      column("Hit", "hit"),
      ...clocks.columns("On air", "start"),
      figureColumn("For", "minutes", 1),
      column("Place", "place"),
      column("In position", "inPosition", 2),
      figureColumn("Slack", "slackMinutes", 3),
      column("Who", "who", 4),
    ],
    rows: hits.map((hit) => [
      { text: hit.id, tone: "strong" },
      ...(hit.state === "missed" ? missedCells(clocks) : clocks.cells(hit.start, hit.place)),
      lengthCell(hit.activity.forMinutes),
      whereCell(say, hit),
      clocks.local(hit.inPosition, hit.place),
      lengthCell(hit.slackMinutes),
      crewCell(say, hit.who, day.plan.crew.size),
    ]),
    empty: "No hits.",
  };
}

const missedCells = (clocks: Clocks): readonly Cell[] =>
  clocks.cells(null, null).map((blank, at): Cell => (at === 0 ? { text: "missed", tone: "bad", raw: null } : blank));

function movesTable({ say, clocks }: DayView, moves: readonly Move[]): Table {
  return {
    kind: "table",
    title: "On the road",
    columns: [
      column("Vehicle", "vehicle"),
      ...clocks.columns("Leave", "leave", 0, 3),
      column("From", "from", 1),
      column("Arrive", "arrive"),
      column("To", "to"),
      figureColumn("Planned", "plannedMinutes"),
      figureColumn("Likely", "likelyMinutes", 4),
      column("Leave by", "leaveBy", 2),
      column("Driver", "driver"),
      column("Riders", "riders", 5),
    ],
    rows: moves.map((move) => [
      { ...named(say, move.vehicle), tone: "strong" },
      ...clocks.cells(move.leave, move.from),
      named(say, move.from),
      clocks.local(move.arrive, move.to),
      named(say, move.to),
      lengthCell(move.plannedMinutes),
      {
        text: `${lengthText(move.likelyMinutes)}${move.leg.basis === "estimated" ? ", estimated" : ""}`,
        raw: move.likelyMinutes,
      },
      clocks.local(move.leaveBy, move.from),
      named(say, move.driver),
      namesCell(say, move.riders),
    ]),
    empty: "Nobody is on the road.",
  };
}

function tasksTable({ day, say, clocks }: DayView, activities: readonly ActivityTimes[]): Table {
  return {
    kind: "table",
    title: "Tasks",
    columns: [
      column("Task", "task"),
      column("Kind", "kind", 2),
      ...clocks.columns("From", "start"),
      column("To", "end", 1),
      column("Place", "place"),
      column("Who", "who", 4),
    ],
    rows: activities
      .filter((one) => one.activity.kind !== "hit")
      .map((task) => [
        { text: task.id, tone: "strong" },
        textCell(task.activity.kind),
        ...(task.state === "missed" ? missedCells(clocks) : clocks.cells(task.start, task.place)),
        clocks.local(task.end, task.place),
        whereCell(say, task),
        crewCell(say, task.who, day.plan.crew.size),
      ]),
    empty: "No tasks.",
  };
}
