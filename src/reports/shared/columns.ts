/**
 * What a row says, declared once: from its columns come the table (text, Markdown, HTML, CSV), the JSON object and the
 * JSON Schema. The name of a column is its key in CSV and in JSON; the order of the declaration is that of the JSON.
 */
import { DASH } from "./cells.ts";
import type { Kind, Moment, Shape, Words } from "./kinds.ts";
import type { Cell, Column, Json, Table, Tone } from "./view.ts";

/** What one key of a row is. Made by `column`, `clockColumn`, `shown` and `kept`. */
export interface RowField<in Row, in View> {
  /** Null where JSON does not have the key. */
  readonly kept: { readonly schema: () => Shape; readonly json: (row: Row, view: View) => Json } | null;
  /** Null where no table has it. */
  readonly shown: {
    readonly columns: (key: string, view: View, label?: string) => readonly Column[];
    readonly cells: (row: Row, view: View) => readonly Cell[];
  } | null;
}

interface Place {
  /** Columns with a higher number are left out first where a terminal is too narrow. */
  readonly spare?: number;
}

const head =
  (usual: string, { spare = 0 }: Place, figure: boolean) =>
  (key: string, _: unknown, label = usual): readonly Column[] => [
    { key, label, spare, align: figure ? "right" : "left" },
  ];

/** A key of JSON that no table shows. */
export const kept = <Row, T, View>(
  kind: Kind<T, NoInfer<View>>,
  value: (row: Row, view: View) => T,
): RowField<Row, View> => ({
  kept: { schema: () => kind.schema, json: (row, view) => kind.json(value(row, view), view) },
  shown: null,
});

/** A column of tables and CSV that JSON does not have. */
export const shown = <Row, View>(
  label: string,
  cell: (row: Row, view: View) => Cell,
  more: Place & { readonly figure?: boolean } = {},
): RowField<Row, View> => ({
  kept: null,
  shown: { columns: head(label, more, more.figure === true), cells: (row, view) => [cell(row, view)] },
});

interface ColumnMore<in Row, in View> extends Place {
  readonly cell?: (row: Row, view: View) => Cell;
  /** The tone of the kind's own cell. */
  readonly tone?: Tone;
}

/** A column, and a key of JSON, of the row's own value of that name. */
interface OwnColumn<in Row, in T, in View> {
  readonly label: string;
  readonly kind: Kind<T, View>;
  readonly more: ColumnMore<Row, View>;
}

/**
 * A column of tables and a key of JSON; the kind's own cell where none is given. Without `value` it is the row's own value
 * of that name.
 */
export function column<Row, T, View>(
  label: string,
  kind: Kind<T, NoInfer<View>>,
  value: (row: Row, view: View) => T,
  more?: ColumnMore<Row, View>,
): RowField<Row, View>;
export function column<Row, T, View>(
  label: string,
  kind: Kind<T, NoInfer<View>>,
  more?: ColumnMore<Row, View>,
): OwnColumn<Row, T, View>;
export function column<Row, T, View>(
  label: string,
  kind: Kind<T, NoInfer<View>>,
  given: ((row: Row, view: View) => T) | ColumnMore<Row, View> = {},
  more: ColumnMore<Row, View> = {},
): RowField<Row, View> | OwnColumn<Row, T, View> {
  if (typeof given === "object") return { label, kind, more: given };
  return {
    kept: kept<Row, T, View>(kind, given).kept,
    shown: {
      columns: head(label, more, kind.figure),
      cells: (row, view) => [more.cell?.(row, view) ?? toned(kind.cell(given(row, view), view), more.tone)],
    },
  };
}

const toned = (cell: Cell, tone: Tone | undefined): Cell => (tone === undefined ? cell : { ...cell, tone });

/** A moment on its place's clock and on the control room's: one column, or two where these differ; in JSON with a `kind`. */
export const clockColumn = <Row, T extends Moment | null, View extends Words>(
  label: string,
  value: (row: Row, view: View) => T,
  more: Place & {
    readonly kind?: Kind<T, NoInfer<View>>;
    /** What stands on its place's clock and on the control room's in place of a moment. */
    readonly instead?: (row: Row, view: View) => readonly [Cell, Cell] | null;
    /** As `spare`, of the control room's clock: two more where left out. */
    readonly deskSpare?: number;
  } = {},
): RowField<Row, View> => ({
  kept: more.kind === undefined ? null : kept<Row, T, View>(more.kind, value).kept,
  shown: {
    columns: (key, { clocks }, own = label) => clocks.columns(own, key, more.spare, more.deskSpare),
    cells(row, view) {
      const at = value(row, view);
      const instead = more.instead?.(row, view) ?? null;
      if (instead === null) return view.clocks.cells(at?.at ?? null, at?.place ?? null);
      return instead.slice(0, view.clocks.columns("", "").length);
    },
  },
});

