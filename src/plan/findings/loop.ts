/** Things that wait for each other: as the plan's text alone shows it, or as steps between stops, hits, tasks and rides. */
import type { Facts, Wording } from "../../findings/finding.ts";
import { mistake } from "./mistake.ts";

/** The steps of a ring in parallel lists: what waits and for what, each with what it does where if it is a vehicle. */
export interface LoopFacts extends Facts {
  readonly ring: readonly string[];
  readonly waits: readonly string[];
  readonly does: readonly string[];
  readonly where: readonly string[];
  readonly waitsFor: readonly string[];
  readonly doesFirst: readonly string[];
  readonly whereFirst: readonly string[];
  readonly lines: readonly string[];
  /** An order of what is done at the stop `orderAt` in which nothing waits in a ring; empty where `do` is not the reason. */
  readonly order: readonly string[];
  readonly orderAt: string;
  /** The hit whose time is probably past midnight; null if none is. */
  readonly pastMidnight: string | null;
}

/** `truck leaves lodge after talk`, `dawn waits for truck to arrive at pier`, with the plan's line. */
function ringSteps(f: LoopFacts, say: Wording): readonly string[] {
  return f.waits.map((later, index) => {
    const does = f.does[index] ? ` ${inThirdPerson(f.does[index])} ${say.name(f.where[index] ?? "")}` : "";
    const first = say.name(f.waitsFor[index] ?? "");
    const whereFirst = say.name(f.whereFirst[index] ?? "");
    const doesFirst = f.doesFirst[index] ?? "";
    const step =
      does === ""
        ? `${later} waits for ${first}${doesFirst && ` to ${doesFirst} ${whereFirst}`}`
        : `${say.name(later)}${does} after ${first}${doesFirst && ` ${inThirdPerson(doesFirst)} ${whereFirst}`}`;
    return f.lines[index] ? `${step} (${f.lines[index]})` : step;
  });
}

const inThirdPerson = (verb: string): string => verb.replace(/^\w+/, (word) => `${word}s`);

/** A ring of which the text says no more than the ids. */
export const plainLoop = (ring: readonly string[]): LoopFacts => ({
  ring,
  waits: [],
  does: [],
  where: [],
  waitsFor: [],
  doesFirst: [],
  whereFirst: [],
  lines: [],
  order: [],
  orderAt: "",
  pastMidnight: null,
});

export const orderLoop = mistake<LoopFacts>({
  code: "order-loop",
  title: "activities that wait for each other",
  why: "An activity that must come after itself can never begin.",
  cure: "Remove one `after`, `before` or `aboard`, or change the order of a `do` or of the stops.",
  example: `
    tasks:
      load: { for: 5 min, place: pier, after: pictures }
      pictures: { for: 40 min, place: pier, after: load }
  `,
  sentence: (f, say) =>
    `these wait for each other: ${f.waits.length === 0 ? f.ring.join(" → ") : ringSteps(f, say).join("; ")}`,
  hint: (f, say) =>
    f.pastMidnight !== null
      ? `\`+1d\` behind the time of ${f.pastMidnight}, if it is past midnight`
      : f.order.length > 0
        ? `\`do\` at ${say.name(f.orderAt)} puts them the other way round: write \`do: [${f.order.join(", ")}]\``
        : f.waits.length === 0
          ? "remove one `after` or `before`"
          : "undo one of these waits: an `after` or `before`, the order of a `do` or of stops, or who rides",
});
