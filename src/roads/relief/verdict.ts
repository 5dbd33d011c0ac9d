/** From what the hours say of a person to what the search for drivers compares. */
import { leastOf, sumOf } from "../../lists.ts";
import type { Id } from "../../plan/plan.ts";
import type { Interval } from "../../time/units.ts";
import type { PersonVerdict, ReliefBreach } from "./problem.ts";

interface LimitHead {
  readonly id: string;
  /** In words: `wheel break 15 min every 2 h`. */
  readonly title: string;
  readonly clause: string | null;
  readonly kind: "max" | "rest" | "makeUp";
}

/** What is read of a verdict under one rule set. */
export interface RulesVerdict {
  readonly rules: { readonly legallyBinding: boolean };
  readonly limits: readonly { readonly limit: LimitHead; readonly leftMinutes: number | null }[];
  readonly breaches: readonly (Interval & { readonly limit: LimitHead; readonly minutes: number })[];
}

/** Adds up the breaches of one person, later than `since`, under all rule sets that bind them. */
export function breachTotal(
  who: Id,
  verdicts: readonly RulesVerdict[],
  since = Number.NEGATIVE_INFINITY,
): readonly ReliefBreach[] {
  const broken = new Map<
    string,
    { readonly title: string; readonly clause: string | null; readonly law: boolean; minutes: number }
  >();
  for (const { rules, breaches } of verdicts) {
    for (const { limit, minutes, to } of breaches) {
      if (to <= since) continue;
      const entry = broken.get(limit.id) ?? {
        title: limit.title,
        clause: limit.clause,
        law: rules.legallyBinding,
        minutes: 0,
      };
      entry.minutes += minutes;
      broken.set(limit.id, entry);
    }
  }
  return [...broken].map(([limit, own]) => ({ who, limit, ...own }));
}

/** The breaches that are left when those are taken off that no choice can change. */
export const beyond = (
  breaches: readonly ReliefBreach[],
  unavoidable: readonly ReliefBreach[],
): readonly ReliefBreach[] =>
  breaches.flatMap((breach) => {
    const own = unavoidable.find(({ who, limit }) => who === breach.who && limit === breach.limit);
    const minutes = breach.minutes - (own?.minutes ?? 0);
    return minutes > 0 ? [{ ...breach, minutes }] : [];
  });

const minutesOf = (breaches: readonly ReliefBreach[], law: boolean): number =>
  sumOf(breaches, (own) => (own.law === law ? own.minutes : 0));

/** What breaches and sleep come to. */
export const personVerdict = (breaches: readonly ReliefBreach[], sleepMinutes: number): PersonVerdict => ({
  lawMinutes: minutesOf(breaches, true),
  houseMinutes: minutesOf(breaches, false),
  sleepMinutes,
  breaches,
});

/** The longest unbroken time asleep aboard in someone's spans, minutes. */
export function longestSleep(spans: readonly (Interval & { readonly is: string })[]): number {
  let [longest, from] = [0, Number.NaN];
  let to = Number.NaN;
  for (const span of spans) {
    if (span.is !== "berth") continue;
    if (span.from !== to) from = span.from;
    to = span.to;
    longest = Math.max(longest, to - from);
  }
  return longest;
}

/** The least that a limit of the `max` kind leaves; null where none binds. A rest has nothing left to spend. */
export function leastLeft(verdicts: readonly RulesVerdict[]): number | null {
  const lefts = verdicts.flatMap(({ limits }) =>
    limits.flatMap(({ limit, leftMinutes }) => (limit.kind === "max" && leftMinutes !== null ? [leftMinutes] : [])),
  );
  return leastOf(lefts);
}
