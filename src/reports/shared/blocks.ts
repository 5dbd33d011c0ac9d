/** The small parts of reports: a line of one text, a list, a table that is shown only where it has rows. */
import type { Block, Cell, Table, Tone } from "./view.ts";

/** A line of one text. */
export const line = (text: string, tone?: Tone): Block => ({
  kind: "line",
  cells: [tone === undefined ? { text } : { text, tone }],
});

/** A list; no block without items. */
export const list = (items: readonly Cell[]): readonly Block[] => (items.length === 0 ? [] : [{ kind: "list", items }]);

/** A list under a heading; no blocks without items. */
export const listUnder = (title: string, items: readonly Cell[]): readonly Block[] =>
  items.length === 0
    ? []
    : [
        { kind: "heading", text: title },
        { kind: "list", items },
      ];

/** The table where it has rows. */
export const filled = (table: Table): readonly Block[] => (table.rows.length === 0 ? [] : [table]);
