/** `data` of `sheet --json`: the same sheet for programs. Instants carry the offset of the sheet's clock, in changes that of the place. */
import { isoLocal } from "../../time/index.ts";
import type { Instant } from "../../time/units.ts";
import type { Change, Value } from "../changes/index.ts";
import type { Block, Cell, Json } from "../shared/view.ts";
import { zoneOfPlace } from "../shared/wording.ts";
import { keyMoments } from "./head.ts";
import type { SheetInput } from "./input.ts";
import type { Section, SheetEvent } from "./view.ts";
import { concerns } from "./words.ts";

/** Keys in the order of the sheet; each is always there. */
export function sheetData(input: SheetInput, sections: readonly Section[], events: readonly SheetEvent[]): Json {
  const { plan } = input.day;
  const { firstCall, firstHit, lastRelease } = keyMoments(input);
  const desk = (moment: { readonly at: Instant } | null): Json =>
    moment === null ? null : isoLocal(moment.at, input.desk);
  return {
    revision: plan.revision,
    person: input.person,
    redacted: input.redact,
    firstCall: desk(firstCall),
    firstHit: desk(firstHit),
    lastRelease: desk(lastRelease),
    sections: sections.map((section) => ({
      id: section.id,
      title: section.title,
      blocks: section.blocks.map(blockJson),
    })),
    events: events.map((event) => ({
      item: event.item,
      kind: event.kind,
      from: isoLocal(event.start, input.desk),
      to: event.end === null ? null : isoLocal(event.end, input.desk),
      title: event.title,
      place: event.place,
    })),
    changes:
      input.changes === null
        ? null
        : input.changes.changes
            .filter((one) => one.who.length === 0 || concerns(input, one.who))
            .map((change) => changeJson(input, change)),
    notJudged: [...input.facts.notJudged],
  };
}

const cellJson = (cell: Cell): Json => (cell.raw === undefined ? cell.text : cell.raw);

function blockJson(block: Block): Json {
  if (block.kind === "table") {
    const keys = block.columns.map((one) => one.key ?? one.label);
    const rows = block.rows.map((row) =>
      Object.fromEntries(row.map((cell, index) => [keys[index] ?? "", cellJson(cell)])),
    );
    return { kind: "table", title: block.title, rows };
  }
  if (block.kind === "list") return { kind: "list", items: block.items.map((item) => item.text) };
  if (block.kind === "line") return { kind: "line", text: block.cells.map((cell) => cell.text).join("") };
  if (block.kind === "heading") return { kind: "heading", text: block.text };
  if (block.kind === "chart") return { kind: "chart", title: block.title, text: block.description };
  return { kind: "findings", codes: block.findings.map((finding) => finding.code) };
}

function changeJson(input: SheetInput, change: Change): Json {
  const { kind, id, who, how, what } = change;
  return { kind, id, who: [...who], how, what, was: valueJson(input, change.was), now: valueJson(input, change.now) };
}

function valueJson(input: SheetInput, value: Value | null): Json {
  if (value === null || (value.kind === "text" && value.personal && input.redact)) return null;
  if (value.kind === "time") return isoLocal(value.at, zoneOfPlace(input.day.plan, value.place));
  return value.kind === "names" ? [...value.ids] : value.text;
}
