/**
 * The library: a plan's text in; days, judgements, reports and schemas out. Everything that the command line computes, it
 * computes by this file.
 *
 * Nothing here reads a file, a clock, the environment or a network: a reader of files and a routing server's answers are
 * handed in. The same input gives the same output. Instants are whole minutes since 1970-01-01T00:00Z, lengths are
 * minutes, coordinates are [latitude, longitude] in degrees. A mistake in a plan is a finding, never an exception; what is
 * thrown is a bug of the caller, and each function says which. Parts are loaded when they are first needed.
 *
 * @example
 * ```ts
 * import { judge, makeReport, readPlan, solveDay } from "daywright";
 *
 * const reading = await readPlan(text, { file: "2027-01-20.yaml", files });
 * if (!reading.ok) throw new Error(reading.findings.map(({ code }) => code).join(", "));
 * const solved = await solveDay(reading);
 * if (!solved.ok) throw new Error(solved.findings.map(({ code }) => code).join(", "));
 * const report = await makeReport("calls", await judge(solved, { topics: [] }));
 * console.log(JSON.stringify(report.data, null, 2));
 * ```
 */
import type { ChainLink } from "./day/chain.ts";
import type { Day } from "./day/day.ts";
import type { Finding, Wording } from "./findings/finding.ts";
import type { JudgeInput, Judgement } from "./findings/judgement.ts";
import type { RoutedAnswers } from "./legs/legs.ts";
import { acceptMistakesOf, logFinding } from "./library/reading.ts";
import type { Edit } from "./plan/edit/splice.ts";
import type { Plan } from "./plan/plan.ts";
import type { PlanFiles } from "./plan/text/files.ts";
import { type ReportName, reportOf } from "./reports/index.ts";
import { had, type Judged, type Results, TOPICS, type Topic } from "./reports/shared/judged.ts";
import type { ReportOptions } from "./reports/shared/report.ts";
import type { Report } from "./reports/shared/view.ts";
import type { Instant } from "./time/units.ts";

export { editDistance, nearest } from "./findings/nearest.ts";
export * from "./library/parts.ts";
export { isLog } from "./library/reading.ts";
export { schema, schemaNames } from "./library/schemas.ts";
export type * from "./library/types.ts";
export { HELP_PAGES, manualPage, pagesBelow } from "./manual/index.ts";
export { sheetView } from "./reports/index.ts";
export { TOPICS } from "./reports/shared/judged.ts";
export { REPORTS } from "./reports/table.ts";
export { VERSION } from "./version.ts";

/** Where a plan's text is from. */
export interface ReadOptions {
  /** The file's name as its user wrote it, `/` between folders; null for a text without a file. */
  readonly file: string | null;
  /** Reads the files that the plan names, and says which it may not have; without it there are none. */
  readonly files?: PlanFiles;
  /** What the file holds now, if that is not the text: findings then mark lines that no file has. Null: no such file. */
  readonly disk?: string | null;
  /** Leaves out telephone numbers, addresses, bookings and what opens a door, of the plan and of what is found; false by default. */
  readonly redact?: boolean;
}

/** A plan with the days that it follows, or the findings that say why there is none. */
export type PlanReading =
  | {
      readonly ok: true;
      readonly plan: Plan;
      /** The chain along `follows`, oldest first; the last is `plan`. */
      readonly plans: readonly Plan[];
      /** Warnings and notes. */
      readonly findings: readonly Finding[];
    }
  | {
      readonly ok: false;
      /** The plan itself, where it alone is sound and a day that it follows is not. */
      readonly plan: Plan | null;
      readonly findings: readonly Finding[];
    };

/**
 * Reads a plan, the files that it uses and the days that it follows. All mistakes come in one pass, each at its line and
 * column (1-based).
 *
 * @example
 * ```ts
 * import { readPlan } from "daywright";
 *
 * const reading = await readPlan("daywright: 1\ncrwe: {}\n", { file: "day.yaml" });
 * console.log(reading.ok, reading.findings.map(({ code }) => code).includes("key-unknown")); // false true
 * ```
 */
export async function readPlan(text: string, { redact = false, ...options }: ReadOptions): Promise<PlanReading> {
  const reading = await readWhole(text, options);
  if (!redact) return reading;
  const { redactedReading, redactedPlan } = await import("./reports/shared/redact.ts");
  const findings = reading.findings.map(redactedReading);
  if (!reading.ok) return { ...reading, plan: reading.plan === null ? null : redactedPlan(reading.plan), findings };
  const plans = reading.plans.map(redactedPlan);
  return { ...reading, plan: plans.at(-1) ?? redactedPlan(reading.plan), plans, findings };
}

