/** What can be wrong with people's hours: codes, sentences and cures. */
import { type Definition, define, type Entry, namesAndCount, type Wording } from "../findings/finding.ts";
import type { Instant } from "../time/units.ts";

/** An instant as a finding carries it, to be printed on the reader's clocks. */
export interface At {
  readonly at: Instant;
}

/** Facts shared by all breaches of a limit. */
export type BreachFacts = {
  readonly who: string;
  /** The id of the limit: `us-property.window`. */
  readonly limit: string;
  /** The limit in a few words: `14 h window`. */
  readonly rule: string;
  /** The first stretch of it; `overMinutes` is the sum of all. */
  readonly from: At;
  readonly to: At;
  readonly overMinutes: number;
  readonly times: number;
  /** What is forbidden, as a word of what they do. */
  readonly doing: "drives" | "works";
  /** From when the limit counts. */
  readonly since: At | null;
  /** Whether the call can be later by what is over with every fixed time of the day kept. */
  readonly mayBeLater: boolean;
};

/** Facts of a rest that is too short: how long it was, what would make it enough. */
export type RestFacts = {
  readonly who: string;
  readonly limit: string;
  readonly rule: string;
  readonly restMinutes: number;
  readonly neededMinutes: number;
  readonly released: At;
  readonly call: At;
  readonly callFrom: At;
  readonly releaseBy: At;
  /** Whether the call can come as late as the rest asks with every fixed time of the day kept. */
  readonly mayBeLater: boolean;
};

const span = ({ from, to }: BreachFacts, say: Wording): string => `${say.time(from.at)} to ${say.time(to.at)}`;
const further = ({ times }: BreachFacts): string =>
  times > 1 ? `, and ${times - 1} more ${times === 2 ? "time" : "times"}` : "";

export const restTooShort = define<RestFacts>({
  code: "rest-too-short",
  level: "error",
  law: "by rules",
  title: "too little rest between release and call",
  why: "A rest counts from release to the first task, not to the first mile: a walk-around or a work call in the night ends it.",
  cure: "Call later, release earlier the night before, or let someone else drive.",
  example: `
    history:
      tomas: { released: 2027-01-19T23:40-06:00 }   # and called at 09:20
  `,
  sentence: (f, say) =>
    `${say.name(f.who)} has ${say.length(f.restMinutes)} of rest before ${say.time(f.call.at)}; needed: ${f.rule}`,
  hint: (f, say) => `${f.mayBeLater ? `call ${say.name(f.who)} later, or ` : ""}let someone else begin the day`,
});

/** How a release is stated that no one has: in a plan on the evening before, its hour left open; in a log before its spans. */
const stateRelease = (who: string, evening: string | null): string =>
  evening === null
    ? "begin the log with the rest before, or state `before: { releasedAt: … }`"
    : `history: { ${who}: { released: ${evening} } } with the hour`;

/** The days of which nothing is known, as days off are stated. */
const dayOffStated = (who: string, missing: readonly string[]): string =>
  `\`history: { ${who}: { totals: { ${missing.map((date) => `${date}: { duty: 0 h, driving: 0 h }`).join(", ")} } } }\` for a day off, or a plan for that date`;

/** `2027-03-14 is unknown`. */
const unknownDays = (missing: readonly string[]): string =>
  `${missing.join(", ")} ${missing.length === 1 ? "is" : "are"} unknown`;

/**
 * `missing`: the dates of which nothing is known, if these are the reason; else empty. `evening` is the one before the
 * call, `2027-01-19THH:MM-06:00`; null in a log.
 */
export const restNotStated = define<{
  who: string;
  rule: string;
  needed: number;
  evening: string | null;
  missing: readonly string[];
}>({
  code: "rest-not-stated",
  level: "warning",
  otherwise: { level: "error", when: "if a legal rule set asks for the rest" },
  law: "by rules",
  title: "the rest before a call is not known",
  why: "A rest that is not stated never counts as enough: the program cannot show that the rule is kept.",
  cure: "Name the day before with `follows`, or state the last release in `history`.",
  example: `
    history:
      tomas: { asleep: 8 h }     # no \`released\`, and no \`follows\`
  `,
  sentence: (f, say) =>
    f.missing.length > 0
      ? `${unknownDays(f.missing)}; ${say.name(f.who)} must have been off duty then to keep this limit: ${f.rule}`
      : `cannot check rest for ${say.name(f.who)}: no last release given; needed: ${f.rule}`,
  hint: (f) =>
    f.missing.length > 0
      ? dayOffStated(f.who, f.missing)
      : `${stateRelease(f.who, f.evening)}${f.evening === null ? "" : ", or `follows` the day before"}`,
  shared: (f, who, say) => ({
    sentence:
      f.missing.length > 0
        ? `${unknownDays(f.missing)}; ${namesAndCount(who, say)} must have been off duty then to keep this limit: ${f.rule}`
        : `cannot check rest for ${namesAndCount(who, say)}: no last release given; needed: ${f.rule}`,
    hint:
      f.missing.length > 0
        ? `${dayOffStated(f.who, f.missing)}, and so for each`
        : `${stateRelease(f.who, f.evening)}, and so for each${f.evening === null ? "" : ", or `follows` the day before"}`,
  }),
});

