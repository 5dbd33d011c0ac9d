/** From a plan's name to its chain of days; whatever is mistaken on the way is a refusal with its findings. */
import type { Day } from "../../day/day.ts";
import type { Finding, Say } from "../../findings/finding.ts";
import type { RoutedAnswers } from "../../legs/legs.ts";
import type { Plan } from "../../plan/plan.ts";
import type { FindingForm, PlanHead } from "../../reports/shared/envelope.ts";
import type { Instant, ZoneId } from "../../time/units.ts";
import type { Invocation } from "../command.ts";
import type { Io } from "../io/io.ts";
import type { RoutingAnswer } from "../io/routing.ts";
import { planFiles, readSource, type Source } from "../io/source.ts";

/** What every outcome needs to be told. */
export interface Told {
  readonly file: string | null;
  readonly head: PlanHead;
  readonly say: Say;
  readonly form: FindingForm;
}

export interface Opened extends Told {
  readonly ok: true;
  readonly plan: Plan;
  /** Oldest first; the last is the plan's own. */
  readonly days: readonly Day[];
  readonly day: Day;
  /** A routing server's answers for the plan's own day; empty where it names none. */
  readonly routed: RoutedAnswers;
  /** Warnings and notes of the reading itself. */
  readonly findings: readonly Finding[];
  /** The clock that stands in for the control room's; null where the plan's own is shown. */
  readonly clock: ZoneId | null;
  readonly now: Instant | null;
}

export interface Refused extends Told {
  readonly ok: false;
  readonly findings: readonly Finding[];
}

/** Opens the plan that `argument` names. Throws a usage failure for flags that do not fit it. */
export async function openPlan(invocation: Invocation, argument: string): Promise<Opened | Refused> {
  return openSource(invocation, await readSource(invocation.io, argument, invocation.options.name));
}

/** Opens a plan that was read, or refuses one that could not be. */
export const openSource = (invocation: Invocation, source: Source): Promise<Opened | Refused> =>
  source.ok ? openText(invocation, source.file, source.text) : unreadable(source);

/** Opens a plan whose text is already read. `disk` is what its file holds; null where it is yet to be written. */
export async function openText(
  invocation: Invocation,
  file: string | null,
  text: string,
  disk: string | null = text,
): Promise<Opened | Refused> {
  const { set } = invocation.options;
  const edited =
    set.length === 0 ? text : await (await import("./edits.ts")).editedText(invocation.io, file, text, set);
  const reading = await readDays(invocation, file, edited, disk);
  const plans = invocation.options.redact ? await untitled(reading.plans) : reading.plans;
  const findings = [...reading.findings];
  if (plans === null) return (await logRefused(file, edited)) ?? refused(file, findings);
  const { legsOf } = await import("../../legs/legs.ts");
  const links = [];
  let routed: RoutedAnswers = new Map();
  for (const plan of plans) {
    const answer = await routedFor(invocation.io, plan);
    routed = answer.routed;
    findings.push(...news(findings, answer.findings).map((finding) => located(finding, plan)));
    links.push({ plan, legs: await legsOf(plan, routed) });
  }
  const { computeChain } = await import("../../day/chain.ts");
  const plan = plans.at(-1);
  const now = plan === undefined ? null : await nowFlag(invocation, plan);
  const chain = computeChain(links, now);
  const day = chain.days.at(-1);
  if (day === undefined || plan === undefined || chain.days.length < plans.length)
    return refused(file, [...findings, ...chain.findings], plan);
  return opened(invocation, file, plan, { days: chain.days, day, findings, routed, now });
}

/** What earlier days of a chain have not said of their roads. */
const news = (told: readonly Finding[], findings: readonly Finding[]): readonly Finding[] =>
  findings.filter(
    ({ code, facts }) =>
      !told.some((other) => other.code === code && JSON.stringify(other.facts) === JSON.stringify(facts)),
  );

/** A title is in the head of every report; what it says of numbers is left out of all of them here. */
async function untitled(plans: readonly Plan[] | null): Promise<readonly Plan[] | null> {
  const { withoutContacts } = await import("../../reports/shared/redact.ts");
  return plans?.map((plan) => (plan.title === null ? plan : { ...plan, title: withoutContacts(plan.title) })) ?? null;
}

