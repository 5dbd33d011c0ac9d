/** One person's hours under every rule set that binds them, at one moment. */
import { leastOf, once, sumOf } from "../../lists.ts";
import { type Instant, instant, overlap } from "../../time/units.ts";
import type { Calendars } from "../count/calendar.ts";
import { differs, minutesOver, type Readings } from "../count/pairing.ts";
import { type Calendar, type HoursRecord, isDuty, isRest, type LogSpan, recordUntil } from "../count/spans.ts";
import type { RuleSet } from "../rules/rule.ts";
import { HOUSE_PARTING } from "../rules/sets/house.ts";
import type { ApplicableRules } from "./applicableRules.ts";
import { leastRest } from "./bindingRests.ts";
import { judgedBothWays } from "./bothWays.ts";
import type { Breach, Verdict } from "./judge.ts";
import { driveFromBerth, drivingMustStopAt, nextCallSearch } from "./nextCallSearch.ts";

/** A person's record judged by every rule set that binds them. What may come next takes a search, made when it is first asked for. */
export interface PersonHours extends Totals, Foretold {
  readonly id: string;
  readonly bindings: readonly ApplicableRules[];
  readonly judgedAt: Instant | null;
  /** In the order of the bindings; where the rules can be read in two ways, by the stricter. */
  readonly verdicts: readonly Verdict[];
  /** Breaches that hang on which of three or more rests are a pair: the first of each rule set. */
  readonly disputed: readonly Breach[];
  /** The rest that runs at the moment judged, or that ended with it; null where none does. */
  readonly restSoFarMinutes: number | null;
  /** The longest rest that any rule asks for before the next call. */
  readonly restNeededMinutes: number;
}

/** How long the last rest, duty and driving were. */
export interface Totals {
  /** The last rest that parts two shifts, up to now where it still runs; null where nothing is known of one. */
  readonly restBeforeMinutes: number | null;
  /** A day of which nothing is known lies in that rest: only what is known of it is counted. */
  readonly restAtLeast: boolean;
  /** Of the current shift: the last with work in it, until a new one begins. Meals are not on duty. */
  readonly dutyMinutes: number;
  /** At the wheel of any vehicle. */
  readonly drivingMinutes: number;
}

/** What may come next. */
interface Foretold {
  /** By law; null where no law binds. */
  readonly drivingMustStopAt: Instant | null;
  /** By the house rules. */
  readonly houseDrivingStopsAt: Instant | null;
  readonly earliestNextCall: Instant | null;
  /** Once released never before the next call. */
  readonly earliestNextDrive: Instant | null;
  /** If they stay in the berth from now on; null where they are in none, or it makes no difference. */
  readonly earliestDriveFromBerth: Instant | null;
}

interface Shift {
  readonly from: Instant;
  readonly to: Instant;
  readonly restBefore: number | null;
}

/** The last shift with work in it, and the last rest; a free stretch shorter than `PARTING` lies inside a shift. */
export function lastShift(spans: readonly LogSpan[]): Shift | null {
  const end = spans.at(-1)?.to;
  let from = spans[0]?.from;
  if (from === undefined || end === undefined) return null;
  let rest: number | null = null;
  let to: Instant = end;
  let restFrom: Instant | null = null;
  for (const span of [...spans, null]) {
    if (span !== null && isRest(span)) {
      restFrom ??= span.from;
      continue;
    }
    const until = span?.from ?? end;
    if (restFrom !== null && until - restFrom >= HOUSE_PARTING) {
      rest = until - restFrom;
      if (span === null) to = restFrom;
      else from = until;
    }
    restFrom = null;
  }
  return { from: instant(Math.min(from, to)), to, restBefore: rest };
}

/** The free time that a record ends with; null where it ends with something else. */
function restRunning(spans: readonly LogSpan[]): number | null {
  const busy = spans.findLastIndex((span) => !isRest(span));
  const [first, last] = [spans[busy + 1], spans.at(-1)];
  return first === undefined || last === undefined ? null : last.to - first.from;
}

const minutesOf = (spans: readonly LogSpan[], shift: Shift, counts: (span: LogSpan) => boolean): number =>
  sumOf(spans, (span) => (counts(span) ? overlap(span, shift) : 0));

function totalsOf({ spans }: HoursRecord): Totals {
  const shift = lastShift(spans);
  return {
    restBeforeMinutes: shift?.restBefore ?? null,
    restAtLeast: false,
    dutyMinutes: shift === null ? 0 : minutesOf(spans, shift, isDuty),
    drivingMinutes: shift === null ? 0 : minutesOf(spans, shift, ({ is }) => is === "driving"),
  };
}

/** A person with their record and what binds them, before judging. */
export interface PersonAsked {
  readonly id: string;
  /** Minutes known only as totals lie on the days of the calendar asked for. */
  recordIn(calendar: Calendar): HoursRecord;
  readonly bindings: readonly ApplicableRules[];
  readonly calendars: Calendars;
  /** The moment judged; the end of the record where left out. */
  readonly at?: Instant;
  /** False for someone who never takes the wheel: nothing is then said of driving. */
  readonly drives: boolean;
  /** Released at the moment judged: they drive again only after a call. */
  readonly released: boolean;
  /** False: nothing is said of what may come next. */
  readonly foretells?: boolean;
  /** What ran out before this allows nothing from then on: driving is not said to stop earlier. */
  readonly notBefore?: Instant;
  /** Where they are known, and need not be inferred from the record. */
  readonly totals?: Totals;
}

