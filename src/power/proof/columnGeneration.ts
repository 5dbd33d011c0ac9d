/**
 * Columns: a linear program whose columns are whole days of single packs, each priced by the same program that finds best
 * paths. It decides whether packs can share the loads and slots, or how few moves they need, up to fractions; and its
 * prices, put into our own program, prove a bound whatever the solver says. Packs that are alike are priced once.
 */
import { sumOf } from "../../lists.ts";
import type { PackPath } from "../fast/packPath.ts";
import type { Paths } from "../fast/paths.ts";
import { openBeside, seatsOf } from "../fast/seats.ts";
import type { GrowingLp, LpColumn, LpRow } from "./solver.ts";

/** What the linear program of all paths needs. */
export interface MasterQuery {
  readonly paths: Paths;
  readonly marginWh: number;
  /** 0: can it be done at all; 1: with how few moves. */
  readonly moveCost: 0 | 1;
  readonly openLp: (rows: readonly LpRow[]) => GrowingLp;
  /** By pack: the first one that is like it. */
  readonly alike: readonly number[];
  /** Paths already decided, by pack; null where open. */
  readonly fixed: readonly (PackPath | null)[];
  /** Paths worth trying first; grows. */
  readonly pool: PackPath[];
  /** LP rounds left, shared by all masters of one question, and the work of the desk at which no more of them begins. */
  readonly budget: { rounds: number; readonly until: number };
  /** With `moveCost` 1: stop once this many moves are proved to be needed. */
  readonly enoughMoves: number;
}

/** What it says: paths, or that none exist, or that the budget is used up. */
export interface MasterAnswer {
  readonly kind: "open" | "impossible" | "undecided";
  /** Moves that any rotation with these fixed paths needs, as far as proved. */
  readonly movesBound: number;
  /** Paths in use with their shares, largest first. */
  readonly shares: readonly { readonly path: PackPath; readonly share: number }[];
}

/** A share beyond which a path is taken as the program's own choice. */
export const CLEAR = 0.5;
/** Prices smaller than this are rounding. */
const TINY = 1e-6;
/** Solving a program again takes as long as one label for so many of its cells. */
const CELLS = 5;
/** What an unpowered use costs against a move. */
const UNPOWERED = 1000;

interface Layout {
  readonly open: Uint8Array;
  /** The packs that are open, those that are alike together; each group has a row, in this order. */
  readonly groups: readonly (readonly number[])[];
  /** By the first pack of all that are alike: the row of those that are open; left out where none is. */
  readonly groupRow: ReadonlyMap<number, number>;
  readonly rows: LpRow[];
  /** `[place * spans + k]`: its row, -1 where none is needed. */
  readonly rowAt: Int32Array;
}

/** Solves the program with these paths fixed. Deterministic; stops as `undecided` when the rounds run out. */
export function solveMaster(query: MasterQuery): MasterAnswer {
  const layout = layOut(query);
  const lp = query.openLp(layout.rows);
  try {
    return iterate(query, layout, lp);
  } finally {
    lp.dispose();
  }
}

function layOut(query: MasterQuery): Layout {
  const { board, wanted } = query.paths;
  const fixed = query.fixed.filter((path) => path !== null);
  const seats = seatsOf(board, fixed);
  const byFirst = new Map<number, number[]>();
  query.fixed.forEach((path, pack) => {
    const first = query.alike[pack] ?? pack;
    if (path === null) byFirst.set(first, [...(byFirst.get(first) ?? []), pack]);
  });
  const groups = [...byFirst.values()];
  const groupRow = new Map([...byFirst.keys()].map((first, row) => [first, row]));
  const rows: LpRow[] = groups.map(({ length }) => ({ lower: length, upper: length }));
  const rowAt = new Int32Array(board.places.length * board.spans).fill(-1);
  board.places.forEach((place, p) => {
    for (let k = 0; k < board.spans; k++) {
      const at = p * board.spans + k;
      const taken = sumOf(fixed, (path) => weightAt(query.paths, path.spots[k] ?? 0, p));
      const row = rowFor(
        place.kind,
        place.room - taken,
        wanted.need[at] === 1,
        wanted.locked[at] === 1 || (seats.count[at] ?? 0) > 0,
      );
      if (row !== null) rowAt[at] = rows.push(row) - 1;
    }
  });
  return { open: openBeside(board, seats), groups, groupRow, rows, rowAt };
}

