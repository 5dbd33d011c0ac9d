/** `compare`: the plan and its variants side by side, ranked by what they break and lose, with the reason for the first place. */

import { type ComparedMoment, compareVariants, type Variant, type VariantFigures } from "../../changes/variants.ts";
import { counted } from "../../findings/figures.ts";
import type { Wording } from "../../findings/finding.ts";
import { line, list } from "../shared/blocks.ts";
import { DASH, lengthCell, namesCell, numberCell } from "../shared/cells.ts";
import { kept, object } from "../shared/columns.ts";
import { type DayView, dayView, type ReportInput } from "../shared/dayView.ts";
import { TOPICS } from "../shared/judged.ts";
import {
  flagKind,
  idsKind,
  instantKind,
  type Kind,
  keyKind,
  listKind,
  numberKind,
  orNull,
  shareKind,
  textKind,
  wholeKind,
} from "../shared/kinds.ts";
import { redactedEdit, withoutSecrets } from "../shared/redact.ts";
import type { ReportMaker } from "../shared/report.ts";
import type { Block, BriefLine, Cell, ReportParts, Table } from "../shared/view.ts";

/** What `compare` shows. */
interface CompareInput extends ReportInput {
  /** The plan first. */
  readonly variants: readonly Variant[];
}

interface View extends DayView {
  readonly edit: (edit: string) => string;
}

/** The report of `compare`. */
function compareReport(input: CompareInput): ReportParts {
  const { variants, say, redact } = input;
  const view: View = {
    ...dayView(input),
    clean: redact ? withoutSecrets : (words) => words,
    edit: redact ? redactedEdit : (words) => words,
  };
  return {
    blocks: [line(view.clean(reasonText(variants, say)), "strong"), table(view, variants), ...refusals(view, variants)],
    data: COMPARE_DATA.json(input, view),
    brief: briefOf(view, variants),
  };
}

/** The reason, then a line for each variant in the order of the ranking, then what is no plan. */
function briefOf(view: View, variants: readonly Variant[]): readonly BriefLine[] {
  const line = (words: string): BriefLine => ({ lead: "", items: [words], spare: 0 });
  const ranked = variants.filter(({ rank }) => rank !== null).toSorted((a, b) => (a.rank ?? 0) - (b.rank ?? 0));
  const refused = variants.filter((one) => one.refused !== null);
  return [
    line(view.clean(reasonText(variants, view.say))),
    ...ranked.map((one) => line(view.clean(`${one.rank}. ${one.label}: ${costText(view, one)}`))),
    ...refused.map((one) => line(view.clean(`${one.label} is not a plan: ${one.refused}`))),
  ];
}

/** What a variant loses, breaks and asks for, and by when to decide. */
function costText(view: View, { figures }: Variant): string {
  if (figures === null) return "";
  const { standing, earlierPeople, hitsLost, chanceOfAll, errors, decideBy } = figures;
  const { say } = view;
  const words = [
    hitsLost.length === 0 ? "no hit lost" : `loses ${hitsLost.join(", ")}`,
    standing.lawMinutes === 0 ? null : `breaks law by ${say.length(standing.lawMinutes)}`,
    standing.houseMinutes === 0 ? null : `breaks house rules by ${say.length(standing.houseMinutes)}`,
    ...earlierPeople.map(({ id, minutes }) => `${say.name(id)} ${say.length(minutes)} earlier`),
    chanceOfAll === null ? null : `chance of all at least ${percent(chanceOfAll)}`,
    errors === 0 ? null : counted(errors, "error"),
    decideBy === null ? null : `decide by ${view.clocks.local(decideBy.at, decideBy.place).text}`,
  ];
  return words.filter((one) => one !== null).join("; ");
}

function refusals({ clean }: View, variants: readonly Variant[]): readonly Block[] {
  const items = variants.flatMap(({ label, refused }): readonly Cell[] =>
    refused === null ? [] : [{ text: clean(`${label} is not a plan: ${refused}`), tone: "bad" }],
  );
  return list(items);
}