/** A log where a plan was asked for: one line that says so, in place of all that it lacks as a plan. */
async function logRefused(file: string | null, text: string): Promise<Refused | null> {
  const { looksLikeLog } = await import("../../plan/log/read.ts");
  if (!looksLikeLog(text)) return null;
  const { planUnreadable } = await import("../../reports/shared/findings.ts");
  return refused(file, [
    planUnreadable.raise({
      file: file ?? "standard input",
      reason: "it is a log, which `hours` and `timecard` read",
      near: [],
    }),
  ]);
}

/** `--now`, as the plan writes times; null where it is not given. */
async function nowFlag({ options }: Invocation, plan: Plan): Promise<Instant | null> {
  if (options.now === null) return null;
  const [{ instantFlag }, { plainSay }] = await Promise.all([
    import("./planFlags.ts"),
    import("../../reports/shared/wording.ts"),
  ]);
  return instantFlag("--now", options.now, plan, plainSay);
}

const NOT_ROUTED = { routed: new Map(), findings: [] } as const;

/** A routing server's answers for a plan that names one; what it asks to keep is written beside it. */
async function routedFor(io: Io, plan: Plan): Promise<Pick<RoutingAnswer, "routed" | "findings">> {
  if (plan.routing === null) return NOT_ROUTED;
  const { askForPlan } = await import("../io/routingEdge.ts");
  return askForPlan(io, plan);
}

/** The plan and the days before it. Only a plan that accepts findings needs the catalogue, which is large. */
async function readDays(invocation: Invocation, file: string | null, text: string, disk: string | null) {
  const { acceptMistakes, readChain } = await import("../../plan/index.ts");
  const chain = await readChain(text, { file, files: planFiles(invocation.io), disk });
  const accepting = chain.plans?.filter((plan) => plan.accept.length > 0) ?? [];
  if (accepting.length === 0) return chain;
  const { catalogue } = await import("../../findings/catalogue.ts");
  const known = await catalogue();
  const mistakes = accepting.flatMap((plan) => acceptMistakes(plan, known));
  return mistakes.length === 0 ? chain : { plans: null, findings: [...chain.findings, ...mistakes] };
}

async function unreadable({ file, reason, near }: Extract<Source, { ok: false }>): Promise<Refused> {
  const { planUnreadable } = await import("../../reports/shared/findings.ts");
  return refused(file, [planUnreadable.raise({ file: file ?? "standard input", reason, near })]);
}

/** A finding with the line of the plan that it is about. */
const located = (finding: Finding, plan: Plan): Finding =>
  finding.span !== null || finding.path === null ? finding : { ...finding, span: plan.source.locate(finding.path) };

/** A refusal with the findings that led to it, located in the plan where there is one. */
export async function refused(
  file: string | null,
  findings: readonly Finding[],
  plan: Plan | null = null,
): Promise<Refused> {
  const { plainSay, sayOf } = await import("../../reports/shared/wording.ts");
  const say = plan === null ? plainSay : sayOf(plan);
  const form: FindingForm = { say, zoneAt: () => null, locate: () => null, file };
  const head: PlanHead = { file, title: null, date: null, clock: null };
  const placed = plan === null ? findings : findings.map((finding) => located(finding, plan));
  return { ok: false, file, head, say, form, findings: placed };
}

type Computed = Pick<Opened, "days" | "day" | "findings" | "routed" | "now">;

async function opened({ options }: Invocation, file: string | null, plan: Plan, computed: Computed): Promise<Opened> {
  const [{ sayOf }, { findingZone }, { clockFlag, personFlag }] = await Promise.all([
    import("../../reports/shared/wording.ts"),
    import("../../reports/shared/stamps.ts"),
    import("./planFlags.ts"),
  ]);
  const { clock, style } = clockFlag(options.clock, plan.labels);
  personFlag(options.person, [...plan.crew.keys()], "this plan's crew");
  const say = sayOf(plan, { clock, ...(style === null ? {} : { style }) });
  return {
    ok: true,
    file,
    head: {
      file,
      title: plan.title,
      date: plan.date,
      clock: plan.clock,
    },
    say,
    form: {
      say,
      zoneAt: (at, finding) => findingZone(computed.day, at, finding),
      locate: (path) => plan.source.locate(path),
      file,
    },
    plan,
    ...computed,
    clock,
  };
}
