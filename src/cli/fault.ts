/** Whatever ends a command early: one line on standard error, and its exit code. */
import { CommanderError } from "commander";
import { nearest } from "../index.ts";
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
  const plain = inPlainWords(first);
  if (plain !== null) return usage(plain.message, plain.hint);
  const text = first
    .replaceAll("'", "`")
    .replace(/\.(?=\s|$)/gu, ";")
    .replace(/;$/u, "");
  return usage(text, near ?? HELP);
}

const VALUE_OF = /^option '(?:-\w, )?(--[\w-]+) <.*>' argument '(.*)' is invalid\. (.*)$/su;
const WORD_OF = /^command-argument value '(.*)' is invalid for argument '([\w-]+)'\. Allowed choices are (.*)\.$/su;
const NO_VALUE = /^option '(?:-\w, )?(--[\w-]+) <(.*)>' argument missing$/u;
const NO_WORD = /^missing required argument '([\w-]+)'$/u;

/** Complaints about a value, as every other mistake is told: what is wrong, then what to write. Null for other ones. */
function inPlainWords(text: string): { readonly message: string; readonly hint: string } | null {
  const [, flag = "", value = "", why = ""] = VALUE_OF.exec(text) ?? [];
  const allowed = /^Allowed choices are (.*)\.$/u.exec(why)?.[1];
  if (allowed !== undefined)
    return { message: `${flag} does not take \`${value}\``, hint: chosen(flag, value, allowed) };
  const wanted = /^It takes (.*)\.$/u.exec(why)?.[1];
  if (wanted !== undefined) return { message: `${flag} takes ${wanted}, not \`${value}\``, hint: HELP };
  const [, word = "", name = "", words] = WORD_OF.exec(text) ?? [];
  if (words !== undefined) return { message: `there is no ${name} \`${word}\``, hint: chosen("", word, words) };
  const [, bare, kind = ""] = NO_VALUE.exec(text) ?? [];
  if (bare !== undefined) return { message: `${bare} has no value`, hint: `${bare} ${kind.toUpperCase()}` };
  const missing = NO_WORD.exec(text)?.[1];
  if (missing === undefined) return null;
  return { message: `no ${missing} is named`, hint: missing === "plan" ? "name a plan, as in 2027-01-20.yaml" : HELP };
}

const HELP = "--help lists all flags";

/** So many choices are all named. */
const FEW = 4;

/** All choices if they are few, else the nearest. */
function chosen(flag: string, value: string, choices: string): string {
  const all = choices.split(", ");
  const near = all.length <= FEW ? null : nearest(value, all);
  return near === null ? choices : `${flag} ${near}`.trim();
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