async function readWhole(text: string, options: Omit<ReadOptions, "redact">): Promise<PlanReading> {
  const { readChain } = await import("./plan/index.ts");
  const { plans, plan, findings } = await readChain(text, options);
  if (plans === null || plan === null)
    return { ok: false, plan, findings: (await logFinding(text, options.file)) ?? findings };
  const mistakes = await acceptMistakesOf(plans);
  if (mistakes.length > 0) return { ok: false, plan, findings: [...findings, ...mistakes] };
  return { ok: true, plan, plans, findings };
}

/** What a routing server answers for one plan, and what there is to say of it. */
export interface Routed {
  readonly routed: RoutedAnswers;
  readonly findings: readonly Finding[];
}

/** How a day is solved. */
export interface SolveOptions {
  /** The day is under way: a fact later than this is left aside; null (default) where it is not. */
  readonly now?: Instant | null;
  /** The plan before an edit: what it had begun by `now` stands to its end. Null (default) where nothing was edited. */
  readonly unedited?: Plan | null;
  /** Asks the routing server of a plan that names one (`plan.routing`); without it roads are estimated. */
  route?(plan: Plan): Promise<Routed>;
}

/** A computed day with the days before it, or the findings that say why there is none. */
export type Solving =
  | (SolvedDay & { readonly ok: true })
  | { readonly ok: false; readonly plan: Plan; readonly findings: readonly Finding[] };

/** A computed day. */
export interface SolvedDay {
  readonly plan: Plan;
  readonly day: Day;
  /** The chain along `follows`, oldest first; the last is `day`. */
  readonly days: readonly Day[];
  /** The same days before they were computed. */
  readonly links: readonly ChainLink[];
  /** A routing server's answers for the plan's own day; empty where it names none. */
  readonly routed: RoutedAnswers;
  readonly now: Instant | null;
  /** Of the reading and the roads; those of the day itself are the day's. */
  readonly findings: readonly Finding[];
}

/**
 * Computes every time of a day, worked back from its fixed times, each day of the chain from where the day before it
 * ended.
 *
 * @example
 * ```ts
 * import { readPlan, solveDay } from "daywright";
 *
 * const reading = await readPlan(text, { file: "2027-01-20.yaml", files });
 * const solved = reading.ok ? await solveDay(reading) : null;
 * if (solved?.ok) console.log(solved.day.instants.has("wren.call")); // true
 * ```
 */
export async function solveDay(
  reading: Extract<PlanReading, { ok: true }>,
  { now = null, unedited = null, route }: SolveOptions = {},
): Promise<Solving> {
  const { legsOf, NO_ANSWERS } = await import("./legs/legs.ts");
  const { plan, plans } = reading;
  const findings = [...reading.findings];
  const links = [];
  let routed = NO_ANSWERS;
  for (const one of plans) {
    const answer = one.routing === null ? undefined : await route?.(one);
    routed = answer?.routed ?? NO_ANSWERS;
    findings.push(...unsaid(findings, answer?.findings ?? []).map((finding) => located(one, finding)));
    links.push({ plan: one, legs: await legsOf(one, routed) });
  }
  const { computeChain } = await import("./day/chain.ts");
  const earlier = unedited === null ? null : { plan: unedited, legs: await legsOf(unedited, routed) };
  const chain = computeChain(links, { now, unedited: earlier });
  const day = chain.days.at(-1);
  if (day === undefined || chain.days.length < plans.length)
    return { ok: false, plan, findings: [...findings, ...chain.findings] };
  return { ok: true, plan, day, days: chain.days, links, routed, now, findings };
}

/** What earlier days of a chain have not said of their roads. */
const unsaid = (said: readonly Finding[], findings: readonly Finding[]): readonly Finding[] =>
  findings.filter(
    ({ code, facts }) =>
      !said.some((other) => other.code === code && JSON.stringify(other.facts) === JSON.stringify(facts)),
  );

const located = ({ source }: Plan, finding: Finding): Finding =>
  finding.span !== null || finding.path === null ? finding : { ...finding, span: source.locate(finding.path) };