interface Row {
  readonly label: string;
  cell(figures: VariantFigures, view: View): Cell;
}

const momentCell = (at: ComparedMoment | null, view: View): Cell => orNull(instantKind).cell(at, view);

const percent = (value: number): string => `${Math.floor(value * 100)} %`;

/** A row for each hit that some variant has a chance for. */
const chanceRows = (variants: readonly Variant[]): readonly Row[] => {
  const hits = variants.flatMap(({ figures }) => figures?.chances.map(({ hit }) => hit) ?? []);
  return [...new Set(hits)].map((hit) => ({
    label: `Chance of ${hit}`,
    cell({ chances }) {
      const own = chances.find((one) => one.hit === hit);
      return own === undefined ? DASH : { text: percent(own.share), raw: Number(own.share.toFixed(4)) };
    },
  }));
};

const MADE: readonly Row[] = [
  {
    label: "Law broken",
    cell: ({ standing }) => lengthCell(standing.lawMinutes, standing.lawMinutes > 0 ? "bad" : "plain"),
  },
  { label: "Hits made", cell: ({ hitsMade }) => numberCell(hitsMade.length, 0) },
  { label: "Hits lost", cell: ({ hitsLost }, { say }) => namesCell(say, hitsLost) },
  { label: "House rules broken", cell: ({ standing }) => lengthCell(standing.houseMinutes) },
];

