/** The tables of `drives`. */
import type { Say } from "../../findings/finding.ts";
import type { Leg } from "../../legs/leg.ts";
import type { Id } from "../../plan/plan.ts";
import { LOW_CHANCE } from "../../roads/assess.ts";
import type { TargetChance } from "../../roads/chance/chance.ts";
import { cutShare, percent, percentRange } from "../../roads/chance/percent.ts";
import type { FuelState } from "../../roads/fuel.ts";
import type { GapPlace } from "../../roads/gaps.ts";
import type { Wait } from "../../roads/waits.ts";
import {
  column,
  crewCell,
  DASH,
  figureColumn,
  flagCell,
  lengthCell,
  named,
  numberCell,
  textCell,
} from "../shared/cells.ts";
import type { DayView } from "../shared/dayView.ts";
import type { Cell, Table } from "../shared/view.ts";
import type { DriveLeg } from "./data.ts";

export interface DrivesView extends DayView {
  readonly wanted: number | null;
}

const kmCell = (km: number | null): Cell => numberCell(km, 0, " km");

/** A chance between two bounds, which are mostly one; programs get the lower one. */
const chanceCell = (least: number, most: number | null = least): Cell => ({
  text: percentRange(least, most),
  raw: cutShare(least, 3),
  tone: (most ?? least) < LOW_CHANCE ? "warn" : "plain",
});

/** What an estimate rests on is said with it. */
function likelyCell(say: Say, leg: Leg, minutes: number): Cell {
  if (leg.basis === "stated") return lengthCell(minutes);
  if (leg.basis === "routed") return { text: `${say.length(minutes)}, routed`, raw: minutes };
  const { range } = leg;
  const ends = range === null ? "" : ` (${Math.floor(range.lowMinutes)} to ${Math.ceil(range.highMinutes)} min)`;
  return { text: `${say.length(minutes)}, estimated${ends}`, raw: minutes };
}

export function legsTable({ say, clocks, wanted }: DrivesView, legs: readonly DriveLeg[]): Table {
  const ask = wanted === null ? [] : [column(`For ${percent(wanted)}`, "leaveByChance")];
  return {
    kind: "table",
    title: "Drives",
    columns: [
      column("Vehicle", "vehicle"),
      ...clocks.columns("Leave", "leave"),
      column("From", "from"),
      column("Arrive", "arrive", 1),
      column("To", "to"),
      figureColumn("Planned", "plannedMinutes"),
      figureColumn("Likely", "likelyMinutes", 2),
      figureColumn("Bad", "badMinutes", 2),
      figureColumn("Road", "km", 4),
      column("Leave by", "leaveBy", 1),
      ...ask,
      figureColumn("Slack", "slackMinutes", 3),
      figureColumn("Chance", "chance"),
      column("For hit", "hit", 3),
    ],
    rows: legs.map(({ move, onward, leaveByChance }) => [
      { ...named(say, move.vehicle), tone: "strong" },
      ...clocks.cells(move.leave, move.from),
      named(say, move.from),
      clocks.local(move.arrive, move.to),
      named(say, move.to),
      lengthCell(move.plannedMinutes),
      likelyCell(say, move.leg, move.likelyMinutes),
      lengthCell(move.badMinutes),
      kmCell(move.leg.km),
      clocks.local(move.leaveBy, move.from),
      ...(wanted === null ? [] : [clocks.local(leaveByChance, move.from)]),
      lengthCell(move.slackMinutes),
      onward === null ? DASH : chanceCell(onward.chance.printed),
      onward === null ? DASH : { text: onward.target.hit },
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
      figureColumn("Chance", "chance"),
      figureColumn("Each drive by itself", "chanceIndependent", 1),
      figureColumn("One luck for all", "chanceSameLuck", 2),
    ],
    rows: hits
      .filter(({ gates }) => gates.length > 0)
      .map((hit) => [
        { text: hit.target.hit, tone: "strong" },
        ...clocks.cells(hit.target.deadline, placeOf(hit.target.hit)),
        chanceCell(hit.printed, hit.atMost),
        chanceCell(hit.low, hit.lowerBound ? null : hit.low),
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
      figureColumn("Out", "outMinutes", 2),
      figureColumn("Stay up to", "stayMinutes"),
      ...clocks.columns("Turn back", "turnBack"),
      figureColumn("Back", "backMinutes", 2),
      column("Farthest", "farthest", 1),
      column("Basis", "basis", 3),
    ],
    rows: gaps
      .filter(({ stayMinutes }) => stayMinutes !== null && stayMinutes >= 0)
      .map((gap) => [
        named(say, gap.vehicle),
        { text: gap.from },
        { text: gap.to },
        { ...named(say, gap.place), tone: "strong" },
        lengthCell(gap.outMinutes),
        lengthCell(gap.stayMinutes),
        ...clocks.cells(gap.turnBack, gap.place),
        lengthCell(gap.backMinutes),
        flagCell(gap.farthest, gap.farthest ? "yes" : "–"),
        textCell(gap.basis),
      ]),
    empty: "No gap between hits is long enough to go anywhere.",
  };
}

export function waitsTable({ day, say, clocks }: DrivesView, waits: readonly Wait[]): Table {
  return {
    kind: "table",
    title: "Waits",
    columns: [
      column("Place", "place"),
      ...clocks.columns("From", "from"),
      column("To", "to"),
      figureColumn("Wait", "minutes"),
      column("Shelter", "sheltered"),
      figureColumn("Leave later by", "laterMinutes", 1),
      column("Who", "who", 2),
    ],
    rows: waits.map((wait) => [
      { ...named(say, wait.place), tone: "strong" },
      ...clocks.cells(wait.from, wait.place),
      clocks.local(wait.to, wait.place),
      lengthCell(wait.minutes),
      wait.sheltered ? flagCell(true, "yes") : flagCell(false, "no", "warn"),
      wait.laterMinutes === 0 ? { ...DASH, raw: 0 } : lengthCell(wait.laterMinutes),
      crewCell(say, wait.who, day.plan.crew.size),
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
      figureColumn("Starts", "startKm"),
      figureColumn("Driven", "drivenKm", 1),
      figureColumn("Idling", "idleKm", 2),
      figureColumn("Lowest", "leastKm"),
      figureColumn("Reserve", "reserveKm", 2),
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
