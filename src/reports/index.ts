/** Every report of a judged day by its name: which topics it needs, and how it is made. Each is loaded when it is asked for. */
import type { VariantInput } from "../changes/variants.ts";
import type { Day, Why } from "../day/day.ts";
import type { Level } from "../findings/finding.ts";
import type { RoutedAnswers } from "../legs/legs.ts";
import type { Id, Plan } from "../plan/plan.ts";
import type { ReliefProposal } from "../roads/index.ts";
import type { ClockStyle, Instant, ZoneId } from "../time/index.ts";
import type { RepairsShown } from "./repair/index.ts";
import { rowsByCall } from "./shared/callOrder.ts";
import { had, type Judged, TOPICS, type Topic } from "./shared/judged.ts";
import type { Shape } from "./shared/kinds.ts";
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

/** The words of a judged day's plan under these options. */
async function wordsFor({ day }: Judged, { clock, style }: ReportOptions) {
  const { sayOf } = await import("./shared/wording.ts");
  return sayOf(day.plan, { people: day.people, clock: clock ?? null, ...(style ? { style } : {}) });
}

const changesSince = async ({ day }: Judged, { older }: ReportOptions) =>
  older ? (await import("../changes/between.ts")).changesBetween(older, day) : null;

async function calls(judged: Judged, options: ReportOptions): Promise<Report> {
  const { callsReport } = await import("./calls/index.ts");
  const { day } = judged;
  const say = await wordsFor(judged, options);
  const { person = null, clock = null, why = null, redact = false } = options;
  const changes = await changesSince(judged, options);
  if (changes === null) return callsReport(day, say, { person, why, clock, changes: null });
  const report = callsReport(day, say, { person, why, clock, changes: await changeList(judged, options) });
  const { sinceBlocks } = await import("./changes/since.ts");
  const blocks = sinceBlocks({ day, changes, say, desk: clock, person, redact });
  return { ...report, blocks: [...blocks, ...report.blocks] };
}

async function hours(judged: Judged, options: ReportOptions): Promise<Report> {
  const { hoursReport } = await import("./hours/index.ts");
  const { person = null, clock = null } = options;
  const say = await wordsFor(judged, options);
  return hoursReport(judged.day, had(judged.results.hours), judged.findings, say, { person, clock });
}

async function power(judged: Judged, options: ReportOptions): Promise<Report> {
  const { day, findings } = judged;
  const { person = null, clock = null } = options;
  const say = await wordsFor(judged, options);
  if (options.fly === true) return (await import("./power/fly.ts")).flyReport(day, say, findings);
  const { powerReport } = await import("./power/index.ts");
  return powerReport(day, say, { result: had(judged.results.power), clock, findings, person });
}

async function drives(judged: Judged, options: ReportOptions): Promise<Report> {
  const [{ drivesReport }, { gapsOf, NO_ANSWERS }] = await Promise.all([
    import("./drives/index.ts"),
    import("../roads/index.ts"),
  ]);
  const { person = null, clock = null, chance = null, relief = null } = options;
  return drivesReport(judged.day, await wordsFor(judged, options), {
    result: had(judged.results.roads),
    gaps: await gapsOf(judged.day, options.routed ?? NO_ANSWERS),
    relief,
    wanted: chance,
    person,
    clock,
    findings: judged.findings,
  });
}

async function light(judged: Judged, options: ReportOptions): Promise<Report> {
  const { lightReport } = await import("./light/index.ts");
  const { person = null, clock = null } = options;
  const { day, findings, results } = judged;
  return lightReport(day, await wordsFor(judged, options), { result: had(results.sky), person, clock, findings });
}

async function signal(judged: Judged, options: ReportOptions): Promise<Report> {
  const { signalReport } = await import("./signal/index.ts");
  const { person = null, clock = null, redact = false } = options;
  const { day, findings, results } = judged;
  const result = had(results.signal);
  return signalReport(day, await wordsFor(judged, options), { result, person, redact, clock, findings });
}

async function kit(judged: Judged, options: ReportOptions): Promise<Report> {
  const { kitReport } = await import("./kit/index.ts");
  const { person = null, clock = null } = options;
  const { day, findings, results } = judged;
  return kitReport(day, await wordsFor(judged, options), { result: had(results.kit), clock, findings, person });
}

async function check(judged: Judged, options: ReportOptions): Promise<Report> {
  const { checkReport } = await import("./check/index.ts");
  const { findings, notJudged } = judged;
  const { redact = false, least = "note", long = false } = options;
  return checkReport({
    file: judged.day.plan.file,
    findings,
    notJudged,
    say: await wordsFor(judged, options),
    redact,
    least,
    long,
  });
}

