/** The part of a sheet that is about the road and what goes along: moves, batteries to do tonight, gear to load. */
import type { Move, RideTimes } from "../../day/day.ts";
import type { Id } from "../../plan/plan.ts";
import { handsText, spanText } from "../power/hands.ts";
import { column, DASH, figureColumn } from "../shared/cells.ts";
import type { Block, Cell, Table } from "../shared/view.ts";
import type { BatteryFact, SheetInput } from "./input.ts";
import type { Section } from "./view.ts";
import { concerns, folk, freeText, marked, name, thing } from "./words.ts";

const aboard = (move: Move): readonly Id[] => [move.driver, ...move.riders];

/** Moves of the vehicles with drivers and the latest departure, then rides by others. */
export function movesSection(input: SheetInput): Section {
  const moves = input.day.moves.filter((move) => concerns(input, aboard(move)));
  const rides = input.day.rides.filter((ride) => concerns(input, ride.who));
  const blocks: Block[] = [movesTable(input, moves)];
  if (rides.length > 0) blocks.push(ridesTable(input, rides));
  return { id: "moves", title: "On the road", blocks };
}

function movesTable(input: SheetInput, moves: readonly Move[]): Table {
  return {
    kind: "table",
    title: null,
    columns: [
      column("Vehicle", "vehicle"),
      ...input.clocks.columns("Leave", "leave", 0, 3),
      column("Leave by", "leaveBy"),
      column("From", "from"),
      column("To", "to"),
      column("Arrive", "arrive"),
      figureColumn("Planned", "plannedMinutes", 2),
      column("Driver", "driver"),
      column("Riders", "riders", 1),
    ],
    rows: moves.map((move) => moveRow(input, move)),
    empty: "Nobody is on the road.",
  };
}

function moveRow(input: SheetInput, move: Move): readonly Cell[] {
  const [local, ...desk] = input.clocks.cells(move.leave, move.from);
  const riders = move.riders.map((id) => `${name(input, id)}${move.asleep.includes(id) ? " (asleep)" : ""}`);
  return [
    { ...thing(input, move.vehicle), tone: "strong" },
    marked(input, local ?? DASH, move.id, "leave"),
    ...desk,
    move.leaveBy === null ? { text: "any time", raw: null } : input.clocks.local(move.leaveBy, move.from),
    thing(input, move.from),
    thing(input, move.to),
    marked(input, { ...input.clocks.local(move.arrive, move.to), tone: "plain" }, move.id, "arrive"),
    driveCell(input, move),
    marked(input, { text: drivers(input, move), raw: move.driver }, move.id, "driver"),
    marked(
      input,
      riders.length === 0 ? DASH : { text: riders.join(", "), raw: move.riders.join(" ") },
      move.id,
      "riders",
    ),
  ];
}

/** The planned length, and whether it is only an estimate. */
const driveCell = (input: SheetInput, move: Move): Cell => ({
  text: `${input.say.length(move.plannedMinutes)}${move.leg.basis === "estimated" ? " (estimate)" : ""}`,
  raw: move.plannedMinutes,
});

/** `tomas, wren from 12:40`: who is at the wheel, with each change. */
function drivers(input: SheetInput, move: Move): string {
  const turns = move.wheel.filter((turn, index) => index === 0 || turn.driver !== move.wheel[index - 1]?.driver);
  if (turns.length === 0) return name(input, move.driver);
  return turns
    .map(
      (turn, index) =>
        name(input, turn.driver) + (index === 0 ? "" : ` from ${input.clocks.local(turn.from, move.from).text}`),
    )
    .join(", ");
}

function ridesTable(input: SheetInput, rides: readonly RideTimes[]): Table {
  return {
    kind: "table",
    title: "Rides by others",
    columns: [
      column("Ride", "ride"),
      ...input.clocks.columns("Leave", "leave", 0, 3),
      column("Be there", "leadMinutes"),
      column("From", "from"),
      column("To", "to"),
      column("Arrive", "arrive"),
      column("Who", "who"),
    ],
    rows: rides.map(({ ride, who }) => {
      const [local, ...desk] = input.clocks.cells(ride.leave, ride.from);
      const lead = ride.leadMinutes === 0 ? "–" : `${input.say.length(ride.leadMinutes)} before`;
      return [
        {
          text: `${ride.id}${ride.by === null ? "" : ` by ${freeText(input, ride.by)}`}`,
          raw: ride.id,
          tone: "strong",
        },
        marked(input, local ?? DASH, ride.id, "leave"),
        ...desk,
        { text: lead, raw: ride.leadMinutes },
        thing(input, ride.from),
        thing(input, ride.to),
        marked(input, { ...input.clocks.local(ride.arrive, ride.to), tone: "plain" }, ride.id, "arrive"),
        marked(input, folk(input, who), ride.id, "who"),
      ];
    }),
    empty: "No rides by others.",
  };
}

/** What hands do with packs before the day's first call, of whom the sheet is for. */
export function tonight(input: SheetInput): readonly BatteryFact[] {
  const firstCall = Math.min(...input.day.people.flatMap((person) => (person.call === null ? [] : [person.call])));
  return (input.facts.batteries ?? []).filter((one) => one.to <= firstCall && isMine(input, one));
}

const isMine = (input: SheetInput, { who, others }: BatteryFact): boolean => concerns(input, [...who, ...others]);

/** What to do with packs before the day's first call, then during the day; null where power has not been judged. */
export function batteriesSection(input: SheetInput): Section | null {
  if (input.facts.batteries === null) return null;
  const early = tonight(input);
  const later = input.facts.batteries.filter((one) => isMine(input, one) && !early.includes(one));
  const blocks: Block[] = [
    early.length === 0 ? { kind: "line", cells: [{ text: "Nothing to do tonight." }] } : todo(input, early),
  ];
  if (later.length > 0) blocks.push({ kind: "heading", text: "During the day" }, todo(input, later));
  return { id: "batteries", title: "Batteries tonight", blocks };
}

const todo = (input: SheetInput, facts: readonly BatteryFact[]): Block => ({
  kind: "list",
  tick: true,
  items: facts.map((one) => {
    const time = spanText(input.clocks.local(one.from, one.place).text, input.clocks.local(one.to, one.place).text);
    return { text: `${time} ${handsText(one, (id) => name(input, id))}: ${one.text}` };
  }),
});

/** What goes into which vehicle, to be ticked by hand; null where the gear has not been judged. */
export function gearSection(input: SheetInput): Section | null {
  const rides = new Set(input.day.moves.filter((move) => concerns(input, aboard(move))).map((move) => move.vehicle));
  const gear = input.facts.gear?.filter((one) => one.items.length > 0 && rides.has(one.vehicle));
  if (!gear || gear.length === 0) return null;
  const blocks = gear.flatMap((one): readonly Block[] => [
    { kind: "heading", text: name(input, one.vehicle) },
    { kind: "list", tick: true, items: one.items.map((text) => ({ text })) },
  ]);
  return { id: "gear", title: "Gear to load", blocks };
}
