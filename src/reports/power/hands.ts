/** The chores of a rotation in words: who takes which pack where, from when to when. Shared by `power` and the sheet. */

import { wordList } from "../../findings/figures.ts";
import type { Wording } from "../../findings/finding.ts";
import type { Id } from "../../plan/plan.ts";
import type { PowerResult } from "../../power/index.ts";
import type { HandTask, PackStep } from "../../power/todo.ts";
import { line } from "../shared/blocks.ts";
import type { DayView } from "../shared/dayView.ts";
import type { Block, Cell } from "../shared/view.ts";

/** What hands do, moment by moment, to be ticked; `person` where only their chores are among `tasks`. */
export function handsBlocks(
  view: DayView & { readonly result: PowerResult },
  tasks: readonly HandTask[],
  person: Id | null,
): Block[] {
  const { clocks, say, day } = view;
  const whose = person === null ? "" : ` for ${say.name(person)}`;
  if (tasks.length === 0) return person === null ? [] : [line(`No pack moves${whose}.`)];
  const items = tasks.map((task): Cell => {
    const { from, to, where, steps } = task;
    const place = day.plan.places.has(where) ? where : null;
    const time = spanText(clocks.local(from, place).text, clocks.local(to, place).text);
    const what = steps.map((step) => moveText(moveWords(view, step))).join("; ");
    return { text: `${time} ${say.name(where)}, ${handsText(task, say.name)}: ${what}` };
  });
  return [
    { kind: "heading", text: `Pack moves${whose}` },
    { kind: "list", items, tick: true },
  ];
}

/** `Wren`, `Wren, else Ilse or Bea`, `Wren, else any of 9 others`, `Wren and Ilse`; and that it has to go faster than a swap takes, where it has. */
export function handsText(
  { who, others, from, to, workMinutes }: Pick<HandTask, "who" | "others" | "from" | "to" | "workMinutes">,
  name: (id: Id) => string,
): string {
  const else_ =
    others.length === 0
      ? ""
      : `, else ${others.length > FEW_OTHERS ? `any of ${others.length} others` : wordList(others.map(name), "or")}`;
  const haste = to - from < workMinutes ? `, ${workMinutes} min of work in ${to - from}` : "";
  return `${wordList(who.map(name), "and")}${else_}${haste}`;
}

/** More who could do it as well are counted: a list of a whole crew is not read. */
const FEW_OTHERS = 3;

/** A time as `clocks` words it: its weekday, where it has one, the time, and its clock, where that is named. */
const TIME = /^(\P{Nd}*)(\p{Nd}+:\p{Nd}+(?: [ap]m)?)(.*)$/u;

/** `Tue 15:50–15:54`: two times of a clock, what both have said once. */
export function spanText(from: string, to: string): string {
  const [, day = "", head = "", clock = ""] = TIME.exec(from) ?? [];
  const [, lastDay = "", end = "", lastClock = ""] = TIME.exec(to) ?? [];
  if (head === "" || day !== lastDay) return `${from} to ${to}`;
  return clock === lastClock ? `${day}${head}–${end}${clock}` : `${from} to ${end}${lastClock}`;
}

/** A pack's move in words. */
export interface PackMoveText {
  readonly pack: Id;
  readonly from: string;
  readonly to: string;
}

/** `brick.1: bench slot 1 → wagon`. */
export const moveText = ({ pack, from, to }: PackMoveText): string => `${pack}: ${from} → ${to}`;

/** Where a pack comes from and where it goes: a slot of a charger, a load, or the vehicle or place that it lies in. */
export function moveWords(
  { say, result }: { readonly say: Wording; readonly result: PowerResult },
  { pack, from, to, fromSlot, toSlot }: PackStep,
): PackMoveText {
  const name = (place: Id, slot: number | null): string => {
    if (slot !== null) return `${say.name(place)} slot ${slot}`;
    const bay = result.built.handBays.find((one) => one.id === place);
    return say.name(bay?.within ?? place);
  };
  return { pack, from: name(from, fromSlot), to: name(to, toSlot) };
}
