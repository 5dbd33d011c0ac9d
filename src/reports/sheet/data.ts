/** `data` of `sheet --json`: the same sheet for programs. Instants carry the offset of the sheet's clock, in changes that of the place. */

import { type Change, THING_KINDS, type Value } from "../../changes/between.ts";
import { isoLocal } from "../../time/index.ts";
import { kept, object } from "../shared/columns.ts";
import {
  anyKind,
  flagKind,
  isoKind,
  type Kind,
  keyKind,
  listKind,
  mapKind,
  orNull,
  textKind,
  wholeKind,
  wordKind,
} from "../shared/kinds.ts";
import type { Block, Cell, Chart, Json, Table } from "../shared/view.ts";
import { zoneOfPlace } from "../shared/wording.ts";
import { keyMoments } from "./head.ts";
import type { SheetInput } from "./input.ts";
import type { Section, Sheet, SheetEvent } from "./view.ts";
import { concerns } from "./words.ts";

const cellJson = (cell: Cell): Json => (cell.raw === undefined ? cell.text : cell.raw);

const rowsOf = ({ columns, rows }: Table): readonly ReadonlyMap<string, Json>[] =>
  rows.map((row) => new Map(row.map((cell, at) => [columns[at]?.key ?? columns[at]?.label ?? "", cellJson(cell)])));

const table = object<Table, unknown>()({
  kind: wordKind("table"),
  title: orNull(textKind),
  rows: kept(listKind(mapKind(anyKind)), rowsOf),
});
const items = object<Extract<Block, { kind: "list" }>, unknown>()({
  kind: wordKind("list"),
  items: kept(listKind(textKind), (block) => block.items.map((item) => item.text)),
});
const words = object<Extract<Block, { kind: "line" | "heading" }>, unknown>()({
  kind: wordKind("line", "heading"),
  text: kept(textKind, (block) => (block.kind === "line" ? block.cells.map((cell) => cell.text).join("") : block.text)),
});
const chart = object<Chart, unknown>()({
  kind: wordKind("chart"),
  title: textKind,
  text: kept(textKind, (block) => block.description),
});
const findings = object<Extract<Block, { kind: "findings" }>, unknown>()({
  kind: wordKind("findings"),
  codes: kept(listKind(textKind), (block) => block.findings.map((finding) => finding.code)),
});

function blockJson(block: Block): Json {
  switch (block.kind) {
    case "table":
      return table.json(block, null);
    case "list":
      return items.json(block, null);
    case "line":
    case "heading":
      return words.json(block, null);
    case "chart":
      return chart.json(block, null);
    case "findings":
      return findings.json(block, null);
  }
}

const block: Kind<Block, unknown> = {
  ...anyKind,
  get schema() {
    return { anyOf: [table, items, words, chart, findings].map((one) => one.schema) };
  },
  json: blockJson,
  cell: () => ({ text: "" }),
};

const section = object<Section, unknown>()({
  id: textKind,
  title: textKind,
  blocks: listKind(block),
});

const event = object<SheetEvent, SheetInput>()({
  item: textKind,
  kind: wordKind("call", "hit", "move", "release", "task", "meal", "feed", "packs"),
  from: kept(isoKind, (one, { desk }) => isoLocal(one.start, desk)),
  to: kept(orNull(isoKind), (one, { desk }) => (one.end === null ? null : isoLocal(one.end, desk))),
  title: textKind,
  place: orNull(textKind),
});

const change = object<Change, SheetInput>()({
  kind: wordKind(...THING_KINDS),
  id: textKind,
  who: listKind(keyKind),
  how: wordKind("new", "dropped", "changed"),
  what: orNull(textKind),
  was: kept(anyKind, (one, input) => valueJson(input, one.was)),
  now: kept(anyKind, (one, input) => valueJson(input, one.now)),
});

function valueJson(input: SheetInput, value: Value | null): Json {
  if (value === null || (value.kind === "text" && value.personal && input.redact)) return null;
  if (value.kind === "time") return isoLocal(value.at, zoneOfPlace(input.day.plan, value.place));
  return value.kind === "names" ? [...value.ids] : value.text;
}

/** The guard at a gate needs arrivals and departures and nothing else. */
const isGate = ({ focus }: SheetInput): boolean => focus?.kind === "place";

const deskTime = (input: SheetInput, key: keyof ReturnType<typeof keyMoments>): string | null => {
  const moment = isGate(input) ? null : keyMoments(input)[key];
  return moment === null ? null : isoLocal(moment.at, input.desk);
};

/** `data` of `sheet`: keys in the order of the sheet. */
export const SHEET_DATA = object<Pick<Sheet, "sections" | "events">, SheetInput>()({
  revision: kept(orNull(wholeKind), (_, { day }) => day.plan.revision),
  person: kept(orNull(keyKind), (_, { person }) => person),
  redacted: kept(flagKind, (_, { redact }) => redact),
  firstCall: kept(orNull(isoKind), (_, input) => deskTime(input, "firstCall")),
  firstHit: kept(orNull(isoKind), (_, input) => deskTime(input, "firstHit")),
  lastRelease: kept(orNull(isoKind), (_, input) => deskTime(input, "lastRelease")),
  sections: listKind(section),
  events: kept(listKind(event), ({ events }) => events.filter(({ cancelled }) => !cancelled)),
  changes: kept(orNull(listKind(change)), (_, input) =>
    isGate(input)
      ? null
      : (input.changes?.changes.filter((one) => one.who.length === 0 || concerns(input, one.who)) ?? null),
  ),
  notJudged: kept(listKind(textKind), (_, { facts }) => facts.notJudged),
});