/** `released` is the end of what is stated; `before` the same hour on the last day before the call. */
export const releaseAfterCall = define<{ who: string; released: At; call: At; before: string; follows: boolean }>({
  code: "release-after-call",
  level: "error",
  law: "by rules",
  title: "the last release stated is not before the first call of the day",
  why: "A rest lies between a release and a call. If the release comes later, one of the two is wrong, and the program cannot show that the rest is kept.",
  cure: "Correct the date of the release, often a day too late, or the day's call.",
  example: `
    date: 2027-01-20
    history:
      wren: { released: 2027-01-20T20:10-06:00 }   # and called at 04:00 that day
  `,
  sentence: (f, say) =>
    `${say.name(f.who)} is called at ${say.time(f.call.at)}, and the release before that is stated as ${say.time(f.released.at)}`,
  hint: (f, say) =>
    f.follows
      ? `call ${say.name(f.who)} later, or correct the release on the day before`
      : `\`${f.before}\`, if that is meant`,
});

export const restAboard = define<{ who: string; limit: string; rule: string; from: At; to: At; minutes: number }>({
  code: "weekly-rest-aboard",
  level: "error",
  law: "by rules",
  title: "a regular weekly rest in a vehicle",
  why: "A regular weekly rest, or a longer one that makes up for a reduced one, is taken in suitable accommodation with beds, at the employer's cost (561/2006 Art 8(8)). A daily rest or a reduced weekly one may be taken in a berth of a vehicle that stands.",
  cure: "Book a bed, or keep the rest under 45 h and make up for it later.",
  example: `
    log: 1
    zone: Europe/Paris
    rules: eu
    people:
      tomas:     # 48 h in the berth
        - { from: 2027-01-20T06:00, to: 2027-01-20T15:00, is: duty }
        - { from: 2027-01-20T15:00, to: 2027-01-22T15:00, is: berth }
  `,
  sentence: (f, say) =>
    `${say.name(f.who)} rests ${say.length(f.minutes)} from ${say.time(f.from.at)} to ${say.time(f.to.at)} in a vehicle: ${f.rule}`,
  hint: (f, say) => `book a bed for ${say.name(f.who)}`,
});

const releaseEarlier = ({ who, mayBeLater }: BreachFacts, say: Wording): string =>
  `release ${say.name(who)} earlier${mayBeLater ? ", or call later" : ""}`;

/** One kind of breach: its code and words; the rest is alike for all. */
function breach(code: string, words: Omit<Entry<BreachFacts>, "code" | "level" | "law">): Definition<BreachFacts> {
  return define<BreachFacts>({ code, level: "error", law: "by rules", ...words });
}

export const windowOver = breach("window-over", {
  title: "driving after the driving window has closed",
  why: "The window runs from the first task without a stop; neither a meal nor a stand-down in a hotel holds it up.",
  cure: "Call the driver later, drive earlier, or let someone else take the wheel for the last leg.",
  example: `
    log: 1
    zone: America/Chicago
    rules: us-property
    people:
      tomas:     # the 14 h end at 20:00
        - { from: 2027-01-19T20:00, to: 2027-01-20T06:00, is: off }
        - { from: 2027-01-20T06:00, to: 2027-01-20T19:00, is: duty }
        - { from: 2027-01-20T19:00, to: 2027-01-20T20:30, is: driving }
  `,
  sentence: (f, say) => `${say.name(f.who)} drives ${span(f, say)}${further(f)}, after the end of the ${f.rule}`,
  hint: (f, say) =>
    `let someone else take the wheel before then${f.mayBeLater ? `, or call ${say.name(f.who)} later` : ""}`,
});

export const drivingTooLong = breach("driving-too-long", {
  title: "more time at the wheel than the rule allows",
  why: "Minutes at the wheel are added up over the shift at the planned time of each leg.",
  cure: "Change drivers, shorten the way, or split the day.",
  example: `
    log: 1
    zone: America/Chicago
    rules: us-property
    people:
      tomas:     # 11 h 30 min at the wheel
        - { from: 2027-01-19T20:00, to: 2027-01-20T06:00, is: off }
        - { from: 2027-01-20T06:00, to: 2027-01-20T13:00, is: driving }
        - { from: 2027-01-20T13:00, to: 2027-01-20T13:30, is: off }
        - { from: 2027-01-20T13:30, to: 2027-01-20T18:00, is: driving }
  `,
  sentence: (f, say) =>
    `${say.name(f.who)} drives ${say.length(f.overMinutes)} more than ${f.rule}: ${span(f, say)}${further(f)}`,
  hint: () => "let someone else take the wheel before then",
});

