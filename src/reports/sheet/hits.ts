/** The part of a sheet that is about what goes on air, the work between, meals, and when to decide for the fallback. */
import type { ActivityTimes } from "../../day/day.ts";
import type { Hit, Task } from "../../plan/plan.ts";
import { DASH, figureColumn, textCell, whereCell, wordColumn } from "../shared/cells.ts";
import type { Cell, Table } from "../shared/view.ts";
import { momentSection } from "./calls.ts";
import type { SheetInput } from "./input.ts";
import type { Section } from "./view.ts";
import { attends, concerns, folk, freeText, kindWord, marked, name, people, thing } from "./words.ts";

const isMeal = (one: ActivityTimes): boolean => one.activity.kind === "meal";
const isHit = (one: ActivityTimes): boolean => one.activity.kind === "hit";

/** Hits in time order, then the work between them. */
export function hitsSection(input: SheetInput): Section {
  const mine = input.day.activities.filter((one) => attends(input, one));
  const hits = mine.filter(isHit);
  const work = mine.filter((one) => !isHit(one) && !isMeal(one));
  return {
    id: "hits",
    title: "Hits",
    blocks: work.length === 0 ? [hitsTable(input, hits)] : [hitsTable(input, hits), workTable(input, work)],
  };
}

function hitsTable(input: SheetInput, hits: readonly ActivityTimes[]): Table {
  return {
    kind: "table",
    title: null,
    columns: [
      wordColumn("Hit", "hit"),
      ...input.clocks.columns("On air", "start", 0, 0),
      figureColumn("For", "minutes"),
      wordColumn("In position", "inPosition"),
      wordColumn("Place", "place"),
      wordColumn("Who", "who"),
      wordColumn("Path", "path"),
      wordColumn("Spare", "spare"),
      wordColumn("Show", "show", 2),
    ],
    rows: hits.flatMap((one) => (one.activity.kind === "hit" ? [hitRow(input, one, one.activity)] : [])),
    empty: "No hits.",
  };
}

function hitRow(input: SheetInput, times: ActivityTimes, hit: Hit): readonly Cell[] {
  const [local, ...desk] = input.clocks.cells(hit.at, times.place);
  const title: Cell =
    times.state === "missed"
      ? { text: `${hit.id}: cannot be met`, raw: hit.id, tone: "bad" }
      : { text: hit.id, tone: "strong" };
  return [
    title,
    marked(input, local ?? DASH, hit.id, "start"),
    ...desk,
    marked(input, { text: input.say.length(hit.forMinutes), raw: hit.forMinutes }, hit.id, "length"),
    times.inPosition === null ? DASH : { ...input.clocks.local(times.inPosition, times.place), tone: "plain" },
    marked(input, whereCell(input.short, times), hit.id, "place"),
    marked(input, folk(input, times.who), hit.id, "who"),
    marked(input, thing(input, hit.signalPath), hit.id, "path"),
    marked(input, thing(input, hit.spare), hit.id, "spare"),
    textCell(hit.show === null ? null : freeText(input, hit.show)),
  ];
}

function workTable(input: SheetInput, work: readonly ActivityTimes[]): Table {
  return {
    kind: "table",
    title: "Between hits",
    columns: [
      ...input.clocks.columns("From", "start", 0, 0),
      wordColumn("To", "end"),
      wordColumn("What", "task"),
      wordColumn("Place", "place"),
      wordColumn("Who", "who"),
    ],
    rows: work.flatMap((one) => (one.activity.kind === "hit" ? [] : [workRow(input, one, one.activity)])),
    empty: "Nothing between hits.",
  };
}

function workRow(input: SheetInput, times: ActivityTimes, task: Task): readonly Cell[] {
  const [local, ...desk] = input.clocks.cells(times.start, times.place);
  const kind = task.kind === "work" ? "" : ` (${kindWord(task.kind)})`;
  const missed = times.state === "missed" ? ": cannot be met" : "";
  return [
    marked(input, local ?? DASH, task.id, "start"),
    ...desk,
    times.end === null ? DASH : { ...input.clocks.local(times.end, times.place), tone: "plain" },
    {
      text: `${freeText(input, task.what ?? task.id)}${kind}${missed}`,
      raw: task.id,
      tone: missed === "" ? "plain" : "bad",
    },
    marked(input, whereCell(input.short, times), task.id, "place"),
    marked(input, folk(input, times.who), task.id, "who"),
  ];
}

/** Meals with their people; null where the plan has none, which the house rules judge. */
export function mealsSection(input: SheetInput): Section | null {
  const meals = input.day.activities.filter((one) => isMeal(one) && one.start !== null && concerns(input, one.who));
  return momentSection(
    input,
    { id: "meals", title: "Meals" },
    meals.flatMap((one) =>
      one.start === null ? [] : [{ at: one.start, place: one.place, text: `${mealText(input, one)}` }],
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
