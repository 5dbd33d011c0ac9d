/** `drives`: every leg with its likely and bad time and its slack, the chance of each hit, the gaps between hits, fuel, relief. */

import { aboardOf, type Move } from "../../day/day.ts";
import type { Id } from "../../plan/plan.ts";
import type { RoadsResult } from "../../roads/assess.ts";
import { DARK_FACTOR } from "../../roads/chance/chain.ts";
import { leaveByFor } from "../../roads/chance/chance.ts";
import { percent } from "../../roads/chance/percent.ts";
import type { GapPlace } from "../../roads/gaps.ts";
import { gapsOf, NO_ANSWERS } from "../../roads/index.ts";
import type { ReliefProposal } from "../../roads/relief/propose.ts";
import type { Instant } from "../../time/index.ts";
import { line } from "../shared/blocks.ts";
import { type DayView, dayView, type TopicInput } from "../shared/dayView.ts";
import { headingLine } from "../shared/heading.ts";
import { had } from "../shared/judged.ts";
import { reachTable, silences } from "../shared/reach.ts";
import type { ReportMaker } from "../shared/report.ts";
import type { Block, ReportParts, Table } from "../shared/view.ts";
import { reliefBlocks } from "./relief.ts";
import { DRIVES_DATA, type DriveLeg, type DrivesRows, FUEL, GAPS, HIT_CHANCES, LEGS, WAITS } from "./rows.ts";

/** What else `drives` shows: gaps, drivers proposed. */
export interface DrivesInput extends TopicInput<RoadsResult> {
  /** From `gapsOf`. */
  readonly gaps: readonly GapPlace[];
  /** Null where `--relief` is not given; `no-choice` where no one can relieve anybody. */
  readonly relief: ReliefProposal | "no-choice" | null;
  /** A chance of 0 to 1 to say the departure for; null where none is wanted. */
  readonly wanted: number | null;
}

/** The report of one day's drives. */
export function drivesReport(input: DrivesInput): ReportParts {
  const { day, wanted } = input;
  const rows = rowsFor(input);
  const view = dayView(input, placesOf(rows));
  return {
    blocks: [
      headingLine(day, view.clocks),
      ...tables(view, rows, wanted).filter((table, at) => at === 0 || table.rows.length > 0),
      ...darkLine(view, rows.legs),
      ...ferryLine(rows.legs),
      ...reliefBlocks(view, rows.relief),
    ],
    data: DRIVES_DATA.json(rows, view),
  };
}

function tables(view: DayView, rows: DrivesRows, wanted: number | null): readonly Table[] {
  const asked = wanted === null ? [] : [["leaveByChance", `For ${percent(wanted)}`] as const];
  const legs = LEGS.table(view, rows.legs, {
    title: "Drives",
    show: [
      "vehicle",
      "leave",
      "from",
      "arrive",
      "to",
      "plannedMinutes",
      "likelyMinutes",
      "badMinutes",
      "km",
      "leaveBy",
      ...asked,
      "slackMinutes",
      "chance",
      "hit",
    ],
    empty: "No drives.",
  });
  const reachable = rows.hits.filter(({ gates }) => gates.length > 0);
  const hits = HIT_CHANCES.table(view, reachable, { title: "Chance to be in position", empty: "No hits." });
  // Only the places from which one is back in time; the JSON has them all.
  const timely = rows.gaps.filter(({ stayMinutes }) => stayMinutes !== null && stayMinutes >= 0);
  const gaps = GAPS.table(view, timely, {
    title: "Gaps between hits",
    show: [
      "vehicle",
      "from",
      "to",
      "place",
      "outMinutes",
      "stayMinutes",
      "turnBack",
      "backMinutes",
      ...(timely.some(({ plannedMinutes }) => plannedMinutes > 0) ? (["plannedMinutes"] as const) : []),
      "farthest",
      "basis",
    ],
    empty: "No gap between hits is long enough to go anywhere.",
  });
  const waits = WAITS.table(view, rows.waits, {
    title: "Waits",
    show: ["place", "from", "to", "minutes", "sheltered", "laterMinutes", "who"],
    empty: "No waits.",
  });
  const fuel = FUEL.table(view, rows.fuel, {
    title: "Fuel, as range",
    show: ["vehicle", "startKm", "drivenKm", "idleKm", "leastKm", "reserveKm", "fuelBy"],
    empty: "No vehicle states its range and fuel.",
  });
  return [legs, hits, gaps, waits, reachTable(view, rows.silences), fuel];
}

