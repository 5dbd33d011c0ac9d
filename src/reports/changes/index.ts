/** `changes`: what an edit or a newer version moves, for whom, and by when they must know. */
import type { Change, Value } from "../../changes/between.ts";
import { dayChanges, type PersonChange } from "../../changes/index.ts";
import type { Instant } from "../../time/index.ts";
import { filled, line, list, listUnder } from "../shared/blocks.ts";
import { column, columns, kept, object, type RowField, shown } from "../shared/columns.ts";
import type { ReportInput } from "../shared/dayView.ts";
import { SHORT_FINDING } from "../shared/envelope.ts";
import { findingItems } from "../shared/findingView.ts";
import { type Judged, TOPICS } from "../shared/judged.ts";
import { idsKind, instantKind, isoKind, keyKind, listKind, moment, orNull, textKind } from "../shared/kinds.ts";
import { type NoSignal, silences } from "../shared/reach.ts";
import type { ReportMaker } from "../shared/report.ts";
import type { Block, BriefLine, Cell, Json, ReportParts } from "../shared/view.ts";
import { NO_FACTS, type SheetRequest, sheetInput } from "../sheet/input.ts";
import { changesSection } from "../sheet/open.ts";
import { folk, valueCell } from "../sheet/words.ts";
import { type ChangesInput, type ChangesView, changedName, changesView, headline } from "./words.ts";

/** The report of `changes`. */
function changesReport(input: ChangesInput): ReportParts {
  const view = changesView(input);
  const rows = view.changes.filter(({ kind }) => kind !== "person");
  const concerned = view.people.filter(({ tellBy }) => tellBy !== null);
  const people = PEOPLE.table(view, concerned, {
    title: "Tell",
    show: ["id", "tellBy", "oldCall", "newCall", "oldRelease", "newRelease", "also"],
    empty: "",
  });
  const changed = CHANGES.table(view, rows, { title: "Changed", empty: "" });
  return {
    blocks: [
      line(headline(view), view.found.some(({ level }) => level === "error") ? "bad" : "strong"),
      ...filled(people),
      ...sleepers(view),
      ...unreachable(view),
      ...filled(changed),
      ...listUnder("New findings", findingItems(view.found, view.say, view.redact)),
      ...listUnder("Findings gone", findingItems(view.gone, view.say, view.redact)),
    ],
    data: CHANGES_DATA.json(view, view),
    brief: changeLines(view),
    headers: [people, changed],
  };
}

/** Who need not be woken: until when they may sleep, and when the first change comes for them. */
function sleepers(view: ChangesView): readonly Block[] {
  if (view.changes.length === 0) return [];
  const items = view.people.flatMap((person): readonly Cell[] => {
    if (person.sleepsUntil === null || person.tellBy === null || person.tellBy <= person.sleepsUntil) return [];
    if (view.now !== null && person.sleepsUntil <= view.now) return [];
    const until = view.time(person.sleepsUntil, person.bed);
    return [
      {
        text: `${view.say.name(person.id)} can sleep until ${until}: nothing changes before ${view.time(person.tellBy, person.bed)}`,
      },
    ];
  });
  const same = view.people.filter(({ tellBy, newCall }) => tellBy === null && newCall !== null);
  if (same.length > 0)
    items.push({ text: `Nothing changes for ${same.map(({ id }) => view.say.name(id)).join(", ")}` });
  return list(items);
}

/** Who has no telephone signal when they would be told. */
function unreachable(view: ChangesView): readonly Block[] {
  const all = silences(view.older);
  const items = view.people.flatMap(({ id, tellBy }): readonly Cell[] => {
    const silence = tellBy === null ? undefined : all.find((one) => covers(one, id, tellBy));
    if (silence === undefined) return [];
    const from = view.time(silence.from, silence.fromPlace);
    return [
      {
        text: `${view.say.name(id)} has no signal from ${from} to ${view.time(silence.to, silence.toPlace)}: tell sooner`,
        tone: "warn",
      },
    ];
  });
  return list(items);
}

const covers = ({ who, from, to }: NoSignal, id: string, at: Instant): boolean =>
  who.includes(id) && from <= at && at < to;

const callField = (
  label: string,
  value: (person: PersonChange) => Instant | null,
): RowField<PersonChange, ChangesView> =>
  column(label, orNull(instantKind), (person) => moment(value(person), person.place));

const PEOPLE = columns<PersonChange, ChangesView>()({
  id: column("Who", keyKind, {
    cell: ({ id }, { say }) => ({ text: say.name(id), raw: id, tone: "strong" }),
  }),
  oldCall: callField("Call was", ({ oldCall }) => oldCall),
  newCall: callField("Call", ({ newCall }) => newCall),
  oldRelease: callField("Release was", ({ oldRelease }) => oldRelease),
  newRelease: callField("Release", ({ newRelease }) => newRelease),
  tellBy: column("Tell by", orNull(instantKind), ({ tellBy, bed }) => moment(tellBy, bed), {
    cell: (person, view) => tellCell(person, view),
  }),
  sleepsUntil: kept(orNull(instantKind), ({ sleepsUntil, bed }) => moment(sleepsUntil, bed)),
  also: shown("Also", ({ changes }, view) => ({ text: view.briefly(changes) || "–", raw: null }), { spare: 1 }),
});

