/** `repair`: edits that clear what is wrong, best first, and what no edit helps against. */
import { counted } from "../../findings/figures.ts";
import type { Finding, Wording } from "../../findings/finding.ts";
import { dotted } from "../../plan/index.ts";
import { setText } from "../../power/words.ts";
import type { RepairProof } from "../../repair/index.ts";
import { line, list } from "../shared/blocks.ts";
import { DASH } from "../shared/cells.ts";
import { column, columns, kept, object, shown } from "../shared/columns.ts";
import { type DayView, dayView, type ReportInput } from "../shared/dayView.ts";
import { SHORT_FINDING } from "../shared/envelope.ts";
import { TOPICS } from "../shared/judged.ts";
import { idKind, idsKind, listKind, minutesKind, orNull, said, textKind, wholeKind } from "../shared/kinds.ts";
import type { ReportMaker } from "../shared/report.ts";
import type { Block, Cell, ReportParts } from "../shared/view.ts";
import { NOTHING_SEARCHED, type RepairsShown, type RepairView } from "./shown.ts";

/** Letters of an old value in a table; a new one is shown to be judged, so it has more. */
const LONGEST_OLD = 44;
const LONGEST_NEW = 240;

type RepairInput = RepairsShown & ReportInput;

/** The report of `repair`. */
function repairReport(input: RepairInput): ReportParts {
  const { repairs, proof, written } = input;
  const view = dayView(input, []);
  const rows = numbered(input);
  const empty = "No repair was found.";
  const tables = [
    EDITS.table(view, rows.flatMap(editRows), { title: null, empty }),
    REPAIRS.table(view, rows, { title: null, show: ["repair", "clears", "brings"], empty }),
    REPAIRS.table(view, rows, { title: null, show: COSTS, empty }),
  ];
  return {
    blocks: [
      line(headline(input), repairs.length > 0 || input.targets.length === 0 ? "good" : "bad"),
      ...leftLine(input, view),
      ...(repairs.length === 0 ? [] : tables),
      ...whyNot(input, view),
      ...nearestBlocks(proof?.nearest ?? null, view),
      ...(proof === null
        ? []
        : [...neverText(proof, input, view), line(proofText(proof, repairs.length > 0), "muted")]),
      ...(written === null ? [] : [line(written, "plain")]),
    ],
    data: REPAIR_DATA.json(input, view),
    headers: tables,
  };
}

function headline({ targets, repairs, beyond }: RepairInput): string {
  if (targets.length === 0) return "Nothing to repair.";
  const [best] = repairs;
  const found = counted(targets.length, "finding");
  if (best === undefined)
    return beyond.length === targets.length
      ? `${found}: no edit of the plan helps.`
      : `${found}: no edit that was tried helps without a new error.`;
  const left = best.left + beyond.length;
  return `${found} to repair: repair 1 clears ${left === 0 ? "all" : `all but ${left}`} with ${counted(best.edits.length, "edit")}.`;
}

/** What the first repair leaves of what an edit may help against. */
function leftLine({ repairs: [best], targets, beyond }: RepairInput, view: DayView): readonly Block[] {
  const left = targets.filter((one) => best?.clears.includes(one) === false && !beyond.includes(one));
  return left.length === 0 ? [] : [line(`Repair 1 leaves ${codesCell(left, view, targets).text}.`, "warn")];
}

/** What no edit helps against, which is why it remains. */
function whyNot({ beyond }: RepairInput, { say, clean }: DayView): readonly Block[] {
  if (beyond.length === 0) return [];
  return [
    line("No edit of the plan helps here; a person must decide:", "warn"),
    ...list(beyond.map((finding) => ({ text: clean(`${finding.sentence(say)} (${finding.code})`) }))),
  ];
}

