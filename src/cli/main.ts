/** The program as a process: real files and streams. */
import type { ExitCode } from "./exit.ts";
import { nodeIo } from "./io/nodeIo.ts";
import { runCommandLine } from "./run.ts";

/** Runs a command line and gives the exit code; the caller sets it and lets the process end by itself. */
export const main = (argv: readonly string[]): Promise<ExitCode> => runCommandLine(argv, nodeIo());

/** What a thread of `check` runs; see `check/workerPool.ts`. */
export const runCheckWorker = async (
  ...given: Parameters<typeof import("./check/worker.ts").checkWorker>
): Promise<void> => (await import("./check/worker.ts")).checkWorker(...given);
