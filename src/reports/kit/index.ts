/** `kit`: what is missing and until when it can be moved, tonight's loading by vehicle, what is where and what changes vehicles. */
import type { Day } from "../../day/day.ts";
import type { Say } from "../../findings/finding.ts";
import type { KitMove, KitResult, Loading, Missing, Stay, Track } from "../../kit/index.ts";
import { type Item, itemsOf } from "../../kit/items.ts";
import type { Id, Plan } from "../../plan/plan.ts";
import { column, DASH, figureColumn, named, namesCell, numberCell } from "../shared/cells.ts";
import { clocksOf, placesInOrder } from "../shared/clocks.ts";
import type { DayView, PersonOptions, TopicOptions } from "../shared/dayView.ts";
import { headingLine } from "../shared/heading.ts";
import { ridesOf } from "../shared/rides.ts";
import { isoAt, isoEnds } from "../shared/stamps.ts";
import type { Block, Cell, Json, Report, Table } from "../shared/view.ts";

export type KitOptions = TopicOptions<KitResult> & PersonOptions;

interface View extends DayView {
  readonly rows: Rows;
}

/** What is told: all, or what concerns one person. */
interface Rows {
  readonly items: readonly Item[];
  readonly missing: readonly Missing[];
  readonly loading: readonly Loading[];
  readonly moves: readonly KitMove[];
  readonly track: Track | null;
}

/** The report of one day's gear; of one person what rides in their vehicles, what they move, what lacks where they work. */
export function kitReport(day: Day, say: Say, options: KitOptions): Report {
  const rows = rowsFor(day, options.result, options.person);
  const clocks = clocksOf(day.plan, say, placesInOrder(day), options.clock ?? undefined);
  const view: View = { day, say, clocks, rows };
  return {
    command: "kit",
    blocks: [
      headingLine(day, clocks),
      missingTable(view),
      ...rows.loading.flatMap((loading) => loadingBlocks(view, loading)),
      ...(rows.moves.length === 0 ? [] : [movesTable(view)]),
      whereTable(view, options.person),
    ],
    data: kitData(day.plan, rows),
    findings: options.findings,
    say,
  };
}

function rowsFor(day: Day, { track, missing, loading }: KitResult, person: Id | null): Rows {
  const items = itemsOf(day.plan);
  const moves = track?.moves ?? [];
  if (person === null) return { items, missing, loading, moves, track };
  const rides = ridesOf(day, person);
  const attended = new Set(day.activities.filter(({ who }) => who.includes(person)).map(({ id }) => id));
  const carried = moves.filter(({ hands }) => hands.includes(person));
  const handled = new Set(carried.map(({ item }) => item));
  return {
    items: items.filter(
      ({ id, in: stated }) =>
        handled.has(id) ||
        [stated, ...(track?.stays(id) ?? []).map(({ holder }) => holder)].some((own) => rides.has(own)),
    ),
    missing: missing.filter(({ activities }) => activities.some((id) => attended.has(id))),
    loading: loading.filter(({ vehicle }) => rides.has(vehicle)),
    moves: carried,
    track,
  };
}

/** `in the wagon, at the pier`. */
function whereabouts(say: Say, holder: Id, place: Id | null): string {
  if (holder === place) return `at ${say.name(holder)}`;
  return place === null ? `in ${say.name(holder)}, rolling` : `in ${say.name(holder)} at ${say.name(place)}`;
}

function missingTable({ say, clocks, rows }: View): Table {
  return {
    kind: "table",
    title: "Missing",
    columns: [
      column("Piece", "piece"),
      column("For", "activities"),
      column("Needed", "neededFrom"),
      column("Is now", "in"),
      column("Move it by", "lastMove"),
      column("Into", "into"),
    ],
    rows: rows.missing.map((own) => [
      { ...named(say, own.item), tone: "bad" },
      namesCell(say, own.activities),
      clocks.local(own.neededFrom, own.place),
      { text: whereabouts(say, own.holder, own.isAt), raw: own.holder },
      own.lastMove === null
        ? { text: "too late", raw: null, tone: "bad" }
        : clocks.local(own.lastMove.at, own.lastMove.place),
      own.lastMove === null ? DASH : named(say, own.lastMove.into),
    ]),
    empty: "Nothing is missing.",
  };
}

