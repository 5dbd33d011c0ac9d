/** The words of a list of changes: values as people read them and as programs do, and whose moment comes first. */
import type { Change, Value } from "../../changes/between.ts";
import type { DayChanges, PersonChange } from "../../changes/index.ts";
import { momentsOf } from "../../changes/people.ts";
import type { Day } from "../../day/day.ts";
import { counted } from "../../findings/figures.ts";
import type { Id } from "../../plan/plan.ts";
import type { Instant } from "../../time/index.ts";
import { type DayView, dayView, type ReportInput } from "../shared/dayView.ts";
import { withoutContacts } from "../shared/redact.ts";
import { isoAt } from "../shared/stamps.ts";
import { zoneOfPlace } from "../shared/wording.ts";
import { NO_FACTS, type SheetInput, sheetInput } from "../sheet/input.ts";
import { valueCell } from "../sheet/words.ts";

/** What `changes` shows. */
export interface ChangesInput extends ReportInput {
  readonly older: Day;
  readonly changes: DayChanges;
}

/** Values that are told in a few words. */
const BRIEF = 3;

/** What its cells need. */
export interface ChangesView extends DayView, Pick<DayChanges, "changes" | "people" | "found" | "gone"> {
  readonly older: Day;
  readonly input: SheetInput;
  readonly now: Instant | null;
  /** On the clock of a place, named where it is not the main one. */
  time(at: Instant | null, place: Id | null): string;
  /** As programs read it: ISO 8601, ids, text. */
  plain(value: Value | null): string | null;
  /** By when the first of those whom it concerns must know. */
  tellBy(change: Change): string | null;
  /** `noon 12:30 → 12:45`, of some changes. */
  briefly(changes: readonly Change[]): string;
}

/** What a report of changes is worded with; of one person only what concerns them. */
export function changesView(request: ChangesInput): ChangesView {
  const { day, older, say, clock, now, person, redact } = request;
  const input = sheetInput({
    day,
    facts: NO_FACTS,
    findings: [],
    say,
    desk: clock,
    person,
    redact,
    changes: null,
    older,
  });
  const own = dayView(request);
  const mine = (who: readonly Id[]): boolean => person === null || who.length === 0 || who.includes(person);
  const people = request.changes.people.filter(({ id }) => person === null || id === person);
  return {
    ...own,
    older,
    input,
    now,
    changes: request.changes.changes.filter(({ who }) => mine(who)),
    people,
    found: request.changes.found,
    gone: request.changes.gone,
    time: (at, place) => own.clocks.local(at, place).text,
    plain: (value) => plainValue(day, value, redact),
    tellBy: (change) => earliestTell(day, people, change),
    briefly: (changes) => briefly(input, changes),
  };
}

function plainValue(day: Day, value: Value | null, redact: boolean): string | null {
  if (value === null) return null;
  if (value.kind === "time") return isoAt(day.plan, value.at, value.place);
  if (value.kind === "names") return value.ids.join(" ");
  if (value.personal && redact) return null;
  return redact ? withoutContacts(value.text) : value.text;
}

function earliestTell(day: Day, people: readonly PersonChange[], { who }: Change): string | null {
  const first = people.find(({ id, tellBy }) => tellBy !== null && (who.length === 0 || who.includes(id)));
  return first?.tellBy == null ? null : isoAt(day.plan, first.tellBy, first.bed);
}

/** The first few in time, and how many more. */
function briefly(input: SheetInput, changes: readonly Change[]): string {
  const listed = changes.filter(({ kind }) => kind !== "place" && kind !== "line" && kind !== "booking");
  const inTime = listed.toSorted((a, b) => (momentsOf(a)[0] ?? 0) - (momentsOf(b)[0] ?? 0));
  const words = inTime.slice(0, BRIEF).map((change) => changeText(input, change));
  return [...words, ...(listed.length > BRIEF ? [`${listed.length - BRIEF} more`] : [])].join("; ");
}

/** A drive by where it goes, since people do not know its id. */
export function changedName({ short, day, older }: SheetInput, kind: Change["kind"], id: Id): string {
  if (kind === "packs") return "packs";
  if (kind === "piece" || kind === "person") return short.name(id);
  const move = kind === "move" ? [...day.moves, ...(older?.moves ?? [])].find((one) => one.id === id) : undefined;
  return move === undefined ? id : `${short.name(move.vehicle)} to ${short.name(move.to)}`;
}

/** `noon 12:30 → 12:45`, `lunch dropped`, `new pack moves 06:11`, `wagon to pier leave 08:10 → 08:20`. */
export function changeText(input: SheetInput, { kind, id, how, what, was, now }: Change): string {
  const name = changedName(input, kind, id);
  const packsAt = kind === "packs" ? (now ?? was) : null;
  if (packsAt !== null && how !== "changed") return `${how} pack moves ${valueCell(input, packsAt).text}`;
  if (how !== "changed") return `${name} ${how}`;
  if (what === "state" && now?.kind === "text") return `${name} ${now.text}`;
  const values = [was, now].map((value) => (value === null ? "–" : valueCell(input, value).text));
  return `${name}${what === "start" || what === null ? "" : ` ${what}`} ${values.join(" → ")}`;
}

