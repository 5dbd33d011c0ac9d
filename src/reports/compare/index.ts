/** `compare`: the plan and its variants side by side, ranked by what they break and lose, with the reason for the first place. */
import type { Moment, Variant, VariantFigures } from "../../changes/variants.ts";
import type { Day } from "../../day/day.ts";
import type { Finding, Say } from "../../findings/finding.ts";
import type { ZoneId } from "../../time/index.ts";
import { DASH, lengthCell, namesCell, numberCell } from "../shared/cells.ts";
import { placesInOrder } from "../shared/clocks.ts";
import { kept, object } from "../shared/columns.ts";
import { type DayView, dayView } from "../shared/dayView.ts";
import { flag, ids, instant, type Kind, key, list, number, orNull, share, text, whole } from "../shared/kinds.ts";
import { withoutContacts } from "../shared/redact.ts";
import type { Block, Cell, Report, Table } from "../shared/view.ts";
import { reasonText } from "./reason.ts";

export interface CompareInput {
  readonly day: Day;
  /** The plan first. */
  readonly variants: readonly Variant[];
  readonly findings: readonly Finding[];
  readonly say: Say;
  readonly clock: ZoneId | null;
  readonly redact: boolean;
}

interface View extends DayView {
  /** Takes numbers and addresses out of a plan's own words. */
  readonly clean: (text: string) => string;
}

export function compareReport(input: CompareInput): Report {
  const { day, variants, say, clock, redact } = input;
  const view: View = {
    ...dayView(day, say, placesInOrder(day), clock),
    clean: redact ? withoutContacts : (words) => words,
  };
  return {
    command: "compare",
    blocks: [line(reasonText(variants, say)), table(view, variants), ...refusals(view, variants)],
    data: COMPARE_DATA.json(input, view),
    findings: input.findings,
    say,
  };
}

const line = (words: string): Block => ({ kind: "line", cells: [{ text: words, tone: "strong" }] });

function refusals({ clean }: View, variants: readonly Variant[]): readonly Block[] {
  const items = variants.flatMap(({ label, refused }): readonly Cell[] =>
    refused === null ? [] : [{ text: clean(`${label} is no plan: ${refused}`), tone: "bad" }],
  );
  return items.length === 0 ? [] : [{ kind: "list", items }];
}

interface Row {
  readonly label: string;
  cell(figures: VariantFigures, view: View): Cell;
}

const momentCell = (at: Moment | null, view: View): Cell => orNull(instant).cell(at, view);

const percent = (value: number): string => `${Math.floor(value * 100)} %`;

const ROWS: readonly Row[] = [
  {
    label: "Law broken",
    cell: ({ standing }) => lengthCell(standing.lawMinutes, standing.lawMinutes > 0 ? "bad" : "plain"),
  },
  { label: "Hits made", cell: ({ hitsMade }) => numberCell(hitsMade.length, 0) },
  { label: "Hits lost", cell: ({ hitsLost }, { say }) => namesCell(say, hitsLost) },
  { label: "House rules broken", cell: ({ standing }) => lengthCell(standing.houseMinutes) },
  {
    label: "Least chance",
    cell({ chances }) {
      const [least] = chances.toSorted((a, b) => a.share - b.share);
      return least === undefined ? DASH : { text: `${percent(least.share)} ${least.hit}`, raw: least.share };
    },
  },
  {
    label: "Chance of all",
    cell: ({ chanceOfAll }) =>
      chanceOfAll === null ? DASH : { text: `at least ${percent(chanceOfAll)}`, raw: Number(chanceOfAll.toFixed(4)) },
  },
  { label: "First call", cell: ({ firstCall }, view) => momentCell(firstCall, view) },
  { label: "Last release", cell: ({ lastRelease }, view) => momentCell(lastRelease, view) },
  {
    label: "Called earlier",
    cell: ({ earlierPeople }, { say }) =>
      earlierPeople.length === 0
        ? DASH
        : {
            text: earlierPeople.map(({ id, minutes }) => `${say.name(id)} ${say.length(minutes)}`).join(", "),
            raw: earlierPeople.map(({ id }) => id).join(" "),
          },
  },
  { label: "Least rest", cell: ({ leastRestMinutes }) => lengthCell(leastRestMinutes) },
  { label: "Least driving time left", cell: ({ leastDrivingLeftMinutes }) => lengthCell(leastDrivingLeftMinutes) },
  { label: "Least in a pack above its reserve", cell: ({ leastPackWh }) => numberCell(leastPackWh, 0, " Wh") },
  { label: "Overtime", cell: ({ overtimeMinutes }) => lengthCell(overtimeMinutes) },
  { label: "Meals missed", cell: ({ mealsMissed }) => numberCell(mealsMissed, 0) },
  { label: "Short turnarounds", cell: ({ shortTurnarounds }) => numberCell(shortTurnarounds, 0) },
  { label: "Errors", cell: ({ errors }) => numberCell(errors, 0) },
  { label: "Warnings", cell: ({ warnings }) => numberCell(warnings, 0) },
  { label: "Decide by", cell: ({ decideBy }, view) => momentCell(decideBy, view) },
];

