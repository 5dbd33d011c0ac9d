/** What a report of a judged day is: the topics it needs, how it is made of them, and the schema of its JSON. */
import type { VariantInput } from "../../changes/variants.ts";
import type { Day, Why } from "../../day/day.ts";
import type { Level, Wording } from "../../findings/finding.ts";
import type { RoutedAnswers } from "../../legs/legs.ts";
import type { Id, Plan } from "../../plan/plan.ts";
import type { ReliefProposal } from "../../roads/index.ts";
import type { ClockStyle, Instant, ZoneId } from "../../time/index.ts";
import type { RepairsShown } from "../repair/shown.ts";
import type { ReportInput, TopicInput } from "./dayView.ts";
import { type AllResults, had, type Judged, type Topic } from "./judged.ts";
import type { Shape } from "./kinds.ts";
import type { ReportParts } from "./view.ts";
import { wordingOf } from "./wording.ts";

/** How a report is made; a report passes over what it has no use for. */
export interface ReportOptions {
  /** One person's view, by id; null (default) shows everyone. `sheet` takes a vehicle, a hit or a place. */
  readonly person?: Id | null;
  /** The zone that stands in for the control room's clock; null (default) keeps the plan's. */
  readonly clock?: ZoneId | null;
  /** Whether hours are counted to 12 or to 24; by default each zone's usage. */
  readonly style?: ClockStyle | null;
  /** Leaves out telephone numbers, bookings and addresses; false by default. */
  readonly redact?: boolean;
  /** `calls`: the chain behind one instant, in place of the tables. */
  readonly why?: Why | null;
  /** `calls` and `sheet`: the older day to compare with. */
  readonly older?: Day | null;
  /** `calls`: both versions judged in every topic, for the list of changes in JSON; without it packs and gear are not compared. */
  readonly versions?: { readonly older: Judged; readonly newer: Judged } | null;
  /** `power`: which packs may fly, in place of the tables. */
  readonly fly?: boolean;
  /** `check`: prints only findings of this level and worse, and counts them all; `note` by default. */
  readonly least?: Level;
  /** `check`: notes with the plan's line and what to do; by default one line each. */
  readonly long?: boolean;
  /** `drives`: also the latest departure for this chance of arriving in time, between 0 and 1. */
  readonly chance?: number | null;
  /** `drives`: proposed drivers; `no-choice` where no one can relieve anybody. */
  readonly relief?: ReliefProposal | "no-choice" | null;
  /** `endurance`: multiplies the counted budgets of its searches; 1 by default. */
  readonly patience?: number;
  /** `drives` and `endurance`: a routing server's answers. */
  readonly routed?: RoutedAnswers;
  /** `changes`: the older version, judged like the newer one; without it nothing changed. */
  readonly against?: Judged | null;
  /** `changes`, `handover`, `now`: the moment that is asked about. `endurance`: by default the first call. */
  readonly now?: Instant | null;
  /** `asrun`: the days before along `follows` that are shown as well; 0 by default. */
  readonly daysBefore?: number;
  /** `asrun`: the chain as it was written, oldest first; without it logged times stand for planned ones. */
  readonly plans?: readonly Plan[];
  /** `compare`: the variants, judged like the plan; none by default. */
  readonly variants?: readonly VariantInput[];
  /** `repair`: what was found; without it nothing was searched. */
  readonly repairs?: RepairsShown;
}

/** A report as its folder declares it. */
export interface ReportMaker {
  /** Where lists name it among the others. */
  readonly place: number;
  /** What must be judged for it; its findings are those of the day and of these topics. */
  readonly topics: readonly Topic[];
  make(input: ReportInput, judged: Judged, options: ReportOptions): ReportParts | Promise<ReportParts>;
  /** The JSON Schema of its `data`. */
  schema(): Shape;
}

/** The report of one topic, made of its result alone; `data` is its JSON. */
export const topicMaker = <T extends Topic>(
  place: number,
  topic: T,
  report: (input: TopicInput<AllResults[T]>) => ReportParts,
  data: { readonly schema: Shape },
): ReportMaker => ({
  place,
  topics: [topic],
  make: (input, { results }) => report({ ...input, result: had<AllResults[T]>(results[topic]) }),
  schema: () => data.schema,
});

/** The words of a judged day's plan under these options. */
export const wordsFor = ({ day }: Judged, { clock, style }: ReportOptions): Wording =>
  wordingOf(day.plan, { people: day.people, clock: clock ?? null, ...(style ? { style } : {}) });

/** What every report is given. */
export function inputOf(judged: Judged, options: ReportOptions): ReportInput {
  const { day, findings } = judged;
  const { clock = null, person = null, redact = false, now = null } = options;
  return { day, findings, say: wordsFor(judged, options), clock, person, redact, now };
}
