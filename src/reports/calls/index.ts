/** `calls`: who is called when and where, when wheels roll, the hits on both clocks, the release; and why a time is what it is. */
import { changesBetween } from "../../changes/between.ts";
import { aboardOf, type Day, type Why } from "../../day/day.ts";
import { missingDaysOf } from "../../hours/judge/unknown.ts";
import type { Id } from "../../plan/plan.ts";
import { line } from "../shared/blocks.ts";
import { type DayView, dayView, type ReportInput } from "../shared/dayView.ts";
import { headingLine } from "../shared/heading.ts";
import type { Judged } from "../shared/judged.ts";
import { inOrderOfCalls } from "../shared/people.ts";
import { reachTable, silences } from "../shared/reach.ts";
import { inputOf, type ReportMaker } from "../shared/report.ts";
import type { Block, Json, ReportParts } from "../shared/view.ts";
import { whyTable } from "../shared/why.ts";
import { ACTIVITIES, CALLS, CALLS_DATA, type CallsRows, CHORES, callRows, MOVES } from "./rows.ts";

const NO_SLACK = "No slack is printed for a hit that follows another at the same stop.";

/** The report of one day's calls: `why` is the chain to print instead of the tables, `changes` what changed since an older version. */
function callsReport(input: ReportInput, days: readonly Day[], why: Why | null, changes: Json): ReportParts {
  const { day, say, person } = input;
  const rows = { ...rowsFor(day, days, person), why, changes };
  const view = dayView(input, placesOf(day));
  const blocks = why === null ? tables(view, rows) : whyTable(day.plan, say, view.clocks, why);
  return { blocks, data: CALLS_DATA.json(rows, view) };
}

const placesOf = (day: Day): readonly Id[] => [
  ...day.stops.map((stop) => stop.place),
  ...day.activities.flatMap((activity) => activity.place ?? []),
  ...day.people.flatMap((person) => person.duties.flatMap((duty) => [duty.callPlace, duty.releasePlace])),
];

/** What concerns one person: their own times, the legs they ride, the stops of those legs, what they attend. */
function rowsFor(day: Day, days: readonly Day[], person: Id | null): Omit<CallsRows, "why" | "changes"> {
  const all = silences(day);
  const everyone = day.people.map((one) => ({ ...one, unknown: missingDaysOf(days, one.id).unknown }));
  if (person === null) {
    const { stops, moves, activities } = day;
    return { people: everyone, stops, moves, activities, silences: all };
  }
  const moves = day.moves.filter((move) => aboardOf(move).includes(person));
  const activities = day.activities.filter((activity) => activity.who.includes(person));
  const touched = new Set([...activities.flatMap((activity) => activity.stops), ...moves.map((move) => move.id)]);
  const arrived = new Set(moves.map((move) => `${move.vehicle} ${move.arrive}`));
  return {
    people: everyone.filter((one) => one.id === person),
    stops: day.stops.filter((stop) => touched.has(stop.stop.id) || arrived.has(`${stop.vehicle} ${stop.arrive}`)),
    moves,
    activities,
    silences: all.filter((silence) => silence.who.includes(person)),
  };
}

/** The calls, and every other table that has rows. */
function tables(view: DayView, { people, moves, activities, silences: out }: CallsRows): readonly Block[] {
  const calls = CALLS.table(view, callRows(inOrderOfCalls(people)), {
    title: "Calls",
    empty: "This plan has no crew.",
  });
  const isHit = ({ activity }: CallsRows["activities"][number]): boolean => activity.kind === "hit";
  const hits = ACTIVITIES.table(view, activities.filter(isHit), {
    title: "Hits",
    show: ["hit", "start", "minutes", "place", "inPosition", "slackMinutes", "who"],
    empty: "No hits.",
  });
  const roads = MOVES.table(view, moves, {
    title: "On the road",
    show: [
      "vehicle",
      "leave",
      "from",
      "arrive",
      "to",
      "plannedMinutes",
      "likelyMinutes",
      "leaveBy",
      "driver",
      "riders",
    ],
    empty: "No drives.",
  });
  const tasks = ACTIVITIES.table(
    view,
    activities.filter((one) => !isHit(one)),
    { title: "Tasks", show: ["task", "kind", ["start", "From"], "end", "place", "who"], empty: "No tasks." },
  );
  const apart = people.flatMap(({ chores }) => chores.filter((one) => one.apart));
  const chores = CHORES.table(
    view,
    apart.toSorted((a, b) => a.from - b.from),
    { title: "Pack moves apart from the calls", empty: "No pack moves." },
  );
  const others = [roads, tasks, chores, reachTable(view, out)].filter(({ rows }) => rows.length > 0);
  const followsHit = activities.some((one) => isHit(one) && one.state === "fixed" && one.slackMinutes === null);
  const below = followsHit ? [line(NO_SLACK, "muted")] : [];
  return [headingLine(view.day, view.clocks), calls, ...(hits.rows.length > 0 ? [hits, ...below] : []), ...others];
}

/** A day of which no topic was judged. */
const daysAlone = (day: Day): Judged => ({ day, days: [day], results: {}, findings: [], notJudged: [] });

/** The report `calls`. */
export const callsMaker: ReportMaker = {
  place: 10,
  topics: [],
  make: async (input, judged, options) => {
    const { day, say, clock: desk, person, redact } = input;
    const { why = null, older = null } = options;
    const { days } = judged;
    if (older === null) return callsReport(input, days, why, null);
    const { changesOf, sinceBlocks, changeListJson } = await import("../changes/index.ts");
    const versions = options.versions ?? { older: daysAlone(older), newer: daysAlone(judged.day) };
    const list = changeListJson(changesOf(inputOf(versions.newer, options), versions.newer, versions.older));
    const own = callsReport(input, days, why, list);
    const changes = changesBetween(older, day);
    return { ...own, blocks: [...sinceBlocks({ day, changes, say, desk, person, redact }), ...own.blocks] };
  },
  schema: () => CALLS_DATA.schema,
};
