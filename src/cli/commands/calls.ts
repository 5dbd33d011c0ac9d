/** `calls PLAN…`. */
import { type Judged, nearest } from "../../index.ts";
import { type Invocation, ownText } from "../command.ts";
import { usage } from "../exit.ts";
import { notEmpty } from "../options.ts";
import { chooseForm } from "../output.ts";
import type { LoadedPlan } from "../plan/load.ts";
import { judgeLoaded, planCommand } from "../plan/planCommand.ts";
import { olderDay, olderPlan } from "../plan/since.ts";

/** The command `calls`. */
export const callsCommand = planCommand({
  name: "calls",
  place: 10,
  summary: "print who is called when and where, wheels, in position, hits on both clocks, release",
  more: "Instants for --why: wren.call, wren.release, wagon.1.leave, wagon.2.arrive, dawn.inPosition, dawn.start …",
  configure: (command) => {
    command
      .option("--why <instant>", "print the chain behind one time", notEmpty)
      .option(
        "--since <plan>",
        "say first what changed against this plan, or against this one at a Git revision",
        notEmpty,
      );
  },
  options: async ({ loaded, judged, invocation }) => ({
    why: whyOf(judged, invocation),
    older: await olderDay(loaded, invocation),
    versions: await versionsOf(loaded, invocation),
  }),
});

/** Both versions in every topic, where the answer lists what changed for programs. */
async function versionsOf(loaded: LoadedPlan, invocation: Invocation) {
  const since = ownText(invocation, "since");
  if (since === null || chooseForm("calls", invocation).name !== "json") return null;
  const older = await judgeLoaded(await olderPlan(loaded, invocation, since), invocation);
  return { older, newer: await judgeLoaded(loaded, invocation) };
}

function whyOf({ day }: Judged, invocation: Invocation) {
  const id = ownText(invocation, "why");
  if (id === null) return null;
  const why = day.why(id);
  if (why !== null) return why;
  const like = instantsLike(id, [...day.instants.keys()]);
  throw usage(`this day has no instant \`${id}\``, `--why ${like.join(" or ")}`);
}

const ownerOf = (name: string): string => name.slice(0, name.lastIndexOf("."));
const wordOf = (name: string): string => name.slice(name.lastIndexOf(".") + 1);

/** The instant that was meant, else all of what it was meant of, else the first of some of this day's own. */
function instantsLike(typed: string, names: readonly string[]): readonly string[] {
  const first = new Map(names.toReversed().map((name) => [ownerOf(name), name]));
  const owner = nearest(typed, first.keys()) ?? nearest(ownerOf(typed), first.keys());
  if (owner === null) return [...first.values()].reverse().slice(0, 3);
  const own = names.filter((name) => ownerOf(name) === owner);
  const word = typed.includes(".") ? nearest(wordOf(typed), own.map(wordOf)) : null;
  return word === null ? own : [`${owner}.${word}`];
}