function loadingBlocks({ say, clocks }: View, { vehicle, place, rolls, items }: Loading): readonly Block[] {
  const heading = `Load tonight: ${say.name(vehicle)} at ${say.name(place)}, rolls ${clocks.local(rolls, place).text}`;
  const line = ({ id, count, from }: Loading["items"][number]): Cell => {
    const many = count === 1 ? "" : ` × ${count}`;
    return { text: `${say.name(id)}${many}${from === null ? "" : `, from ${say.name(from)}`}` };
  };
  return [
    { kind: "heading", text: heading },
    items.length === 0
      ? { kind: "line", cells: [{ text: "Nothing of the plan's gear.", tone: "muted" }] }
      : { kind: "list", items: items.map(line), tick: true },
  ];
}

function movesTable({ say, clocks, rows }: View): Table {
  return {
    kind: "table",
    title: "Moves",
    columns: [
      column("Piece", "piece"),
      ...clocks.columns("From then on", "at"),
      column("At", "place"),
      column("From", "from"),
      column("Into", "to"),
      column("Hands", "hands", 1),
    ],
    rows: rows.moves.map((move) => [
      named(say, move.item),
      ...clocks.cells(move.at, move.place),
      named(say, move.place),
      named(say, move.from),
      named(say, move.to),
      namesCell(say, move.hands),
    ]),
    empty: "Nothing changes vehicles.",
  };
}

/** Stays of one holder told as one. */
const holders = (stays: readonly Stay[]): readonly Stay[] =>
  stays.filter((stay, at) => at === 0 || stays[at - 1]?.holder !== stay.holder);

function whereTable({ day, say, clocks, rows }: View, person: Id | null): Table {
  return {
    kind: "table",
    title: person === null ? "Where everything is" : `What rides with ${say.name(person)}`,
    columns: [
      column("Piece", "piece"),
      figureColumn("Count", "count"),
      column("In", "in"),
      column("Needs", "needs", 1),
    ],
    rows: rows.items.map((item) => {
      const [first, ...later] = holders(rows.track?.stays(item.id) ?? []);
      const then = later
        .map((stay) => `, ${say.name(stay.holder)} from ${clocks.local(stay.from, stay.place).text}`)
        .join("");
      return [
        named(say, item.id),
        numberCell(item.count, 0),
        { text: `${say.name(first?.holder ?? item.in)}${then}`, raw: first?.holder ?? item.in },
        namesCell(say, day.plan.kit.get(item.id)?.needs ?? []),
      ];
    }),
    empty: person === null ? "The plan lists no gear." : "None of the plan's gear.",
  };
}

const kitData = (plan: Plan, { items, track, missing, loading, moves }: Rows): Json => ({
  pieces: items.map((item) => ({
    id: item.id,
    count: item.count,
    stays: staysJson(plan, track?.stays(item.id) ?? []),
  })),
  missing: missing.map((own) => missingJson(plan, own)),
  moves: moves.map((move) => ({
    piece: move.item,
    at: isoAt(plan, move.at, move.place),
    place: move.place,
    from: move.from,
    to: move.to,
    hands: move.hands,
    stop: move.stop,
  })),
  loading: loading.map(({ vehicle, place, rolls, items }) => ({
    vehicle,
    place,
    rolls: isoAt(plan, rolls, place),
    items: items.map(({ id, count, members, from }) => ({ id, count, members, from })),
  })),
});

function staysJson(plan: Plan, stays: readonly Stay[]): Json {
  const ends = isoEnds(plan, stays);
  return stays.map((stay, at) => ({ ...ends[at], in: stay.holder, place: stay.place }));
}

const missingJson = (plan: Plan, own: Missing): Json => ({
  piece: own.item,
  for: own.for,
  activities: own.activities,
  place: own.place,
  neededFrom: isoAt(plan, own.neededFrom, own.place),
  in: own.holder,
  at: own.isAt,
  lastMove: own.lastMove === null ? null : isoAt(plan, own.lastMove.at, own.lastMove.place),
  lastMovePlace: own.lastMove?.place ?? null,
  into: own.lastMove?.into ?? null,
});
