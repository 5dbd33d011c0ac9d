/** The tables of `drives`. */
import type { Day } from "../day/day.ts";
import type { Say } from "../findings/finding.ts";
import type { Id } from "../plan/plan.ts";
import { LOW_CHANCE } from "../roads/assess.ts";
import type { TargetChance } from "../roads/chance.ts";
import { percent } from "../roads/findings.ts";
import type { FuelState } from "../roads/fuel.ts";
import type { GapPlace } from "../roads/gaps.ts";
import type { Leg } from "../roads/leg.ts";
import type { Wait } from "../roads/waits.ts";
import type { Clocks } from "./clocks.ts";
import type { DriveLeg } from "./drives-data.ts";
import type { Cell, Column, Table } from "./view.ts";

export interface DrivesView {
  readonly day: Day;
  readonly say: Say;
  readonly clocks: Clocks;
  readonly wanted: number | null;
}

export const column = (label: string, key: string, spare = 0, align: Column["align"] = "left"): Column => ({
  label,
  key,
  spare,
  align,
});

const NONE: Cell = { text: "–", raw: null };

export const named = (say: Say, id: Id): Cell => ({ text: say.name(id), raw: id });

export const lengthCell = (say: Say, minutes: number | null): Cell =>
  minutes === null ? NONE : { text: say.length(minutes), raw: minutes };

const kmCell = (km: number | null): Cell =>
  km === null ? NONE : { text: `${Math.round(km)} km`, raw: Math.round(km * 10) / 10 };

/** A chance, the smaller of its readings; `at least` where it is a lower bound. */
function chanceCell(chance: number | null, lowerBound = false): Cell {
  if (chance === null) return NONE;
  const tone = chance < LOW_CHANCE ? "warn" : "plain";
  return { text: `${lowerBound ? "at least " : ""}${percent(chance)}`, raw: Math.round(chance * 1e4) / 1e4, tone };
}

/** What an estimate rests on is said with it. */
function likelyCell(say: Say, leg: Leg, minutes: number): Cell {
  if (leg.basis === "stated") return lengthCell(say, minutes);
  if (leg.basis === "routed") return { text: `${say.length(minutes)}, routed`, raw: minutes };
  const { range } = leg;
  const ends = range === null ? "" : ` (${Math.floor(range.lowMinutes)} to ${Math.ceil(range.highMinutes)} min)`;
  return { text: `${say.length(minutes)}, estimated${ends}`, raw: minutes };
}

export function legsTable({ say, clocks, wanted }: DrivesView, legs: readonly DriveLeg[]): Table {
  const ask = wanted === null ? [] : clocks.columns(`For ${percent(wanted)}`, "leaveByChance").slice(0, 1);
  return {
    kind: "table",
    title: "Drives",
    columns: [
      column("Vehicle", "vehicle"),
      ...clocks.columns("Leave", "leave"),
      column("From", "from"),
      ...clocks.columns("There", "arrive", 1).slice(0, 1),
      column("To", "to"),
      column("Planned", "plannedMinutes", 0, "right"),
      column("Likely", "likelyMinutes", 2, "right"),
      column("Bad", "badMinutes", 2, "right"),
      column("Road", "km", 4, "right"),
      ...clocks.columns("Leave by", "leaveBy", 1).slice(0, 1),
      ...ask,
      column("Slack", "slackMinutes", 3, "right"),
      column("Chance", "chance", 0, "right"),
      column("Of", "hit", 3),
    ],
    rows: legs.map(({ move, onward, leaveByChance }) => [
      { ...named(say, move.vehicle), tone: "strong" },
      ...clocks.cells(move.leave, move.from),
      named(say, move.from),
      clocks.local(move.arrive, move.to),
      named(say, move.to),
      lengthCell(say, move.plannedMinutes),
      likelyCell(say, move.leg, move.likelyMinutes),
      lengthCell(say, move.badMinutes),
      kmCell(move.leg.km),
      clocks.local(move.leaveBy, move.from),
      ...(wanted === null ? [] : [clocks.local(leaveByChance, move.from)]),
      lengthCell(say, move.slackMinutes),
      chanceCell(onward?.chance.printed ?? null),
      onward === null ? NONE : { text: onward.target.hit },
    ]),
    empty: "Nobody drives.",
  };
}

