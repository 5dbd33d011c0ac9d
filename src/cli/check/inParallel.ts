/** Many plans checked on all cores: handed out in small parcels, given back in the order of the files. */

import type { Output } from "../io/io.ts";
import type { Target } from "../io/targets.ts";
import type { CommonOptions } from "../options.ts";
import type { CheckForm, Piece } from "./sinks.ts";

/** What a thread must know to print as the command itself would. */
export interface Setup {
  readonly options: CommonOptions;
  readonly form: CheckForm;
  readonly many: boolean;
  readonly cwd: string;
  readonly stdout: Pick<Output, "isTty" | "columns">;
}

/** A thread that checks; null for a file that is no day's plan. */
export interface Hand {
  check(targets: readonly Target[]): Promise<readonly (Piece | null)[]>;
  dismiss(): void;
}

export interface Crew {
  readonly cores: number;
  hire(setup: Setup): Hand;
}

/** Fewer plans than this are checked sooner than further threads are ready. */
export const ENOUGH = 128;
/** Plans handed out at once: few enough that no core waits long for the last parcel. */
const PARCEL = 8;
/** Parcels under way for each hand; what is finished early waits in memory, so it must be bounded. */
const AHEAD = 3;
const MOST_HANDS = 16;

/** The pieces of all targets, in their order. */
export async function* inOrder(
  crew: Crew,
  setup: Setup,
  targets: readonly Target[],
): AsyncGenerator<readonly (Piece | null)[]> {
  const count = Math.min(crew.cores, MOST_HANDS, Math.ceil(targets.length / PARCEL));
  const hands = Array.from({ length: count }, () => crew.hire(setup));
  const asked: Promise<readonly (Piece | null)[]>[] = [];
  let next = 0;
  try {
    for (let at = 0; at < targets.length; at += PARCEL) {
      for (; asked.length < count * AHEAD && next < targets.length; next += PARCEL) {
        const hand = hands[(next / PARCEL) % count];
        if (hand === undefined) break;
        const answer = hand.check(targets.slice(next, next + PARCEL));
        // It is awaited when its turn comes; until then a failure must not end the process.
        answer.catch(() => undefined);
        asked.push(answer);
      }
      yield (await asked.shift()) ?? [];
    }
  } finally {
    for (const hand of hands) hand.dismiss();
  }
}
