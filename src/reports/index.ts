/** Every report of a judged day by its name: which topics it needs, and how it is made. Each is loaded when it is asked for. */
import type { VariantInput } from "../changes/variants.ts";
import type { Day, Why } from "../day/day.ts";
import type { Level } from "../findings/finding.ts";
import type { RoutedAnswers } from "../legs/legs.ts";
import { leastOf } from "../lists.ts";
import type { Id, Plan } from "../plan/plan.ts";
import type { ReliefProposal } from "../roads/index.ts";
import type { ClockStyle, Instant, ZoneId } from "../time/index.ts";
import type { RepairsShown } from "./repair/index.ts";
import type { ReportInput } from "./shared/dayView.ts";
import { had, type Judged, TOPICS, type Topic } from "./shared/judged.ts";
import type { Shape } from "./shared/kinds.ts";
import { rowsByCall } from "./shared/people.ts";
import type { Report } from "./shared/view.ts";
import type { Focus } from "./sheet/input.ts";
import type { Sheet } from "./sheet/view.ts";

/** How a report is made; a report passes over what it has no use for. */
export interface ReportOptions {
  /** One person's view, by id; null (default) shows everyone. `sheet` takes a vehicle, a hit or a place. */
  readonly person?: Id | null;
  /** The zone that stands in for the control room's clock; null (default) keeps the plan's. */
  readonly clock?: ZoneId | null;
  /** Whether hours are counted to 12 or to 24; by default each zone's usage. */
  readonly style?: ClockStyle | null;
  /** Leaves out telephone numbers, bookings and addresses; false by default. */
  readonly redact?: boolean;
  /** `calls`: the chain behind one instant, in place of the tables. */
  readonly why?: Why | null;
  /** `calls` and `sheet`: the older day to compare with. */
  readonly older?: Day | null;
  /** `calls`: both versions judged in every topic, for the list of changes in JSON; without it packs and gear are not compared. */
  readonly versions?: { readonly older: Judged; readonly newer: Judged } | null;
  /** `power`: which packs may fly, in place of the tables. */
  readonly fly?: boolean;
  /** `check`: prints only findings of this level and worse, and counts them all; `note` by default. */
  readonly least?: Level;
  /** `check`: notes with the plan's line and what to do; by default one line each. */
  readonly long?: boolean;
  /** `drives`: also the latest departure for this chance of arriving in time, between 0 and 1. */
  readonly chance?: number | null;
  /** `drives`: proposed drivers; `no-choice` where no one can relieve anybody. */
  readonly relief?: ReliefProposal | "no-choice" | null;
  /** `endurance`: multiplies the counted budgets of its searches; 1 by default. */
  readonly patience?: number;
  /** `drives` and `endurance`: a routing server's answers. */
  readonly routed?: RoutedAnswers;
  /** `changes`: the older version, judged like the newer one; without it nothing changed. */
  readonly against?: Judged | null;
  /** `changes`, `handover`, `now`: the moment that is asked about. `endurance`: by default the first call. */
  readonly now?: Instant | null;
  /** `asrun`: the days before along `follows` that are shown as well; 0 by default. */
  readonly daysBefore?: number;
  /** `asrun`: the chain as it was written, oldest first; without it logged times stand for planned ones. */
  readonly plans?: readonly Plan[];
  /** `compare`: the variants, judged like the plan; none by default. */
  readonly variants?: readonly VariantInput[];
  /** `repair`: what was found; without it nothing was searched. */
  readonly repairs?: RepairsShown;
}

interface ReportMaker {
  /** What must be judged for it; its findings are those of the day and of these topics. */
  readonly topics: readonly Topic[];
  make(judged: Judged, options: ReportOptions): Promise<Report>;
  /** The JSON Schema of its `data`. */
  data(): Promise<Shape>;
}

/** A report: the topics it asks for, the file it is in, how that makes it, and what its `data` is. */
const report = <File>(
  topics: readonly Topic[],
  load: () => Promise<File>,
  make: (file: File, input: ReportInput, judged: Judged, options: ReportOptions) => Report | Promise<Report>,
  data: (file: File) => { readonly schema: Shape },
): ReportMaker => ({
  topics,
  make: async (judged, options) => make(await load(), await inputOf(judged, options), judged, options),
  data: async () => data(await load()).schema,
});

/** What every report is given. */
async function inputOf(judged: Judged, options: ReportOptions): Promise<ReportInput> {
  const { day, findings } = judged;
  const { clock = null, person = null, redact = false, now = null } = options;
  return { day, findings, say: await wordsFor(judged, options), clock, person, redact, now };
}

/** The words of a judged day's plan under these options. */
async function wordsFor({ day }: Judged, { clock, style }: ReportOptions) {
  const { sayOf } = await import("./shared/wording.ts");
  return sayOf(day.plan, { people: day.people, clock: clock ?? null, ...(style ? { style } : {}) });
}

const changesSince = async ({ day }: Judged, { older }: ReportOptions) =>
  older ? (await import("../changes/between.ts")).changesBetween(older, day) : null;

