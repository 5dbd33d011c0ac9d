/** Runs one command line: parses it, starts its command, and maps whatever ends it to an exit code. Never exits itself. */

import { times, VERSION } from "../index.ts";
import { EXIT, type ExitCode } from "./exit.ts";
import { printFault } from "./fault.ts";
import type { Io } from "./io/io.ts";
import { buildProgram, type Outcome } from "./program.ts";

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
    return printFault(error, io, argv.includes("--debug"));
  }
}

async function versions(io: Io): Promise<ExitCode> {
  const [{ zoneTableVersion }, { toJson }] = await Promise.all([times(), import("../render/json.ts")]);
  io.stdout.write(toJson({ version: VERSION, tz: zoneTableVersion }));
  return EXIT.done;
}
