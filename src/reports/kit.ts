/** `kit`: what is missing and until when it can be moved, tonight's loading by vehicle, what is where and what changes vehicles. */
import type { Day } from "../day/day.ts";
import type { Say } from "../findings/finding.ts";
import { names } from "../findings/words.ts";
import type { KitMove, KitResult, Loading, Missing, Stay } from "../kit/index.ts";
import { itemsOf } from "../kit/items.ts";
import type { Id, Plan } from "../plan/plan.ts";
import { column, DASH, figureColumn, named } from "./cells.ts";
import { clocksOf } from "./clocks.ts";
import type { DayView, TopicOptions } from "./day-view.ts";
import { headingLine } from "./heading.ts";
import { isoAt, isoEnds } from "./stamps.ts";
import type { Block, Cell, Json, Report, Table } from "./view.ts";

export type KitOptions = TopicOptions<KitResult>;

interface View extends DayView {
  readonly result: KitResult;
}

/** The report of one day's gear. */
export function kitReport(day: Day, say: Say, options: KitOptions): Report {
  const { result } = options;
  const clocks = clocksOf(day.plan, say, day.plan.places.keys(), options.clock ?? undefined);
  const view: View = { day, say, clocks, result };
  return {
    command: "kit",
    blocks: [
      headingLine(day, clocks),
      missingTable(view),
      ...result.loading.flatMap((loading) => loadingBlocks(view, loading)),
      ...(result.track === null || result.track.moves.length === 0 ? [] : [movesTable(view, result.track.moves)]),
      whereTable(view),
    ],
    data: kitData(day.plan, result),
    findings: options.findings,
    say,
  };
}

/** `in the wagon, at the pier`. */
function whereabouts(say: Say, holder: Id, place: Id | null): string {
  if (holder === place) return `at ${say.name(holder)}`;
  return place === null ? `in ${say.name(holder)}, rolling` : `in ${say.name(holder)} at ${say.name(place)}`;
}

function missingTable({ say, clocks, result }: View): Table {
  return {
    kind: "table",
    title: "Missing",
    columns: [
      column("piece", "piece"),
      column("for", "activities"),
      column("needed", "neededFrom"),
      column("it is", "in"),
      column("move it by", "lastMove"),
      column("into", "into"),
    ],
    rows: result.missing.map((own) => [
      { ...named(say, own.item), tone: "bad" },
      { text: names(own.activities, say) },
      clocks.local(own.neededFrom, own.place),
      { text: whereabouts(say, own.holder, own.isAt), raw: own.holder },
      own.lastMove === null
        ? { text: "too late", raw: null, tone: "bad" }
        : clocks.local(own.lastMove.at, own.lastMove.place),
      own.lastMove === null ? DASH : named(say, own.lastMove.into),
    ]),
    empty: "nothing is missing",
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
      ? { kind: "line", cells: [{ text: "nothing of the plan's gear", tone: "muted" }] }
      : { kind: "list", items: items.map(line), tick: true },
  ];
}

function movesTable({ say, clocks }: View, moves: readonly KitMove[]): Table {
  return {
    kind: "table",
    title: "Moves",
    columns: [
      column("piece", "piece"),
      ...clocks.columns("from then on", "at"),
      column("at", "place"),
      column("from", "from"),
      column("into", "to"),
      column("hands", "hands", 1),
    ],
    rows: moves.map((move) => [
      named(say, move.item),
      ...clocks.cells(move.at, move.place),
      named(say, move.place),
      named(say, move.from),
      named(say, move.to),
      { text: names(move.hands, say) },
    ]),
    empty: "nothing changes vehicles",
  };
}

/** Stays of one holder told as one. */
const holders = (stays: readonly Stay[]): readonly Stay[] =>
  stays.filter((stay, at) => at === 0 || stays[at - 1]?.holder !== stay.holder);

function whereTable({ day, say, clocks, result }: View): Table {
  return {
    kind: "table",
    title: "Where everything is",
    columns: [column("piece", "id"), figureColumn("count", "count"), column("in", "in"), column("needs", "needs", 1)],
    rows: itemsOf(day.plan).map((item) => {
      const [first, ...later] = holders(result.track?.stays(item.id) ?? []);
      const then = later
        .map((stay) => `, ${say.name(stay.holder)} from ${clocks.local(stay.from, stay.place).text}`)
        .join("");
      return [
        named(say, item.id),
        { text: String(item.count), raw: item.count },
        { text: `${say.name(first?.holder ?? item.in)}${then}`, raw: first?.holder ?? item.in },
        { text: names(day.plan.kit.get(item.id)?.needs ?? [], say) },
      ];
    }),
    empty: "the plan lists no gear",
  };
}

const kitData = (plan: Plan, { track, missing, loading }: KitResult): Json => ({
  pieces: itemsOf(plan).map((item) => ({
    id: item.id,
    count: item.count,
    stays: staysJson(plan, track?.stays(item.id) ?? []),
  })),
  missing: missing.map((own) => missingJson(plan, own)),
  moves: (track?.moves ?? []).map((move) => ({
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