/** A use without its pack must get one; where it has one, or it must be the one from the interval before, nothing is asked. */
function rowFor(kind: string, left: number, need: boolean, settled: boolean): LpRow | null {
  if (kind === "shelf" || (kind === "load" && settled)) return null;
  return kind === "load" && need ? { lower: 1, upper: 1 } : { lower: Number.NEGATIVE_INFINITY, upper: left };
}

/** The part of `place`'s room that a pack on `spot` takes: more than one head where it counts on little company. */
function weightAt(paths: Paths, spot: number, place: number): number {
  const on = paths.board.spots[spot];
  if (on === undefined || on.place !== place) return 0;
  const room = paths.board.places[place]?.room ?? 1;
  return Number.isFinite(room) ? room / on.level : 0;
}

function iterate(query: MasterQuery, layout: Layout, lp: GrowingLp): MasterAnswer {
  const { groups, rows } = layout;
  const columns: (PackPath | null)[] = [];
  const enter = (paths: readonly PackPath[]): void => {
    if (paths.length > 0) lp.add(paths.map((path) => columnOf(query, layout, path)));
    columns.push(...paths);
  };
  // What stands in for a missing pack, and for room that is not there: the first paths need not fit together.
  const standIns = rows.flatMap((row, n): readonly { row: number; value: 1 | -1 }[] => {
    if (n < groups.length) return [];
    return row.lower === 1 ? [{ row: n, value: 1 }] : [{ row: n, value: -1 }];
  });
  const cost = query.moveCost === 1 ? UNPOWERED : 1;
  if (standIns.length > 0)
    lp.add(standIns.map(({ row, value }) => ({ cost, upper: Infinity, rows: [row], values: [value] })));
  columns.push(...standIns.map(() => null));
  const first = groups.map(([pack]) => bestOf(query, layout, pack, new Float64Array(rows.length)));
  if (first.some((path) => path === null))
    return { kind: "impossible", movesBound: Number.POSITIVE_INFINITY, shares: [] };
  enter([...first.filter((path) => path !== null), ...query.pool.filter((path) => allowed(query, layout, path))]);
  const fixedMoves = sumOf(query.fixed, (path) => path?.moves ?? 0);
  let bound = 0;
  const { desk } = query.paths;
  while (query.budget.rounds-- > 0 && desk.work < query.budget.until) {
    desk.work += (columns.length * rows.length) / CELLS;
    const answer = lp.solve();
    if (answer === null) break;
    const shares = sharedOut(
      query,
      layout,
      columns.flatMap((path, n) =>
        path !== null && (answer.amount[n] ?? 0) > TINY ? [{ path, share: answer.amount[n] ?? 0 }] : [],
      ),
    );
    const unpowered = standIns.reduce((sum, _, n) => sum + (answer.amount[n] ?? 0), 0);
    if (query.moveCost === 0 && unpowered < TINY) return { kind: "open", movesBound: 0, shares };
    const prices = answer.price.map((price, row) => (rows[row]?.lower === 1 ? price : Math.min(0, price)));
    const fresh = groups.map(([pack]) => bestOf(query, layout, pack, prices));
    const proved =
      rows.reduce((sum, row, n) => sum + (n < groups.length ? 0 : (prices[n] ?? 0) * row.upper), 0) -
      fresh.reduce((sum, path, n) => sum + (path?.value ?? 0) * (groups[n]?.length ?? 0), 0);
    if (query.moveCost === 0 && proved > TINY)
      return { kind: "impossible", movesBound: Number.POSITIVE_INFINITY, shares };
    bound = Math.max(bound, proved);
    const movesBound = fixedMoves + Math.max(0, Math.ceil(bound - TINY));
    if (query.moveCost === 1 && movesBound >= query.enoughMoves)
      return { kind: unpowered < TINY ? "open" : "undecided", movesBound, shares };
    const better = fresh
      .filter((path, n) => path !== null && path.value + (answer.price[n] ?? 0) > TINY)
      .filter((path) => path !== null);
    if (better.length === 0) return { kind: unpowered < TINY ? "open" : "undecided", movesBound, shares };
    query.pool.push(...better);
    enter(better);
  }
  return { kind: "undecided", movesBound: fixedMoves + Math.max(0, Math.ceil(bound - TINY)), shares: [] };
}

