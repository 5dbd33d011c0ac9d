/** What commands over plans share: open each plan, judge what is asked, report, print, and come to one exit code. */
import type { Command } from "commander";
import {
  answers as answerParts,
  type Finding,
  type Json,
  type Judged,
  type JudgeEdits,
  judge,
  makeReport,
  REPORTS,
  type Report,
  type ReportName,
  type ReportOptions,
  hints as soundHints,
  TOPICS,
  type Topic,
  tryEdits,
} from "../../index.ts";
import type { MapForm, OutputForm, SheetForm } from "../../render/form.ts";
import type { CommandFile, Invocation } from "../command.ts";
import { EXIT, type ExitCode, worst } from "../exit.ts";
import { planFiles, readSource } from "../io/source.ts";
import { plansIn } from "../io/targets.ts";
import { chooseForm, deliver, note, noteStyle, printed } from "../output.ts";
import { type LoadedPlan, loadSource, type PlanContext } from "./load.ts";

/** What most chats take as one message. */
const CHAT_LETTERS = 1500;

/** `--parts` of commands that have a chat message. */
export const partsOption = (command: Command): Command =>
  command.option("--parts", "split the chat message into numbered ones of 1,500 characters, with nothing left out");

/** A command over plans: its report by name, and what its flags add to it. */
export interface PlanCommand {
  readonly name: ReportName;
  /** Where help lists it among the others. */
  readonly place: number;
  readonly summary: string;
  readonly more?: string;
  /** The command's own flags. */
  configure?(command: Command): void;
  /** The report's own options, from the command's own flags. */
  options?(asked: ReportRequest): Promise<ReportOptions>;
  /** The machine that the command sees for one of its plans, where that is not the plain one. */
  seen?(invocation: Invocation, argument: string): Promise<Invocation>;
  /** The command's own exit status, where it is not that of the findings. */
  exit?(asked: ReportRequest): ExitCode;
  /** The answer is about the clock: `--watch` runs it again each minute. */
  readonly everyMinute?: true;
  /** False where the report itself says what is found, and standard error need not. */
  readonly printsFindings?: false;
  /** Takes folders as the plans in them, and those logs that it answers; CSV then says of every row whose it is. */
  readonly folders?: true;
  /** Answers to a text that is no plan, such as a log; null where it is for the usual way. */
  instead?(invocation: Invocation, file: string | null, text: string): Promise<PlanOutcome | null>;
  /** Prints a form that is not made from the report. */
  own?(form: SheetForm | MapForm, asked: ReportRequest): Promise<string>;
}

/** One plan, judged, and how it was asked for. */
export interface ReportRequest {
  readonly loaded: LoadedPlan;
  readonly judged: Judged;
  readonly invocation: Invocation;
  /** How its report is made. */
  readonly options: ReportOptions;
}

/** One plan's outcome. */
export interface PlanOutcome {
  readonly context: PlanContext;
  readonly findings: readonly Finding[];
  /** Null where the plan was refused, and where a form of the command's own needs none. */
  readonly report: Report | null;
  /** In a form of the command's own. */
  readonly text?: string;
  readonly exit: ExitCode;
  /** Whether its notes are printed as well: of a log, which `check` does not read. */
  readonly notes?: true;
}

/** A command that prints one report for each plan. */
export function planCommand(spec: PlanCommand): CommandFile {
  return {
    name: spec.name,
    place: spec.place,
    summary: spec.summary,
    watches: true,
    ...(spec.everyMinute === true ? { everyMinute: true as const } : {}),
    forms: true,
    ...(spec.more === undefined ? {} : { more: spec.more }),
    build(command) {
      const folders = spec.folders === true ? "plan files or folders of them" : "plan files";
      command.argument("<plan...>", `${folders}; - reads one from standard input`);
      spec.configure?.(command);
    },
    run: (invocation) => runReports(spec, invocation),
  };
}

