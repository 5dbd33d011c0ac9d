/** `drives --relief`: asks for a proposal, and with `--write` puts its drivers into the plan's file. */
import { edits, type ReliefProposal, relief, times } from "../../index.ts";
import { type Invocation, ownText } from "../command.ts";
import { usage } from "../exit.ts";
import { readSource } from "../io/source.ts";
import { note, putFile } from "../output.ts";
import { type LoadedPlan, loadText } from "./load.ts";

/** The best drivers for the day; `no-choice` where no one can relieve anybody. */
export async function reliefFor(loaded: LoadedPlan, invocation: Invocation): Promise<ReliefProposal | "no-choice"> {
  const { proposal } = await relief();
  const { patience } = invocation.options;
  return proposal(loaded.days, { ...(await everyFlag(invocation)), patience, now: loaded.now });
}

/** `--every`: planned minutes between the points of a leg at which drivers may change. Throws a usage failure. */
async function everyFlag(invocation: Invocation): Promise<{ readonly everyMinutes?: number }> {
  const text = ownText(invocation, "every");
  if (text === null) return {};
  const { parseLength } = await times();
  const read = parseLength(text);
  if (read.ok && read.value > 0) return { everyMinutes: read.value };
  throw usage(`--every: \`${text}\` is not a length of time`, "--every 90min");
}

/** Writes the proposal into the plan's own file, comments kept. Throws a usage failure where it does not fit there. */
export async function writeRelief(loaded: LoadedPlan, proposal: ReliefProposal, invocation: Invocation): Promise<void> {
  const { io, options } = invocation;
  if (loaded.file === null)
    throw usage("--write needs a file, and the plan came from standard input", "name the plan's file");
  const source = await readSource(io, loaded.file, null);
  if (!source.ok) throw usage(`${loaded.file}: ${source.reason}`, source.near.join(" or ") || null);
  const [{ textEdits, lawMinutesOfDays: lawMinutes }, { applyEdits }] = await Promise.all([relief(), edits()]);
  const { text, findings } = applyEdits(source.text, textEdits(loaded.plan, proposal), { file: loaded.file });
  const checked = text === null ? null : await loadText(invocation, loaded.file, text, source.text);
  if (text === null || checked?.ok !== true) {
    const [first] = checked?.findings ?? findings;
    const why = first === undefined ? "" : `: ${first.sentence(loaded.say)}`;
    throw usage(`the drivers cannot be written into ${loaded.file}${why}`, "state the runs in this file");
  }
  if (lawMinutes(checked.days) > lawMinutes(loaded.days))
    throw usage(
      `nothing was written: these drivers break more of the law than ${loaded.file} does`,
      "drives --relief shows what",
    );
  if (text === source.text) return;
  putFile(io, loaded.file, text, { replace: true, over: source.bytes });
  note(io, options, `wrote drivers into ${loaded.file}`);
}