/** How far the search is a proof. */
function proofText({ candidates, judged, completeTo }: RepairProof, found: boolean): string {
  const tried = `Judged ${counted(judged, "version")} of the plan, made from ${counted(candidates, "possible step")}`;
  if (completeTo >= 2)
    return `${tried}: each alone and every pair.${found ? " Repair 1 is the smallest of them." : ""}`;
  const more = "`--patience 4` tries more.";
  if (completeTo === 1) return `${tried}: each alone, and the most promising together. ${more}`;
  return `${tried}; the search ended before all were tried. ${more}`;
}

/** What nothing that was tried clears. */
function neverText({ never }: RepairProof, { targets }: RepairInput, view: DayView): readonly Block[] {
  if (never.length === 0) return [];
  return [line(`No version clears ${codesCell(never, view, targets).text}.`, "warn")];
}

/** What would clear it but for a rule of the house, which the house may accept: said where nothing else helps. */
function nearestBlocks(nearest: RepairProof["nearest"], view: DayView): readonly Block[] {
  if (nearest === null) return [];
  const { clean } = view;
  return [
    line(`What comes nearest brings ${codesCell(nearest.brings, view).text}; whoever accepts that can set`, "warn"),
    ...list(nearest.edits.map((edit) => ({ text: clean(setText([`${dotted(edit.path)}=${edit.value ?? ""}`])) }))),
  ];
}

type Numbered = ReturnType<typeof numbered>[number];
/** Repairs with their numbers and all that was to be repaired. */
const numbered = ({ repairs, targets }: RepairsShown) =>
  repairs.map((repair, at) => ({ ...repair, number: at + 1, targets }));

/** Edits, each with its row from 0 within its repair. */
const editRows = ({ edits, number }: Numbered) => edits.map((edit, row) => ({ ...edit, number, row }));

/** A value as it is written; programs get all of it. */
function valueCell(value: string | null, none: string, longest: number, { clean }: DayView): Cell {
  if (value === null) return { text: none, raw: null };
  const letters = [...clean(value)];
  const short = letters.length <= longest ? letters : [...letters.slice(0, longest - 1), "…"];
  return { text: short.join(""), raw: clean(value) };
}

const EDITS = columns<ReturnType<typeof editRows>[number], DayView>()({
  repair: shown(
    "Repair",
    ({ number, row }) => ({ text: row === 0 ? String(number) : "", raw: number, tone: "strong" }),
    { figure: true },
  ),
  path: column("Edit", said(textKind, "as --set takes it")),
  old: column(
    "Old",
    said(orNull(textKind), "null where the plan says nothing there"),
    ({ old }, { clean }) => (old === null ? null : clean(old)),
    { cell: ({ old }, view) => valueCell(old, "–", LONGEST_OLD, view) },
  ),
  new: column(
    "New",
    said(orNull(textKind), "null where the entry is taken out"),
    (edit, { clean }) => (edit.new === null ? null : clean(edit.new)),
    { cell: (edit, view) => valueCell(edit.new, "taken out", LONGEST_NEW, view) },
  ),
});

/** In the order of the ranking. */
const COSTS = [
  ...(["repair", "lawMinutes", "firmHitsLost", "houseMinutes"] as const),
  ...(["hitsLost", "earlierPeople", "movedMinutes"] as const),
];