/** Measures down, variants across. */
function table(view: View, variants: readonly Variant[]): Table {
  const columns = variants.map(({ label }) => ({ label: view.clean(label), align: "left" as const }));
  const rank: readonly Cell[] = [
    { text: "Rank", raw: "Rank" },
    ...variants.map(
      (one): Cell => (one.rank === null ? DASH : { text: String(one.rank), raw: one.rank, tone: "strong" }),
    ),
  ];
  return {
    kind: "table",
    title: null,
    columns: [{ label: "", key: "measure", align: "left" }, ...columns],
    rows: [
      rank,
      ...ROWS.map(({ label, cell }): readonly Cell[] => [
        { text: label },
        ...variants.map(({ figures }) => (figures === null ? DASH : cell(figures, view))),
      ]),
    ],
    empty: "",
  };
}

/** A key of a variant's figures; null where the variant is no plan. */
const figure = <T>(kind: Kind<T, View>, value: (figures: VariantFigures) => T) =>
  kept<Variant, T | null, View>(orNull(kind), ({ figures }) => (figures === null ? null : value(figures)));

const VARIANT = object<Variant, View>({
  label: kept(text, ({ label }, { clean }) => clean(label)),
  edits: kept(list(text), ({ edits }, { clean }) => edits.map(clean)),
  refused: kept(orNull(text), ({ refused }, { clean }) => (refused === null ? null : clean(refused))),
  rank: kept(orNull(whole), ({ rank }) => rank),
  lawMinutes: figure(whole, ({ standing }) => standing.lawMinutes),
  hitsMade: figure(ids, ({ hitsMade }) => hitsMade),
  hitsLost: figure(ids, ({ hitsLost }) => hitsLost),
  firmHitsLost: figure(ids, ({ standing }) => standing.firmHitsLost),
  houseMinutes: figure(whole, ({ standing }) => standing.houseMinutes),
  chances: figure(
    list(
      object<VariantFigures["chances"][number], View>({
        hit: kept(key, ({ hit }) => hit),
        chance: kept(share, (one) => Number(one.share.toFixed(4))),
      }),
    ),
    ({ chances }) => chances,
  ),
  chanceOfAll: figure(orNull(share), ({ chanceOfAll }) =>
    chanceOfAll === null ? null : Number(chanceOfAll.toFixed(4)),
  ),
  firstCall: figure(orNull(instant), ({ firstCall }) => firstCall),
  lastRelease: figure(orNull(instant), ({ lastRelease }) => lastRelease),
  earlierPeople: figure(
    list(
      object<VariantFigures["earlierPeople"][number], View>({
        id: kept(key, ({ id }) => id),
        minutes: kept(whole, ({ minutes }) => minutes),
      }),
    ),
    ({ earlierPeople }) => earlierPeople,
  ),
  leastRestMinutes: figure(orNull(whole), ({ leastRestMinutes }) => leastRestMinutes),
  leastDrivingLeftMinutes: figure(orNull(whole), ({ leastDrivingLeftMinutes }) => leastDrivingLeftMinutes),
  leastPackWh: figure(orNull(number), ({ leastPackWh }) =>
    leastPackWh === null ? null : Number(leastPackWh.toFixed(1)),
  ),
  overtimeMinutes: figure(whole, ({ overtimeMinutes }) => overtimeMinutes),
  mealsMissed: figure(whole, ({ mealsMissed }) => mealsMissed),
  shortTurnarounds: figure(whole, ({ shortTurnarounds }) => shortTurnarounds),
  movedMinutes: figure(whole, ({ standing }) => standing.movedMinutes),
  errors: figure(whole, ({ errors }) => errors),
  warnings: figure(whole, ({ warnings }) => warnings),
  decideBy: figure(orNull(instant), ({ decideBy }) => decideBy),
  same: kept(orNull(flag), ({ figures }) => (figures === null ? null : figures.same)),
});

export const COMPARE_DATA = object<Pick<CompareInput, "variants" | "say">, View>({
  reason: kept(text, ({ variants, say }) => reasonText(variants, say)),
  variants: kept(list(VARIANT), ({ variants }) => variants),
});