/** The chance is smaller in the dark than planned times let expect; nothing where no chance is printed. */
function darkLine({ say }: DayView, legs: readonly DriveLeg[]): readonly Block[] {
  const dark = legs.filter((leg) => leg.dark && leg.onward !== null);
  if (dark.length === 0) return [];
  const drives = [...new Set(dark.map(({ move }) => `${say.name(move.vehicle)} to ${say.name(move.to)}`))].join(", ");
  const longer = Math.round((DARK_FACTOR - 1) * 100);
  return [line(`Chances count drives in the dark as ${longer} % longer, planned times do not: ${drives}.`, "muted")];
}

/** Who is late at the quay is late for good; nothing where no chance is printed. */
function ferryLine(legs: readonly DriveLeg[]): readonly Block[] {
  if (!legs.some(({ move, onward }) => move.leg.ferry !== undefined && onward !== null)) return [];
  const text =
    "A vehicle that is not there when its ferry sails misses the hits after it: a later ferry is not counted.";
  return [line(text, "muted")];
}

const placesOf = ({ legs, gaps, waits }: DrivesRows): readonly Id[] => [
  ...legs.flatMap(({ move }) => [move.from, move.to]),
  ...gaps.map((gap) => gap.place),
  ...waits.map((wait) => wait.place),
];

/** What concerns one person: the legs they ride, the gaps and fuel of those vehicles, the hits they attend, their waits. */
function rowsFor(input: DrivesInput): DrivesRows {
  const { day, result, person, gaps, relief } = input;
  const moves = day.moves.filter((move) => person === null || aboardOf(move).includes(person));
  const legs = moves.map((move) => legOf(input, move));
  if (person === null) {
    const { hits, waits, fuel } = result;
    return { legs, gaps, hits, waits, silences: silences(day), fuel, relief };
  }
  const vehicles = new Set(moves.map((move) => move.vehicle));
  const attended = new Set(day.activities.filter(({ who }) => who.includes(person)).map(({ id }) => id));
  return {
    legs,
    gaps: gaps.filter((gap) => vehicles.has(gap.vehicle)),
    hits: result.hits.filter((hit) => attended.has(hit.target.hit)),
    waits: result.waits.filter((wait) => wait.who.includes(person)),
    silences: silences(day).filter((silence) => silence.who.includes(person)),
    fuel: result.fuel.filter((state) => vehicles.has(state.vehicle)),
    relief,
  };
}

function legOf({ result, wanted }: DrivesInput, move: Move): DriveLeg {
  const onward = result.onward.get(move.id) ?? null;
  const dark = result.chain.departures.some((departure) => departure.dark && departure.move.id === move.id);
  return { move, onward, dark, leaveByChance: wanted === null ? null : leaveBy(result, move.id, wanted) };
}

function leaveBy({ onward, chain, passes }: RoadsResult, id: Id, wanted: number): Instant | null {
  const aim = onward.get(id);
  const departure = chain.departures.findIndex(({ move }) => move.id === id);
  return aim === undefined
    ? null
    : leaveByFor(chain, passes, departure, { target: aim.target, gate: aim.chance.gate }, wanted);
}

/** The report `drives`. */
export const drivesMaker: ReportMaker = {
  place: 40,
  topics: ["roads"],
  make: async (input, { results }, { routed = NO_ANSWERS, chance: wanted = null, relief = null }) =>
    drivesReport({ ...input, result: had(results.roads), gaps: await gapsOf(input.day, routed), relief, wanted }),
  schema: () => DRIVES_DATA.schema,
};
