/** From a plan's name to its chain of days; whatever is mistaken on the way is a refusal with its findings. */
import {
  answers,
  type ClockStyle,
  type Finding,
  type FindingForm,
  type Instant,
  type Plan,
  type PlanHead,
  readPlan,
  type SolvedDay,
  solveDay,
  type Wording,
  type ZoneId,
} from "../../index.ts";
import { type Invocation, ownText } from "../command.ts";
import { planFiles, type ReadSource, readSource } from "../io/source.ts";

/** What every outcome is printed with: whose it is, its words, and how its findings are written. */
export interface PlanContext {
  readonly file: string | null;
  readonly head: PlanHead;
  readonly say: Wording;
  readonly form: FindingForm;
}

/** A plan that was read, with its computed days. */
export interface LoadedPlan extends PlanContext, SolvedDay {
  readonly ok: true;
  /** The text that was read, edits of `--set` made. */
  readonly text: string;
  /** The clock that stands in for the control room's; null where the plan's own is shown. */
  readonly clock: ZoneId | null;
  /** Whether hours are counted to 12 or to 24; null keeps each zone's usage. */
  readonly style: ClockStyle | null;
}

/** A plan that could not be read, or whose day could not be computed. */
export interface LoadFailure extends PlanContext {
  readonly ok: false;
  readonly findings: readonly Finding[];
}

/** Opens the plan that `argument` names. Throws a usage failure for flags that do not fit it. */
export async function loadPlan(invocation: Invocation, argument: string): Promise<LoadedPlan | LoadFailure> {
  return loadSource(invocation, await readSource(invocation.io, argument, invocation.options.name));
}

/** Opens a plan that was read, or refuses one that could not be. */
export const loadSource = (invocation: Invocation, source: ReadSource): Promise<LoadedPlan | LoadFailure> =>
  source.ok ? loadText(invocation, source.file, source.text) : unreadable(invocation, source);

/** Opens a plan whose text is already read. `disk` is what its file holds; null where it is yet to be written. */
export async function loadText(
  invocation: Invocation,
  file: string | null,
  text: string,
  disk: string | null = text,
): Promise<LoadedPlan | LoadFailure> {
  const { io, options } = invocation;
  const edited =
    options.set.length === 0 ? text : await (await import("./edits.ts")).editedText(io, file, text, options.set);
  const reading = await readPlan(edited, { file, files: planFiles(io), disk, redact: options.redact });
  const shown = await shownName(invocation, file);
  if (!reading.ok) return refusedLoad(shown, reading.findings);
  const now = await nowFlag(invocation, reading.plan);
  const solved = await solveDay(reading, {
    now,
    unedited: now === null ? null : await unedited(invocation, file, text, disk),
    route: async (plan) => (await import("../io/routingEdge.ts")).routesForPlan(io, plan),
  });
  return solved.ok ? loaded(invocation, file, edited, solved) : refusedLoad(shown, solved.findings, solved.plan);
}

/** The plan before the edit that is asked about: without `--set`, or as `--since` names it; null where nothing is edited. */
async function unedited(
  invocation: Invocation,
  file: string | null,
  text: string,
  disk: string | null,
): Promise<Plan | null> {
  const older = ownText(invocation, "since");
  if (older !== null) {
    const before = await (await import("./older.ts")).loadOlder(file, invocation, older, loadPlan);
    return before.ok ? before.plan : null;
  }
  if (invocation.options.set.length === 0) return null;
  const { redact } = invocation.options;
  const reading = await readPlan(text, { file, files: planFiles(invocation.io), disk, redact });
  return reading.ok ? reading.plan : null;
}

/** `--now`, as the plan writes times; null where it is not given. */
async function nowFlag({ io, options }: Invocation, plan: Plan): Promise<Instant | null> {
  if (options.now === null) return null;
  const { instantFlag } = await import("./planFlags.ts");
  return instantFlag("--now", options.now, plan, io.now());
}

async function unreadable(
  invocation: Invocation,
  { file: named, reason, near }: Extract<ReadSource, { ok: false }>,
): Promise<LoadFailure> {
  const file = await shownName(invocation, named);
  const { planUnreadable } = await answers();
  return refusedLoad(file, [planUnreadable.raise({ file: file ?? "standard input", reason, near })]);
}

/** A refusal with the findings that led to it, located in the plan where there is one. */
export async function refusedLoad(
  file: string | null,
  findings: readonly Finding[],
  plan: Plan | null = null,
): Promise<LoadFailure> {
  const { formOfText, headOfText, plainWording, wordingOf } = await answers();
  const say = plan === null ? plainWording : wordingOf(plan);
  return { ok: false, file, head: headOfText(file), say, form: formOfText(say, file), findings };
}

/** A file's name as it is printed. */
async function shownName({ options }: Invocation, file: string | null): Promise<string | null> {
  return file === null || !options.redact ? file : (await answers()).withoutContacts(file);
}

async function loaded(
  invocation: Invocation,
  file: string | null,
  text: string,
  solved: SolvedDay,
): Promise<LoadedPlan> {
  const [{ formOf, headOf, wordingOf }, { clockFlag, personFlag }] = await Promise.all([
    answers(),
    import("./planFlags.ts"),
  ]);
  const { options } = invocation;
  const { plan, day } = solved;
  const shown = await shownName(invocation, file);
  const { clock, style } = await clockFlag(options.clock, plan.labels);
  const { crew, vehicles, hits, places } = plan;
  const things = [...vehicles.keys(), ...hits.keys(), ...places.keys()];
  if (options.person === null || !things.includes(options.person))
    personFlag(options.person, [...crew.keys()], "this plan's crew");
  const say = wordingOf(plan, { people: day.people, clock, ...(style === null ? {} : { style }) });
  return {
    ok: true,
    file,
    text,
    head: headOf(plan, shown),
    say,
    form: formOf(day, say, shown),
    ...solved,
    clock,
    style,
  };
}