/** The changes of two judged versions, else of the days alone. */
async function changeList(judged: Judged, options: ReportOptions) {
  const alone = (day: Day): Judged => ({ day, days: [day], results: {}, findings: [], notJudged: [] });
  const { older, newer } = options.versions ?? { older: alone(options.older ?? judged.day), newer: alone(judged.day) };
  const { changeListJson } = await import("./changes/index.ts");
  return changeListJson(await changesInput(newer, { ...options, against: older }));
}

const changesInput = async (judged: Judged, options: ReportOptions) => {
  const { dayChanges } = await import("../changes/index.ts");
  const older = options.against ?? judged;
  return {
    day: judged.day,
    older: older.day,
    changes: dayChanges(older, judged),
    findings: judged.findings,
    say: await wordsFor(judged, options),
    clock: options.clock ?? null,
    now: options.now ?? null,
    person: options.person ?? null,
    redact: options.redact ?? false,
  };
};

const changes = async (judged: Judged, options: ReportOptions): Promise<Report> =>
  (await import("./changes/index.ts")).changesReport(await changesInput(judged, options));

async function compare(judged: Judged, options: ReportOptions): Promise<Report> {
  const [{ compareReport }, { compareVariants }] = await Promise.all([
    import("./compare/index.ts"),
    import("../changes/variants.ts"),
  ]);
  const { day, findings } = judged;
  const variants = compareVariants(judged, options.variants ?? []);
  const { clock = null, redact = false } = options;
  return compareReport({ day, variants, findings, say: await wordsFor(judged, options), clock, redact });
}

async function bookings(judged: Judged, options: ReportOptions): Promise<Report> {
  const { bookingsReport } = await import("./bookings/index.ts");
  const { clock = null, redact = false } = options;
  const { day, findings, results } = judged;
  return bookingsReport({
    day,
    result: had(results.bookings),
    findings,
    say: await wordsFor(judged, options),
    clock,
    redact,
  });
}

async function handover(judged: Judged, options: ReportOptions): Promise<Report> {
  const { handoverReport } = await import("./handover/index.ts");
  const { day, findings, results } = judged;
  return handoverReport({
    day,
    hours: had(results.hours),
    power: had(results.power),
    kit: had(results.kit),
    roads: had(results.roads),
    bookings: had(results.bookings),
    findings,
    say: await wordsFor(judged, options),
    clock: options.clock ?? null,
    now: options.now ?? null,
    redact: options.redact ?? false,
  });
}

async function now(judged: Judged, options: ReportOptions): Promise<Report> {
  const { nowReport } = await import("./now/index.ts");
  const { day, findings, results } = judged;
  return nowReport({
    day,
    judged,
    against: options.against ?? null,
    power: had(results.power),
    findings,
    say: await wordsFor(judged, options),
    clock: options.clock ?? null,
    at: options.now ?? day.span.from,
    person: options.person ?? null,
    redact: options.redact ?? false,
  });
}

async function asrun(judged: Judged, options: ReportOptions): Promise<Report> {
  const { asrunReport } = await import("./asrun/index.ts");
  const { clock = null, person = null, redact = false, daysBefore = 0 } = options;
  const days = judged.days.slice(-1 - daysBefore);
  const plans = (options.plans ?? judged.days.map(({ plan }) => plan)).slice(-1 - daysBefore);
  return asrunReport({
    days,
    plans,
    power: had(judged.results.power),
    findings: judged.findings,
    say: await wordsFor(judged, options),
    clock,
    person,
    redact,
  });
}

async function repair(judged: Judged, options: ReportOptions): Promise<Report> {
  const { NOTHING_SEARCHED, repairReport } = await import("./repair/index.ts");
  const say = await wordsFor(judged, options);
  const { repairs = NOTHING_SEARCHED, redact = false } = options;
  return repairReport({ ...repairs, day: judged.day, findings: judged.findings, say, redact });
}

/** From the moment asked about, else from the first call of the day. */
async function endurance(judged: Judged, options: ReportOptions): Promise<Report> {
  const [{ enduranceReport }, { enduranceOf }, { NO_ANSWERS }] = await Promise.all([
    import("./endurance/index.ts"),
    import("../endurance/index.ts"),
    import("../roads/index.ts"),
  ]);
  const { day, days, results, findings } = judged;
  const { person = null, clock = null, now = null, routed = NO_ANSWERS, patience = 1 } = options;
  const first = day.people.flatMap(({ call }) => call ?? []).toSorted((a, b) => a - b)[0];
  const { hours: judgedHours, power: judgedPower, roads } = results;
  const at = now ?? first ?? day.span.from;
  const result = await enduranceOf({ days, at, hours: judgedHours, power: judgedPower, roads, routed, patience });
  return enduranceReport(day, await wordsFor(judged, options), { result, findings, clock, person });
}

