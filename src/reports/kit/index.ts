/** `kit`: what is missing and until when it can be moved, tonight's loading by vehicle, what is where and what changes vehicles. */

import type { Day } from "../../day/day.ts";
import type { ItemStay, KitMove, KitResult, Loading, MissingItem, TooFew } from "../../kit/index.ts";
import { type KitItem, kitItems } from "../../kit/items.ts";
import { groupBy } from "../../lists.ts";
import type { Id } from "../../plan/plan.ts";
import { filled, line } from "../shared/blocks.ts";
import { DASH, loadingText, type Names, named, numberCell } from "../shared/cells.ts";
import { clockColumn, column, columns, kept, object, shown } from "../shared/columns.ts";
import { type DayView, dayView, type TopicInput } from "../shared/dayView.ts";
import { headingLine } from "../shared/heading.ts";
import {
  idKind,
  idsKind,
  instantKind,
  isoKind,
  keyKind,
  listKind,
  moment,
  orNull,
  textKind,
  wholeKind,
} from "../shared/kinds.ts";
import { ridesOf } from "../shared/people.ts";
import { topicMaker } from "../shared/report.ts";
import type { Block, Cell, ReportParts } from "../shared/view.ts";
import { type StretchTexts, stretches } from "../shared/where.ts";

interface View extends DayView {
  readonly rows: Rows;
}

/** The report of one day's gear; of one person what rides in their vehicles, what they move, what lacks where they work. */
function kitReport(input: TopicInput<KitResult>): ReportParts {
  const { day, say, result, person } = input;
  const rows = rowsFor(day, result, person);
  const view: View = { ...dayView(input), rows };
  const missing = MISSING.table(view, rows.missing, {
    title: "Missing",
    empty: rows.tooFew.length === 0 ? "Nothing is missing." : "All that there is, is where it is needed.",
  });
  const few = TOO_FEW.table(view, rows.tooFew, { title: "Too few", empty: "" });
  const moves = MOVES.table(view, rows.moves, { title: "Moves", empty: "Nothing changes vehicles." });
  const pieces = PIECES.table(view, rows.items, {
    title: person === null ? "Where everything is" : `What rides with ${say.name(person)}`,
    empty: person === null ? "The plan lists no gear." : "None of the plan's gear.",
  });
  return {
    blocks: [
      headingLine(day, view.clocks),
      missing,
      ...filled(few),
      ...rows.loading.flatMap((loading) => loadingBlocks(view, loading)),
      ...filled(moves),
      pieces,
    ],
    data: KIT_DATA.json(rows, view),
  };
}

type Rows = ReturnType<typeof rowsFor>;

/** What is shown: all, or what concerns one person. */
function rowsFor(day: Day, { track, missing, tooFew, loading }: KitResult, person: Id | null) {
  const items = kitItems(day.plan);
  const moves = track?.moves ?? [];
  if (person === null) return { items, missing, tooFew, loading, moves, track };
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
    tooFew: tooFew.filter(({ activities }) => activities.some((id) => attended.has(id))),
    loading: loading.filter(({ vehicle }) => rides.has(vehicle)),
    moves: carried,
    track,
  };
}

/** `in the wagon, at the pier`. */
function whereabouts(say: Names, holder: Id, place: Id | null): string {
  if (holder === place) return `at ${say.name(holder)}`;
  return place === null ? `in ${say.name(holder)}, rolling` : `in ${say.name(holder)} at ${say.name(place)}`;
}

const MISSING = columns<MissingItem>()({
  piece: column("Piece", idKind, (own) => own.item, { tone: "bad" }),
  for: keyKind,
  activities: column("For", idsKind),
  place: orNull(keyKind),
  neededFrom: column("Needed", orNull(instantKind), (own) => moment(own.neededFrom, own.place)),
  in: column("Is now", orNull(keyKind), (own) => own.holder, {
    cell: (own, { say }) => ({ text: whereabouts(say, own.holder, own.isAt), raw: own.holder }),
  }),
  at: kept(orNull(keyKind), (own) => own.isAt),
  lastMove: column("Move it by", orNull(instantKind), {
    cell: ({ lastMove }, view) =>
      lastMove === null ? { text: "too late", raw: null, tone: "bad" } : instantKind.cell(lastMove, view),
  }),
  lastMovePlace: kept(orNull(keyKind), ({ lastMove }) => lastMove?.place ?? null),
  into: column("Into", orNull(idKind), ({ lastMove }) => lastMove?.into ?? null),
});

