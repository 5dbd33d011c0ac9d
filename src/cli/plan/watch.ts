/**
 * `--watch`: the command again at every save of what it read. A save that cannot be read leaves the last good answer on
 * the screen, what is wrong below it.
 */
import { type CommandFile, type Invocation, ownFlag } from "../command.ts";
import { EXIT, type ExitCode, usage } from "../exit.ts";
import { printFault } from "../fault.ts";
import { type Io, IoError, type Output, type Seen } from "../io/io.ts";
import { renewWait } from "../io/routingSession.ts";

/** Milliseconds. */
const MINUTE = 60_000;
const CLEAR = "\u001b[2J\u001b[H";

interface Run {
  readonly exit: ExitCode;
  readonly out: string;
  readonly err: string;
  readonly seen: Seen;
}

/** Runs until nothing is left to wait for, which at a terminal is ctrl-C. Throws a usage failure for what cannot be watched. */
export async function watched(invocation: Invocation, file: CommandFile): Promise<ExitCode> {
  const { io, args } = invocation;
  if (file.watches !== true) throw usage(`${file.name} has nothing to watch`, "watch calls, check, sheet …");
  if (args.includes("-")) throw usage("--watch watches files, and standard input is none", "name the plan's file");
  let good: string | null = null;
  for (let again = false; ; again = true) {
    const one = await once(invocation, file, again);
    show(io, one, good, ownFlag(invocation, "plain"));
    // A wrong flag is as wrong after the next save.
    if (one.exit === EXIT.usage || one.exit === EXIT.bug) return one.exit;
    if (one.exit !== EXIT.input) good = one.out;
    const within = file.everyMinute === true ? MINUTE - (io.now() % MINUTE) : null;
    if (!(await io.changed(one.seen, within))) return one.exit;
    renewWait(io.fetch);
  }
}

/** From the second run on an output file is replaced: it is the first one's. */
async function once(invocation: Invocation, file: CommandFile, again: boolean): Promise<Run> {
  const { io, options } = invocation;
  const seen = new Map<string, Uint8Array | null>();
  const written = { out: "", err: "" };
  const into = (key: keyof typeof written, { isTty, columns }: Output): Output => ({
    isTty,
    columns,
    write(text) {
      written[key] += text;
    },
  });
  const recording: Io = {
    ...io,
    stdout: into("out", io.stdout),
    stderr: into("err", io.stderr),
    readFile: (path) => recorded(io, seen, path),
    // Threads read on their own, unseen.
    workers: async () => null,
  };
  const asked = { ...invocation, io: recording, options: { ...options, force: options.force || again } };
  const exit = await file.run(asked).catch((error: unknown) => printFault(error, recording, options.debug));
  return { exit, ...written, seen };
}

function recorded(io: Io, seen: Map<string, Uint8Array | null>, path: string): Uint8Array {
  try {
    const bytes = io.readFile(path);
    seen.set(path, bytes);
    return bytes;
  } catch (error) {
    if (error instanceof IoError) seen.set(path, null);
    throw error;
  }
}

/** At a terminal the screen is drawn again, unless lines are to be appended. */
function show({ stdout, stderr }: Io, { exit, out, err }: Run, good: string | null, plain: boolean): void {
  const draws = stdout.isTty && !plain;
  if (draws) stdout.write(CLEAR);
  if (draws && exit === EXIT.input && good !== null) stdout.write(`${good}\n`);
  stdout.write(out);
  stderr.write(err);
}
