/** `check PLAN…`: all findings, worst first; many files and folders at once. */
import { resolve } from "node:path";
import { Option } from "commander";
import type { Claim } from "../../index.ts";
import type { CheckedPiece, CheckTarget } from "../check/pool.ts";
import type { Sink } from "../check/sinks.ts";
import { type CommandFile, type Invocation, ownFlag, ownText } from "../command.ts";
import { EXIT, type ExitCode, usage, worst } from "../exit.ts";
import type { Io } from "../io/io.ts";
import { Progress } from "../io/progress.ts";
import { targetsOf } from "../io/targets.ts";
import { chooseForm, note, sinkOf } from "../output.ts";

const LEVELS = ["error", "warning", "note"];

/** The command `check`. */
export const checkCommand: CommandFile = {
  name: "check",
  place: 90,
  summary: "print all findings, worst first",
  watches: true,
  forms: true,
  more: "Folders and patterns are searched for plans of days.",
  build: (command) => {
    command
      .argument("[plan...]", "plan files, folders or patterns; - reads one from standard input")
      .option("--staged", "check the plans that the next Git commit touches, as it will contain them")
      .option("--long", "print notes with the plan's line and what to do; otherwise one line each")
      .addOption(new Option("--level <level>", "print only these findings and worse").choices(LEVELS));
  },
  run,
};

async function run(invocation: Invocation): Promise<ExitCode> {
  const { io, options } = invocation;
  const [{ sinkFor }, { comparePieces }] = await Promise.all([import("../check/sinks.ts"), import("../check/one.ts")]);
  const { name: form } = chooseForm("check", invocation);
  const { targets, io: outside } = await toCheck(invocation);
  const many = targets.length > 1;
  const sink = await sinkFor(form, invocation, many);
  const names = targets.map((target) => target.name);
  const out = sinkOf(io, options);
  const progress = new Progress(io, options, targets.length);
  const claims: Claim[] = [];
  let exit: ExitCode | null = null;
  let at = 0;
  for await (const piece of pieces({ ...invocation, io: outside }, targets, { form, many, sink })) {
    if (piece === null) note(io, options, `passed over ${names[at]}: not the plan of a day`);
    else {
      exit = worst(exit ?? EXIT.done, piece.exit);
      out.write(sink.join(piece));
      if (piece.claim) claims.push(piece.claim);
    }
    at += 1;
    progress.tell(at);
  }
  for (const piece of many ? await comparePieces(invocation, claims, sink) : []) {
    exit = worst(exit ?? EXIT.done, piece.exit);
    out.write(sink.join(piece));
  }
  const staged = ownFlag(invocation, "staged");
  if (exit === null) note(io, options, staged ? "this commit touches no plan of a day" : "no plan of a day was found");
  out.write(await sink.end());
  out.close();
  return exit ?? (staged ? EXIT.done : EXIT.input);
}

/** The plans named, or those of the next commit, and the outside that they are read from. Throws a usage failure for neither and for both. */
async function toCheck(invocation: Invocation): Promise<{ readonly targets: readonly CheckTarget[]; readonly io: Io }> {
  const { io, args, options } = invocation;
  if (!ownFlag(invocation, "staged")) {
    if (args.length === 0) throw usage("missing required argument `plan`", "daywright check day.yaml, or --staged");
    return { targets: targetsOf(io, args), io };
  }
  if (options.watch) throw usage("--watch watches files, and --staged reads none", "leave one of them out");
  if (args.includes("-")) throw usage("--staged reads what Git has, and standard input is not there");
  return (await import("../check/staged.ts")).stagedPlans(io, args);
}

interface How {
  readonly form: string;
  readonly many: boolean;
  readonly sink: Sink;
}

/** Each target's piece in their order: made here, or by all cores where there are many. */
async function* pieces(
  invocation: Invocation,
  targets: readonly CheckTarget[],
  { form, many, sink }: How,
): AsyncGenerator<CheckedPiece | null> {
  const { io, options } = invocation;
  const { isEnough, piecesInOrder: inOrder } = await import("../check/inParallel.ts");
  const alone =
    ownFlag(invocation, "staged") ||
    targets.some(({ name }) => name === "-") ||
    replaces(invocation) ||
    !isEnough(io, targets);
  const pool = alone ? null : await io.workers();
  const { checkOne } = await import("../check/one.ts");
  if (pool === null || pool.cores < 2) {
    for (const target of targets) yield await checkOne(invocation, target, sink);
    return;
  }
  const { isTty, columns } = io.stdout;
  const level = ownText(invocation, "level");
  const setup = {
    options,
    form,
    many,
    level,
    long: ownFlag(invocation, "long"),
    cwd: io.cwd,
    stdout: { isTty, columns },
  };
  const here = async (some: readonly CheckTarget[]): Promise<readonly (CheckedPiece | null)[]> => {
    const made: (CheckedPiece | null)[] = [];
    for (const target of some) made.push(await checkOne(invocation, target, sink));
    return made;
  };
  for await (const some of inOrder(pool, setup, targets, here)) yield* some;
}

/** Whether the answer may replace a file: then the files that plans use must be known here, not only to threads. */
const replaces = ({ io, options: { output } }: Invocation): boolean =>
  output !== null && output !== "-" && io.realpath(resolve(io.cwd, output)) !== null;