const TOO_FEW = columns<TooFew>()({
  piece: column("Piece", idKind, (own) => own.item, { tone: "bad" }),
  activities: column("For", idsKind),
  needed: column("Needed at once", wholeKind),
  there: column("There", wholeKind),
  place: column("At", orNull(idKind), {
    cell: (own, { say }) => (own.place === null ? { text: "in all", raw: null } : named(say, own.place)),
  }),
});

function loadingBlocks({ say, clocks }: View, { vehicle, place, rolls, items }: Loading): readonly Block[] {
  const heading = `Load tonight: ${say.name(vehicle)} at ${say.name(place)}, rolls ${clocks.local(rolls, place).text}`;
  return [
    { kind: "heading", text: heading },
    items.length === 0
      ? line("Nothing of the plan's gear.", "muted")
      : { kind: "list", items: items.map((item) => ({ text: loadingText(say, item) })), tick: true },
  ];
}

const MOVES = columns<KitMove>()({
  piece: column("Piece", idKind, (move) => move.item),
  at: clockColumn("From then on", ({ at, place }) => ({ at, place }), { kind: instantKind }),
  place: column("At", idKind),
  from: column("From", idKind),
  to: column("Into", idKind),
  hands: column("Hands", idsKind, { spare: 1 }),
  stop: orNull(keyKind),
});

/** `bracket, cell × 2`: each kind once, with how many. */
function countedCell(say: Names, ids: readonly Id[]): Cell {
  const kinds = [...groupBy(ids, (id) => id)].map(
    ([id, all]) => `${say.name(id)}${all.length === 1 ? "" : ` × ${all.length}`}`,
  );
  return kinds.length === 0 ? DASH : { text: kinds.join(", "), raw: ids.join(" ") };
}

/** Stays of one holder told as one. */
const holders = (stays: readonly ItemStay[]): readonly ItemStay[] =>
  stays.filter((stay, at) => at === 0 || stays[at - 1]?.holder !== stay.holder);

/** `wagon, hired van from 06:00`. */
function holdersCell({ id: item, in: stated }: KitItem, { say, clocks, rows }: View): Cell {
  const [first, ...later] = holders(rows.track?.stays(item) ?? []);
  const then = later.map((stay) => `, ${say.name(stay.holder)} from ${clocks.local(stay.from, stay.place).text}`);
  return { text: `${say.name(first?.holder ?? stated)}${then.join("")}`, raw: first?.holder ?? stated };
}

const stay = object<StretchTexts<ItemStay>, unknown>()({
  from: isoKind,
  to: isoKind,
  in: kept(keyKind, ({ one }) => one.holder),
  place: kept(orNull(keyKind), ({ one }) => one.place),
});

const PIECES = columns<KitItem, View>()({
  id: keyKind,
  piece: shown("Piece", (item, { say }) => named(say, item.id)),
  count: column("Count", wholeKind, { cell: (item) => numberCell(item.count, 0) }),
  in: shown("In", holdersCell),
  needs: shown("Needs", (item, { say, day }) => countedCell(say, day.plan.kit.get(item.group)?.needs ?? []), {
    spare: 1,
  }),
  stays: kept(listKind(stay), (item, view) => stretches(view.rows.track?.stays(item.id) ?? [], view)),
});

const LOADING = object<Loading>()({
  vehicle: keyKind,
  place: keyKind,
  rolls: kept(instantKind, ({ rolls, place }) => ({ at: rolls, place })),
  items: listKind(
    object<Loading["items"][number], unknown>()({
      id: keyKind,
      count: wholeKind,
      members: listKind(textKind),
      from: orNull(keyKind),
    }),
  ),
});

/** `data` of `kit`. */
const KIT_DATA = object<Rows, View>()({
  pieces: kept(listKind(PIECES), (rows) => rows.items),
  missing: listKind(MISSING),
  tooFew: listKind(TOO_FEW),
  moves: listKind(MOVES),
  loading: listKind(LOADING),
});

/** The report `kit`. */
export const kitMaker = topicMaker(70, "kit", kitReport, KIT_DATA);
