/** How far a long run is, on standard error at a terminal: a line now and then, never drawn over. */

import type { CommonOptions } from "../options.ts";
import type { Io } from "./io.ts";

/** Milliseconds between two lines. */
const BETWEEN = 2_000;

/** A line on a terminal that says how far a long command is; silent elsewhere. */
export class Progress {
  readonly #io: Pick<Io, "stderr" | "now">;
  readonly #all: number;
  readonly #shown: boolean;
  #last: number;

  /** Nothing is printed if the answer itself runs over the same terminal. */
  constructor(io: Pick<Io, "stdout" | "stderr" | "now">, options: CommonOptions, all: number) {
    this.#io = io;
    this.#all = all;
    const visible = (options.output === null || options.output === "-") && io.stdout.isTty;
    this.#shown = all > 1 && !options.quiet && io.stderr.isTty && !visible;
    this.#last = this.#shown ? io.now() : 0;
  }

  /** Tells that `done` of all are done, where the last line is long enough ago. */
  tell(done: number): void {
    if (!this.#shown || done === this.#all) return;
    const now = this.#io.now();
    if (now - this.#last < BETWEEN) return;
    this.#last = now;
    this.#io.stderr.write(`checked ${done} of ${this.#all}\n`);
  }
}
