/** `log PLAN [WORDS…]`: writes what really happened into the plan, or asks for it one by one. */
import { authoring, type Edit, edits as editParts, type Instant, type Plan, times as timeParts } from "../../index.ts";
import { printable } from "../../render/text/printable.ts";
import { type CommandFile, type Invocation, ownFlag } from "../command.ts";
import { EXIT, type ExitCode, usage } from "../exit.ts";
import { readSource } from "../io/source.ts";
import { note, putFile } from "../output.ts";
import { type LoadedPlan, type LoadFailure, loadSource, loadText } from "../plan/load.ts";
import { printRefusal } from "../plan/planCommand.ts";

/** The command `log`. */
export const logCommand: CommandFile = {
  name: "log",
  place: 170,
  summary: "write what really happened into the plan",
  more: [
    "Examples:",
    "  daywright log day.yaml wren released 21:10",
    "  daywright log day.yaml dawn.2 at 06:04",
    "  daywright log day.yaml wagon.2 left 09:40 CT",
    "  daywright log day.yaml brick.1 35% 10:25",
    "  daywright log day.yaml wren released -      take it back",
    "Without words it asks, at a terminal. A time without a clock is the control room's, as in the plan.",
    "A charge or a tank without a time was so at the moment of logging.",
  ].join("\n"),
  build(command) {
    command
      // `22:40 -1d` is a time, not an option.
      .allowUnknownOption()
      .argument("<plan>", "the plan file")
      .argument("[words...]", "an id, what happened, its value")
      .option("-n, --dry-run", "print the changed plan and write nothing");
  },
  prints: "text",
  run,
};

async function run(invocation: Invocation): Promise<ExitCode> {
  const { io, args } = invocation;
  const [plan = "", ...words] = args;
  const unknown = words.find((word) => /^-./.test(word) && !/^-\d{1,2}d$/.test(word));
  if (unknown !== undefined) throw usage(`unknown option '${unknown}'`, "daywright log --help");
  if (invocation.options.output !== null)
    throw usage(
      "log writes into the plan, and has no --output",
      "--dry-run prints the changed plan and writes nothing",
    );
  if (plan === "-") throw usage("log writes into a file, and standard input is none", "name the plan's file");
  if (words.length > 0) return (await logOne(invocation, plan, words)).exit;
  if (!io.stdin.isTty) throw usage("log asks at a terminal only", "daywright log day.yaml wren released 21:10");
  return atTerminal(invocation, plan);
}

/** Asks what happened until nothing more is answered; a plan that cannot be read is refused before anything is asked. */
async function atTerminal(invocation: Invocation, plan: string): Promise<ExitCode> {
  const { io, options } = invocation;
  const loaded = await loadSource(invocation, await readSource(io, plan, options.name));
  if (!loaded.ok) return (await refuse(invocation, loaded)).exit;
  const [someone = "wren"] = loaded.plan.crew.keys();
  note(io, options, `  such as: ${someone} released 21:10   (empty: done; back: undo)`);
  const logged: Change[] = [];
  for (;;) {
    const answer = (await io.ask("What happened?", "")).trim();
    if (answer === "") return EXIT.done;
    if (answer.toLowerCase() === "back") await takeBack(invocation, plan, logged);
    else {
      const { change } = await logOne(invocation, plan, answer.split(/\s+/));
      if (change !== null) logged.push(change);
    }
  }
}

/** One entry as it was typed, and the plan's text before it and with it. */
interface Change {
  readonly words: string;
  readonly before: string;
  readonly after: string;
}

/** What logging one thing came to; `change` is null where nothing was written. */
interface Logged {
  readonly exit: ExitCode;
  readonly change: Change | null;
}

/** Puts the file back as it was before the last entry of this conversation, unless someone else has changed it. */
async function takeBack({ io, options }: Invocation, argument: string, logged: Change[]): Promise<void> {
  const last = logged.pop();
  if (last === undefined) {
    io.stderr.write("error: nothing was logged here yet\n");
    return;
  }
  const source = await readSource(io, argument, options.name);
  if (!source.ok || source.text !== last.after) {
    io.stderr.write(`error: ${printable(argument)} was changed meanwhile, and \`${printable(last.words)}\` stays\n`);
    return;
  }
  putFile(io, argument, last.before, { replace: true, over: source.bytes });
  note(io, options, `taken back: ${last.words}`);
}

