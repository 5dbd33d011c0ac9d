/** Many plans checked on all cores: dealt out in small parcels to whoever is free, given back in the order of the files. */
import type { CheckedPiece, CheckTarget, Setup, Worker, WorkerPool } from "./pool.ts";

/** Fewer plans than this are checked sooner than further threads are ready. */
export const ENOUGH = 128;
/** Plans handed out at once: few enough that no core waits long for the last parcel. */
const PARCEL = 8;
/** Parcels that a worker has been dealt at most: one in hand, and more to go on with while this thread is busy. */
const AHEAD = 3;
/** Parcels for each thread that may be finished before the one whose turn it is; they wait in memory. */
const EARLY = 4;
const MOST_THREADS = 16;

type Pieces = readonly (CheckedPiece | null)[];

/** The pieces of all targets, in their order; `here` checks in this thread, which is one of as many as there are cores. */
export async function* piecesInOrder(
  pool: WorkerPool,
  setup: Setup,
  targets: readonly CheckTarget[],
  here: (targets: readonly CheckTarget[]) => Promise<Pieces>,
): AsyncGenerator<Pieces> {
  const parcels: (readonly CheckTarget[])[] = [];
  for (let at = 0; at < targets.length; at += PARCEL) parcels.push(targets.slice(at, at + PARCEL));
  const threads = Math.min(pool.cores, MOST_THREADS, parcels.length);
  const workers = Array.from({ length: threads - 1 }, () => ({ worker: pool.start(setup), open: 0 }));
  const asked: (Promise<Pieces> | undefined)[] = [];
  const done = new Set<number>();
  let next = 0;
  const deal = (until: number): void => {
    for (let depth = 1; depth <= AHEAD; depth++)
      for (const one of workers) {
        if (one.open >= depth || next >= until) continue;
        asked[next] = askedOf(one, parcels[next] ?? [], next, done);
        next += 1;
      }
  };
  try {
    for (let at = 0; at < parcels.length; at++) {
      const until = Math.min(parcels.length, at + threads * EARLY);
      for (deal(until); asked[at] === undefined || (!done.has(at) && next < until); deal(until)) {
        const own = next;
        next += 1;
        const answer = here(parcels[own] ?? []);
        asked[own] = answer;
        // A failure is heard of when its turn comes, as that of a worker.
        await answer.catch(() => undefined);
        done.add(own);
        await turn();
      }
      const pieces = asked[at];
      asked[at] = undefined;
      yield (await pieces) ?? [];
    }
  } finally {
    for (const { worker } of workers) worker.stop();
  }
}

interface Dealt {
  readonly worker: Worker;
  open: number;
}

/** A parcel for a worker; a failure is heard of when its turn comes, and until then does not end the process. */
function askedOf(one: Dealt, parcel: readonly CheckTarget[], at: number, done: Set<number>): Promise<Pieces> {
  one.open += 1;
  const answer = one.worker.check(parcel);
  const end = (): void => {
    one.open -= 1;
    done.add(at);
  };
  answer.then(end, end);
  return answer;
}

/** Lets the answers of other threads come in. */
const turn = (): Promise<void> => new Promise((resolve) => setImmediate(resolve));