/** One engine: what it judges, and which earlier results it reads; those are judged for it without their findings. */
interface Step {
  readonly topic: Topic;
  readonly reads: readonly Topic[];
  judge(input: JudgeInput, done: Results): Promise<readonly Finding[]>;
}

/** An engine that keeps its result for later ones. */
const step = <T extends Topic>(
  topic: T,
  reads: readonly Topic[],
  assess: (input: JudgeInput, done: Results) => Promise<Judgement<Results[T]>>,
): Step => ({
  topic,
  reads,
  async judge(input, done) {
    const { result, findings } = await assess(input, done);
    done[topic] = result;
    return findings;
  },
});

/** The engines in the order in which they run. */
const STEPS: readonly Step[] = [
  step("sky", [], async (input) => (await import("./sky/index.ts")).assess(input)),
  step("signal", [], async (input) => (await import("./signal/index.ts")).assess(input)),
  step("power", ["sky"], async (input, done) => {
    const [{ assess }, { bindingRests }, { trackKit }] = await Promise.all([
      import("./power/index.ts"),
      import("./hours/index.ts"),
      import("./kit/index.ts"),
    ]);
    return assess(input, had(done.sky), { boundsOf: bindingRests, gearOf: trackKit });
  }),
  step("hours", [], async (input) => (await import("./hours/index.ts")).assess(input)),
  step("kit", ["sky"], async (input, done) => {
    const [{ assess }, { packStays }] = await Promise.all([import("./kit/index.ts"), import("./power/index.ts")]);
    return assess(input, had(done.sky), done.power === undefined ? null : packStays(done.power));
  }),
  step("cautions", ["sky"], async (input, done) => (await import("./cautions/index.ts")).assess(input, had(done.sky))),
  step("roads", ["sky"], async (input, done) => (await import("./roads/index.ts")).assess(input, had(done.sky))),
  step("bookings", ["kit"], async (input, done) => (await import("./bookings/index.ts")).assess(input, had(done.kit))),
];

/** What is judged of a day. */
export interface JudgeOptions {
  /** All by default; `REPORTS[name].topics` are those that a report needs. */
  readonly topics?: readonly Topic[];
  /** Multiplies the counted budgets of searches; 1 by default. */
  readonly patience?: number;
  /** Leaves out findings that are another person's alone; null (default) keeps all. */
  readonly person?: string | null;
  /**
   * Leaves out what only explains a finding (how much is short, what would do), and takes the first rotation of packs that
   * covers; what no quick search covers counts as not decided. False by default.
   */
  readonly brief?: boolean;
  /** False: the chores of packs are left out unless `topics` asks for the packs; true by default. */
  readonly chores?: boolean;
}

/**
 * Judges the last of the days, every topic in its order, then the plan's `accept`. Findings come worst first. Throws a
 * RangeError without days.
 *
 * @example
 * ```ts
 * import { judge, readPlan, solveDay } from "daywright";
 *
 * const reading = await readPlan(text, { file: "2027-01-20.yaml", files });
 * const solved = reading.ok ? await solveDay(reading) : null;
 * if (solved?.ok) console.log((await judge(solved)).findings.every(({ level }) => level !== "error")); // true
 * ```
 */
export async function judge(
  { days, now = null, findings: before = [] }: Partial<SolvedDay> & Pick<SolvedDay, "days">,
  { topics = TOPICS, patience = 1, person = null, brief = false, chores = true }: JudgeOptions = {},
): Promise<Judged> {
  const day = days.at(-1);
  if (day === undefined) throw new RangeError("no day to judge");
  let input: JudgeInput = { days, patience, now, brief };
  // Swapping packs is work: whatever is judged or printed sees the days with the chores that the rotation asks for.
  const withPacks = chores && days.some(({ plan }) => plan.packs.size > 0);
  const needed = new Set<Topic>(withPacks ? [...topics, "power"] : topics);
  for (const step of [...STEPS].reverse())
    if (needed.has(step.topic)) for (const topic of step.reads) needed.add(topic);
  const done: Results = {};
  const found: Finding[] = [...day.findings];
  for (const step of STEPS) {
    if (!needed.has(step.topic)) continue;
    const findings = await step.judge(input, done);
    if (done.power !== undefined) input = { ...input, days: done.power.days };
    if (topics.includes(step.topic)) found.push(...findings);
  }
  const notJudged = topics.filter((topic) => !STEPS.some((step) => step.topic === topic));
  const complete = topics.length === TOPICS.length && notJudged.length === 0;
  const [{ accepted }, { worstFirst }] = await Promise.all([
    import("./reports/shared/findings.ts"),
    import("./reports/shared/order.ts"),
  ]);
  const all = accepted(day.plan, found, complete).map((finding) => located(day.plan, finding));
  const mine = ({ who }: Finding): boolean => person === null || who === null || who === person;
  return {
    day: input.days.at(-1) ?? day,
    days: input.days,
    results: done,
    findings: worstFirst([...before, ...all]).filter(mine),
    notJudged,
  };
}

