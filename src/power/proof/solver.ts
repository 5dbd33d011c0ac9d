/**
 * The one door to the solver: small linear programs, presolve off. Loaded only when a search needs it. Nothing it says is
 * believed as it is: prices are checked by our own bound, rotations by the replay.
 */
import type { Highs, Model as HighsModel } from "highs";

/** A row of a linear program with its bounds. */
export interface LpRow {
  readonly lower: number;
  readonly upper: number;
}

/** A column of a linear program with its cost. */
export interface LpColumn {
  readonly cost: number;
  readonly upper: number;
  readonly rows: readonly number[];
  readonly values: readonly number[];
}

/** The value of a linear program and the amount of each column. */
export interface LpAnswer {
  readonly value: number;
  /** By column. */
  readonly amount: Float64Array;
  /** By row. */
  readonly price: Float64Array;
}

/** A linear program that grows by columns; least cost. Dispose of it after use. */
export interface GrowingLp {
  add(columns: readonly LpColumn[]): void;
  /** The optimum; null where the solver does not reach one. */
  solve(): LpAnswer | null;
  dispose(): void;
}

let loaded: Promise<Highs> | null = null;

/** Loads the solver, once. Rejects only where the package itself cannot be loaded. */
export async function loadSolver(): Promise<(rows: readonly LpRow[]) => GrowingLp> {
  loaded ??= import("highs").then((module: { readonly default: unknown }) => loaderOf(module.default)());
  const highs = await loaded;
  return (rows) => openLp(highs, rows);
}

/** The package's types describe its CommonJS build, where the loader lies one step deeper than in the module that Node loads. */
function loaderOf(exported: unknown): () => Promise<Highs> {
  if (isLoader(exported)) return exported;
  throw new TypeError("the solver package exports no loader");
}

const isLoader = (value: unknown): value is () => Promise<Highs> => typeof value === "function";

function openLp(highs: Highs, rows: readonly LpRow[]): GrowingLp {
  const bound = (value: number): number => (Number.isFinite(value) ? value : Math.sign(value) * highs.infinity);
  const lp: HighsModel = highs.createModel();
  lp.options.set({ output_flag: false, presolve: "off", random_seed: 0 });
  lp.addRows({
    lower: Float64Array.from(rows, (row) => bound(row.lower)),
    upper: Float64Array.from(rows, (row) => bound(row.upper)),
    matrix: {
      format: "csr",
      numRows: rows.length,
      numCols: 0,
      starts: new Int32Array(rows.length + 1),
      indices: new Int32Array(0),
      values: new Float64Array(0),
    },
  });
  return {
    add: (columns) => void lp.addCols(packed(columns, rows.length, bound)),
    solve: () => {
      lp.run();
      if (lp.getModelStatus() !== highs.constants.modelStatus.optimal) return null;
      const { colValue, rowDual } = lp.getSolution();
      return { value: lp.getObjectiveValue(), amount: colValue, price: rowDual };
    },
    dispose: () => lp.dispose(),
  };
}

function packed(columns: readonly LpColumn[], numRows: number, bound: (value: number) => number) {
  const starts = [0];
  for (const column of columns) starts.push((starts.at(-1) ?? 0) + column.rows.length);
  return {
    cost: Float64Array.from(columns, (column) => column.cost),
    lower: new Float64Array(columns.length),
    upper: Float64Array.from(columns, (column) => bound(column.upper)),
    matrix: {
      format: "csc" as const,
      numRows,
      numCols: columns.length,
      starts: Int32Array.from(starts),
      indices: Int32Array.from(columns.flatMap((column) => column.rows)),
      values: Float64Array.from(columns.flatMap((column) => column.values)),
    },
  };
}