const REPAIRS = columns<Numbered, DayView>()({
  repair: shown("Repair", ({ number }) => ({ text: String(number), raw: number, tone: "strong" }), { figure: true }),
  edits: kept(listKind(EDITS), editRows),
  clears: column("Clears", listKind(SHORT_FINDING), {
    cell: (repair, view) => clearsCell(repair, view),
  }),
  eases: said(listKind(SHORT_FINDING), "cleared in part: less is lost with what is out of service"),
  brings: column("Brings", said(listKind(SHORT_FINDING), "never an error"), {
    cell: ({ brings }, view) => codesCell(brings, view),
  }),
  lawMinutes: column("Law broken", minutesKind, ({ standing }) => standing.lawMinutes),
  firmHitsLost: column("Firm hits lost", idsKind, ({ standing }) => standing.firmHitsLost),
  houseMinutes: column("House rules broken", minutesKind, ({ standing }) => standing.houseMinutes),
  hitsLost: column("Other hits lost", idsKind, ({ standing }) => standing.hitsLost),
  earlierPeople: column(
    "Called earlier",
    listKind(object<RepairView["standing"]["earlierPeople"][number], DayView>()({ id: idKind, minutes: wholeKind })),
    ({ standing }) => standing.earlierPeople,
    { cell: ({ standing }, { say }) => earlierCell(standing.earlierPeople, say) },
  ),
  movedMinutes: column("Moved", minutesKind, ({ standing }) => standing.movedMinutes),
});

function clearsCell({ clears, eases, targets }: Numbered, view: DayView): Cell {
  if (eases.length === 0) return codesCell(clears, view, targets);
  const part = codesCell(eases, view, targets);
  const words = clears.length === 0 ? "" : `${codesCell(clears, view, targets).text}; `;
  return { text: `${words}in part: ${part.text}`, raw: [...clears, ...eases].map(({ code }) => code).join(" ") };
}

/**
 * Codes with whom they are about: `rest-too-short (Tomas Lind), kit-missing`; and with the rule where `among` all that is told
 * one person has the same code by another rule.
 */
function codesCell(findings: readonly Finding[], { say }: DayView, among: readonly Finding[] = findings): Cell {
  if (findings.length === 0) return { text: "nothing", raw: null };
  const all = [...new Set(findings.map(({ code }) => code))];
  const whoOf = ({ code, who, facts: { rule } }: Finding): readonly string[] => {
    if (who === null) return [];
    const isOther = (one: Finding): boolean => one.code === code && one.who === who && one.facts["rule"] !== rule;
    return [typeof rule === "string" && among.some(isOther) ? `${say.name(who)}: ${rule}` : say.name(who)];
  };
  const words = all.map((code) => {
    const same = findings.filter((finding) => finding.code === code);
    const who = [...new Set(same.flatMap(whoOf))];
    if (who.length > 0) return `${code} (${who.join(", ")})`;
    return same.length > 1 ? `${code} × ${same.length}` : code;
  });
  return { text: words.join(", "), raw: all.join(" ") };
}

const earlierCell = (people: RepairView["standing"]["earlierPeople"], say: Wording): Cell =>
  people.length === 0
    ? DASH
    : {
        text: people.map((person) => `${say.name(person.id)} by ${say.length(person.minutes)}`).join(", "),
        raw: people.map((person) => person.id).join(" "),
      };

const NEAREST = object<NonNullable<RepairProof["nearest"]>, DayView>()({
  edits: kept(listKind(textKind), ({ edits }, { clean }) =>
    edits.map(({ path, value }) => clean(`${dotted(path)}=${value ?? ""}`)),
  ),
  brings: listKind(SHORT_FINDING),
});

/** The JSON of `repair`. */
const REPAIR_DATA = object<RepairsShown, DayView>()({
  repairs: kept(listKind(REPAIRS), numbered),
  targets: listKind(SHORT_FINDING),
  proof: orNull(
    object<RepairProof, DayView>()({
      candidates: wholeKind,
      judged: wholeKind,
      completeTo: said(wholeKind, "steps of which every combination was judged"),
      never: said(listKind(SHORT_FINDING), "no version that was judged clears these"),
      nearest: said(
        orNull(NEAREST),
        "where no repair was found: edits that clear most but bring errors of house rules, which may be accepted",
      ),
    }),
  ),
});

/** The report `repair`. */
export const repairMaker: ReportMaker = {
  place: 90,
  topics: TOPICS,
  make: (input, _, { repairs = NOTHING_SEARCHED }) => repairReport({ ...repairs, ...input }),
  schema: () => REPAIR_DATA.schema,
};
