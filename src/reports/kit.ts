/** `kit`: what is missing and until when it can be moved, tonight's loading by vehicle, what is where and what changes vehicles. */
import type { Day } from "../day/day.ts";
import type { Finding, Say } from "../findings/finding.ts";
import type { KitMove, KitResult, Loading, Missing, Stay } from "../kit/index.ts";
import { itemsOf } from "../kit/items.ts";
import type { Id, Plan } from "../plan/plan.ts";
import type { ZoneId } from "../time/index.ts";
import { type Clocks, clocksOf } from "./clocks.ts";
import { headingLine } from "./heading.ts";
import { isoAt, isoEnds } from "./stamps.ts";
import type { Block, Cell, Json, Report, Table } from "./view.ts";

export interface KitOptions {
  readonly result: KitResult;
  /** Stands in for the control room's clock. */
  readonly clock: ZoneId | null;
  readonly findings: readonly Finding[];
}

interface View {
  readonly day: Day;
  readonly say: Say;
  readonly clocks: Clocks;
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

const dash: Cell = { text: "–", raw: null };

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
      { label: "piece", align: "left", key: "piece" },
      { label: "for", align: "left", key: "activities" },
      { label: "needed", align: "left", key: "neededFrom" },
      { label: "it is", align: "left", key: "in" },
      { label: "move it by", align: "left", key: "lastMove" },
      { label: "into", align: "left", key: "into" },
    ],
    rows: result.missing.map((own) => [
      { text: say.name(own.item), raw: own.item, tone: "bad" },
      { text: own.activities.map((id) => say.name(id)).join(", ") },
      clocks.local(own.neededFrom, own.place),
      { text: whereabouts(say, own.holder, own.isAt), raw: own.holder },
      own.lastMove === null
        ? { text: "too late", raw: null, tone: "bad" }
        : clocks.local(own.lastMove.at, own.lastMove.place),
      own.lastMove === null ? dash : { text: say.name(own.lastMove.into), raw: own.lastMove.into },
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
      { label: "piece", align: "left", key: "piece" },
      ...clocks.columns("from then on", "at"),
      { label: "at", align: "left", key: "place" },
      { label: "from", align: "left", key: "from" },
      { label: "into", align: "left", key: "to" },
      { label: "hands", align: "left", key: "hands", spare: 1 },
    ],
    rows: moves.map((move) => [
      { text: say.name(move.item), raw: move.item },
      ...clocks.cells(move.at, move.place),
      { text: say.name(move.place), raw: move.place },
      { text: say.name(move.from), raw: move.from },
      { text: say.name(move.to), raw: move.to },
      { text: move.hands.map((id) => say.name(id)).join(", ") },
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
    columns: [
      { label: "piece", align: "left", key: "id" },
      { label: "count", align: "right", key: "count" },
      { label: "in", align: "left", key: "in" },
      { label: "needs", align: "left", key: "needs", spare: 1 },
    ],
    rows: itemsOf(day.plan).map((item) => {
      const [first, ...later] = holders(result.track?.stays(item.id) ?? []);
      const then = later
        .map((stay) => `, ${say.name(stay.holder)} from ${clocks.local(stay.from, stay.place).text}`)
        .join("");
      return [
        { text: say.name(item.id), raw: item.id },
        { text: String(item.count), raw: item.count },
        { text: `${say.name(first?.holder ?? item.in)}${then}`, raw: first?.holder ?? item.in },
        { text: (day.plan.kit.get(item.id)?.needs ?? []).map((id) => say.name(id)).join(", ") },
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
