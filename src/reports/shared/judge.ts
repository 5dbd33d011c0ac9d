/**
 * Judges a chain of days: every topic in its declared order, each loaded when its turn comes, then the plan's `accept`.
 *
 * The order is data: a topic may read what earlier ones found out. One that is not there is said to be not judged.
 */
import type { CautionsResult } from "../../cautions/index.ts";
import type { Day } from "../../day/day.ts";
import type { Finding } from "../../findings/finding.ts";
import type { JudgeInput, Judgement } from "../../findings/judgement.ts";
import type { HoursResult } from "../../hours/index.ts";
import type { KitResult } from "../../kit/index.ts";
import type { PowerResult } from "../../power/index.ts";
import type { RoadsResult } from "../../roads/index.ts";
import type { SignalResult } from "../../signal/index.ts";
import type { SkyResult } from "../../sky/index.ts";
import { accepted } from "./accept.ts";
import { worstFirst } from "./order.ts";
import { TOPICS, type Topic } from "./topics.ts";

/** What each topic found out; a topic that was not asked for, or is not there, has nothing. */
export interface Results {
  sky?: SkyResult;
  hours?: HoursResult;
  signal?: SignalResult;
  power?: PowerResult;
  kit?: KitResult;
  cautions?: CautionsResult;
  roads?: RoadsResult;
}

export interface Judged {
  readonly day: Day;
  readonly days: readonly Day[];
  readonly results: Readonly<Results>;
  /** Of the day and the topics asked for: located in the plan, accepted ones marked, worst first. */
  readonly findings: readonly Finding[];
  /** Of the topics asked for, those that nothing judges yet. */
  readonly notJudged: readonly Topic[];
}

interface Step {
  readonly topic: Topic;
  /** Earlier topics whose results it reads; they are judged, too, but their findings are not told for it. */
  readonly reads: readonly Topic[];
  judge(input: JudgeInput, done: Results): Promise<readonly Finding[]>;
}

/** Keeps a topic's result for later ones and gives its findings. */
const kept = <R>({ result, findings }: Judgement<R>, keep: (result: R) => void): readonly Finding[] => {
  keep(result);
  return findings;
};

/** A result that the declared order, or the caller's question, puts before; its absence is a bug. */
export function had<R>(result: R | undefined): R {
  if (result === undefined) throw new Error("a topic was read before it was judged");
  return result;
}

const STEPS: readonly Step[] = [
  {
    topic: "sky",
    reads: [],
    judge: async (input, done) =>
      kept(await (await import("../../sky/index.ts")).assess(input), (result) => {
        done.sky = result;
      }),
  },
  {
    topic: "hours",
    reads: [],
    judge: async (input, done) =>
      kept((await import("../../hours/index.ts")).assess(input), (result) => {
        done.hours = result;
      }),
  },
  {
    topic: "signal",
    reads: [],
    judge: async (input, done) =>
      kept(await (await import("../../signal/index.ts")).assess(input), (result) => {
        done.signal = result;
      }),
  },
  {
    topic: "power",
    reads: ["sky"],
    judge: async (input, done) =>
      kept(await (await import("../../power/index.ts")).assess(input, had(done.sky)), (result) => {
        done.power = result;
      }),
  },
  {
    topic: "kit",
    reads: ["sky"],
    judge: async (input, done) =>
      kept((await import("../../kit/index.ts")).assess(input, had(done.sky)), (result) => {
        done.kit = result;
      }),
  },
  {
    topic: "cautions",
    reads: ["sky"],
    judge: async (input, done) =>
      kept((await import("../../cautions/index.ts")).assess(input, had(done.sky)), (result) => {
        done.cautions = result;
      }),
  },
  {
    topic: "roads",
    reads: ["sky"],
    judge: async (input, done) =>
      kept((await import("../../roads/index.ts")).assess(input, had(done.sky)), (result) => {
        done.roads = result;
      }),
  },
];

/** Judges the last of `input.days`. Throws a RangeError where there is none: a bug, not input. */
export async function judge(input: JudgeInput, asked: readonly Topic[] = TOPICS): Promise<Judged> {
  const day = input.days.at(-1);
  if (day === undefined) throw new RangeError("no day to judge");
  const needed = new Set(asked);
  for (const step of [...STEPS].reverse())
    if (needed.has(step.topic)) for (const topic of step.reads) needed.add(topic);
  const done: Results = {};
  const found: Finding[] = [...day.findings];
  for (const step of STEPS) {
    if (!needed.has(step.topic)) continue;
    const findings = await step.judge(input, done);
    if (asked.includes(step.topic)) found.push(...findings);
  }
  const notJudged = asked.filter((topic) => !STEPS.some((step) => step.topic === topic));
  const complete = asked.length === TOPICS.length && notJudged.length === 0;
  const told = accepted(day.plan, found, complete).map((finding) => located(day, finding));
  return { day, days: input.days, results: done, findings: worstFirst(told), notJudged };
}

const located = ({ plan }: Day, finding: Finding): Finding =>
  finding.span !== null || finding.path === null ? finding : { ...finding, span: plan.source.locate(finding.path) };
