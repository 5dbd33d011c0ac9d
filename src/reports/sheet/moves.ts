/** The part of a sheet that is about the road and what goes along: moves, batteries to do tonight, gear to load. */

import { aboardOf, type Move, type RideTimes } from "../../day/day.ts";
import { groupBy } from "../../lists.ts";
import { localDay, wallMinute, weekdayOf } from "../../time/index.ts";
import { handsText, moveText, type PackMoveText } from "../power/hands.ts";
import { filled } from "../shared/blocks.ts";
import { DASH } from "../shared/cells.ts";
import { columns, shown } from "../shared/columns.ts";
import { carriedBy } from "../shared/people.ts";
import type { Block, Cell } from "../shared/view.ts";
import { zoneOfPlace } from "../shared/wording.ts";
import type { BatteryFact } from "./facts.ts";
import type { SheetInput } from "./input.ts";
import type { Section } from "./view.ts";
import { concerns, folk, freeText, markedColumns, name, plainTime, thing } from "./words.ts";

/** Whether whom the sheet is for rides. */
export const isAboard = (input: SheetInput, move: Move): boolean => {
  const { focus } = input;
  if (focus?.kind === "vehicle") return move.vehicle === focus.id;
  if (focus?.kind === "place") return move.from === focus.id || move.to === focus.id;
  return concerns(input, aboardOf(move));
};

/** Moves of the vehicles with drivers and the latest departure, then rides by others. */
export function movesSection(input: SheetInput): Section {
  const moves = input.day.moves.filter((move) => isAboard(input, move));
  const rides = input.day.rides.filter((ride) => concerns(input, ride.who));
  const drives = MOVES.table(input, moves, { title: null, empty: "No drives." });
  const others = RIDES.table(input, rides, { title: "Rides by others", empty: "" });
  return { id: "moves", title: "On the road", blocks: [drives, ...filled(others)] };
}

const onMove = markedColumns<Move>(({ id }) => id);
const MOVES = columns<Move, SheetInput>()({
  vehicle: shown("Vehicle", ({ vehicle }, input) => ({ ...thing(input, vehicle), tone: "strong" })),
  leave: onMove.clock("Leave", "leave", ({ leave, from }) => ({ at: leave, place: from }), 3),
  leaveBy: shown("Leave by", ({ leaveBy, from }, { clocks }) =>
    leaveBy === null ? { text: "any time", raw: null } : clocks.local(leaveBy, from),
  ),
  from: shown("From", ({ from }, input) => thing(input, from)),
  to: shown("To", ({ to }, input) => thing(input, to)),
  arrive: onMove.column("Arrive", "arrive", ({ arrive, to }, input) => plainTime(input, arrive, to)),
  plannedMinutes: shown("Planned", (move, input) => driveCell(input, move), { figure: true, spare: 2 }),
  driver: onMove.column("Driver", "driver", (move, input) => ({ text: drivers(input, move), raw: move.driver })),
  riders: onMove.column("Riders", "riders", (move, input) => ridersCell(input, move), { spare: 1 }),
});

function ridersCell(input: SheetInput, move: Move): Cell {
  const carried = carriedBy(move);
  const riders = (input.short.inOrder?.(carried) ?? carried).map(
    (id) => `${name(input, id)}${move.asleep.includes(id) ? " (asleep)" : ""}`,
  );
  return riders.length === 0 ? DASH : { text: riders.join(", "), raw: carried.join(" ") };
}

/** The planned length, and whether it is only an estimate. */
const driveCell = (input: SheetInput, move: Move): Cell => ({
  text: `${input.say.length(move.plannedMinutes)}${move.leg.basis === "estimated" ? " (estimate)" : ""}`,
  raw: move.plannedMinutes,
});

/** `tomas, wren from 12:40`: who is at the wheel, with each change; `by ferry` where no one is. */
export function drivers(input: SheetInput, move: Move): string {
  const turns = move.wheel.filter((turn, index) => index === 0 || turn.driver !== move.wheel[index - 1]?.driver);
  if (move.leg.ferry !== undefined) return "by ferry";
  if (turns.length === 0) return name(input, move.driver);
  return turns
    .map(
      (turn, index) =>
        name(input, turn.driver) + (index === 0 ? "" : ` from ${input.clocks.local(turn.from, move.from).text}`),
    )
    .join(", ");
}

