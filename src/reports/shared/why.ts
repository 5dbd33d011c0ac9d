/** The chain behind one instant, as terms that add up. */

import type { DayTerm, Why } from "../../day/day.ts";
import type { Wording } from "../../findings/finding.ts";
import { sumOf } from "../../lists.ts";
import type { Plan } from "../../plan/plan.ts";
import { line } from "./blocks.ts";
import { figureColumn, lengthCell, wordColumn } from "./cells.ts";
import type { ReportClocks } from "./clocks.ts";
import type { Block, Cell } from "./view.ts";

/** A sentence with the instant, a row for each term, and a last row that states their sum. */
export function whyTable(plan: Plan, say: Wording, clocks: ReportClocks, why: Why): readonly Block[] {
  const total = sumOf(why.terms, (term) => term.minutes);
  const rows = why.terms.map((term, at) => termRow(plan, say, clocks, term, placeNear(why.terms, at)));
  const end = why.terms.at(-1);
  const last: readonly Cell[] = end
    ? [
        ...clocks.cells(end.to, placeNear(why.terms, why.terms.length - 1, true)),
        { text: "in all", tone: "strong" },
        lengthCell(total, "strong"),
        { text: "", raw: null },
      ]
    : [];
  return [
    line(sentence(say, why), "strong"),
    {
      kind: "table",
      title: null,
      columns: [
        ...clocks.columns("At", "from"),
        wordColumn("What", "name"),
        figureColumn("Takes", "minutes"),
        wordColumn("Because of", "where"),
      ],
      rows: end ? [...rows, last] : [],
      empty: BY[why.fixedBy.by],
    },
  ];
}

/** Of an instant without a chain, by what it stands. */
const BY: Readonly<Record<Why["fixedBy"]["by"], string>> = {
  plan: "The plan states this time itself.",
  log: "The log states this time itself.",
  "planned before": "It stands as it was planned.",
};

function sentence(say: Wording, why: Why): string {
  const own = `${why.id} is at ${say.time(why.at)}`;
  const said = why.fixedBy.where === null ? "" : `, ${say.where?.(why.fixedBy.where) ?? ""}`;
  if (why.terms.length === 0) return `${own}${said}`;
  const side = why.fixedBy.at < why.at ? "after" : "to be ready for";
  return `${own}, ${side} ${why.fixedBy.id} at ${say.time(why.fixedBy.at)}${said}`;
}

/** The place of a term; for one on the road, the one before it (or behind it), whose clock then holds. */
function placeNear(terms: readonly DayTerm[], at: number, behind = false): string | null {
  const before = terms.slice(0, at + 1).findLast((term) => term.place !== null)?.place ?? null;
  const later = terms.slice(at).find((term) => term.place !== null)?.place ?? null;
  return behind ? (later ?? before) : (before ?? later);
}

function termRow(plan: Plan, say: Wording, clocks: ReportClocks, term: DayTerm, place: string | null): readonly Cell[] {
  const what = term.vehicle !== null && term.place === null ? `${term.name}, ${say.name(term.vehicle)}` : term.name;
  const where = term.where === null ? "the default" : (say.where?.(term.where) ?? "");
  const at = term.place !== null && plan.places.has(term.place) ? `${what} at ${say.name(term.place)}` : what;
  return [...clocks.cells(term.from, place), { text: at, raw: term.name }, lengthCell(term.minutes), { text: where }];
}
