/** What a thread of `check` runs: parcels of plans in, their pieces out, one parcel after another. */
import type { MessagePort } from "node:worker_threads";
import { Command } from "commander";
import type { Invocation } from "../command.ts";
import { nodeIo } from "../io/nodeIo.ts";
import { checkOne } from "./one.ts";
import type { CheckedPiece, CheckTarget, Setup } from "./pool.ts";
import { sinkFor } from "./sinks.ts";

/** Answers the messages of a port until it is closed. */
export async function checkWorker(
  port: MessagePort,
  { options, form, many, level, long, cwd, stdout }: Setup,
): Promise<void> {
  const io = { ...nodeIo(), cwd, stdout: { ...stdout, write: () => undefined } };
  const invocation: Invocation = {
    io,
    options,
    own: { long, ...(level === null ? {} : { level }) },
    args: [],
    program: new Command(),
  };
  const sink = await sinkFor(form, invocation, many);
  let before: Promise<void> = Promise.resolve();
  port.on("message", (targets: readonly CheckTarget[]) => {
    before = before.then(async () => {
      const pieces: (CheckedPiece | null)[] = [];
      for (const target of targets) pieces.push(await checkOne(invocation, target, sink));
      port.postMessage(pieces);
    });
  });
}