/** A version of a plan that is only tried. */
export interface Trial extends Judged {
  /** The whole text with the edits made. */
  readonly text: string;
}

/** Where the text of a solved day is from. */
export interface TrialOptions extends JudgeOptions {
  /** The text that the day was read from. */
  readonly text: string;
  readonly file: string | null;
  readonly files?: PlanFiles;
}

/**
 * Judges a solved day with edits made, brief by default; the days before it are not read again and no server is asked. Null
 * where the edits cannot be made, or what they make is no plan.
 *
 * @example
 * ```ts
 * import { judge, readPlan, solveDay, tryEdits } from "daywright";
 *
 * const reading = await readPlan(text, { file: "2027-01-20.yaml", files });
 * const solved = reading.ok ? await solveDay(reading) : null;
 * if (solved?.ok) {
 *   const edits = [{ path: ["hits", "dawn", "for"], value: "2 min" }];
 *   const trial = await tryEdits(solved, edits, { text, file: "2027-01-20.yaml", files });
 *   console.log(trial === null); // false
 * }
 * ```
 */
export async function tryEdits(
  solved: SolvedDay,
  edits: readonly Edit[],
  { text: before, file, files, ...options }: TrialOptions,
): Promise<Trial | null> {
  const { triedVersion } = await import("./library/trialDays.ts");
  const version = await triedVersion(solved, before, edits, async () => {
    const plans = await import("./plan/index.ts");
    const { text } = plans.applyEdits(before, edits, { file, create: true });
    if (text === null) return null;
    const { plan } = await plans.readOnePlan(text, { file, disk: text, ...(files === undefined ? {} : { files }) });
    if (plan === null || (await acceptMistakesOf([plan])).length > 0) return null;
    const [{ legsOf }, { computeChain }] = await Promise.all([import("./legs/legs.ts"), import("./day/chain.ts")]);
    const links = [...solved.links.slice(0, -1), { plan, legs: await legsOf(plan, solved.routed) }];
    // What has begun by now stands as the plan without the trial's edits has it.
    const last = solved.links.at(-1);
    const unedited = last === undefined ? null : { plan: solved.plan, legs: last.legs };
    const { days } = computeChain(links, { now: solved.now, unedited }, solved.days.slice(0, -1));
    return days.length < links.length ? null : { text, days };
  });
  if (version === null) return null;
  const { text, days } = version;
  const judged = await judge({ days, now: solved.now, findings: solved.findings }, { brief: true, ...options });
  return { ...judged, text };
}

/**
 * Makes one report of a judged day. Throws an Error where a topic that it needs was not judged.
 *
 * @example
 * ```ts
 * import { judge, makeReport, readPlan, REPORTS, solveDay } from "daywright";
 *
 * const reading = await readPlan(text, { file: "2027-01-20.yaml", files });
 * const solved = reading.ok ? await solveDay(reading) : null;
 * if (solved?.ok) {
 *   const judged = await judge(solved, { topics: REPORTS.hours.topics });
 *   console.log((await makeReport("hours", judged, { person: "wren" })).command); // hours
 * }
 * ```
 */
export const makeReport = (name: ReportName, judged: Judged, options: ReportOptions = {}): Promise<Report> =>
  reportOf(name, judged, options);

/** The `check` report of a plan that was refused: its findings, in the words given. */
export async function refusalReport(
  findings: readonly Finding[],
  { say, ...options }: { readonly say: Wording } & Pick<ReportOptions, "redact" | "least" | "long">,
): Promise<Report> {
  const { checkReport } = await import("./reports/check/index.ts");
  const { blocks } = checkReport({ findings, notJudged: [], say, redact: false, ...options, computed: false });
  return { command: "check", blocks, data: null, findings, say };
}
