/** Many plans checked on all cores: handed out in small parcels to whoever is free, given back in the order of the files. */
import { resolve } from "node:path";
import type { Io } from "../io/io.ts";
import type { CheckedPiece, CheckTarget, Setup, Worker, WorkerPool } from "./pool.ts";

/** Plans of fewer bytes than this together are checked sooner than a further thread has started and compiled its code. */
const ENOUGH_BYTES = 40_000;
/** Plans in a parcel at most. */
const PARCEL = 8;
/** Parcels that each thread is to get yet from what is left: they become smaller, so that all threads end at about the same time. */
const SHARES = 3;
/** Parcels that a worker has at most: one in hand, and one to go on with while this thread is busy with a plan. */
const AHEAD = 2;
/** Plans for each thread that may be finished before the one whose turn it is; they wait in memory. */
const EARLY = 4 * PARCEL;
const MOST_THREADS = 16;

type Pieces = readonly (CheckedPiece | null)[];

/** Whether there is so much to check that further threads are worth their start. */
export function isEnough(io: Pick<Io, "cwd" | "size">, targets: readonly CheckTarget[]): boolean {
  if (targets.length < 2) return false;
  let bytes = 0;
  for (const { name } of targets) {
    bytes += io.size(resolve(io.cwd, name));
    if (bytes >= ENOUGH_BYTES) return true;
  }
  return false;
}

/** Plans that one thread has or had. */
interface Parcel {
  readonly size: number;
  readonly answer: Promise<Pieces>;
  isDone: boolean;
}

interface Dealt {
  readonly worker: Worker;
  open: number;
}

/** The pieces of all targets, in their order; `here` checks in this thread, which is one of as many as there are cores. */
export async function* piecesInOrder(
  pool: WorkerPool,
  setup: Setup,
  targets: readonly CheckTarget[],
  here: (targets: readonly CheckTarget[]) => Promise<Pieces>,
): AsyncGenerator<Pieces> {
  const threads = Math.min(pool.cores, MOST_THREADS, Math.ceil(targets.length / PARCEL));
  const workers: readonly Dealt[] = Array.from({ length: threads - 1 }, () => ({ worker: pool.start(setup), open: 0 }));
  /** By the position of their first plan. */
  const parcels = new Map<number, Parcel>();
  let given = 0;
  let next = 0;
  const mayGo = (): boolean => next < Math.min(targets.length, given + threads * EARLY);
  const deal = (): void => {
    for (let depth = 1; depth <= AHEAD; depth++)
      for (const one of workers) {
        if (one.open >= depth || !mayGo()) continue;
        const size = Math.ceil(Math.min(PARCEL, (targets.length - next) / (threads * SHARES)));
        parcels.set(next, parcelOf(size, askedOf(one, targets.slice(next, next + size))));
        next += size;
      }
  };
  try {
    while (given < targets.length) {
      const first = parcels.get(given);
      if (first !== undefined && (first.isDone || !mayGo())) {
        parcels.delete(given);
        given += first.size;
        yield await first.answer;
        continue;
      }
      // This thread runs already: it takes the plan whose turn comes first, and one alone, so that no worker waits long for more.
      const own = next;
      next += 1;
      deal();
      const parcel = parcelOf(1, here(targets.slice(own, own + 1)));
      parcels.set(own, parcel);
      await parcel.answer.catch(() => undefined);
      await turn();
      deal();
    }
  } finally {
    for (const { worker } of workers) worker.stop();
  }
}

/** A failure is heard of when the parcel's turn comes, and until then does not end the process. */
function parcelOf(size: number, answer: Promise<Pieces>): Parcel {
  const parcel: Parcel = { size, answer, isDone: false };
  const end = (): void => {
    parcel.isDone = true;
  };
  answer.then(end, end);
  return parcel;
}

async function askedOf(one: Dealt, plans: readonly CheckTarget[]): Promise<Pieces> {
  one.open += 1;
  try {
    return await one.worker.check(plans);
  } finally {
    one.open -= 1;
  }
}

/** Lets the answers of other threads come in. */
const turn = (): Promise<void> => new Promise((resolve) => setImmediate(resolve));
