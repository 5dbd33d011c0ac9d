/** Threads that load the built program anew; loaded only for a `check` of many plans. */
import { existsSync, realpathSync } from "node:fs";
import { availableParallelism } from "node:os";
import { dirname, join } from "node:path";
import { Worker as Thread } from "node:worker_threads";
import type { CheckedPiece, Worker, WorkerPool } from "./pool.ts";

const START = `const { workerData, parentPort } = require("node:worker_threads");
require(workerData.load).load(workerData.bundle, "check").exports.runCheckWorker(parentPort, workerData.setup);`;

/** Null where the program that runs is not the built one, whose launcher and bundle a thread needs. */
export function workerPool(program: string | undefined): WorkerPool | null {
  if (program === undefined || !existsSync(program)) return null;
  const folder = dirname(realpathSync(program));
  const [load, bundle] = [join(folder, "load.js"), join(folder, "..", "dist", "daywright.cjs")];
  if (!existsSync(load) || !existsSync(bundle)) return null;
  return {
    cores: availableParallelism(),
    start: (setup) => workerOf(new Thread(START, { eval: true, workerData: { load, bundle, setup } })),
  };
}

interface Waiting {
  resolve(pieces: readonly (CheckedPiece | null)[]): void;
  reject(error: Error): void;
}

/** A thread answers in the order in which it is asked. */
function workerOf(thread: Thread): Worker {
  const waiting: Waiting[] = [];
  thread.on("message", (pieces: readonly (CheckedPiece | null)[]) => waiting.shift()?.resolve(pieces));
  thread.on("error", (error: Error) => {
    for (const one of waiting.splice(0)) one.reject(error);
  });
  return {
    check: (targets) =>
      new Promise((resolve, reject) => {
        waiting.push({ resolve, reject });
        thread.postMessage(targets);
      }),
    stop: () => void thread.terminate(),
  };
}