const onRide = markedColumns<RideTimes>(({ ride }) => ride.id);
const RIDES = columns<RideTimes, SheetInput>()({
  ride: shown("Ride", ({ ride: { id, by } }, input) => ({
    text: `${id}${by === null ? "" : ` by ${freeText(input, by)}`}`,
    raw: id,
    tone: "strong",
  })),
  leave: onRide.clock("Leave", "leave", ({ ride }) => ({ at: ride.leave, place: ride.from }), 3),
  leadMinutes: shown("Be there", ({ ride: { leadMinutes: lead } }, { say }) => ({
    text: lead === 0 ? "–" : `${say.length(lead)} before`,
    raw: lead,
  })),
  from: shown("From", ({ ride }, input) => thing(input, ride.from)),
  to: shown("To", ({ ride }, input) => thing(input, ride.to)),
  arrive: onRide.column("Arrive", "arrive", ({ ride }, input) => plainTime(input, ride.arrive, ride.to)),
  who: onRide.column("Who", "who", ({ who }, input) => folk(input, who)),
});

const isMine = (input: SheetInput, { who, others }: BatteryFact): boolean => concerns(input, [...who, ...others]);

const firstCallOf = (input: SheetInput): number =>
  Math.min(...input.day.people.flatMap((person) => (person.call === null ? [] : [person.call])));

/** What hands do with packs before the day's first call, of whom the sheet is for. */
export const tonight = (input: SheetInput): readonly BatteryFact[] =>
  (input.facts.batteries ?? []).filter((one) => one.to <= firstCallOf(input) && isMine(input, one));

/** Pack moves before the day's first call by evening and morning, then those of the day; null where power has not been judged. */
export function batteriesSection(input: SheetInput): Section | null {
  if (input.facts.batteries === null) return null;
  const mine = input.facts.batteries.filter((one) => isMine(input, one));
  if (mine.length === 0) return { id: "batteries", title: "Packs: no moves", blocks: [] };
  const groups = groupBy(mine, (one) => (one.to <= firstCallOf(input) ? partOfDay(input, one) : "During the day"));
  const blocks = [...groups].flatMap(([title, facts]): readonly Block[] => [
    { kind: "heading", text: title },
    ...facts.flatMap((one) => choreBlocks(input, one)),
  ]);
  return { id: "batteries", title: "Packs", blocks };
}

/** `Tuesday evening`, `Wednesday morning`: when a chore before the call happens, on its place's clock. */
function partOfDay(input: SheetInput, { from, place }: BatteryFact): string {
  const zone = zoneOfPlace(input.day.plan, place);
  const hour = wallMinute(from, zone) / 60;
  const part = hour < NOON ? "morning" : hour < EVENING ? "afternoon" : "evening";
  return `${weekdayOf(localDay(from, zone))} ${part}`;
}

/** Hours of a clock, common usage. */
const NOON = 12;
const EVENING = 17;

/** More moves than these are a table. */
const FEW_MOVES = 4;

/** When, where and who; then each move with a box to tick, in the order in which hands can do them. */
function choreBlocks(input: SheetInput, one: BatteryFact): readonly Block[] {
  const zone = zoneOfPlace(input.day.plan, one.place);
  const [from, to] = [one.from, one.to].map((at) => input.say.clock(at, zone));
  const where = one.place === null ? "" : ` ${name(input, one.place)}`;
  const who = handsText(one, (id) => name(input, id));
  const head: Block = {
    kind: "line",
    cells: [{ text: `${from}–${to}`, tone: "strong" }, { text: `${where} · ${who}` }],
  };
  if (one.moves.length <= FEW_MOVES)
    return [head, { kind: "list", tick: true, items: one.moves.map((move) => ({ text: moveText(move) })) }];
  return [head, PACK_MOVES.table(null, one.moves, { title: null, empty: "" })];
}

const PACK_MOVES = columns<PackMoveText, unknown>()({
  pack: shown("Pack", ({ pack }) => ({ text: pack, tone: "strong" })),
  from: shown("From", ({ from }) => ({ text: from })),
  to: shown("To", ({ to }) => ({ text: to })),
});

/** What goes into which vehicle, to be ticked by hand; null where the gear has not been judged. */
export function gearSection(input: SheetInput): Section | null {
  const rides = new Set(input.day.moves.filter((move) => concerns(input, aboardOf(move))).map((move) => move.vehicle));
  const gear = input.facts.gear?.filter((one) => one.items.length > 0 && rides.has(one.vehicle));
  if (!gear || gear.length === 0) return null;
  const blocks = gear.flatMap((one): readonly Block[] => [
    { kind: "heading", text: name(input, one.vehicle) },
    { kind: "list", tick: true, items: one.items.map((text) => ({ text })) },
  ]);
  return { id: "gear", title: "Gear to load", blocks };
}
