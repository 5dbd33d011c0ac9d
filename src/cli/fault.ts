/** Whatever ends a command early: one line on standard error, and its exit code. */
import { CommanderError } from "commander";
import { printable } from "../render/text/printable.ts";
import { EXIT, type ExitCode, Failure } from "./exit.ts";
import type { Io } from "./io/io.ts";

/** Commander says what it prints itself; failures are ours; anything else is a fault of the program. */
export function printFault(error: unknown, io: Pick<Io, "stderr">, debug: boolean): ExitCode {
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
