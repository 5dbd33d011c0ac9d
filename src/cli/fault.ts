/** Whatever ends a command early: one line on standard error, and its exit code. */
import { CommanderError } from "commander";
import { printable } from "../render/text/printable.ts";
import { EXIT, type ExitCode, Failure, usage } from "./exit.ts";
import { type Io, IoError } from "./io/io.ts";

/** What ended a command, as a failure that is one line and a hint; null for an internal error and for help that was asked for. */
export function failureOf(error: unknown): Failure | null {
  if (error instanceof Failure) return error;
  if (error instanceof IoError) return new Failure(EXIT.input, `cannot use ${error.path}: ${error.reason}`);
  if (!(error instanceof CommanderError) || error.exitCode === 0 || error.code === "commander.help") return null;
  return wrongWords(error);
}

/** Commander's complaints in our words: `unknown option '--fro'`, then `(Did you mean --for?)` on a line of its own. */
function wrongWords({ message }: CommanderError): Failure {
  const [first = "", ...rest] = message.replace(/^error: /u, "").split("\n");
  const near = /\(Did you mean (?:one of )?(.*)\?\)/u.exec(rest.join(" "))?.[1];
  const text = first
    .replaceAll("'", "`")
    .replace(/\.(?=\s|$)/gu, ";")
    .replace(/;$/u, "");
  return usage(text, near ?? "--help lists all flags");
}

/** Prints the line and gives the exit code. */
export function printFault(error: unknown, { stderr }: Pick<Io, "stderr">, debug: boolean): ExitCode {
  const print = (text: string): void => {
    try {
      stderr.write(text);
    } catch {
      // Standard error takes nothing: there is nowhere left to say it.
    }
  };
  const failure = failureOf(error);
  // Help that was asked for, or that was printed for want of a command.
  if (failure === null && error instanceof CommanderError) return error.exitCode === 0 ? EXIT.done : EXIT.usage;
  if (failure !== null) {
    print(`error: ${printable(failure.message)}\n`);
    if (failure.hint !== null) print(`try: ${printable(failure.hint)}\n`);
    return failure.exit;
  }
  const message = error instanceof Error ? error.message : String(error);
  print(`error: internal error: ${printable(message)}\n`);
  print("please report it with the command and the plan that led to it; --debug shows where it happened\n");
  if (debug && error instanceof Error) print(`${(error.stack ?? "").split("\n").map(printable).join("\n")}\n`);
  return EXIT.bug;
}
