/** `hours`: rest, wheel, what is left, next call; each limit with its clause; how rested whoever drives is likely to be. */

import type { Day, PersonDay } from "../../day/day.ts";
import type { Wording } from "../../findings/finding.ts";
import type { HoursResult } from "../../hours/index.ts";
import type { Id } from "../../plan/plan.ts";
import { filled, line, list } from "../shared/blocks.ts";
import { dayView, type TopicInput } from "../shared/dayView.ts";
import { deferralLine } from "../shared/heading.ts";
import type { Words } from "../shared/kinds.ts";
import { rowsByCall } from "../shared/people.ts";
import { topicMaker } from "../shared/report.ts";
import type { Block, ReportParts } from "../shared/view.ts";
import {
  BREACHES,
  breachRows,
  breakStops,
  FITNESS,
  HOURS_DATA,
  HOURS_PEOPLE,
  type HoursRow,
  LIMITS,
  restedOf,
  shownLimits,
  spellsOf,
  WHEEL,
} from "./rows.ts";

const placesOf = (day: Day): readonly Id[] => day.people.flatMap((person) => bedOf(person) ?? []);

function rowsOf(day: Day, result: HoursResult, say: Wording, person: Id | null): readonly HoursRow[] {
  return [...result.people].flatMap(([id, { hours, fitness, since }]): readonly HoursRow[] => {
    if (person !== null && person !== id) return [];
    const found = day.people.find((one) => one.id === id);
    return [{ hours, fitness, since, name: say.name(id), bed: found === undefined ? null : bedOf(found) }];
  });
}

/** Times of a person are shown on the clock of the bed they are released to. */
const bedOf = ({ sleeps, slept }: PersonDay): Id | null => sleeps ?? slept;

/** Why each rule set binds whom. */
function bindingLines(rows: readonly HoursRow[]): readonly Block[] {
  const items = rows.flatMap(({ name, hours }) =>
    hours.bindings
      .filter(({ rules }) => rules.legallyBinding)
      .map(({ rules, because }) => ({ text: `${name}: ${rules.id}, ${because}` })),
  );
  return list(items);
}

/** A time at which a mere break is due is not the end of the day at the wheel. */
const breakLines = (rows: readonly HoursRow[]): readonly Block[] =>
  breakStops(rows).map(({ law, rule, names }) =>
    line(`${law ? "Law" : "House"} time for ${names.join(", ")}: a break is due (${rule}), then driving may go on.`),
  );

/** The blocks that a day and a log share. */
export function hoursBlocks(head: string, legend: string, rows: readonly HoursRow[], words: Words): readonly Block[] {
  const breaches = BREACHES.table(words, rows.flatMap(breachRows), {
    title: "Beyond the rules",
    show: ["who", "from", "to", "minutes", "limit", "clause"],
    empty: "",
  });
  const limits = [true, false].map((law) =>
    LIMITS.table(
      words,
      rows.flatMap((row) => shownLimits(row, law)),
      {
        title: law ? "Limits of law" : "House limits",
        show: ["who", "limit", "usedMinutes", "leftMinutes", "runsOutAt", "clause"],
        empty: "",
      },
    ),
  );
  const wheel = WHEEL.table(words, rows.flatMap(spellsOf), {
    title: "Fatigue: group averages; not a legal limit and not a clearance",
    empty: "",
  });
  const driving = restedOf(rows).filter(({ fitness }) => fitness.wheel.length > 0);
  const alertness = FITNESS.table(
    words,
    driving.filter(({ fitness }) => fitness.curve.length > 0),
    { title: "Alertness since getting up: an index, not a test of anyone", empty: "" },
  );
  return [
    { kind: "line", cells: [{ text: head, tone: "strong" }, { text: ` · ${legend}` }] },
    HOURS_PEOPLE.table(words, rows, {
      title: "Hours",
      show: [
        "who",
        "drivingMustStopAt",
        "houseDrivingStopsAt",
        "restSoFarMinutes",
        "earliestNextCall",
        "earliestNextDrive",
        ...(rows.some(({ hours }) => hours.earliestDriveFromBerth !== null)
          ? (["earliestDriveFromBerth"] as const)
          : []),
        "drivingMinutes",
        "leftMinutes",
        "dutyMinutes",
      ],
      empty: "This plan has no crew.",
    }),
    ...breakLines(rows),
    ...filled(breaches),
    ...bindingLines(rows),
    ...[...limits, wheel, alertness].flatMap(filled),
    ...assumedLines(driving, words),
    ...(driving.length === 0 ? [] : FITNESS_SOURCES).map((text): Block => line(text, "muted")),
    deferralLine(),
  ];
}

/** Whose getting up is assumed, because a whole night off lies before it and nothing states more. */
const assumedLines = (driving: ReturnType<typeof restedOf>, { clocks }: Words): readonly Block[] =>
  driving
    .filter(({ fitness }) => fitness.upAssumed)
    .map(({ row, fitness: { up, slept } }) =>
      line(
        `${row.name}: taken to be up from ${clocks.weekday(up, slept).text} on, after a whole night off; \`up\` or \`inBed\` states it.`,
        "muted",
      ),
    );

/** Where the figures of the fitness view come from, and what is doubtful in them. */
const FITNESS_SOURCES: readonly string[] = [
  "Crash rate by sleep: Tefft, AAA Foundation for Traffic Safety, 2016. The study excludes crashes between midnight and 06:00.",
  "Being awake for 17 h impairs like a blood alcohol level of about 0.05 %, 24 h like about 0.10 %: Dawson and Reid, Nature 388:235, 1997 (40 people).",
  "Alertness: S + C of the three-process model, 14 high, 7 the threshold of sleepiness, 3 extreme; PLoS ONE 9:e108679, 2014, as reprinted. Doubtful: one level is printed as 12.5 and as 12.2, and the U term is left out.",
];

/** The report of one day's hours, with the chain of days behind it. */
function hoursReport(input: TopicInput<HoursResult>): ReportParts {
  const { day, result, say, person } = input;
  const view = dayView(input, placesOf(day));
  const rows = rowsOf(day, result, say, person);
  const { title, date } = day.plan;
  const head = title === null ? date : `${title} · ${date}`;
  return {
    blocks: hoursBlocks(
      head,
      `${view.clocks.legend(day)}${view.clocks.unmarked()}`,
      rowsByCall(rows, ({ hours }) => hours.id, day.people),
      view,
    ),
    data: HOURS_DATA.json(rows, view),
  };
}

/** The report `hours`. */
export const hoursMaker = topicMaker(20, "hours", hoursReport, HOURS_DATA);