export const breakMissed = breach("break-missed", {
  otherwise: { level: "warning", when: "if the break is a house rule" },
  title: "driving or working on when a break was due",
  why: "Breaks are judged, never inserted: a stop that the plan does not state is no break.",
  cure: "State a stop on the way or a meal, or change drivers.",
  example: `
    log: 1
    zone: America/Chicago
    rules: us-property
    people:
      tomas:     # 8 h at the wheel end at 14:00
        - { from: 2027-01-19T20:00, to: 2027-01-20T06:00, is: off }
        - { from: 2027-01-20T06:00, to: 2027-01-20T14:30, is: driving }
  `,
  sentence: (f, say) => `${say.name(f.who)} ${f.doing} ${span(f, say)}${further(f)}, without the break: ${f.rule}`,
  hint: (f) => (f.doing === "drives" ? "plan a stop before then, or `relieve` the driver" : "plan a meal before then"),
});

export const dutyTooLong = breach("duty-too-long", {
  title: "a day longer than the rule allows",
  why: "The day is counted from call to release, whatever is done in between.",
  cure: "Call later, release earlier, or state a stand-down in which the person is released.",
  example: "rules: { dutyDay: 6 h }     # wren's day from call to release is longer",
  sentence: (f, say) =>
    `${say.name(f.who)} ${f.doing} ${say.length(f.overMinutes)} beyond ${f.rule}: ${span(f, say)}${further(f)}`,
  hint: releaseEarlier,
});

export const weekTooLong = breach("week-too-long", {
  title: "too many hours in the days of a rolling limit",
  why: "The hours of the running day and the days before it are added; the oldest day drops out at the change of day, and a long rest starts the count anew.",
  cure: "Let someone else drive, or plan the long rest that starts the count anew.",
  example: `
    vehicles:
      truck: { gross: 16000 lb, rules: us-property, week: 60/7 }
    history:
      tomas:
        released: 2027-01-19T17:00-06:00
        totals:     # 59 h
          2027-01-16: { duty: 14 h }
          2027-01-17: { duty: 15 h }
          2027-01-18: { duty: 15 h }
          2027-01-19: { duty: 15 h }
  `,
  sentence: (f, say) => `${say.name(f.who)} ${f.doing} ${span(f, say)}${further(f)}, after ${f.rule} are used up`,
  hint: () => "let someone else drive, or plan the rest that starts the count anew",
});

export const restTooLate = breach("rest-too-late", {
  title: "work after the instant at which a rest had to begin",
  why: "A daily or weekly rest must lie inside its period: rest taken after it comes too late.",
  cure: "Release earlier, or call later at the start of the period.",
  example: `
    log: 1
    zone: America/Chicago
    rules: eu
    people:
      tomas:     # 9 h of rest had to end by 06:00
        - { from: 2027-01-19T19:00, to: 2027-01-20T06:00, is: off }
        - { from: 2027-01-20T06:00, to: 2027-01-20T21:30, is: duty }
        - { from: 2027-01-20T21:30, to: 2027-01-21T08:30, is: off }
  `,
  sentence: (f, say) =>
    `${say.name(f.who)} ${f.doing} ${span(f, say)}${further(f)}, after the rest had to begin: ${f.rule}`,
  hint: releaseEarlier,
});

export const dayOffTooShort = breach("day-off-too-short", {
  title: "too little time off in a day",
  why: "The rule counts free time inside the 24 hours of the record's day, in blocks of half an hour or more.",
  cure: "Release earlier, or give two free hours in the middle of the day.",
  example: `
    log: 1
    zone: America/Chicago
    rules: ca-south
    people:
      tomas:     # 8 h and 1 h 30 min are less than 10 h
        - { from: 2027-01-20T00:00, to: 2027-01-20T08:00, is: off }
        - { from: 2027-01-20T08:00, to: 2027-01-20T22:30, is: duty }
        - { from: 2027-01-20T22:30, to: 2027-01-21T00:00, is: off }
  `,
  sentence: (f, say) =>
    `${say.name(f.who)} has ${say.length(f.overMinutes)} less than ${f.rule} that begins at ${say.time(f.from.at)}`,
  hint: () => "release earlier, or give a free block of half an hour or more in the day",
});