const earliest = (times: readonly (Instant | null)[]): Instant | null => {
  const known = times.flatMap((at) => at ?? []);
  return leastOf(known);
};

/** What all limits leave together, to choose between readings that break as much. */
const leftIn = ({ strictest: { limits } }: Readings): number => sumOf(limits, ({ leftMinutes }) => leftMinutes ?? 0);

/** The one with more minutes in breach, then the one that leaves less. */
function stricter(a: Readings, b: Readings): Readings {
  const more = minutesOver(b.strictest) - minutesOver(a.strictest);
  return more > 0 || (more === 0 && leftIn(b) < leftIn(a)) ? b : a;
}

const NOTHING_FORETOLD: Foretold = {
  drivingMustStopAt: null,
  houseDrivingStopsAt: null,
  earliestNextCall: null,
  earliestNextDrive: null,
  earliestDriveFromBerth: null,
};

function foretold(asked: PersonAsked, record: HoursRecord, each: readonly Readings[]): Foretold {
  const { drives, released, notBefore = Number.NEGATIVE_INFINITY } = asked;
  if (asked.foretells === false) return NOTHING_FORETOLD;
  const latest = each.flatMap(({ all: [first] }) => first ?? []);
  const next = nextCallSearch(latest);
  const isLaw = ({ rules }: Verdict): boolean => rules.legallyBinding;
  const stops = (fits: (verdict: Verdict) => boolean): Instant | null => {
    const at = drives ? earliest(each.flatMap(({ all }) => all.filter(fits).map(drivingMustStopAt))) : null;
    return at === null ? null : instant(Math.max(at, notBefore));
  };
  const call = next.earliestNextCall;
  const afterCall = (drive: Instant | null): Instant | null =>
    drive === null || !drives ? null : instant(Math.max(drive, released ? (call ?? drive) : drive));
  const drive = afterCall(next.earliestNextDrive);
  const aboard = record.spans.at(-1)?.is === "berth" ? driveFromBerth(latest) : null;
  const fromBerth = aboard !== null && drives && drive !== null && aboard < drive ? aboard : null;
  return {
    drivingMustStopAt: stops(isLaw),
    houseDrivingStopsAt: stops((verdict) => !isLaw(verdict)),
    earliestNextCall: call,
    earliestNextDrive: drive,
    earliestDriveFromBerth: fromBerth,
  };
}

/** Judges one person at a moment. Work that begins at that very moment is known of: a call may come too early. */
export function personHours(asked: PersonAsked): PersonHours {
  const { id, recordIn, bindings, calendars, at } = asked;
  const seen = (all: HoursRecord): HoursRecord => (at === undefined ? all : recordUntil(all, at));
  const whole = recordIn(calendars(0));
  const record = seen(whole);
  const judgedAt = record.spans.at(-1)?.to ?? null;
  const called = judgedAt !== null && whole.spans.some((span) => span.from === judgedAt && isDuty(span));
  const options = called && judgedAt !== null ? { calledAt: judgedAt } : {};
  const judged = (rules: RuleSet): Readings => {
    const calendar = calendars(rules.dayStarts);
    return judgedBothWays(seen(recordIn(calendar)), rules, calendar, options);
  };
  const byDays = bindings.map(({ rules, variants = [] }) => ({
    first: judged(rules),
    others: variants.map((variant) => judged(variant.rules)),
  }));
  const readings = byDays.map(({ first, others }) => others.reduce(stricter, first));
  const verdicts = readings.map(({ strictest }, i) =>
    bindings[i]?.forNextDrive === true ? { ...strictest, breaches: [], reviews: [], notStated: [] } : strictest,
  );
  const each = byDays.flatMap(({ first, others }) => [first, ...others]);
  const next = once(() => foretold(asked, record, each));
  return {
    id,
    bindings,
    judgedAt,
    ...(asked.totals ?? totalsOf(record)),
    verdicts,
    disputed: readings.flatMap((reading) => differs(reading) ?? []),
    get drivingMustStopAt() {
      return next().drivingMustStopAt;
    },
    get houseDrivingStopsAt() {
      return next().houseDrivingStopsAt;
    },
    get earliestNextCall() {
      return next().earliestNextCall;
    },
    get earliestNextDrive() {
      return next().earliestNextDrive;
    },
    get earliestDriveFromBerth() {
      return next().earliestDriveFromBerth;
    },
    restSoFarMinutes: restRunning(record.spans),
    restNeededMinutes: Math.max(0, ...bindings.map(({ rules }) => leastRest(rules))),
  };
}

interface Judged<B> {
  readonly verdicts: readonly { readonly breaches: readonly B[] }[];
}

/** All breaches of a person, in time order, then in the order of rule sets and limits. */
export const breachesOf = <B extends Pick<Breach, "from">>({ verdicts }: Judged<B>): readonly B[] =>
  verdicts.flatMap(({ breaches }) => breaches).sort((a, b) => a.from - b.from);