async function runReports(spec: PlanCommand, invocation: Invocation): Promise<ExitCode> {
  const { io, options } = invocation;
  const args = spec.folders === true ? await plansIn(invocation) : invocation.args;
  const form = chooseForm(spec.name, invocation);
  const answers: PlanOutcome[] = [];
  for (const argument of args) answers.push(await answer(spec, invocation, argument, form));
  const exit = answers.map((one) => one.exit).reduce(worst, EXIT.done);
  if (form.name !== "json")
    await printFindings(
      invocation,
      answers.filter(({ report, text }) => spec.printsFindings !== false || (report === null && text === undefined)),
    );
  const text = await wholeText(spec, invocation, form, answers);
  if (form.name === "chat" && invocation.own["parts"] !== true && text.length > CHAT_LETTERS)
    note(io, options, `the message has ${text.length} characters; --parts splits it`);
  if (text !== "") deliver(io, options, text);
  return exit;
}

async function answer(spec: PlanCommand, plain: Invocation, argument: string, form: OutputForm): Promise<PlanOutcome> {
  const invocation = (await spec.seen?.(plain, argument)) ?? plain;
  const source = await readSource(invocation.io, argument, invocation.options.name);
  const instead = source.ok ? ((await spec.instead?.(invocation, source.file, source.text)) ?? null) : null;
  if (instead !== null) return instead;
  const loaded = await loadSource(invocation, source);
  if (!loaded.ok) return { context: loaded, findings: loaded.findings, report: null, exit: EXIT.input };
  if (spec.name !== "sheet") await crewOnly(loaded, invocation);
  const { topics } = REPORTS[spec.name];
  // Where the report itself says what is found, only programs read what a finding suggests.
  const hints = spec.printsFindings !== false || form.name === "json";
  const judged = await judgeLoaded(loaded, invocation, { topics, hints });
  const common = { loaded, judged, invocation, options: reportOptions(loaded, invocation) };
  const asked: ReportRequest = { ...common, options: { ...common.options, ...(await spec.options?.(common)) } };
  const exit = spec.exit?.(asked) ?? (await exitOf(judged.findings, invocation));
  if ((form.takes === "sheet" || form.takes === "map") && spec.own !== undefined) {
    const text = await spec.own(form, asked);
    return { context: loaded, findings: judged.findings, report: null, text, exit };
  }
  return {
    context: loaded,
    findings: judged.findings,
    report: await makeReport(spec.name, judged, asked.options),
    exit,
  };
}

/** A vehicle, a hit or a place has a sheet of its own and nothing else. */
async function crewOnly({ plan }: LoadedPlan, { options }: Invocation): Promise<void> {
  const { personFlag } = await import("./planFlags.ts");
  personFlag(options.person, [...plan.crew.keys()], "this plan's crew");
}

/** What the common flags say of every report. */
export const reportOptions = (loaded: LoadedPlan, { options }: Invocation): ReportOptions => ({
  person: options.person,
  clock: loaded.clock,
  style: loaded.style,
  redact: options.redact,
  routed: loaded.routed,
});

/** What is judged of a plan: by all engines, and with what each finding suggests, unless it is said otherwise. */
interface Judging {
  readonly topics?: readonly Topic[];
  readonly hints?: boolean;
}

/** Judges a loaded plan; the reading's own warnings are among the findings. `--for` leaves out what is another's alone. */
export async function judgeLoaded(
  loaded: LoadedPlan,
  { io, options }: Invocation,
  { topics, hints = true }: Judging = {},
): Promise<Judged> {
  const { patience, redact } = options;
  const person = options.person !== null && loaded.plan.crew.has(options.person) ? options.person : null;
  const asked = { patience, person, ...(topics === undefined ? {} : { topics }) };
  const judged = await judge(loaded, asked);
  // What a finding suggests is tried before it is printed, by every engine and for everybody.
  const { withSoundHints } = await soundHints();
  const isWhole = person === null && (topics === undefined || TOPICS.every((topic) => topics.includes(topic)));
  const { text, file } = loaded;
  const files = planFiles(io);
  const trial: JudgeEdits = (made, scope) => tryEdits(loaded, made, { text, file, files, patience, ...scope });
  const findings = hints ? await withSoundHints(judged, text, trial, isWhole) : judged.findings;
  return { ...judged, findings: redact ? findings.map((await answerParts()).redactedFinding) : findings };
}

/** The exit code of findings under `--strict`. */
export async function exitOf(findings: readonly Finding[], { options }: Invocation): Promise<ExitCode> {
  const { counts } = await answerParts();
  return findings.some((finding) => counts(finding, options.strict)) ? EXIT.findings : EXIT.done;
}

