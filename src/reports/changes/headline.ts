/** One line that says what moved and what it does: `noon 12:30 → 12:45 CT; lunch 15 min later; no call is earlier; no rest is short`. */
import type { Change } from "../../changes/between.ts";
import type { PersonChange } from "../../changes/index.ts";
import { counted } from "../../findings/figures.ts";
import { zoneOfPlace } from "../shared/wording.ts";
import { type ChangesView, changeText } from "./words.ts";

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
