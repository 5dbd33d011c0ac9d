/** What `drives --relief` says: who drives which stretch, who sleeps, and how sure it is that nothing is better. */
import type { ReliefProposal } from "../../roads/relief/propose.ts";
import { column, figureColumn, lengthCell, named, namesCell } from "../shared/cells.ts";
import type { Block, Cell } from "../shared/view.ts";
import { clockPlace } from "./data.ts";
import type { DrivesView } from "./tables.ts";

/** The proposal as a table of stretches under one sentence; nothing where it was not asked for. */
export function reliefBlocks(view: DrivesView, relief: ReliefProposal | "no-choice" | null): readonly Block[] {
  if (relief === null) return [];
  if (relief === "no-choice")
    return [{ kind: "line", cells: [{ text: "Relief: nobody aboard can relieve the driver of any leg." }] }];
  return [stretchTable(view, relief), verdict(view, relief), ...broken(view, relief)];
}

function stretchTable({ say, clocks }: DrivesView, relief: ReliefProposal): Block {
  const rows = relief.legs.flatMap(({ move, wheel, asleep }) =>
    wheel.map((stretch, index): readonly Cell[] => [
      { ...named(say, move.vehicle), tone: "strong" },
      ...clocks.cells(stretch.from, move.from),
      clocks.local(stretch.to, clockPlace(move, stretch.to)),
      { text: index === 0 ? say.name(move.from) : "on the road", raw: index === 0 ? move.from : null },
      named(say, move.to),
      { ...named(say, stretch.driver), tone: "strong" },
      lengthCell(stretch.to - stretch.from),
      namesCell(
        say,
        asleep.filter((id) => id !== stretch.driver),
      ),
    ]),
  );
  return {
    kind: "table",
    title: "Relief: who drives",
    columns: [
      column("Vehicle", "vehicle"),
      ...clocks.columns("From", "from"),
      column("To", "to"),
      column("Takes over at", "at", 1),
      column("Towards", "towards", 2),
      column("Driver", "driver"),
      figureColumn("At the wheel", "minutes", 1),
      column("May sleep", "asleep", 3),
    ],
    rows,
    empty: "Nobody drives.",
  };
}

const changes = (count: number): string => (count === 1 ? "1 change" : `${count} changes`);

function verdict({ say }: DrivesView, relief: ReliefProposal): Block {
  const left =
    relief.leftMinutes === null
      ? "no limit binds"
      : `${say.length(Math.max(0, relief.leftMinutes))} left at the tightest limit`;
  const what = `${left}, ${changes(relief.changes)}`;
  const bound =
    relief.boundMinutes === null ? "" : `; nothing can leave more than ${say.length(Math.max(0, relief.boundMinutes))}`;
  const texts = {
    exact: `The best there is: ${what}.`,
    "best-found": `Best found within the budget: ${what}${bound}. --patience searches longer.`,
    impossible: `Impossible without a breach: the least is ${say.length(relief.breachMinutes)}.`,
  } as const;
  return {
    kind: "line",
    cells: [{ text: texts[relief.status], tone: relief.status === "impossible" ? "bad" : "plain" }],
  };
}

function broken({ say }: DrivesView, { breaches }: ReliefProposal): readonly Block[] {
  if (breaches.length === 0) return [];
  const items = breaches.map(
    ({ who, limit, clause, minutes }): Cell => ({
      text: `${say.name(who)}: ${limit}${clause === null ? "" : ` (${clause})`}, ${say.length(minutes)} over`,
      tone: "bad",
    }),
  );
  return [{ kind: "list", items }];
}