export function hitsTable({ day, clocks }: DrivesView, hits: readonly TargetChance[]): Table {
  const placeOf = (id: Id): Id | null => day.activities.find((own) => own.id === id)?.place ?? null;
  return {
    kind: "table",
    title: "Chance to be in position",
    columns: [
      column("Hit", "hit"),
      ...clocks.columns("In position", "inPosition"),
      column("Chance", "chance", 0, "right"),
      column("Each drive by itself", "chanceIndependent", 1, "right"),
      column("One luck for all", "chanceSameLuck", 2, "right"),
    ],
    rows: hits
      .filter(({ gates }) => gates.length > 0)
      .map((hit) => [
        { text: hit.target.hit, tone: "strong" },
        ...clocks.cells(hit.target.deadline, placeOf(hit.target.hit)),
        chanceCell(hit.printed, hit.lowerBound && hit.printed === hit.low),
        chanceCell(hit.low, hit.lowerBound),
        chanceCell(hit.sameLuck),
      ]),
    empty: "No hits.",
  };
}

/** Only the places from which one is back in time; the JSON has them all. */
export function gapsTable({ say, clocks }: DrivesView, gaps: readonly GapPlace[]): Table {
  return {
    kind: "table",
    title: "Gaps between hits",
    columns: [
      column("Vehicle", "vehicle", 1),
      column("After", "from"),
      column("Before", "to"),
      column("Place", "place"),
      column("Out", "outMinutes", 2, "right"),
      column("Stay up to", "stayMinutes", 0, "right"),
      ...clocks.columns("Turn back", "turnBack"),
      column("Back", "backMinutes", 2, "right"),
      column("", "farthest", 1),
    ],
    rows: gaps
      .filter(({ stayMinutes }) => stayMinutes !== null && stayMinutes >= 0)
      .map((gap) => [
        named(say, gap.vehicle),
        { text: gap.from },
        { text: gap.to },
        { ...named(say, gap.place), tone: "strong" },
        lengthCell(say, gap.outMinutes),
        lengthCell(say, gap.stayMinutes),
        ...clocks.cells(gap.turnBack, gap.place),
        lengthCell(say, gap.backMinutes),
        {
          text: [gap.farthest ? "farthest" : "", gap.basis === "estimated" ? "estimated" : ""]
            .filter(Boolean)
            .join(", "),
        },
      ]),
    empty: "No gap between hits is long enough to go anywhere.",
  };
}

export function waitsTable({ say, clocks }: DrivesView, waits: readonly Wait[]): Table {
  return {
    kind: "table",
    title: "Waits",
    columns: [
      column("Place", "place"),
      ...clocks.columns("From", "from"),
      ...clocks.columns("To", "to").slice(0, 1),
      column("Wait", "minutes", 0, "right"),
      column("Roof", "sheltered"),
      column("Leave later by", "laterMinutes", 1, "right"),
      column("Who", "who", 2),
    ],
    rows: waits.map((wait) => [
      { ...named(say, wait.place), tone: "strong" },
      ...clocks.cells(wait.from, wait.place),
      clocks.local(wait.to, wait.place),
      lengthCell(say, wait.minutes),
      wait.sheltered ? { text: "yes" } : { text: "no", tone: "warn" },
      wait.laterMinutes === 0 ? { ...NONE, raw: 0 } : lengthCell(say, wait.laterMinutes),
      { text: wait.who.map((id) => say.name(id)).join(", ") },
    ]),
    empty: "Nobody waits.",
  };
}

export function fuelTable({ say }: DrivesView, fuel: readonly FuelState[]): Table {
  return {
    kind: "table",
    title: "Fuel, as range",
    columns: [
      column("Vehicle", "vehicle"),
      column("At first", "startKm", 0, "right"),
      column("Driven", "drivenKm", 1, "right"),
      column("Idling", "idleKm", 2, "right"),
      column("At least", "leastKm", 0, "right"),
      column("Reserve", "reserveKm", 2, "right"),
      column("Fill up by", "fuelBy"),
    ],
    rows: fuel.map((state) => [
      { ...named(say, state.vehicle), tone: "strong" },
      kmCell(state.startKm),
      kmCell(state.drivenKm),
      kmCell(state.idleKm),
      { ...kmCell(state.leastKm), tone: state.leastKm < state.reserveKm ? "bad" : "plain" },
      kmCell(state.reserveKm),
      fuelByCell(say, state),
    ]),
    empty: "No vehicle states its range and fuel.",
  };
}

const fuelByCell = (say: Say, { fuelBy }: FuelState): Cell =>
  fuelBy === null
    ? { text: "not needed", raw: null }
    : { text: `${say.name(fuelBy.place)}, or ${Math.floor(fuelBy.withinKm)} km on`, raw: fuelBy.place, tone: "bad" };
