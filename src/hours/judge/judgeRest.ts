/** Limits on rest: how long the last one was, what came before it was complete, what is still to be made up for. */
import { type Instant, type Interval, instant, lengthOf } from "../../time/units.ts";
import type { MaxContext } from "../count/countingPeriods.ts";
import { partsIn } from "../count/reading.ts";
import type { Tally } from "../count/tally.ts";
import type { WeeklyRests } from "../count/weekly.ts";
import type { MakeUpLimit, RestLimit } from "../rules/rule.ts";
import type { BreachPiece } from "./judgeMax.ts";
import type { LimitState } from "./limitState.ts";

/** Also the context of limits on rest: what is owed depends on what the others excuse. */
export interface RestContext extends MaxContext {
  /** Null where the rules ask for no make-up of weekly rests. */
  readonly weekly: WeeklyRests | null;
}

/** Work inside stretches in which there may be none. */
const worked = (stretches: readonly Interval[], work: Tally): BreachPiece[] =>
  stretches.flatMap(({ from, to }) => work.within(from, to).map((piece) => ({ ...piece, bites: piece.from })));

/** Working again before a rest that parts two shifts is complete, until it would have been. */
function shortRests(limit: RestLimit, context: MaxContext, calledAt: Instant | undefined): BreachPiece[] {
  const pieces: BreachPiece[] = [];
  for (const run of context.input.reading.rests) {
    if (!partsIn(run, limit) || lengthOf(run) >= limit.requires) continue;
    const until = instant(run.from + limit.requires);
    const work = limit.forbids === "work" ? context.work : context.counts.driving;
    if (run.to === calledAt) pieces.push({ from: run.to, to: until, bites: run.to });
    else pieces.push(...worked([{ from: run.to, to: until }], work));
  }
  return pieces;
}

/** Work after two weeks that held too little weekly rest, until a full one. */
function shortWeeks(
  limit: RestLimit,
  { weekly, work, input }: RestContext,
  calledAt: Instant | undefined,
): BreachPiece[] {
  if (weekly === null) return [];
  const pieces = worked(weekly.short, work);
  const last = input.reading.rests.findLast((run) => partsIn(run, limit));
  if (calledAt === undefined || !weekly.isShort || last?.to !== calledAt) return pieces;
  return [...pieces, { from: calledAt, to: instant(last.from + limit.requires), bites: calledAt }];
}

/** Driving in a shift that no known rest precedes. */
const unrested = (context: MaxContext): BreachPiece[] =>
  context.shifts
    .filter(({ rested }) => !rested)
    .flatMap(({ from, to }) => context.counts.driving.within(from, to))
    .map(({ from, to }) => ({ from, to, bites: from }));

/** Rests of the length asked for that were taken in a vehicle: what lies beyond that length in its berth. */
const restsAboard = ({ requires }: RestLimit, { input }: MaxContext): BreachPiece[] =>
  input.reading.rests.flatMap((run) => {
    const { berth } = run;
    const elsewhere = lengthOf(run) - lengthOf(berth);
    if (lengthOf(run) < requires || lengthOf(berth) === 0 || elsewhere >= requires) return [];
    return [{ from: berth.from, to: berth.to, bites: berth.from }];
  });

/** The rest that a view calls the rest before: the last that parts shifts, or the one still running. */
function lastRest(limit: RestLimit, context: MaxContext): number | null {
  const { rests } = context.input.reading;
  for (let i = rests.length - 1; i >= 0; i--) {
    const run = rests[i];
    if (run !== undefined && partsIn(run, limit)) return lengthOf(run);
  }
  return null;
}

function restState(limit: RestLimit, context: MaxContext): LimitState {
  const used = lastRest(limit, context);
  const left = used === null ? null : Math.max(0, limit.requires - used);
  return {
    limit,
    allowedMinutes: limit.requires,
    usedMinutes: used,
    leftMinutes: left,
    runsOutAt: null,
    countsFrom: null,
    // The rule looks at whole rests alone: a shorter one leaves the shift going on.
    ...(limit.breach === "none" && left !== null && left > 0 && isRestedNow(context) ? { short: true } : {}),
  };
}

/** Whether the current shift has a rest before it. */
const isRestedNow = ({ shifts }: MaxContext): boolean => shifts.at(-1)?.rested === true;

/** Nothing is reported where nothing is owed. */
function makeUpState(limit: MakeUpLimit, { weekly, input: { end } }: RestContext): readonly LimitState[] {
  const [first] = weekly?.owed ?? [];
  const by = weekly?.beginBy ?? null;
  if (first === undefined || by === null) return [];
  const from = first.during.to;
  return [
    {
      limit,
      allowedMinutes: Math.max(0, by - from),
      usedMinutes: end - from,
      leftMinutes: Math.max(0, by - end),
      runsOutAt: by,
      countsFrom: from,
    },
  ];
}

/** How a limit on rest stands; nothing of a make-up where nothing is owed. */
export const restStates = (limit: RestLimit | MakeUpLimit, context: RestContext): readonly LimitState[] =>
  limit.kind === "makeUp" ? makeUpState(limit, context) : limit.breach === "aboard" ? [] : [restState(limit, context)];

/** The minutes in breach of a limit on rest. */
export function restPieces(
  limit: RestLimit | MakeUpLimit,
  context: RestContext,
  calledAt: Instant | undefined,
): readonly BreachPiece[] {
  if (limit.kind === "makeUp") return worked(context.weekly?.late ?? [], context.work);
  if (limit.breach === "none") return unrested(context);
  if (limit.breach === "aboard") return restsAboard(limit, context);
  return limit.afterShorter === true ? shortWeeks(limit, context, calledAt) : shortRests(limit, context, calledAt);
}
