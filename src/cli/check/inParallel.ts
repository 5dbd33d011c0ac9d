/** Many plans checked on all cores: handed out in small parcels, given back in the order of the files. */
import type { CheckedPiece, CheckTarget, Setup, WorkerPool } from "./pool.ts";

/** Fewer plans than this are checked sooner than further threads are ready. */
export const ENOUGH = 128;
/** Plans handed out at once: few enough that no core waits long for the last parcel. */
const PARCEL = 8;
/** Parcels under way for each worker; what is finished early waits in memory, so it must be bounded. */
const AHEAD = 3;
const MOST_WORKERS = 16;

/** The pieces of all targets, in their order. */
export async function* piecesInOrder(
  pool: WorkerPool,
  setup: Setup,
  targets: readonly CheckTarget[],
): AsyncGenerator<readonly (CheckedPiece | null)[]> {
  const count = Math.min(pool.cores, MOST_WORKERS, Math.ceil(targets.length / PARCEL));
  const workers = Array.from({ length: count }, () => pool.start(setup));
  const asked: Promise<readonly (CheckedPiece | null)[]>[] = [];
  let next = 0;
  try {
    for (let at = 0; at < targets.length; at += PARCEL) {
      for (; asked.length < count * AHEAD && next < targets.length; next += PARCEL) {
        const worker = workers[(next / PARCEL) % count];
        if (worker === undefined) break;
        const answer = worker.check(targets.slice(next, next + PARCEL));
        // It is awaited when its turn comes; until then a failure must not end the process.
        answer.catch(() => undefined);
        asked.push(answer);
      }
      yield (await asked.shift()) ?? [];
    }
  } finally {
    for (const worker of workers) worker.stop();
  }
}