async function logOne(invocation: Invocation, argument: string, words: readonly string[]): Promise<Logged> {
  const { io, options } = invocation;
  const source = await readSource(io, argument, options.name);
  if (!source.ok) throw usage(`${argument}: ${source.reason}`, source.near.join(" or ") || null);
  const loaded = await loadSource(invocation, source);
  if (!loaded.ok) return refuse(invocation, loaded);
  const said = await timesWritten(words, loaded.plan, io.now());
  const { record } = await authoring();
  const recorded = record(loaded.plan, said, await momentOf(loaded.plan, io.now()));
  if (recorded.ok && (await isMissing(loaded, source.text, recorded.edits)))
    throw usage(`nothing of \`${words.slice(0, -1).join(" ")}\` is logged in ${argument}`);
  if (!recorded.ok) return refuse(invocation, { ...loaded, ok: false, findings: [recorded.finding] }, EXIT.usage);
  const text = await edited(loaded, source.text, recorded.edits);
  if (typeof text !== "string") return refuse(invocation, text);
  const checked = await loadText(invocation, source.file, text, source.text);
  if (!checked.ok) return refuse(invocation, checked);
  const understood = await echo(checked, words, recorded.edits);
  if (ownFlag(invocation, "dryRun")) {
    io.stdout.write(text);
    note(io, options, `not written: ${understood}`);
  } else {
    putFile(io, argument, text, { replace: true, over: source.bytes });
    note(io, options, `logged in ${argument}: ${understood}`);
  }
  const change = ownFlag(invocation, "dryRun") ? null : { words: words.join(" "), before: source.text, after: text };
  return { exit: EXIT.done, change };
}

/** An instant as `log` writes it: with its date and offset, on the plan's control room's clock. */
async function written(at: Instant, { clock }: Plan): Promise<string> {
  const { isoLocal } = await timeParts();
  return isoLocal(at, clock);
}

/** The moment of logging as the plan writes it; null where the plan is of other days, which is then logged without one. */
async function momentOf(plan: Plan, milliseconds: number): Promise<string | null> {
  const { dayNumber, localDay, machineInstant } = await timeParts();
  const now = machineInstant("now", milliseconds);
  if (now === null) return null;
  const days = localDay(now, plan.clock) - dayNumber(plan.date);
  return days < -1 || days > plan.untilDays + 2 ? null : written(now, plan);
}

/** The words with `now` and epoch seconds, as scripts write times, in the plan's own form; a note keeps its words. */
async function timesWritten(words: readonly string[], plan: Plan, milliseconds: number): Promise<readonly string[]> {
  const { machineInstant } = await timeParts();
  const last = words.at(-1) ?? "";
  const at = words.length < 2 || words[1] === "note" ? null : machineInstant(last, milliseconds);
  return at === null ? words : [...words.slice(0, -1), await written(at, plan)];
}

/** What was typed, and each time in it as the plan now reads it: on both clocks, with its date. */
async function echo({ day, plan, say }: LoadedPlan, words: readonly string[], edits: readonly Edit[]): Promise<string> {
  const [{ loggedTime }, { localDay, shortDateOf }] = await Promise.all([authoring(), timeParts()]);
  const times = edits.flatMap(({ path, value }) => (value === null ? [] : (loggedTime(day, path) ?? [])));
  const read = times.map(({ at, place }) => {
    const [date, time] = [shortDateOf(localDay(at, plan.clock)), say.time(at, place)];
    // A time of another day has its weekday already.
    return `${time.startsWith(date.slice(0, 3)) ? date.slice(4) : date}, ${time}`;
  });
  return [words.join(" "), ...new Set(read)].join(" = ");
}

/** Whether an entry is to be taken back that is not there. */
async function isMissing({ file }: LoadedPlan, text: string, edits: readonly Edit[]): Promise<boolean> {
  const { states } = await editParts();
  return edits.some(({ path, value }) => value === null && !states(text, path, file));
}

/** The text with the edits made, an entry taken back with the maps it leaves empty. */
async function edited(loaded: LoadedPlan, text: string, edits: readonly Edit[]): Promise<string | LoadFailure> {
  const { applyEdits, pruned } = await editParts();
  const whole = edits.map((edit) =>
    edit.value === null ? { ...edit, path: pruned(text, edit.path, loaded.file) } : edit,
  );
  const made = applyEdits(text, whole, { file: loaded.file, create: true });
  return made.text ?? { ...loaded, ok: false, findings: made.findings };
}

async function refuse(invocation: Invocation, context: LoadFailure, exit: ExitCode = EXIT.input): Promise<Logged> {
  return { exit: await printRefusal(invocation, context, context.findings, exit), change: null };
}
