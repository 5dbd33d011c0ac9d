/** `handover`: for the crew that takes over: vehicles, packs, gear, the next hits, who is rested when, what is open. One page. */
import type { Finding } from "../../findings/finding.ts";
import type { Instant } from "../../time/index.ts";
import { line, listUnder } from "../shared/blocks.ts";
import { dayView } from "../shared/dayView.ts";
import { findingItems, redacting } from "../shared/findingView.ts";
import { headingLine } from "../shared/heading.ts";
import { had, TOPICS } from "../shared/judged.ts";
import type { ReportMaker } from "../shared/report.ts";
import type { Block, ReportParts } from "../shared/view.ts";
import { HANDOVER_BOOKINGS } from "./bookings.ts";
import {
  HANDOVER_DATA,
  HANDOVER_HITS,
  HANDOVER_KIT,
  HANDOVER_PACKS,
  HANDOVER_PEOPLE,
  HANDOVER_VEHICLES,
  type HandoverInput,
  handoverRows,
} from "./rows.ts";

/** The report of `handover`. */
function handoverReport(input: HandoverInput): ReportParts {
  const { day } = input;
  const view = dayView(input);
  const rows = handoverRows(input);
  return {
    blocks: [
      headingLine(day, view.clocks),
      line(`As of ${view.clocks.local(rows.at.at, rows.at.place).text}`, "strong"),
      HANDOVER_VEHICLES.table(view, rows.vehicles, { title: "Vehicles", empty: "No vehicle." }),
      HANDOVER_PACKS.table(view, rows.packs, { title: "Packs", empty: "No packs." }),
      HANDOVER_KIT.table(view, rows.kit, { title: "Gear", empty: "No gear." }),
      HANDOVER_HITS.table(view, rows.hits, { title: "Next hits", empty: "No more hits in this plan." }),
      HANDOVER_PEOPLE.table(view, rows.people, { title: "People", empty: "No one." }),
      HANDOVER_BOOKINGS.table(view, rows.bookings, { title: "Open bookings", empty: "None." }),
      ...openBlocks(input),
      ...noteBlocks(input),
    ],
    data: HANDOVER_DATA.json(rows, view),
  };
}

/** Whether what a finding is about has an end, and is over at a moment; a breach of law stays open. */
function isOver({ law, facts }: Finding, at: Instant): boolean {
  const { to } = facts;
  return !law && typeof to === "object" && to !== null && "at" in to && typeof to.at === "number" && to.at <= at;
}

function openBlocks({ day, findings, say, redact, now }: HandoverInput): readonly Block[] {
  const at = now ?? day.span.to;
  const isOpen = (one: Finding): boolean => one.accepted === null && one.level !== "note" && !isOver(one, at);
  const items = findingItems(findings.filter(isOpen), say, redact);
  return [
    { kind: "heading", text: "Open points" },
    items.length === 0 ? line("none", "good") : { kind: "list", items },
  ];
}

/** What was noted of people, hits, vehicles and gear. */
function noteBlocks({ day, say, redact }: HandoverInput): readonly Block[] {
  const { people, activities, stops, packs, vehicles, pieces } = day.plan.actual;
  const all = [people, activities, stops, packs, vehicles, pieces].flatMap((facts) =>
    [...facts].flatMap(([own, { note }]) => (note === null ? [] : [{ own, note }])),
  );
  const clean = redacting(redact).clean ?? ((words: string) => words);
  const items = all.map(({ own, note }) => ({ text: clean(`${say.name(own)}: ${note}`) }));
  return listUnder("Notes", items);
}

/** The report `handover`. */
export const handoverMaker: ReportMaker = {
  place: 120,
  topics: TOPICS,
  make: (input, { results }) =>
    handoverReport({
      ...input,
      hours: had(results.hours),
      power: had(results.power),
      kit: had(results.kit),
      roads: had(results.roads),
      bookings: had(results.bookings),
    }),
  schema: () => HANDOVER_DATA.schema,
};
