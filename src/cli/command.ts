/** What a command is: a name, a builder that only states its flags, and a run that loads what it needs. */
import type { Command } from "commander";
import type { ExitCode } from "./exit.ts";
import type { Io } from "./io/io.ts";
import type { CommonOptions } from "./options.ts";

/** One call of a command: the machine, the common options and the command's own. */
export interface Invocation {
  readonly io: Io;
  readonly options: CommonOptions;
  /** The command's own flags as commander parsed them. */
  readonly own: Readonly<Record<string, unknown>>;
  /** The positional arguments. */
  readonly args: readonly string[];
  readonly program: Command;
}

/** A command: its name, its summary, its flags and what runs it. */
export interface CommandFile {
  readonly name: string;
  /** Where help lists it among the others. */
  readonly place: number;
  /** Imperative, no full stop. */
  readonly summary: string;
  /** Printed below the help: examples, forms. */
  readonly more?: string;
  /** Whether it prints in the forms that `render/forms.ts` lists for it; help then names them. */
  readonly forms?: true;
  /** Whether `--watch` may run it again: it reads plans and changes nothing. */
  readonly watches?: true;
  /** With `--watch` it also runs again each minute, since its answer is about the clock. */
  readonly everyMinute?: true;
  /** The one form of a command that is no report. */
  readonly prints?: "text" | "json";
  build(command: Command): void;
  run(invocation: Invocation): Promise<ExitCode>;
}

/** A flag's text; null where it is not given. */
export const ownText = ({ own }: Invocation, key: string): string | null => {
  const value = own[key];
  return typeof value === "string" ? value : null;
};

/** Whether a flag of the command itself is given. */
export const ownFlag = ({ own }: Invocation, key: string): boolean => own[key] === true;