/** Paths with their shares given to packs that are alike, one after another: first what one pack takes alone, largest first. */
function sharedOut(query: MasterQuery, { groups, groupRow }: Layout, amounts: MasterAnswer["shares"]) {
  const rowOf = ({ pack }: PackPath): number => groupRow.get(query.alike[pack] ?? pack) ?? -1;
  const given = groups.map(() => 0);
  const give = (path: PackPath, share: number, keeps: boolean) => {
    const row = rowOf(path);
    const packs = groups[row] ?? [];
    const n = given[row] ?? 0;
    if (keeps) given[row] = n + 1;
    return { path: { ...path, pack: packs[Math.min(n, packs.length - 1)] ?? path.pack }, share };
  };
  const sorted = amounts.toSorted((a, b) => b.share - a.share);
  const whole = sorted.flatMap(({ path, share }) =>
    Array.from({ length: Math.ceil(share - CLEAR) }, (_, n) => give(path, Math.min(1, share - n), true)),
  );
  const parts = sorted.filter(({ share }) => share <= CLEAR).map(({ path, share }) => give(path, share, false));
  return [...whole, ...parts];
}

/** The best path of one pack when standing somewhere earns the row's price. */
const bestOf = (query: MasterQuery, layout: Layout, pack: number | undefined, prices: Float64Array) =>
  pack === undefined ? null : query.paths.best(pricing(query, layout, pack, prices));

function pricing(query: MasterQuery, layout: Layout, pack: number, prices: Float64Array) {
  const { board } = query.paths;
  const gain = new Float64Array(board.spots.length * board.spans);
  board.spots.forEach((spot, number) => {
    for (let k = 0; k < board.spans; k++) {
      const row = layout.rowAt[spot.place * board.spans + k] ?? -1;
      if (row >= 0) gain[number * board.spans + k] = (prices[row] ?? 0) * weightAt(query.paths, number, spot.place);
    }
  });
  const moveCost = new Float64Array(board.spans).fill(query.moveCost);
  return { pack, marginWh: query.marginWh, open: layout.open, gain, moveCost };
}

function columnOf(query: MasterQuery, layout: Layout, path: PackPath): LpColumn {
  const { board } = query.paths;
  const rows = [layout.groupRow.get(query.alike[path.pack] ?? path.pack) ?? 0];
  const values = [1];
  path.spots.forEach((spot, k) => {
    const place = board.spots[spot]?.place ?? 0;
    const row = layout.rowAt[place * board.spans + k] ?? -1;
    if (row < 0) return;
    rows.push(row);
    values.push(weightAt(query.paths, spot, place));
  });
  return { cost: query.moveCost * path.moves, upper: Infinity, rows, values };
}

function allowed(query: MasterQuery, layout: Layout, path: PackPath): boolean {
  const { spans } = query.paths.board;
  return (
    layout.groupRow.has(query.alike[path.pack] ?? path.pack) &&
    path.marginWh >= query.marginWh &&
    path.spots.every((spot, k) => layout.open[spot * spans + k] === 1)
  );
}