/** Prints why a command comes to nothing, and gives its exit code. */
export async function printRefusal(
  invocation: Invocation,
  context: PlanContext,
  findings: readonly Finding[],
  exit: ExitCode = EXIT.input,
): Promise<ExitCode> {
  await printFindings(invocation, [{ context, findings, report: null, exit }]);
  return exit;
}

/** Diagnostics of a command whose report is something else: errors, and a line for each warning unless quieted. Notes are left to `check`, if it reads the file. */
async function printFindings({ io, options }: Invocation, answers: readonly PlanOutcome[]): Promise<void> {
  const lines: string[] = [];
  for (const { context, findings, notes } of answers) {
    const isLoud = ({ level }: Finding): boolean =>
      level === "error" || ((level === "warning" || notes === true) && !options.quiet);
    const loud = findings.filter(isLoud);
    if (loud.length === 0) continue;
    const [{ briefLine, findingLines }, { isolate }, { redacting, joinAlike: together, findingView }] =
      await Promise.all([
        import("../../render/text/findingText.ts"),
        import("../../render/text/printable.ts"),
        answerParts(),
      ]);
    const style = await noteStyle(io, options);
    const how = redacting(options.redact);
    for (const finding of together(loud)) {
      const view = findingView(finding, context.say, how);
      lines.push(...(finding.level === "error" ? findingLines(view, style) : [briefLine(view, style)]).map(isolate));
    }
  }
  if (lines.length > 0) io.stderr.write(`${lines.join("\n")}\n`);
}

async function wholeText(
  { name: command, folders }: PlanCommand,
  { io, options, own }: Invocation,
  form: OutputForm,
  answers: readonly PlanOutcome[],
): Promise<string> {
  if (form.name === "json") {
    const { toJson } = await import("../../render/forms/json.ts");
    return toJson(await jsonOf(command, answers));
  }
  const texts: string[] = [];
  for (const { context, report, text } of answers) {
    if (text !== undefined) texts.push(text);
    if (report === null || form.takes !== "report") continue;
    const stamped = form.name === "csv" && folders === true ? stampedRows(report, context.head) : report;
    texts.push(
      await printed(
        io,
        options,
        form,
        answers.length > 1 ? named(stamped, context.head.file) : stamped,
        own["parts"] === true,
      ),
    );
  }
  return texts.join(form.name === "csv" ? "\r\n" : "\n");
}

/** With several plans each says whose it is. */
const named = (report: Report, file: string | null): Report => ({
  ...report,
  blocks: [{ kind: "heading", text: file ?? "standard input" }, ...report.blocks],
});

/** Every row with the file and the date that it is from: rows of many plans are put into one sheet. */
function stampedRows(report: Report, { file, date }: PlanContext["head"]): Report {
  const cells = [
    { key: "date", text: date ?? "" },
    { key: "file", text: file ?? "" },
  ];
  const blocks = report.blocks.map((block): Report["blocks"][number] => {
    if (block.kind !== "table") return block;
    const added = cells.filter(({ key }) => !block.columns.some((column) => column.key === key));
    return {
      ...block,
      columns: [...block.columns, ...added.map(({ key }) => ({ key, label: key, align: "left" as const }))],
      rows: block.rows.map((row) => [...row, ...added.map(({ text }) => ({ text }))]),
    };
  });
  return { ...report, blocks };
}

/** One envelope, or one around those of several plans. */
export async function jsonOf(command: string, answers: readonly PlanOutcome[]): Promise<Json> {
  const each: Json[] = [];
  for (const one of answers) each.push(await envelopeOf(command, one));
  const [only] = each;
  const ok = answers.every((one) => one.exit === EXIT.done);
  return each.length === 1 && only !== undefined ? only : several(command, ok, each);
}

/** The envelope of one plan's outcome. */
export async function envelopeOf(command: string, { context, findings, report, exit }: PlanOutcome): Promise<Json> {
  const { envelope } = await answerParts();
  return envelope({
    command,
    plan: context.head,
    ok: exit === EXIT.done,
    findings,
    data: report?.data ?? null,
    form: context.form,
  });
}

/** The envelope around several. */
export async function several(command: string, ok: boolean, plans: readonly Json[]): Promise<Json> {
  return (await answerParts()).envelopes(command, ok, plans);
}
