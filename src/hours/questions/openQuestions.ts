/** Where a record gives reason to ask what a rule set leaves open: section by section, each on its own. */
import type { Finding, PlanPath } from "../../findings/finding.ts";
import type { Instant, Interval } from "../../time/units.ts";
import type { RestRun } from "../count/reading.ts";
import type { LogSpan } from "../count/spans.ts";
import { lawOpen } from "../findings.ts";
import type { PersonHours } from "../judge/person.ts";
import type { RuleSet } from "../judge/rule.ts";
import { PARTING } from "../rules/house.ts";
import { weeklyRest } from "./weeklyQuestions.ts";

export interface AskContext {
  readonly hours: PersonHours;
  readonly spans: readonly LogSpan[];
  /** What ended before it was told on an earlier day. */
  readonly from: Instant;
  readonly path: PlanPath;
  /** Minutes by which the home terminal's clock is ahead of UTC. */
  offset(at: Instant): number;
  /** Whether someone who is free in this span may yet be bound to the spot: at a venue, not at a bed. */
  atVenue(span: LogSpan): boolean;
  /** Whether overtime law of the United States is named for the person. */
  readonly overtime: boolean;
}

/** A question, with the stretch of time that raises it where there is one. */
export interface Asked {
  readonly rules: RuleSet;
  readonly question: string;
  readonly during: Interval | null;
}

export type Ask = (context: AskContext, rules: RuleSet) => readonly Asked[];

const lengthOf = ({ from, to }: Interval): number => to - from;

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

const isSeat = (span: LogSpan | undefined): boolean => span?.is === "riding" && span.in === "commercial";

/** The seat beside the berth on both sides of it: allowed once, the text does not say divided. */
const seatSplit: Ask = ({ spans, from }, { seat, ...others }) => {
  if (seat === null) return [];
  const berth = spans.find(
    (span, i) =>
      span.is === "berth" &&
      lengthOf(span) >= seat.berth &&
      isSeat(spans[i - 1]) &&
      isSeat(spans[i + 1]) &&
      span.to > from,
  );
  if (berth === undefined) return [];
  const question = `may the ${seat.most / 60} h in the seat be split before and after the berth? Only the part after it is counted as rest`;
  return [{ rules: { ...others, seat }, question, during: berth }];
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
    "the clocks change in this rest; the hours that passed are counted, not those on the wall: is that how it is enforced?";
  return [{ rules, question, during: rest }];
};

/** s. 14: 8 h off in one piece, and 2 h more that are not part of them. */
const CORE = 480;
const OTHER = 120;

/** The last rest whose own surplus has to serve as the day's other two hours, because nothing else does. */
function surplusRest(rests: readonly RestRun[], from: Instant): RestRun | undefined {
  return rests.findLast((rest, i) => {
    if (lengthOf(rest) < CORE + OTHER || rest.to <= from) return false;
    const next = rests.findIndex((other, j) => j > i && lengthOf(other) >= CORE);
    const between = rests.slice(i + 1, next < 0 ? rests.length : next);
    return next >= 0 && between.reduce((sum, other) => sum + lengthOf(other), 0) < OTHER;
  });
}

const canadianDay: Ask = ({ hours, from }, rules) => {
  if (rules.id !== "ca-south") return [];
  const rests = hours.verdicts.find((verdict) => verdict.rules.id === rules.id)?.rests ?? [];
  const rest = surplusRest(rests, from);
  if (rest === undefined) return [];
  const question =
    "the day's other 2 h off lie next to the 8 h in one rest, and are counted (s. 14): is that how it is enforced?";
  return [{ rules, question, during: rest }];
};

const borderDay: Ask = ({ hours }, rules) =>
  rules.id === "ca-south" && hours.bindings.some((binding) => binding.rules.id.startsWith("us-"))
    ? [
        {
          rules,
          question: "a border day: each country counts the hours in the other; which exceptions hold on which side?",
          during: null,
        },
      ]
    : [];

const breachesUnder = ({ hours, from }: AskContext, rules: RuleSet): readonly Interval[] =>
  hours.verdicts.find((verdict) => verdict.rules.id === rules.id)?.breaches.filter(({ to }) => to > from) ?? [];

const isAmerican = ({ id }: RuleSet): boolean => id.startsWith("us-");

/** Vehicles and errands outside 49 CFR Part 395: 395.1(n); 390.3 and 390.23 from memory. */
const outside: Ask = (context, rules) => {
  const [breach] = isAmerican(rules) ? breachesUnder(context, rules) : [];
  if (breach === undefined) return [];
  const question =
    "a breach stands unless the vehicle is outside these rules: utility service (49 CFR 395.1(n)), emergency relief (390.23), government (390.3): is one claimed? A claim needs counsel";
  return [{ rules, question, during: breach }];
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
  if (!isAmerican(rules)) return [];
  const breaches = breachesUnder(context, rules);
  const { spans } = context;
  const drive = spans.find(
    (span, i) =>
      span.is === "driving" &&
      span.in === "commercial" &&
      endsShift(spans, i, PARTING) &&
      breaches.some((breach) => breach.from < span.to && breach.to > span.from),
  );
  if (drive === undefined) return [];
  const question =
    "the way to bed in the vehicle is counted as driving and breaks a limit: it is personal only for someone relieved of all work, from the place of work to the nearest reasonable bed, and never because hours ran out (395.8 guidance Q26): does it qualify?";
  return [{ rules, question, during: drive }];
};

/** What a claimed exception leaves open. */
const claimed: Ask = (_, rules) => (rules.asks ?? []).map((question) => ({ rules, question, during: null }));

/** Under 561/2006: a way to the vehicle, a ferry, a time of availability; each is counted as other work. */
const EUROPEAN: readonly (readonly [LogSpan["is"], string])[] = [
  [
    "riding",
    "riding is counted as other work: is it a way to a vehicle away from base with a ferry or train and a bunk (Art 9)?",
  ],
  [
    "standby",
    "standing by is counted as other work: is it a period of availability, known beforehand (Directive 2002/15/EC Art 3)?",
  ],
];

const european: Ask = ({ spans, from }, rules) =>
  rules.id !== "eu"
    ? []
    : EUROPEAN.flatMap(([is, question]) => {
        const span = spans.find((one) => one.is === is && one.to > from);
        return span === undefined ? [] : [{ rules, question, during: span }];
      });

/** 29 U.S.C. 213(b)(1) exempts drivers of commercial vehicles, not in a week in which they drive light ones, too. */
export function mixedWeek({ overtime, spans, hours, path }: AskContext): readonly Finding[] {
  const drives = (vehicle: LogSpan["in"]): boolean =>
    spans.some((span) => span.is === "driving" && span.in === vehicle);
  if (!overtime || !drives("commercial") || !drives("light")) return [];
  const question =
    "drives commercial and light vehicles in one stretch: is overtime due in a mixed week (29 U.S.C. 213(b)(1)), and does a state ask for it by the day?";
  const facts = { who: hours.id, question, from: null, to: null };
  const source = { title: "Fair Labor Standards Act", clause: "29 U.S.C. 213(b)(1)" };
  return [lawOpen.raise(facts, { who: hours.id, path, source })];
}

export const ASKS: readonly Ask[] = [
  outside,
  wayToBed,
  venueRest,
  seatSplit,
  clockChange,
  canadianDay,
  borderDay,
  claimed,
  european,
  weeklyRest,
];
