/** The end of a sheet: cautions, what is taken knowingly, what is not solved, and what changed since an older version. */

import type { Change, Changes, Value } from "../../changes/between.ts";
import type { Finding } from "../../findings/finding.ts";
import { together } from "../../findings/together.ts";
import { column, meant } from "../shared/cells.ts";
import { deferralLine, notJudgedLines } from "../shared/closingLines.ts";
import { toldCell, toldOf } from "../shared/findingView.ts";
import type { Block, Cell, Told } from "../shared/view.ts";
import type { SheetInput } from "./input.ts";
import type { Section } from "./view.ts";
import { concerns, folk, freeText, name, names, valueCell } from "./words.ts";

const mine = (input: SheetInput, findings: readonly Finding[]): readonly Finding[] =>
  findings.filter((finding) => finding.who === null || concerns(input, [finding.who]));

const told = (input: SheetInput, finding: Finding, by?: string): Told =>
  toldOf(finding, input.say, { clean: (text) => freeText(input, text), ...(by === undefined ? {} : { by }) });

/** Published cautions that the plan gives reason for, with their sources. */
export function cautionsSection(input: SheetInput): Section | null {
  const cautions = mine(input, input.facts.cautions ?? []);
  if (cautions.length === 0) return null;
  const items = cautions.map((one) => toldCell(told(input, one), ["source"], "plain"));
  return { id: "cautions", title: "Take care", blocks: [{ kind: "list", items }, deferralLine()] };
}

/** Findings that are accepted, by whom and why: that is the lead's to decide. */
export function acceptedSection(input: SheetInput): Section | null {
  const accepted = together(mine(input, input.findings).filter((one) => one.accepted !== null));
  if (accepted.length === 0) return null;
  const leads = [...input.day.plan.crew.values()].filter((person) => person.roles.includes("lead"));
  const ids = leads.map((person) => person.id);
  const by = ids.length === 0 ? "the lead" : names(input, ids);
  const items = accepted.map((one) => toldCell(told(input, one, by), ["accepted"], "plain"));
  return { id: "accepted", title: "Accepted", blocks: [{ kind: "list", items }] };
}

/** Errors and warnings that stand, each with its cure, and the topics that nobody has judged. */
export function openSection(input: SheetInput): Section {
  const cautions = new Set(input.facts.cautions ?? []);
  const standing = together(
    mine(input, input.findings).filter((one) => one.accepted === null && one.level !== "note" && !cautions.has(one)),
  );
  const items = standing.map((one) =>
    toldCell(told(input, one), ["try", "code"], one.level === "error" ? "bad" : "warn"),
  );
  const blocks: readonly Block[] = [
    items.length === 0 ? { kind: "line", cells: [{ text: "Nothing known.", tone: "good" }] } : { kind: "list", items },
    ...notJudgedLines(input.facts.notJudged),
  ];
  return { id: "open", title: "Not solved", blocks };
}

/** What changed since an older version and for whom; says so where nothing did. Null where no older version was named. */
export function changesSection(input: SheetInput): Section | null {
  if (input.changes === null) return null;
  return { id: "changes", title: changesTitle(input.changes), blocks: changeBlocks(input, input.changes) };
}

const changesTitle = ({ fromRevision, toRevision }: Changes): string =>
  fromRevision === null || toRevision === null || fromRevision === toRevision
    ? "Changed"
    : `Changed, revision ${fromRevision} to ${toRevision}`;

/** The table of changes, for any report that is asked `--since`. */
export function changeBlocks(input: SheetInput, changes: Changes): readonly Block[] {
  const shown = changes.changes.filter((one) => one.who.length === 0 || concerns(input, one.who));
  return [
    {
      kind: "table",
      title: null,
      columns: [column("Who", "who"), column("What", "what"), column("Now", "now"), column("Was", "was")],
      rows: shown.map((one) => [
        folk(input, meant(input.day.plan, one)),
        { text: changeName(input, one), raw: changeKey(one), tone: "strong" },
        changeCell(input, one.how === "dropped" ? null : one.now, one.how === "dropped" ? "dropped" : "–"),
        changeCell(input, one.was, one.how === "new" ? "new" : "–"),
      ]),
      empty: input.person === null ? "Nothing changed." : `Nothing changed for ${name(input, input.person)}.`,
    },
  ];
}

function changeName(input: SheetInput, change: Change): string {
  const of =
    change.kind === "person" || change.kind === "place" ? name(input, change.id) : `${change.kind} ${change.id}`;
  return change.what === null ? of : `${of}, ${change.what}`;
}

/** `wren.call`, `dawn.1.start`; the id alone of what is new or dropped. */
const changeKey = ({ id, what }: Change): string => (what === null ? id : `${id}.${what}`);

const changeCell = (input: SheetInput, value: Value | null, none: string): Cell =>
  value === null ? { text: none, raw: none === "–" ? null : none } : valueCell(input, value);
