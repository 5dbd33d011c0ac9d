/** Exit codes, and the failures that end a command early with one line and a hint. */
import type { Finding } from "../index.ts";

/** The exit codes: what each promises is on the page `help promises`. */
export const EXIT = {
  /** Done; warnings allowed. */
  done: 0,
  /** The plan was read and has at least one error (with `--strict` also a warning) that is not accepted. */
  findings: 1,
  /** Wrong flag, argument or command. */
  usage: 2,
  /** Something could not be read or written, or is not a valid plan. */
  input: 3,
  /** An internal error. */
  bug: 70,
} as const;

/** An exit code of the program. */
export type ExitCode = (typeof EXIT)[keyof typeof EXIT];

/** The worse of two outcomes: what many plans together come to. */
export const worst = (a: ExitCode, b: ExitCode): ExitCode => (a > b ? a : b);

/** Ends a command with a message that needs no stack; `run` prints it. */
export class Failure extends Error {
  readonly exit: ExitCode;
  readonly hint: string | null;
  /** What a script reads of it; null leaves the message and the hint. */
  readonly finding: Finding | null;

  constructor(exit: ExitCode, message: string, hint: string | null = null, finding: Finding | null = null) {
    super(message);
    this.exit = exit;
    this.hint = hint;
    this.finding = finding;
  }
}

/** Wrong usage, exit 2. */
export const usage = (message: string, hint: string | null = null): Failure => new Failure(EXIT.usage, message, hint);