/** When it is past, or when no moment is left, there is only now. */
function tellCell({ tellBy, bed }: PersonChange, view: ChangesView): Cell {
  const at = moment(tellBy, bed);
  if (at === null) return { text: "–", raw: null };
  const cell = instantKind.cell(at, view);
  return view.now !== null && at.at <= view.now ? { ...cell, text: "now", tone: "bad" } : cell;
}

const CHANGES = columns<Change, ChangesView>()({
  what: column("What", textKind, ({ kind }) => kind),
  id: column("Which", textKind, {
    cell: ({ kind, id }, { input, say }) => ({
      text: kind === "move" ? changedName(input, kind, id) : say.name(id),
      raw: id,
    }),
  }),
  key: column("Value", orNull(textKind), ({ what }) => what),
  old: valueField("Old", ({ was, how }) => (how === "new" ? null : was), null),
  new: valueField("New", ({ now, how }) => (how === "dropped" ? null : now), "dropped"),
  who: column("Who", idsKind, {
    cell: ({ who }, { input }) => (who.length === 0 ? { text: "all", raw: "" } : folk(input, who)),
    spare: 1,
  }),
  tellBy: kept(orNull(isoKind), (change, view) => view.tellBy(change)),
});

function valueField(
  label: string,
  value: (change: Change) => Value | null,
  none: Change["how"] | null,
): RowField<Change, ChangesView> {
  return column(label, orNull(textKind), (change, view) => view.plain(value(change)), {
    cell(change, { input }) {
      const one = value(change);
      if (one !== null) return valueCell(input, one);
      return { text: change.how === none ? none : "–", raw: null };
    },
  });
}

/** The list of changes as JSON: also in the answer of `calls --since`. */
export const CHANGE_LIST = listKind(CHANGES);

/** The JSON of `changes`. */
const CHANGES_DATA = object<ChangesView, ChangesView>()({
  headline: kept(textKind, (view) => headline(view)),
  changes: CHANGE_LIST,
  people: listKind(PEOPLE),
  findings: kept(
    object<ChangesView, ChangesView>()({
      new: kept(listKind(SHORT_FINDING), ({ found }) => found),
      gone: listKind(SHORT_FINDING),
    }),
    (view) => view,
  ),
});

/** The list alone, as `calls --since` has it. */
export const changeListJson = (input: ChangesInput): Json => {
  const view = changesView(input);
  return CHANGE_LIST.json(view.changes, view);
};

/** The change as a chat message: the line first, then whom to tell, then what is newly wrong, which goes first where room is short. */
function changeLines(view: ChangesView): readonly BriefLine[] {
  const people = view.people.filter(({ tellBy }) => tellBy !== null);
  const tell = people.map((person) => {
    const by = tellCell(person, view).text;
    const calls =
      person.oldCall === person.newCall
        ? ""
        : `: call ${view.time(person.oldCall, person.place)} → ${view.time(person.newCall, person.place)}`;
    return `${view.say.name(person.id)} ${by === "now" ? "now" : `by ${by}`}${calls}`;
  });
  const errors = view.found.filter(({ level }) => level === "error").map((finding) => finding.sentence(view.say));
  return [
    { lead: "", items: [headline(view)], spare: 0 },
    ...(tell.length === 0 ? [] : [{ lead: "Tell:", items: tell, spare: 0 } as const]),
    ...(errors.length === 0 ? [] : [{ lead: "New errors:", items: errors, spare: 1 } as const]),
  ];
}

/** A heading and what changed in a day since it was told, for whom; one sentence where nothing did. */
export function sinceBlocks(
  request: Pick<SheetRequest, "day" | "changes" | "say" | "desk" | "person" | "redact">,
): readonly Block[] {
  const section = changesSection(sheetInput({ ...request, facts: NO_FACTS, findings: [] }));
  return section === null ? [] : [{ kind: "heading", text: section.title }, ...section.blocks];
}

/** What the list of changes is made from: two judged versions. */
export const changesOf = (input: ReportInput, newer: Judged, older: Judged): ChangesInput => ({
  ...input,
  older: older.day,
  changes: dayChanges(older, newer),
});

/** The report `changes`. */
export const changesMaker: ReportMaker = {
  place: 140,
  topics: TOPICS,
  make: (input, judged, { against }) => changesReport(changesOf(input, judged, against ?? judged)),
  schema: () => CHANGES_DATA.schema,
};