export const mealLate = define<
  BreachFacts & {
    readonly meals: number;
    readonly wait: At | null;
    readonly waitTo: At | null;
    readonly meal: At | null;
    readonly nextMeal: At | null;
  }
>({
  code: "meal-late",
  level: "warning",
  title: "no meal in time",
  why: "Meals are tasks of the plan: the program never adds one, and a wait is not a meal unless the plan says that it is.",
  cure: "Plan a task of kind `meal`.",
  example: `
    tasks:     # not of kind \`meal\`
      breakfast: { place: pier, for: 30 min, after: dawn, who: all }
    rules: { mealEvery: 4 h }
  `,
  sentence: (f, say) =>
    `${say.name(f.who)} works until ${say.time(f.to.at)} without a break for food; the rule: ${f.rule}`,
  hint: (f, say) =>
    f.wait === null || f.waitTo === null
      ? f.meal !== null && f.nextMeal !== null
        ? `plan ${f.meals} meals for ${say.name(f.who)}, at ${say.time(f.meal.at)} and at ${say.time(f.nextMeal.at)}, while they wait`
        : f.meals > 1
          ? `plan ${f.meals} meals for ${say.name(f.who)}: one does not cover so long a day`
          : `plan a meal for ${say.name(f.who)} earlier; no wait is long enough for one`
      : f.wait.at === f.waitTo.at
        ? `plan a meal for ${say.name(f.who)} at ${say.time(f.wait.at)}, while they wait`
        : `plan a meal for ${say.name(f.who)} that begins from ${say.time(f.wait.at)} to ${say.time(f.waitTo.at)}, while they wait`,
});

export const secondDriverMissing = define<{ who: string; vehicle: string; from: At; to: At; minutes: number }>({
  code: "second-driver-missing",
  level: "error",
  law: "always",
  title: "two drivers are claimed, and one drives alone",
  why: "What the law allows two drivers holds only if both are in the vehicle: throughout but for the first hour (561/2006 Art 4(o)), or as a team (SOR/2005-313 s. 19).",
  cure: "Put a second person who may drive it aboard, or drop `drivers: 2`.",
  example: `
    crew:
      bea: { role: producer, drives: truck }
    vehicles:
      truck: { gross: 12 t, rules: ca-south, drivers: 2, berth: true }
    runs:
      truck:
        driver: tomas
        aboard: [tomas]     # bea rides the wagon
        stops: [lodge, { place: pier, do: [dawn, breakfast] }, lodge]
      wagon:
        driver: wren
        aboard: [wren, ilse, bea]
        stops: [lodge, { place: pier, do: [dawn, breakfast] }, dock, lodge]
  `,
  sentence: (f, say) =>
    `${say.name(f.vehicle)} is claimed to have two drivers, but from ${say.time(f.from.at)} to ${say.time(f.to.at)} no one aboard except ${say.name(f.who)} may drive it; ${say.length(f.minutes)} in all`,
  hint: () => "put a second driver aboard, or drop `drivers: 2`",
});

export const hoursGap = define<{ who: string; from: At; to: At }>({
  code: "hours-gap",
  level: "warning",
  title: "a gap in someone's record",
  why: "What is not stated is neither rest nor work; the rolling totals may be too small.",
  cure: "State the missing spans in `history`, or name the missing day with `follows`.",
  example: `
    history:
      tomas:
        released: 2027-01-19T17:00-06:00
        spans:
          - { from: 2027-01-19T08:00-06:00, to: 2027-01-19T16:00-06:00, is: duty }
  `,
  sentence: (f, say) => `nothing is known of ${say.name(f.who)} from ${say.time(f.from.at)} to ${say.time(f.to.at)}`,
  hint: () => "state it in `history`, or name the day with `follows`",
});

export const momentOutside = define<{ who: string; asked: At; from: At; to: At; before: boolean }>({
  code: "moment-outside-log",
  level: "warning",
  title: "the moment asked for lies outside the log",
  why: "A log is judged up to a moment inside it: before it there is nothing to judge, and after its end nothing is known, not even rest.",
  cure: "Ask for a moment inside the log, or add the missing spans, such as the time off since.",
  example: "daywright hours log.yaml --at 2027-01-25T08:00     # it ends on 2027-01-21",
  sentence: (f, say) =>
    f.before
      ? `the log of ${say.name(f.who)} begins at ${say.time(f.from.at)}, so nothing is judged at ${say.time(f.asked.at)}`
      : `the log of ${say.name(f.who)} ends at ${say.time(f.to.at)} and is judged there, not at ${say.time(f.asked.at)}`,
  hint: (f, say) =>
    f.before
      ? `\`--at\` after ${say.time(f.from.at)}, up to ${say.time(f.to.at)}`
      : `state what followed, or leave \`--at\` out`,
});
