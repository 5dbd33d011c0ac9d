/** `drives`: every leg with its likely and bad time and its slack, the chance of each hit, the gaps between hits, fuel, relief. */
import type { Day } from "../../day/day.ts";
import type { Say } from "../../findings/finding.ts";
import type { Id } from "../../plan/plan.ts";
import type { RoadsResult } from "../../roads/assess.ts";
import { leaveByFor } from "../../roads/chance/chance.ts";
import type { GapPlace } from "../../roads/gaps.ts";
import type { ReliefProposal } from "../../roads/relief/propose.ts";
import type { Instant } from "../../time/index.ts";
import { clocksOf } from "../shared/clocks.ts";
import type { PersonOptions, TopicOptions } from "../shared/dayView.ts";
import { headingLine } from "../shared/heading.ts";
import { silences } from "../shared/reach.ts";
import { reachTable } from "../shared/reachView.ts";
import type { Report } from "../shared/view.ts";
import { carries, type DriveLeg, type DrivesRows, drivesData } from "./data.ts";
import { reliefBlocks } from "./relief.ts";
import { type DrivesView, fuelTable, gapsTable, hitsTable, legsTable, waitsTable } from "./tables.ts";

export interface DrivesOptions extends TopicOptions<RoadsResult>, PersonOptions {
  /** From `gapsOf`. */
  readonly gaps: readonly GapPlace[];
  /** Null where `--relief` is not given; `no-choice` where nobody can relieve anybody. */
  readonly relief: ReliefProposal | "no-choice" | null;
  /** A chance of 0 to 1 to say the departure for; null where none is wanted. */
  readonly wanted: number | null;
}

/** The report of one day's drives. */
export function drivesReport(day: Day, say: Say, options: DrivesOptions): Report {
  const rows = rowsFor(day, options);
  const clocks = clocksOf(day.plan, say, placesOf(rows), options.clock ?? undefined);
  const view: DrivesView = { day, say, clocks, wanted: options.wanted };
  const tables = [
    legsTable(view, rows.legs),
    hitsTable(view, rows.hits),
    gapsTable(view, rows.gaps),
    waitsTable(view, rows.waits),
    reachTable(say, clocks, rows.silences),
    fuelTable(view, rows.fuel),
  ];
  return {
    command: "drives",
    blocks: [
      headingLine(day, clocks),
      ...tables.filter((table, at) => at === 0 || table.rows.length > 0),
      ...reliefBlocks(view, rows.relief),
    ],
    data: drivesData(day.plan, rows),
    findings: options.findings,
    say,
  };
}

const placesOf = ({ legs, gaps, waits }: DrivesRows): readonly Id[] => [
  ...legs.flatMap(({ move }) => [move.from, move.to]),
  ...gaps.map((gap) => gap.place),
  ...waits.map((wait) => wait.place),
];

/** What concerns one person: the legs they ride, the gaps and fuel of those vehicles, the hits they attend, their waits. */
function rowsFor(day: Day, options: DrivesOptions): DrivesRows {
  const { result, person, gaps, relief } = options;
  const moves = day.moves.filter((move) => person === null || carries(move, person));
  const legs = moves.map(({ id }) => legOf(day, options, id)).filter((leg) => leg !== null);
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

function legOf(day: Day, { result, wanted }: DrivesOptions, id: Id): DriveLeg | null {
  const move = day.moves.find((own) => own.id === id);
  if (move === undefined) return null;
  const onward = result.onward.get(id) ?? null;
  return { move, onward, leaveByChance: wanted === null ? null : leaveBy(result, id, wanted) };
}

function leaveBy({ onward, chain, passes }: RoadsResult, id: Id, wanted: number): Instant | null {
  const aim = onward.get(id);
  const departure = chain.departures.findIndex(({ move }) => move.id === id);
  return aim === undefined
    ? null
    : leaveByFor(chain, passes, departure, { target: aim.target, gate: aim.chance.gate }, wanted);
}
