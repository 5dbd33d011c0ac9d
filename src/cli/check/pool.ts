/** What the parts of a `check` over many plans hand each other. */
import type { Claim, Json } from "../../index.ts";
import type { SarifResult } from "../../render/forms/check.ts";
import type { ExitCode } from "../exit.ts";
import type { CommonOptions } from "../options.ts";

/** A file to check. */
export interface CheckTarget {
  readonly name: string;
  /** Found in a folder or by a pattern: then it is left out if it is no day's plan. */
  readonly found: boolean;
}

/** All that is kept of a plan that was checked; which part is there depends on the form. */
export interface CheckedPiece {
  readonly exit: ExitCode;
  readonly text?: string;
  readonly json?: Json;
  readonly results?: readonly SarifResult[];
  /** What the plan uses, for comparison with the others; null where it uses nothing. */
  readonly claim?: Claim | null;
  /** More of a plan that has had its piece. */
  readonly more?: true;
}

/** What a thread must know to print as the command itself would. */
export interface Setup {
  readonly options: CommonOptions;
  /** The name of the form. */
  readonly form: string;
  readonly many: boolean;
  /** The least level that is printed; null for all. */
  readonly level: string | null;
  /** Whether notes are printed at length. */
  readonly long: boolean;
  readonly cwd: string;
  readonly stdout: { readonly isTty: boolean; readonly columns: number | null };
}

/** A thread that checks. */
export interface Worker {
  /** Their pieces in order; null for a file that is no day's plan. */
  check(targets: readonly CheckTarget[]): Promise<readonly (CheckedPiece | null)[]>;
  stop(): void;
}

/** Where threads come from. */
export interface WorkerPool {
  /** Processors that this process may use. */
  readonly cores: number;
  start(setup: Setup): Worker;
}