async function timecard(judged: Judged, options: ReportOptions): Promise<Report> {
  const [{ timecardReport }, { timecards }] = await Promise.all([
    import("./timecard/index.ts"),
    import("../hours/pay/timecard.ts"),
  ]);
  const { days, findings } = judged;
  const cards = rowsByCall(timecards(days), ({ id }) => id, judged.day.people);
  return timecardReport(days, cards, findings, await wordsFor(judged, options), options.person ?? null);
}

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

const sheet = async (judged: Judged, options: ReportOptions): Promise<Report> =>
  (await import("./sheet/index.ts")).sheetReport(await sheetView(judged, options));

/** Of the rotation, or of what may fly. */
async function powerSchema(): Promise<Shape> {
  const [{ ROTATION_DATA }, { FLY_DATA }] = await Promise.all([import("./power/data.ts"), import("./power/fly.ts")]);
  return { anyOf: [ROTATION_DATA.schema, FLY_DATA.schema] };
}

/** All reports of a judged day. */
export const REPORTS = {
  calls: { topics: [], make: calls, data: async () => (await import("./calls/rows.ts")).CALLS_DATA.schema },
  hours: { topics: ["hours"], make: hours, data: async () => (await import("./hours/rows.ts")).HOURS_DATA.schema },
  power: { topics: ["power"], make: power, data: powerSchema },
  drives: { topics: ["roads"], make: drives, data: async () => (await import("./drives/rows.ts")).DRIVES_DATA.schema },
  light: { topics: ["sky"], make: light, data: async () => (await import("./light/rows.ts")).LIGHT_DATA.schema },
  signal: { topics: ["signal"], make: signal, data: async () => (await import("./signal/rows.ts")).SIGNAL_DATA.schema },
  kit: { topics: ["kit"], make: kit, data: async () => (await import("./kit/index.ts")).KIT_DATA.schema },
  check: { topics: TOPICS, make: check, data: async () => (await import("./check/index.ts")).CHECK_DATA.schema },
  repair: { topics: TOPICS, make: repair, data: async () => (await import("./repair/index.ts")).REPAIR_DATA.schema },
  now: { topics: TOPICS, make: now, data: async () => (await import("./now/index.ts")).NOW_DATA.schema },
  asrun: { topics: ["power"], make: asrun, data: async () => (await import("./asrun/rows.ts")).ASRUN_DATA.schema },
  handover: {
    topics: TOPICS,
    make: handover,
    data: async () => (await import("./handover/index.ts")).HANDOVER_DATA.schema,
  },
  bookings: {
    topics: ["bookings"],
    make: bookings,
    data: async () => (await import("./bookings/index.ts")).BOOKINGS_DATA.schema,
  },
  changes: {
    topics: TOPICS,
    make: changes,
    data: async () => (await import("./changes/index.ts")).CHANGES_DATA.schema,
  },
  compare: {
    topics: TOPICS,
    make: compare,
    data: async () => (await import("./compare/index.ts")).COMPARE_DATA.schema,
  },
  endurance: {
    topics: ["hours", "power", "roads"],
    make: endurance,
    data: async () => (await import("./endurance/rows.ts")).ENDURANCE_DATA.schema,
  },
  sheet: { topics: TOPICS, make: sheet, data: async () => (await import("./sheet/data.ts")).SHEET_DATA.schema },
  timecard: {
    topics: [],
    make: timecard,
    data: async () => (await import("./timecard/index.ts")).TIMECARD_DATA.schema,
  },
} as const satisfies Readonly<Record<string, ReportMaker>>;

/** The name of a report. */
export type ReportName = keyof typeof REPORTS;

const isReport = (name: string): name is ReportName => name in REPORTS;

/** Commands whose JSON has a schema. */
export const described = (): readonly string[] => [...Object.keys(REPORTS), "explain"];

/** The JSON Schema of one command's answer; null for a command that has none. */
export async function schemaOf(command: string): Promise<Shape | null> {
  const { answerSchema } = await import("./shared/envelope.ts");
  if (command === "explain") return answerSchema(command, (await import("./explain/index.ts")).EXPLAIN_DATA.schema);
  return isReport(command) ? answerSchema(command, await REPORTS[command].data()) : null;
}
