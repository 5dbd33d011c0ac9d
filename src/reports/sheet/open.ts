/** The end of a sheet: cautions, what is taken knowingly, what is not solved, and what changed since an older version. */
import type { Change, Changes, Value } from "../../changes/between.ts";
import type { Finding } from "../../findings/finding.ts";
import { joinAlike } from "../../findings/together.ts";
import { groupBy } from "../../lists.ts";
import { line, list } from "../shared/blocks.ts";
import { meant } from "../shared/cells.ts";
import { columns, shown } from "../shared/columns.ts";
import { findingCell, findingView, sourceLabel } from "../shared/findingView.ts";
import { deferralLine, notJudgedLines } from "../shared/heading.ts";
import { rowsByCall } from "../shared/people.ts";
import type { Block, Cell, FindingView } from "../shared/view.ts";
import type { SheetInput } from "./input.ts";
import type { Section } from "./view.ts";
import { concerns, folk, freeText, name, sheetNames, valueCell } from "./words.ts";

const mine = (input: SheetInput, findings: readonly Finding[]): readonly Finding[] =>
  findings.filter((finding) => finding.who === null || concerns(input, [finding.who]));

const viewOf = (input: SheetInput, finding: Finding, by?: string): FindingView =>
  findingView(finding, input.say, {
    clean: (text) => freeText(input, text),
    ...(by === undefined ? {} : { by }),
  });

/** What to take care of, and in small print at the end where each is from. */
export function cautionsSection(input: SheetInput): Section | null {
  const cautions = mine(input, input.facts.cautions ?? []);
  if (cautions.length === 0) return null;
  const sources = [...new Set(cautions.flatMap(({ source }) => (source === null ? [] : [sourceLabel(source)])))];
  const drives = groupBy(cautions, (one) => (one.code === NIGHT ? NIGHT : one));
  const items = [...drives.values()].map((group): Cell => {
    const [first] = group;
    const number = first.source === null ? "" : ` [${sources.indexOf(sourceLabel(first.source)) + 1}]`;
    return { text: `${first.code === NIGHT ? nightText(input, group) : viewOf(input, first).sentence}${number}` };
  });
  const print = sources.map((source, at) => `[${at + 1}] ${source}`).join("; ");
  const small: readonly Block[] = print === "" ? [] : [line(`Sources: ${print}.`, "muted")];
  return { id: "cautions", title: "Take care", blocks: [{ kind: "list", items }, ...small, deferralLine()] };
}

const NIGHT = "night-driving";

/** `driving between midnight and 06:00: Tomas 45 min, Wren 40 min; …`, and what to do (common practice, no source). */
function nightText(input: SheetInput, group: readonly Finding[]): string {
  const turns = rowsByCall(group, ({ who }) => who ?? "", input.day.people).map(({ who, facts }) => {
    const { minutes } = facts;
    return `${who === null ? "" : name(input, who)}${typeof minutes === "number" ? ` ${input.say.length(minutes)}` : ""}`;
  });
  return `driving between midnight and 06:00: ${turns.join(", ")}; stop at the first sign of sleepiness, change drivers or rest`;
}

/** Findings that are accepted, by whom and why: that is the lead's to decide. */
export function acceptedSection(input: SheetInput): Section | null {
  const accepted = joinAlike(mine(input, input.findings).filter((one) => one.accepted !== null));
  if (accepted.length === 0) return null;
  const leads = [...input.day.plan.crew.values()].filter((person) => person.roles.includes("lead"));
  const ids = leads.map((person) => person.id);
  const by = ids.length === 0 ? "the lead" : sheetNames(input, ids);
  const items = accepted.map((one) => findingCell(viewOf(input, one, by), ["accepted"], "plain"));
  return { id: "accepted", title: "Accepted", blocks: [{ kind: "list", items }] };
}

const standing = (input: SheetInput): readonly Finding[] => {
  const cautions = new Set(input.facts.cautions ?? []);
  return mine(input, input.findings).filter(
    (one) => one.accepted === null && one.level !== "note" && !cautions.has(one),
  );
};

