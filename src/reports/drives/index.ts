/** `drives`: every leg with its likely and bad time and its slack, the chance of each hit, the gaps between hits, fuel, relief. */

import type { Id } from "../../plan/plan.ts";
import { DARK_FACTOR } from "../../roads/chance/chain.ts";
import { percent } from "../../roads/chance/percent.ts";
import { gapsOf, NO_ANSWERS } from "../../roads/index.ts";
import { line } from "../shared/blocks.ts";
import { type DayView, dayView } from "../shared/dayView.ts";
import { headingLine } from "../shared/heading.ts";
import { had } from "../shared/judged.ts";
import { reachTable } from "../shared/reach.ts";
import type { ReportMaker } from "../shared/report.ts";
import type { Block, ReportParts, Table } from "../shared/view.ts";
import { reliefBlocks } from "./relief.ts";
import {
  DRIVES_DATA,
  type DriveLeg,
  type DrivesInput,
  type DrivesRows,
  FUEL,
  GAPS,
  HIT_CHANCES,
  LEGS,
  rowsFor,
  WAITS,
} from "./rows.ts";

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

/** The report `drives`. */
export const drivesMaker: ReportMaker = {
  place: 40,
  topics: ["roads"],
  make: async (input, { results }, { routed = NO_ANSWERS, chance: wanted = null, relief = null }) =>
    drivesReport({ ...input, result: had(results.roads), gaps: await gapsOf(input.day, routed), relief, wanted }),
  schema: () => DRIVES_DATA.schema,
};