const calls = report(
  [],
  () => import("./calls/index.ts"),
  async ({ callsReport }, input, judged, options) => {
    const { day, say, clock: desk, person, redact } = input;
    const { why = null } = options;
    const changes = await changesSince(judged, options);
    if (changes === null) return callsReport({ ...input, why, changes: null });
    const own = callsReport({ ...input, why, changes: await changeList(judged, options) });
    const { sinceBlocks } = await import("./changes/index.ts");
    return { ...own, blocks: [...sinceBlocks({ day, changes, say, desk, person, redact }), ...own.blocks] };
  },
  ({ CALLS_DATA }) => CALLS_DATA,
);

/** The changes of two judged versions, else of the days alone. */
async function changeList(judged: Judged, options: ReportOptions) {
  const alone = (day: Day): Judged => ({ day, days: [day], results: {}, findings: [], notJudged: [] });
  const { older, newer } = options.versions ?? { older: alone(options.older ?? judged.day), newer: alone(judged.day) };
  const { changeListJson } = await import("./changes/index.ts");
  return changeListJson(await changesOf(await inputOf(newer, options), newer, older));
}

const changesOf = async (input: ReportInput, newer: Judged, older: Judged) => {
  const { dayChanges } = await import("../changes/index.ts");
  return { ...input, older: older.day, changes: dayChanges(older, newer) };
};

const hours = report(
  ["hours"],
  () => import("./hours/index.ts"),
  ({ hoursReport }, input, { results }) => hoursReport({ ...input, result: had(results.hours) }),
  ({ HOURS_DATA }) => HOURS_DATA,
);

const power = report(
  ["power"],
  () => import("./power/index.ts"),
  async ({ powerReport }, input, { results }, { fly = false }) =>
    fly ? (await import("./power/fly.ts")).flyReport(input) : powerReport({ ...input, result: had(results.power) }),
  ({ ROTATION_DATA }) => ROTATION_DATA,
);

/** Of the rotation, or of what may fly. */
const powerData = async (): Promise<Shape> => ({
  anyOf: [await power.data(), (await import("./power/fly.ts")).FLY_DATA.schema],
});

const drives = report(
  ["roads"],
  () => import("./drives/index.ts"),
  async ({ drivesReport }, input, { results }, { routed, chance: wanted = null, relief = null }) => {
    const { gapsOf, NO_ANSWERS } = await import("../roads/index.ts");
    const gaps = await gapsOf(input.day, routed ?? NO_ANSWERS);
    return drivesReport({ ...input, result: had(results.roads), gaps, relief, wanted });
  },
  ({ DRIVES_DATA }) => DRIVES_DATA,
);

const light = report(
  ["sky"],
  () => import("./light/index.ts"),
  ({ lightReport }, input, { results }) => lightReport({ ...input, result: had(results.sky) }),
  ({ LIGHT_DATA }) => LIGHT_DATA,
);

const signal = report(
  ["signal"],
  () => import("./signal/index.ts"),
  ({ signalReport }, input, { results }) => signalReport({ ...input, result: had(results.signal) }),
  ({ SIGNAL_DATA }) => SIGNAL_DATA,
);

const kit = report(
  ["kit"],
  () => import("./kit/index.ts"),
  ({ kitReport }, input, { results }) => kitReport({ ...input, result: had(results.kit) }),
  ({ KIT_DATA }) => KIT_DATA,
);

const check = report(
  TOPICS,
  () => import("./check/index.ts"),
  ({ checkReport }, { day, findings, say, redact }, { notJudged }, { least = "note", long = false }) =>
    checkReport({ file: day.plan.file, findings, notJudged, say, redact, least, long }),
  ({ CHECK_DATA }) => CHECK_DATA,
);

const repair = report(
  TOPICS,
  () => import("./repair/index.ts"),
  ({ NOTHING_SEARCHED, repairReport }, input, _, { repairs = NOTHING_SEARCHED }) =>
    repairReport({ ...repairs, ...input }),
  ({ REPAIR_DATA }) => REPAIR_DATA,
);

const now = report(
  TOPICS,
  () => import("./now/index.ts"),
  ({ nowReport }, input, judged, { against = null }) =>
    nowReport({ ...input, judged, against, power: had(judged.results.power), at: input.now ?? input.day.span.from }),
  ({ NOW_DATA }) => NOW_DATA,
);

const asrun = report(
  ["power"],
  () => import("./asrun/index.ts"),
  ({ asrunReport }, input, judged, { daysBefore = 0, plans = judged.days.map(({ plan }) => plan) }) => {
    const days = judged.days.slice(-1 - daysBefore);
    return asrunReport({ ...input, days, plans: plans.slice(-1 - daysBefore), power: had(judged.results.power) });
  },
  ({ ASRUN_DATA }) => ASRUN_DATA,
);

