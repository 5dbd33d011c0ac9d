/** `sheet`: the call sheet of a day, in the order in which the trade reads it. */

import { changesBetween } from "../../changes/between.ts";
import { catalogue } from "../../findings/catalogue.ts";
import type { Id, Plan } from "../../plan/plan.ts";
import { type Judged, TOPICS } from "../shared/judged.ts";
import { type ReportMaker, type ReportOptions, wordsFor } from "../shared/report.ts";
import type { Block, Cell, Report } from "../shared/view.ts";
import { agendaOf } from "./agenda.ts";
import { briefLines } from "./brief.ts";
import { callsSection, personCards, reachSection, wakeSection } from "./calls.ts";
import { SHEET_DATA } from "./data.ts";
import { sheetEvents } from "./events.ts";
import { sheetFacts } from "./facts.ts";
import { contacts, figures, headLines, leads, shownAnswer } from "./head.ts";
import { decideSection, hitsSection, mealsSection } from "./hits.ts";
import { type Focus, type SheetInput, type SheetRequest, sheetInput } from "./input.ts";
import { batteriesSection, gearSection, movesSection } from "./moves.ts";
import { acceptedSection, cautionsSection, changesSection, openSection, urgentSection } from "./open.ts";
import { linesSection, phonesSection, placesSection } from "./places.ts";
import { timelineSection } from "./timeline.ts";
import type { Section, Sheet } from "./view.ts";
import { freeText, longDate } from "./words.ts";

/** The sections of a sheet, in reading order; one that has nothing to say is null and left out. */
const SECTIONS: readonly ((input: SheetInput) => Section | null)[] = [
  changesSection,
  urgentSection,
  callsSection,
  timelineSection,
  hitsSection,
  phonesSection,
  movesSection,
  mealsSection,
  placesSection,
  linesSection,
  decideSection,
  wakeSection,
  cautionsSection,
  batteriesSection,
  gearSection,
  reachSection,
  acceptedSection,
  openSection,
];

/** For the guard at a gate: arrivals and departures with vehicles and names. */
const GATE: readonly ((input: SheetInput) => Section | null)[] = [movesSection];

/** Makes the sheet of a day, for everyone or for one person. */
export function sheetOf(request: SheetRequest): Sheet {
  const input = sheetInput(request);
  const { plan } = input.day;
  const isGate = input.focus?.kind === "place";
  const sections = (isGate ? GATE : SECTIONS).flatMap((section) => section(input) ?? []);
  const events = sheetEvents(input).filter(({ kind }) => !isGate || kind === "move");
  const story = plan.title === null ? null : freeText(input, plan.title);
  return {
    title: titleOf(input, story),
    story,
    answer: isGate ? null : shownAnswer(input),
    figures: isGate ? [] : figures(input),
    contacts: isGate ? leads(input) : contacts(input),
    people: isGate ? [] : personCards(input),
    agenda: isGate ? agendaOf(input).filter(({ kind }) => kind === "drive") : agendaOf(input),
    identity: plan.id === null ? `${plan.title ?? ""}\n${plan.date}\n${plan.clock}` : `id ${plan.id}`,
    ...sequenceOf(input),
    date: plan.date,
    revision: plan.revision,
    person: input.person,
    head: isGate ? [] : headLines(input),
    sections: sections.map(withoutEmptyColumns),
    events,
    brief: isGate ? briefLines(input).filter(({ spare }) => spare === 1) : briefLines(input),
    data: SHEET_DATA.json({ sections, events }, input),
    findings: input.findings,
    say: input.say,
  };
}

/** Columns in which no row has anything are not read; JSON keeps them. */
const withoutEmptyColumns = (section: Section): Section => ({ ...section, blocks: section.blocks.map(filled) });

function filled(block: Block): Block {
  if (block.kind !== "table" || block.rows.length === 0) return block;
  const kept = block.columns.map((_, index) => index === 0 || block.rows.some((row) => row[index]?.text !== "–"));
  return {
    ...block,
    columns: block.columns.filter((_, index) => kept[index]),
    rows: block.rows.map((row) => row.filter((_, index) => kept[index])),
  };
}