const COST: readonly Row[] = [
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
  const ranks = variants.map(
    ({ rank }): Cell => (rank === null ? DASH : { text: String(rank), raw: rank, tone: "strong" }),
  );
  return {
    kind: "table",
    title: null,
    columns: [{ label: "", key: "measure", align: "left" }, ...columns],
    rows: [
      [{ text: "Rank", raw: "Rank" }, ...ranks],
      ...[...MADE, ...chanceRows(variants), ...COST].map(({ label, cell }): readonly Cell[] => [
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

const VARIANT = object<Variant, View>()({
  label: kept(textKind, ({ label }, { clean }) => clean(label)),
  edits: kept(listKind(textKind), ({ edits }, { edit }) => edits.map(edit)),
  refused: kept(orNull(textKind), ({ refused }, { clean }) => (refused === null ? null : clean(refused))),
  rank: orNull(wholeKind),
  lawMinutes: figure(wholeKind, ({ standing }) => standing.lawMinutes),
  hitsMade: figure(idsKind, ({ hitsMade }) => hitsMade),
  hitsLost: figure(idsKind, ({ hitsLost }) => hitsLost),
  firmHitsLost: figure(idsKind, ({ standing }) => standing.firmHitsLost),
  houseMinutes: figure(wholeKind, ({ standing }) => standing.houseMinutes),
  chances: figure(
    listKind(
      object<VariantFigures["chances"][number], View>()({
        hit: keyKind,
        chance: kept(shareKind, (one) => Number(one.share.toFixed(4))),
      }),
    ),
    ({ chances }) => chances,
  ),
  chanceOfAll: figure(orNull(shareKind), ({ chanceOfAll }) =>
    chanceOfAll === null ? null : Number(chanceOfAll.toFixed(4)),
  ),
  firstCall: figure(orNull(instantKind), ({ firstCall }) => firstCall),
  lastRelease: figure(orNull(instantKind), ({ lastRelease }) => lastRelease),
  earlierPeople: figure(
    listKind(object<VariantFigures["earlierPeople"][number], View>()({ id: keyKind, minutes: wholeKind })),
    ({ earlierPeople }) => earlierPeople,
  ),
  leastRestMinutes: figure(orNull(wholeKind), ({ leastRestMinutes }) => leastRestMinutes),
  leastDrivingLeftMinutes: figure(orNull(wholeKind), ({ leastDrivingLeftMinutes }) => leastDrivingLeftMinutes),
  leastPackWh: figure(orNull(numberKind), ({ leastPackWh }) =>
    leastPackWh === null ? null : Number(leastPackWh.toFixed(1)),
  ),
  overtimeMinutes: figure(wholeKind, ({ overtimeMinutes }) => overtimeMinutes),
  mealsMissed: figure(wholeKind, ({ mealsMissed }) => mealsMissed),
  shortTurnarounds: figure(wholeKind, ({ shortTurnarounds }) => shortTurnarounds),
  movedMinutes: figure(wholeKind, ({ standing }) => standing.movedMinutes),
  errors: figure(wholeKind, ({ errors }) => errors),
  warnings: figure(wholeKind, ({ warnings }) => warnings),
  decideBy: figure(orNull(instantKind), ({ decideBy }) => decideBy),
  same: kept(orNull(flagKind), ({ figures }) => (figures === null ? null : figures.same)),
});

/** The JSON of `compare`. */
const COMPARE_DATA = object<Pick<CompareInput, "variants" | "say">, View>()({
  reason: kept(textKind, ({ variants, say }, { clean }) => clean(reasonText(variants, say))),
  variants: listKind(VARIANT),
});

/** `cut comes first: it loses no hit; plan, the second, loses noon.` */
function reasonText(variants: readonly Variant[], say: Wording): string {
  const ranked = variants
    .flatMap((one) =>
      one.figures === null || one.rank === null ? [] : [{ ...one, figures: one.figures, rank: one.rank }],
    )
    .sort((a, b) => a.rank - b.rank);
  const [first, second] = ranked;
  if (first === undefined) return "No variant is a plan.";
  if (second === undefined || ranked.slice(1).every(({ figures }) => figures.same)) return "No difference.";
  const parted = REASONS.find(({ value }) => value(first.figures) < value(second.figures));
  if (parted === undefined)
    return `${first.label} comes first: nothing in the ranking parts it from ${second.label}, which has as many edits or more.`;
  const words = ({ figures }: { readonly figures: VariantFigures }): string => parted.words(figures, say);
  return `${first.label} comes first: it ${words(first)}; ${second.label}, the second, ${words(second)}.`;
}

interface Reason {
  readonly value: (figures: VariantFigures) => number;
  /** With the variant as its subject. */
  readonly words: (figures: VariantFigures, say: Wording) => string;
}

/** In the order of the ranking. */
const REASONS: readonly Reason[] = [
  {
    value: ({ standing }) => standing.lawMinutes,
    words: ({ standing }, say) =>
      standing.lawMinutes === 0 ? "breaks no law" : `breaks law by ${say.length(standing.lawMinutes)}`,
  },
  {
    value: ({ standing }) => standing.firmHitsLost.length,
    words: ({ standing }) => `loses ${hitsText(standing.firmHitsLost)}`,
  },
  {
    value: ({ standing }) => standing.houseMinutes,
    words: ({ standing }, say) =>
      standing.houseMinutes === 0
        ? "breaks no house rule"
        : `breaks house rules by ${say.length(standing.houseMinutes)}`,
  },
  {
    value: ({ standing }) => standing.hitsLost.length,
    words: ({ standing }) => `loses ${hitsText(standing.hitsLost)}`,
  },
  {
    value: ({ earlierPeople }) => earlierPeople.length,
    words: ({ earlierPeople: all }) =>
      all.length === 0 ? "calls no one earlier" : `calls ${counted(all.length, "person", "people")} earlier`,
  },
  {
    value: ({ standing }) => standing.movedMinutes,
    words: ({ standing }, say) =>
      standing.movedMinutes === 0 ? "moves nothing" : `moves work by ${say.length(standing.movedMinutes)}`,
  },
];

const hitsText = (hits: readonly string[]): string => (hits.length === 0 ? "no hit" : hits.join(", "));

/** The report `compare`. */
export const compareMaker: ReportMaker = {
  place: 150,
  topics: TOPICS,
  make: (input, judged, { variants = [] }) => compareReport({ ...input, variants: compareVariants(judged, variants) }),
  schema: () => COMPARE_DATA.schema,
};
