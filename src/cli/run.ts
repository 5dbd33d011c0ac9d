/** Runs one command line: parses it, starts its command, and maps whatever ends it to an exit code. Never exits itself. */
import { CommanderError } from "commander";
import { printable } from "../render/printable.ts";
import { EXIT, type ExitCode, Failure } from "./exit.ts";
import type { Io } from "./io.ts";
import { buildProgram, type Outcome } from "./program.ts";
import { VERSION } from "./version.ts";

const VERSION_FLAGS: ReadonlySet<string> = new Set(["-V", "--version", "--json"]);

/** Runs `argv` (without node and script) and gives the exit code. */
export async function run(argv: readonly string[], io: Io): Promise<ExitCode> {
  const outcome: Outcome = { code: EXIT.done };
  try {
    if (argv.includes("--json") && argv.length > 1 && argv.every((word) => VERSION_FLAGS.has(word)))
      return await versions(io);
    await buildProgram(io, outcome).parseAsync([...argv], { from: "user" });
    return outcome.code;
  } catch (error) {
    return report(error, io, argv.includes("--debug"));
  }
}

async function versions(io: Io): Promise<ExitCode> {
  const [{ zoneTableVersion }, { toJson }] = await Promise.all([
    import("../time/index.ts"),
    import("../render/json.ts"),
  ]);
  io.stdout.write(toJson({ version: VERSION, tz: zoneTableVersion }));
  return EXIT.done;
}

/** Commander says what it prints itself; failures are ours; anything else is a fault of the program. */
function report(error: unknown, io: Io, debug: boolean): ExitCode {
  if (error instanceof CommanderError) return error.exitCode === 0 ? EXIT.done : EXIT.usage;
  if (error instanceof Failure) {
    io.stderr.write(`error: ${printable(error.message)}\n`);
    if (error.hint !== null) io.stderr.write(`try: ${printable(error.hint)}\n`);
    return error.exit;
  }
  const message = error instanceof Error ? error.message : String(error);
  io.stderr.write(`error: a fault of the program: ${printable(message)}\n`);
  io.stderr.write("please report it with the command and the plan that led to it; --debug shows where it happened\n");
  if (debug && error instanceof Error)
    io.stderr.write(`${(error.stack ?? "").split("\n").map(printable).join("\n")}\n`);
  return EXIT.bug;
}
