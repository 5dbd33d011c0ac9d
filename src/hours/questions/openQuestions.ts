/** Where a record gives reason to ask what a rule set leaves open: section by section, each on its own. */

import type { Finding } from "../../findings/finding.ts";
import { sumOf } from "../../lists.ts";
import { type Instant, type Interval, instant, lengthOf } from "../../time/units.ts";
import type { RestRun } from "../count/reading.ts";
import { isCovered, type LogSpan, mealsOf } from "../count/spans.ts";
import type { RuleSet } from "../rules/rule.ts";
import { HOUSE_PARTING } from "../rules/sets/house.ts";
import type { Ask, AskContext } from "./ask.ts";
import { lawOpen } from "./findingsQuestions.ts";
import { weeklyRest } from "./weeklyQuestions.ts";

/** A break at a venue is off duty only for someone who may leave. */
const venueRest: Ask = ({ spans, from, atVenue }, rules) => {
  const statusOf = (span: LogSpan): string => (span.pause ? rules.pause : rules.statuses[span.is]);
  const free = spans.find(
    (span) => span.to > from && (span.pause || span.is === "meal") && statusOf(span) === "off" && atVenue(span),
  );
  if (free === undefined) return [];
  const what = free.is === "meal" ? "meal" : "stand-down";
  const question = `the ${what} is counted as off duty: are they free to leave, not on call and not guarding the vehicle?`;
  return [{ rules, question, during: free }];
};

const isSeat = (span: LogSpan | undefined, rules: RuleSet): boolean => span?.is === "riding" && isCovered(span, rules);

/** The seat beside the berth on both sides of it: allowed once, the text does not say divided. */
const seatSplit: Ask = ({ spans, from }, rules) => {
  const { seat } = rules;
  if (seat === null) return [];
  const berth = spans.find(
    (span, i) =>
      span.is === "berth" &&
      lengthOf(span) >= seat.berth &&
      isSeat(spans[i - 1], rules) &&
      isSeat(spans[i + 1], rules) &&
      span.to > from,
  );
  if (berth === undefined) return [];
  const question = `may the ${seat.most / 60} h in the seat be split before and after the berth? Only the part after it is counted as rest`;
  return [{ rules, question, during: berth }];
};

/** The lengths of rest that a rule set turns on. */
function restLengths({ shift, limits }: RuleSet): readonly number[] {
  const asked = limits.flatMap((limit) => (limit.kind === "rest" ? [limit.requires] : []));
  if (shift?.kind === "rest") return [...asked, shift.minutes];
  return shift?.kind === "dailyRest" ? [...asked, shift.regular, shift.reduced] : asked;
}

/** A clock change inside a rest that is long enough by the clock on the wall and too short by the hours that passed, or the other way. */
const clockChange: Ask = ({ hours, from, offset }, rules) => {
  const rests = hours.verdicts.find((verdict) => verdict.rules.id === rules.id)?.rests ?? [];
  const matters = (rest: RestRun): boolean => {
    const onWall = lengthOf(rest) + offset(rest.to) - offset(rest.from);
    return restLengths(rules).some((need) => lengthOf(rest) >= need !== onWall >= need);
  };
  const rest = rests.find((run) => run.to > from && matters(run));
  if (rest === undefined) return [];
  const question =
    "the clocks change in this rest; elapsed hours are counted, not clock hours: is that how it is enforced?";
  return [{ rules, question, during: rest }];
};

/** The last rest whose own surplus has to serve as the day's other free time, because nothing else does. */
function surplusRest(
  rests: readonly RestRun[],
  from: Instant,
  { core, other: least }: { core: number; other: number },
): RestRun | undefined {
  return rests.findLast((rest, i) => {
    if (lengthOf(rest) < core + least || rest.to <= from) return false;
    const next = rests.findIndex((other, j) => j > i && lengthOf(other) >= core);
    const between = rests.slice(i + 1, next < 0 ? rests.length : next);
    return next >= 0 && sumOf(between, lengthOf) < least;
  });
}

const surplus: Ask = ({ hours, from }, rules) => {
  const asked = rules.asks.surplus;
  if (asked === undefined) return [];
  const rests = hours.verdicts.find((verdict) => verdict.rules.id === rules.id)?.rests ?? [];
  const rest = surplusRest(rests, from, asked);
  return rest === undefined ? [] : [{ rules, question: asked.question, during: rest }];
};

/** Rules of two countries on one day, those of labour apart, which are not about the road. */
const borderDay: Ask = ({ hours }, rules) => {
  const question = rules.asks.border;
  const abroad = hours.bindings.some(
    ({ rules: { country, limits } }) =>
      limits.some((limit) => limit.forbids === "driving") && country !== null && country !== rules.country,
  );
  return question === undefined || !abroad ? [] : [{ rules, question, during: null }];
};

const breachesUnder = ({ hours, from }: AskContext, rules: RuleSet): readonly Interval[] =>
  hours.verdicts.find((verdict) => verdict.rules.id === rules.id)?.breaches.filter(({ to }) => to > from) ?? [];

/** Vehicles and errands outside the rules. */
const outside: Ask = (context, rules) => {
  const question = rules.asks.breach;
  const [breach] = breachesUnder(context, rules);
  return question === undefined || breach === undefined ? [] : [{ rules, question, during: breach }];
};