/** Open points with an error among them, which stand at the head of the sheet; null where there is none. */
export const urgentSection = (input: SheetInput): Section | null =>
  standing(input).some((one) => one.level === "error") ? openPoints(input) : null;

/** Open points without an error, or that there are none; null where they stand at the head. */
export const openSection = (input: SheetInput): Section | null =>
  standing(input).some((one) => one.level === "error") ? null : openPoints(input);

/** A line for each cause, worst first. */
export function openItems(input: SheetInput): readonly Cell[] {
  const causes = groupBy(standing(input), (one) =>
    one.who === null ? one : `${one.code} ${one.level} ${one.shortMinutes === null}`,
  );
  return [...causes.values()].flatMap((group) => causeItems(input, group));
}

/** The open points, and the topics that were not judged. */
function openPoints(input: SheetInput): Section {
  const items = openItems(input);
  const blocks: readonly Block[] = [...list(items), ...notJudgedLines(input.facts.notJudged)];
  return { id: "open", title: items.length === 0 ? "Open points: none" : "Open points", blocks };
}

/** `too little rest: Eli by 2 h 8 min; Anna, Bo by 1 h 18 min`; the sentence of one that stands alone. */
function causeItems(input: SheetInput, group: readonly Finding[]): readonly Cell[] {
  const [first] = group;
  const tone = group.some((one) => one.level === "error") ? "bad" : "warn";
  const title = first === undefined ? null : (input.facts.titleOf?.(first.code) ?? null);
  if (group.length === 1 || first === undefined || title === null)
    return joinAlike(group).map((one) => ({ text: viewOf(input, one).sentence, tone }));
  const lengths = groupBy(group, (one) => one.shortMinutes ?? 0);
  const parts = [...lengths].map(([minutes, some]) => {
    const who = sheetNames(input, [...new Set(some.flatMap((one) => one.who ?? []))]);
    return minutes === 0 ? who : `${who} by ${input.say.length(minutes)}`;
  });
  return [{ text: `${title}: ${parts.join("; ")}`, tone }];
}

/** What changed since an older version and for whom; says so where nothing did. Null where no older version was named. */
export function changesSection(input: SheetInput): Section | null {
  if (input.changes === null) return null;
  const mine = input.changes.changes.filter((one) => one.who.length === 0 || concerns(input, one.who));
  const empty = input.person === null ? "Nothing changed." : `Nothing changed for ${name(input, input.person)}.`;
  const blocks = [CHANGES.table(input, mine, { title: null, empty })];
  return { id: "changes", title: changesTitle(input.changes), blocks };
}

const changesTitle = ({ fromRevision, toRevision }: Changes): string =>
  fromRevision === null || toRevision === null || fromRevision === toRevision
    ? "Changed"
    : `Changed, revision ${fromRevision} to ${toRevision}`;

const CHANGES = columns<Change, SheetInput>()({
  who: shown("Who", (change, input) => folk(input, meant(input.day.plan, change))),
  what: shown("What", (change, input) => ({ text: changeName(input, change), raw: changeKey(change), tone: "strong" })),
  now: shown("Now", ({ how, now }, input) =>
    how === "dropped" ? changeCell(input, null, "dropped") : changeCell(input, now, "–"),
  ),
  was: shown("Was", ({ how, was }, input) => changeCell(input, was, how === "new" ? "new" : "–")),
});

function changeName(input: SheetInput, change: Change): string {
  const of =
    change.kind === "person" || change.kind === "place" ? name(input, change.id) : `${change.kind} ${change.id}`;
  return change.what === null ? of : `${of}, ${change.what}`;
}

/** `wren.call`, `dawn.1.start`; the id alone of what is new or dropped. */
const changeKey = ({ id, what }: Change): string => (what === null ? id : `${id}.${what}`);

const changeCell = (input: SheetInput, value: Value | null, none: string): Cell =>
  value === null ? { text: none, raw: none === "–" ? null : none } : valueCell(input, value);