interface TableSpec<Key> {
  readonly title: string | null;
  /**
   * The columns from left to right; with a label of its own where the usual one does not fit this table. Left out: all that
   * tables show, as they are declared.
   */
  readonly show?: readonly (Key | readonly [Key, string])[];
  /** The sentence printed where there are no rows. */
  readonly empty: string;
}

/** A row's columns: as a kind, the JSON object whose keys are always there; and its tables. */
export interface Columns<in Row, in View, Key extends string> extends Kind<Row, View> {
  readonly table: (view: View, rows: readonly Row[], spec: TableSpec<Key>) => Table;
  /** The columns that tables show, as they are declared. */
  readonly shown: readonly Key[];
}

/** What a key is declared as: a field, or the kind of the row's own value of that name, which no table then shows. */
type Declared<Row, View, Key> =
  | RowField<Row, View>
  | (Key extends keyof Row ? Kind<Row[Key], View> | OwnColumn<Row, Row[Key], View> : never);

/** The field that a key is declared as; only a key of the row is declared as a kind. */
function fieldOf<Row, View, Key>(key: Key, declared: Declared<Row, View, Key>): RowField<Row, View>;
function fieldOf<Row, View, Key extends keyof Row>(
  key: Key,
  declared: RowField<Row, View> | Kind<Row[Key], View> | OwnColumn<Row, Row[Key], View>,
): RowField<Row, View> {
  if ("kept" in declared) return declared;
  const value = (row: Row) => row[key];
  return "label" in declared ? column(declared.label, declared.kind, value, declared.more) : kept(declared, value);
}

/** Declares the columns of a row: `columns<Row, View>()({ key: column(…), … })`. */
export const columns =
  <Row, View = Words>() =>
  <Key extends string>(declared: { readonly [P in Key]: Declared<Row, View, P> }): Columns<Row, View, Key> => {
    const fields = new Map<string, RowField<Row, View>>();
    const shown: Key[] = [];
    for (const key in declared) {
      const field = fieldOf<Row, View, typeof key>(key, declared[key]);
      if (field.shown !== null) shown.push(key);
      fields.set(key, field);
    }
    const keptOnes = [...fields].flatMap(([key, { kept }]) => (kept === null ? [] : [{ key, ...kept }]));
    return {
      // Made when asked for: only `schema` asks.
      get schema() {
        const properties = Object.fromEntries(keptOnes.map(({ key, schema }) => [key, schema()]));
        return { type: "object", properties, required: keptOnes.map(({ key }) => key) };
      },
      json: (row, view) => Object.fromEntries(keptOnes.map(({ key, json }) => [key, json(row, view)])),
      cell: () => DASH,
      figure: false,
      shown,
      table(view, rows, { title, show = shown, empty }) {
        const chosen = show.map((one) => (typeof one === "string" ? { key: one } : { key: one[0], label: one[1] }));
        return {
          kind: "table",
          title,
          columns: chosen.flatMap(({ key, label }) => fields.get(key)?.shown?.columns(key, view, label) ?? []),
          rows: rows.map((row) => chosen.flatMap(({ key }) => fields.get(key)?.shown?.cells(row, view) ?? [])),
          empty,
        };
      },
    };
  };

/** The JSON object of a row that no table shows: `object<Row, View>()({ key: kind, … })`. */
export const object = <Row, View = Words>() => columns<Row, View>();

/** One kind or another, by what the value is. */
export const eitherKind = <A, B, View>(
  is: (value: A | B) => value is A,
  first: Kind<A, View>,
  second: Kind<B, View>,
): Kind<A | B, View> => ({
  schema: { anyOf: [first.schema, second.schema] },
  json: (value, view) => (is(value) ? first.json(value, view) : second.json(value, view)),
  cell: (value, view) => (is(value) ? first.cell(value, view) : second.cell(value, view)),
  figure: false,
});