/** What may stand between the last drive of a shift and the rest: handing over, unloading. */
const HANDOVER = 60;

/** Whether a shift's last work but for handing over is at index `i`: a rest of at least `parting` follows. */
function endsShift(spans: readonly LogSpan[], i: number, parting: number): boolean {
  let busy = 0;
  for (const span of spans.slice(i + 1)) {
    if (span.is === "off" || span.is === "berth") return lengthOf(span) >= parting;
    busy += lengthOf(span);
    if (span.is === "driving" || busy > HANDOVER) return false;
  }
  return true;
}

/** The way to bed in the vehicle: driving as counted; 395.8 guidance Q26 lets some of it be personal. */
const wayToBed: Ask = (context, rules) => {
  const question = rules.asks.wayToBed;
  if (question === undefined) return [];
  const breaches = breachesUnder(context, rules);
  const { spans } = context;
  const drive = spans.find(
    (span, i) =>
      span.is === "driving" &&
      isCovered(span, rules) &&
      endsShift(spans, i, HOUSE_PARTING) &&
      breaches.some((breach) => breach.from < span.to && breach.to > span.from),
  );
  if (drive === undefined) return [];
  return [{ rules, question, during: drive }];
};

/** What a claimed exception leaves open. */
const claimed: Ask = (_, rules) => (rules.asks.claimed ?? []).map((question) => ({ rules, question, during: null }));

/** How the first stretch of a kind is counted, and what else it may be. */
const kinds: Ask = ({ spans, from }, rules) =>
  (rules.asks.kinds ?? []).flatMap(({ is, question }) => {
    const span = spans.find((one) => one.is === is && one.to > from);
    return span === undefined ? [] : [{ rules, question, during: span }];
  });

/** A meal that may be too short to be one. */
export function shortMeal({ labour, spans, hours, path, from }: AskContext): readonly Finding[] {
  for (const { title, asks } of labour) {
    const asked = asks.shortMeal;
    if (asked === undefined) continue;
    const meal = mealsOf(spans).find(
      (one) => one.to > from && lengthOf(one) >= asked.least && lengthOf(one) < asked.under,
    );
    if (meal === undefined) continue;
    const facts = { who: hours.id, question: asked.question, from: { at: meal.from }, to: { at: meal.to } };
    return [lawOpen.raise(facts, { who: hours.id, at: meal.from, path, source: { title, clause: "29 CFR 785.19" } })];
  }
  return [];
}

/** Labour law whose overtime hangs on which vehicles someone drives. */
export function mixedVehicles({ labour, spans, hours, path }: AskContext): readonly Finding[] {
  const drives = (vehicle: LogSpan["in"]): boolean =>
    spans.some((span) => span.is === "driving" && span.in === vehicle);
  if (!drives("commercial") || !drives("light")) return [];
  return labour.flatMap(({ title, asks: { mixedVehicles: asked } }) => {
    if (asked === undefined) return [];
    const facts = { who: hours.id, question: asked.question, from: null, to: null };
    return [lawOpen.raise(facts, { who: hours.id, path, source: { title, clause: asked.clause } })];
  });
}

/** The minutes of an interval inside a stretch of the clock. */
function minutesByNight({ from, to }: Interval, first: number, last: number, offset: (at: Instant) => number): number {
  let minutes = 0;
  for (let at = from; at < to; at = instant(at + 1)) {
    const wall = (((at + offset(at)) % 1440) + 1440) % 1440;
    if (wall >= first && wall < last) minutes += 1;
  }
  return minutes;
}

/** A stretch of work with enough of the night in it. */
const byNight: Ask = ({ hours, spans, from, offset }, rules) => {
  const { night } = rules.asks;
  if (night === undefined) return [];
  const shifts = hours.verdicts.find((verdict) => verdict.rules.id === rules.id)?.shifts ?? [];
  const works = (span: LogSpan): boolean => ["duty", "driving"].includes(rules.statuses[span.is]) && !span.pause;
  const shift = shifts.find((one) => {
    if (one.to <= from) return false;
    const worked = spans.filter((span) => works(span) && span.from < one.to && span.to > one.from);
    const minutes = worked.map((span) => minutesByNight(span, night.fromMinute, night.toMinute, offset));
    return sumOf(minutes, (count) => count) >= night.least;
  });
  return shift === undefined ? [] : [{ rules, question: night.question, during: shift }];
};

/** A daily rest that was too short, behind which driving is counted anew. */
const shortRest: Ask = ({ hours, from }, rules) => {
  const question = rules.asks.shortRest;
  const rests = hours.verdicts.find((verdict) => verdict.rules.id === rules.id)?.shortRests ?? [];
  const during = rests.find(({ to }) => to > from);
  return question === undefined || during === undefined ? [] : [{ rules, question, during }];
};

/** The questions that any rule set may raise. */
export const GENERAL_QUESTIONS: readonly Ask[] = [
  outside,
  wayToBed,
  venueRest,
  seatSplit,
  clockChange,
  surplus,
  borderDay,
  claimed,
  kinds,
  byNight,
  shortRest,
  weeklyRest,
];
