/** Runs one command line: parses it, starts its command, and maps whatever ends it to an exit code. Never exits itself. */
import { nearest, times, VERSION } from "../index.ts";
import { EXIT, type ExitCode, type Failure, usage } from "./exit.ts";
import { failureOf, printFault } from "./fault.ts";
import type { Io } from "./io/io.ts";
import { buildProgram, type CommandOutcome } from "./program.ts";
import { operands, refusalText, wantsJson, withoutValue } from "./refusal.ts";
import { COMMANDS } from "./table.ts";

const VERSION_FLAGS: ReadonlySet<string> = new Set(["-V", "--version"]);

/** Runs `argv` (without node and script) and gives the exit code. */
export async function runCommandLine(argv: readonly string[], io: Io): Promise<ExitCode> {
  const outcome: CommandOutcome = { code: EXIT.done };
  const program = buildProgram(io, outcome, argv[0]);
  const words = operands(argv, program);
  try {
    refuseUnknown(words[0]);
    const open = withoutValue(argv, program);
    if (open !== null) throw usage(`${open.flag} needs a value, and \`${open.next}\` is a flag`);
    if (argv.includes("--json") && argv.some((word) => VERSION_FLAGS.has(word))) return await versions(io);
    await program.parseAsync([...argv], { from: "user" });
    return outcome.code;
  } catch (error) {
    const exit = printFault(error, io, argv.includes("--debug"));
    const failure = failureOf(error);
    if (failure !== null && wantsJson(argv, io.env)) await printEnvelope(words, failure, io);
    return exit;
  }
}

/** Before commander sees it: it would print the whole help for a wrong word with `--help`. Throws a usage failure. */
function refuseUnknown(word: string | undefined): void {
  const names = [...COMMANDS.map(({ name }) => name), "help", "words"];
  if (word === undefined || names.includes(word)) return;
  throw usage(`unknown command \`${word}\``, nearest(word, names) ?? names.slice(0, -1).join(", "));
}

/** Commands whose words name no plan. */
const WITHOUT_PLAN: ReadonlySet<string> = new Set(["new", "explain", "schema", "completion"]);

/** A command over a plan that was asked for JSON prints an envelope, also if it failed. */
async function printEnvelope([word, plan]: readonly string[], failure: Failure, io: Io): Promise<void> {
  const known = COMMANDS.some(({ name }) => name === word);
  if (!known || WITHOUT_PLAN.has(word ?? "") || word === undefined || plan === undefined) return;
  try {
    io.stdout.write(await refusalText(word, plan, failure));
  } catch {
    // Standard output takes nothing: that is what the line on standard error says.
  }
}

async function versions(io: Io): Promise<ExitCode> {
  const [{ zoneTableVersion }, { toJson }] = await Promise.all([times(), import("../render/forms/json.ts")]);
  io.stdout.write(toJson({ version: VERSION, tz: zoneTableVersion }));
  return EXIT.done;
}