const handover = report(
  TOPICS,
  () => import("./handover/index.ts"),
  ({ handoverReport }, input, { results }) =>
    handoverReport({
      ...input,
      hours: had(results.hours),
      power: had(results.power),
      kit: had(results.kit),
      roads: had(results.roads),
      bookings: had(results.bookings),
    }),
  ({ HANDOVER_DATA }) => HANDOVER_DATA,
);

const bookings = report(
  ["bookings"],
  () => import("./bookings/index.ts"),
  ({ bookingsReport }, input, { results }) => bookingsReport({ ...input, result: had(results.bookings) }),
  ({ BOOKINGS_DATA }) => BOOKINGS_DATA,
);

const changes = report(
  TOPICS,
  () => import("./changes/index.ts"),
  async ({ changesReport }, input, judged, { against }) =>
    changesReport(await changesOf(input, judged, against ?? judged)),
  ({ CHANGES_DATA }) => CHANGES_DATA,
);

const compare = report(
  TOPICS,
  () => import("./compare/index.ts"),
  async ({ compareReport }, input, judged, { variants = [] }) => {
    const { compareVariants } = await import("../changes/variants.ts");
    return compareReport({ ...input, variants: compareVariants(judged, variants) });
  },
  ({ COMPARE_DATA }) => COMPARE_DATA,
);

/** From the moment asked about, else from the first call of the day. */
const endurance = report(
  ["hours", "power", "roads"],
  () => import("./endurance/index.ts"),
  async ({ enduranceReport }, input, { days, results }, { routed, patience = 1 }) => {
    const [{ enduranceOf }, { NO_ANSWERS }] = await Promise.all([
      import("../endurance/index.ts"),
      import("../roads/index.ts"),
    ]);
    const { people, span } = input.day;
    const at = input.now ?? leastOf(people.flatMap(({ call }) => call ?? [])) ?? span.from;
    const result = await enduranceOf({ ...results, days, at, routed: routed ?? NO_ANSWERS, patience });
    return enduranceReport({ ...input, result });
  },
  ({ ENDURANCE_DATA }) => ENDURANCE_DATA,
);

const timecard = report(
  [],
  () => import("./timecard/index.ts"),
  async ({ timecardReport }, input, { days }) => {
    const { timecards } = await import("../hours/pay/timecard.ts");
    return timecardReport(
      input,
      days,
      rowsByCall(timecards(days), ({ id }) => id, input.day.people),
    );
  },
  ({ TIMECARD_DATA }) => TIMECARD_DATA,
);

const sheet = report(
  TOPICS,
  () => import("./sheet/index.ts"),
  async ({ sheetReport }, _, judged, options) => sheetReport(await sheetView(judged, options)),
  ({ SHEET_DATA }) => SHEET_DATA,
);

/** A vehicle, a hit or a place that `person` names instead of one of the crew. */
function focusOf({ crew, vehicles, hits, places }: Plan, id: Id | null): Focus | null {
  if (id === null || crew.has(id)) return null;
  if (vehicles.has(id)) return { kind: "vehicle", id };
  if (hits.has(id)) return { kind: "hit", id };
  return places.has(id) ? { kind: "place", id } : null;
}

/** The call sheet as a view of its own, which the page, the calendar and the chat are made from. */
export async function sheetView(judged: Judged, options: ReportOptions = {}): Promise<Sheet> {
  const [{ sheetOf }, { sheetFacts }, { catalogue }] = await Promise.all([
    import("./sheet/index.ts"),
    import("./sheet/facts.ts"),
    import("../findings/catalogue.ts"),
  ]);
  const entries = await catalogue();
  const focus = focusOf(judged.day.plan, options.person ?? null);
  return sheetOf({
    day: judged.day,
    facts: sheetFacts(judged, (code) => entries.get(code)?.title ?? null),
    findings: judged.findings,
    say: await wordsFor(judged, options),
    desk: options.clock ?? null,
    person: focus === null ? (options.person ?? null) : null,
    focus,
    redact: options.redact ?? false,
    now: options.now ?? null,
    older: options.older ?? null,
    changes: await changesSince(judged, options),
  });
}

/** All reports of a judged day. */
export const REPORTS = {
  calls,
  hours,
  power: { ...power, data: powerData },
  drives,
  light,
  signal,
  kit,
  check,
  repair,
  now,
  asrun,
  handover,
  bookings,
  changes,
  compare,
  endurance,
  sheet,
  timecard,
} satisfies Readonly<Record<string, ReportMaker>>;

/** The name of a report. */
export type ReportName = keyof typeof REPORTS;

const isReport = (name: string): name is ReportName => Object.hasOwn(REPORTS, name);

/** Commands whose JSON has a schema. */
export const described = (): readonly string[] => [...Object.keys(REPORTS), "explain"];

/** The JSON Schema of one command's answer; null for a command that has none. */
export async function schemaOf(command: string): Promise<Shape | null> {
  const { answerSchema } = await import("./shared/envelope.ts");
  if (command === "explain") return answerSchema(command, (await import("./explain/index.ts")).EXPLAIN_DATA.schema);
  return isReport(command) ? answerSchema(command, await REPORTS[command].data()) : null;
}
