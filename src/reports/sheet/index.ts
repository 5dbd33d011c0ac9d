/** `sheet`: the call sheet of a day, in the order in which the trade reads it. */

import type { Block, Report } from "../shared/view.ts";
import { briefLines } from "./brief.ts";
import { callsSection, reachSection, wakeSection } from "./calls.ts";
import { SHEET_DATA } from "./data.ts";
import { sheetEvents } from "./events.ts";
import { headLines } from "./head.ts";
import { decideSection, hitsSection, mealsSection } from "./hits.ts";
import { type SheetInput, type SheetRequest, sheetInput } from "./input.ts";
import { batteriesSection, gearSection, movesSection } from "./moves.ts";
import { acceptedSection, cautionsSection, changesSection, openSection } from "./open.ts";
import { linesSection, phonesSection, placesSection } from "./places.ts";
import { timelineSection } from "./timeline.ts";
import type { Section, Sheet } from "./view.ts";
import { freeText, longDate } from "./words.ts";

/** The sections of a sheet, in reading order; one that has nothing to say is null and left out. */
const SECTIONS: readonly ((input: SheetInput) => Section | null)[] = [
  changesSection,
  callsSection,
  timelineSection,
  hitsSection,
  movesSection,
  batteriesSection,
  gearSection,
  mealsSection,
  phonesSection,
  placesSection,
  linesSection,
  wakeSection,
  reachSection,
  decideSection,
  cautionsSection,
  acceptedSection,
  openSection,
];

/** Makes the sheet of a day, for everyone or for one person. */
export function sheetOf(request: SheetRequest): Sheet {
  const input = sheetInput(request);
  const { plan } = input.day;
  const sections = SECTIONS.flatMap((section) => section(input) ?? []);
  const events = sheetEvents(input);
  const whose = input.person === null ? "" : ` · ${input.say.name(input.person)}`;
  return {
    title: `Call sheet · ${longDate(plan.date)}${whose}`,
    story: plan.title === null ? null : freeText(input, plan.title),
    identity: `${plan.date} ${plan.file?.split("/").at(-1) ?? plan.title ?? ""}`,
    date: plan.date,
    revision: plan.revision,
    person: input.person,
    head: headLines(input),
    sections: sections.map(withoutEmptyColumns),
    events,
    brief: briefLines(input),
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

/** The sheet as a report, for the forms that print blocks: text, Markdown, CSV, JSON. */
export function sheetReport(sheet: Sheet): Report {
  const story = [sheet.story, sheet.revision === null ? null : `revision ${sheet.revision}`].filter(
    (part) => part !== null,
  );
  const head: Block[] = [
    { kind: "heading", text: sheet.title },
    ...(story.length === 0 ? [] : [{ kind: "line" as const, cells: [{ text: story.join(", ") }] }]),
    ...sheet.head.map((cells) => ({ kind: "line" as const, cells })),
  ];
  const body = sheet.sections.flatMap((section): readonly Block[] => [
    { kind: "heading", text: section.title },
    ...section.blocks,
  ]);
  return { command: "sheet", blocks: [...head, ...body], data: sheet.data, findings: sheet.findings, say: sheet.say };
}