/** The calendar's sequence: clients pass over an event that is not counted up. */
function sequenceOf({ day, older, changes }: SheetInput): Pick<Sheet, "sequence" | "revisionForgotten"> {
  const revision = day.plan.revision ?? 0;
  const before = older?.plan.revision ?? 0;
  const revisionForgotten = older != null && (changes?.changes.length ?? 0) > 0 && revision <= before;
  return { sequence: revisionForgotten ? before + 1 : revision, revisionForgotten };
}

/** `Freighter in the ice · Wednesday 20 January 2027 · revision 2 · Wren · as of 10:18 CT`. */
function titleOf(input: SheetInput, story: string | null): string {
  const { date, revision } = input.day.plan;
  return [
    story ?? "Call sheet",
    longDate(date),
    revision === null ? null : `revision ${revision}`,
    input.person === null ? null : input.say.name(input.person),
    input.focus == null ? null : input.say.name(input.focus.id),
    input.now == null ? null : `as of ${input.say.time(input.now)}`,
  ]
    .filter((part) => part !== null)
    .join(" · ");
}

/** The figures as one line: `First call 04:30 CT (05:30 ET) · First hit …`. */
const figureLine = ({ figures: all }: Sheet): Block => ({
  kind: "line",
  cells: all.flatMap(({ label, main, side, what, iso }, at): readonly Cell[] => {
    const more = [side, what].filter((part) => part !== null).join(", ");
    return [
      { text: `${at === 0 ? "" : " · "}${label}${/\p{Nd}/u.test(main) ? "" : ":"} ` },
      { text: main, tone: "strong" },
      ...(more === "" ? [] : [{ text: iso === null ? ` (${more})` : ` ${more}` }]),
    ];
  }),
});

/** The sheet as a report, for the forms that print blocks: text, Markdown, CSV, JSON. */
export function sheetReport(sheet: Sheet): Report {
  const head: Block[] = [
    { kind: "heading", text: sheet.title },
    ...(sheet.figures.length === 0 ? [] : [figureLine(sheet)]),
    ...[...sheet.contacts, ...sheet.head].map((cells) => ({ kind: "line" as const, cells })),
  ];
  const body = sheet.sections.flatMap((section): readonly Block[] => [
    { kind: "heading", text: section.title, ...(section.blocks.length === 0 ? { alone: true } : {}) },
    ...section.blocks,
  ]);
  return { command: "sheet", blocks: [...head, ...body], data: sheet.data, findings: sheet.findings, say: sheet.say };
}

/** A vehicle, a hit or a place that `person` names instead of one of the crew. */
function focusOf({ crew, vehicles, hits, places }: Plan, id: Id | null): Focus | null {
  if (id === null || crew.has(id)) return null;
  if (vehicles.has(id)) return { kind: "vehicle", id };
  if (hits.has(id)) return { kind: "hit", id };
  return places.has(id) ? { kind: "place", id } : null;
}

/** The call sheet as a view of its own, which the page, the calendar and the chat are made from. */
export async function judgedSheet(judged: Judged, options: ReportOptions): Promise<Sheet> {
  const { day, findings } = judged;
  const { person = null, clock: desk = null, redact = false, now = null, older = null } = options;
  const entries = await catalogue();
  const focus = focusOf(day.plan, person);
  return sheetOf({
    day,
    facts: sheetFacts(judged, (code) => entries.get(code)?.title ?? null),
    findings,
    say: wordsFor(judged, options),
    desk,
    person: focus === null ? person : null,
    focus,
    redact,
    now,
    older,
    changes: older === null ? null : changesBetween(older, day),
  });
}

/** The report `sheet`. */
export const sheetMaker: ReportMaker = {
  place: 170,
  topics: TOPICS,
  make: async (_, judged, options) => sheetReport(await judgedSheet(judged, options)),
  schema: () => SHEET_DATA.schema,
};
