/** The part of a sheet that is about what goes on air, the work between, meals, and when to decide for the fallback. */
import type { ActivityTimes } from "../../day/day.ts";
import { lengthCell, textCell, whereCell } from "../shared/cells.ts";
import { columns, shown } from "../shared/columns.ts";
import { moment } from "../shared/kinds.ts";
import { momentSection } from "./calls.ts";
import type { SheetInput } from "./input.ts";
import type { Section } from "./view.ts";
import { attends, concerns, folk, freeText, kindWord, markedColumns, name, people, plainTime, thing } from "./words.ts";

const isMeal = (one: ActivityTimes): boolean => one.activity.kind === "meal";

/** Hits in time order, then the work between them. */
export function hitsSection(input: SheetInput): Section {
  const mine = input.day.activities.filter((one) => attends(input, one));
  const work = workRows(mine.filter((one) => !isMeal(one)));
  const onAir = HITS.table(input, hitRows(mine), { title: null, empty: "No hits." });
  const between = WORK.table(input, work, { title: "Between hits", empty: "Nothing between hits." });
  return { id: "hits", title: "Hits", blocks: work.length === 0 ? [onAir] : [onAir, between] };
}

type HitRow = ReturnType<typeof hitRows>[number];

/** What goes on air, and its times. */
const hitRows = (hits: readonly ActivityTimes[]) =>
  hits.flatMap((times) => (times.activity.kind === "hit" ? [{ times, hit: times.activity }] : []));

const onHit = markedColumns<HitRow>(({ hit }) => hit.id);
const HITS = columns<HitRow, SheetInput>()({
  hit: shown("Hit", ({ times, hit: { id } }) =>
    times.state === "missed" ? { text: `${id}: cannot be met`, raw: id, tone: "bad" } : { text: id, tone: "strong" },
  ),
  start: onHit.clock("On air", "start", ({ times, hit }) => ({ at: hit.at, place: times.place })),
  minutes: onHit.column("For", "length", ({ hit }) => lengthCell(hit.forMinutes), { figure: true }),
  inPosition: shown("In position", ({ times }, input) => plainTime(input, times.inPosition, times.place)),
  place: onHit.column("Place", "place", ({ times }, { short }) => whereCell(short, times)),
  who: onHit.column("Who", "who", ({ times }, input) => folk(input, times.who)),
  path: onHit.column("Path", "path", ({ hit }, input) => thing(input, hit.signalPath)),
  spare: onHit.column("Spare", "spare", ({ hit }, input) => thing(input, hit.spare)),
  show: shown("Show", ({ hit: { show } }, input) => textCell(show === null ? null : freeText(input, show)), {
    spare: 2,
  }),
});

type WorkRow = ReturnType<typeof workRows>[number];

/** Work between hits, and its times. */
const workRows = (work: readonly ActivityTimes[]) =>
  work.flatMap((times) => (times.activity.kind === "hit" ? [] : [{ times, task: times.activity }]));

const onTask = markedColumns<WorkRow>(({ task }) => task.id);
const WORK = columns<WorkRow, SheetInput>()({
  start: onTask.clock("From", "start", ({ times }) => moment(times.start, times.place)),
  end: shown("To", ({ times }, input) => plainTime(input, times.end, times.place)),
  task: shown("What", ({ times, task }, input) => {
    const kind = task.kind === "work" ? "" : ` (${kindWord(task.kind)})`;
    const missed = times.state === "missed" ? ": cannot be met" : "";
    const text = `${freeText(input, task.what ?? task.id)}${kind}${missed}`;
    return { text, raw: task.id, tone: missed === "" ? "plain" : "bad" };
  }),
  place: onTask.column("Place", "place", ({ times }, { short }) => whereCell(short, times)),
  who: onTask.column("Who", "who", ({ times }, input) => folk(input, times.who)),
});

/** Meals with their people; null where the plan has none, which the house rules judge. */
export function mealsSection(input: SheetInput): Section | null {
  const meals = input.day.activities.filter((one) => isMeal(one) && one.start !== null && concerns(input, one.who));
  return momentSection(
    input,
    { id: "meals", title: "Meals" },
    meals.flatMap((one) =>
      one.start === null ? [] : [{ at: one.start, place: one.place, text: mealText(input, one) }],
    ),
  );
}

function mealText(input: SheetInput, one: ActivityTimes): string {
  const what = one.activity.kind === "hit" ? null : one.activity.what;
  const length = one.activity.forMinutes === null ? "" : `, ${input.say.length(one.activity.forMinutes)}`;
  return `${freeText(input, what ?? one.id)}, ${whereCell(input.short, one).text}${length}: ${people(input, one.who)}`;
}

/** Until when somebody must say whether a hit goes ahead as planned, and what takes its place. */
export function decideSection(input: SheetInput): Section | null {
  const moments = input.day.activities.flatMap((one) => {
    if (one.activity.kind !== "hit" || one.activity.fallback === null || !concerns(input, one.who)) return [];
    const { place, path, decideBy } = one.activity.fallback;
    const at = place === null ? "" : ` at ${name(input, place)}`;
    const via = path === null ? "" : ` by ${name(input, path)}`;
    const instead = at + via === "" ? "leave it out" : `do it${at}${via}`;
    const until = decideBy === null ? "no later than this (no time stated)" : "latest";
    return [{ at: decideBy ?? one.activity.at, place: one.place, text: `${until} for ${one.id}: go, or ${instead}` }];
  });
  return momentSection(input, { id: "decide", title: "Go or no-go" }, moments);
}