/** Hits, tasks or people told one by one; beyond them they are counted. */
const MOST = 3;

/** What changed in one line; says so where nothing did. */
export function headline(view: ChangesView): string {
  const { changes, found, gone, older, day } = view;
  // One version alone is compared with itself.
  if (older === day) return "Nothing to compare with: --since names an older version, --set an edit.";
  if (changes.length === 0 && found.length === 0 && gone.length === 0) return "Nothing changed.";
  const parts = [
    ...eachOrCount(changesOf(view, "hit"), "hits", (change) => hitText(view, change)),
    ...eachOrCount(changesOf(view, "task"), "tasks", (change) => taskText(view, change)),
    ...others(view),
    ...calls(view),
    rests(view),
  ];
  return `${parts.join("; ")}.`;
}

/** Of each hit or task what says most: that it is new or gone, else its start, else its first value. */
function changesOf({ changes }: ChangesView, kind: Change["kind"]): readonly Change[] {
  const ids = [...new Set(changes.filter((one) => one.kind === kind).map(({ id }) => id))];
  return ids.flatMap((id) => {
    const own = changes.filter((one) => one.kind === kind && one.id === id);
    const missed = own.find(({ what, now }) => what === "state" && now !== null);
    return (
      own.find(({ how }) => how !== "changed") ?? missed ?? own.find(({ what }) => what === "start") ?? own[0] ?? []
    );
  });
}

function eachOrCount(changes: readonly Change[], many: string, word: (change: Change) => string): readonly string[] {
  if (changes.length <= MOST) return changes.map(word);
  return [...changes.slice(0, MOST - 1).map(word), `${changes.length - MOST + 1} more ${many} change`];
}

/** `noon 12:30 → 12:45 CT`. */
function hitText({ day, clocks, input }: ChangesView, change: Change): string {
  const zone = change.now?.kind === "time" ? zoneOfPlace(day.plan, change.now.place) : null;
  const named = zone === null || zone !== clocks.main ? "" : ` ${clocks.name(zone)}`;
  return `${changeText(input, change)}${named}`;
}

/** `lunch 15 min later`. */
function taskText({ say, input }: ChangesView, change: Change): string {
  const { what, was, now, id } = change;
  if (what !== "start" || was?.kind !== "time" || now?.kind !== "time") return changeText(input, change);
  const by = now.at - was.at;
  return `${id} ${say.length(Math.abs(by))} ${by < 0 ? "earlier" : "later"}`;
}

/** What moves where no hit and no task does. */
function others(view: ChangesView): readonly string[] {
  const kinds = view.changes.map(({ kind }) => kind);
  if (kinds.includes("hit") || kinds.includes("task")) return [];
  const drives = new Set(view.changes.filter(({ kind }) => kind === "move").map(({ id }) => id)).size;
  if (drives > 0) return [counted(drives, "drive changes", "drives change")];
  if (kinds.length === 0) return ["no time changes"];
  return kinds.every((kind) => kind === "person") ? [] : ["no hit and no task changes"];
}

function calls({ people, say }: ChangesView): readonly string[] {
  const moved = people.filter(({ oldCall, newCall }) => oldCall !== newCall);
  const earlier = moved.filter((person) => shift(person) < 0);
  const words = moved.map((person) => {
    const name = say.name(person.id);
    if (person.newCall === null) return `${name} is not called`;
    if (person.oldCall === null) return `${name} is called`;
    const by = shift(person);
    return `${name} is called ${say.length(Math.abs(by))} ${by < 0 ? "earlier" : "later"}`;
  });
  const shown =
    words.length <= MOST ? words : [...words.slice(0, MOST - 1), `${words.length - MOST + 1} more calls change`];
  return earlier.length > 0 ? shown : [...shown, "no call is earlier"];
}

const shift = ({ oldCall, newCall }: PersonChange): number =>
  oldCall === null || newCall === null ? 0 : newCall - oldCall;

function rests({ found, say }: ChangesView): string {
  const short = found.filter(({ code, accepted }) => code === "rest-too-short" && accepted === null);
  const who = [...new Set(short.flatMap((finding) => finding.who ?? []))].map((id) => say.name(id));
  const errors = found.filter(({ level, accepted }) => level === "error" && accepted === null).length;
  const rest = who.length === 0 ? "no rest is short" : `rest too short: ${who.join(", ")}`;
  return errors === 0 ? rest : `${rest}; ${counted(errors, "new error")}`;
}
