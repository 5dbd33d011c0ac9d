/**
 * A day that rolls on from a moment, not as planned: everyone's time up to then, and after it what a row of stretches at
 * the wheel and breaks makes of it. What it breaks is judged as `hours` judges a day.
 */

import type { Day, Move, PersonDay, PersonSpan } from "../day/day.ts";
import { sumOf } from "../lists.ts";
import type { Id } from "../plan/plan.ts";
import { hoursJudge } from "../roads/relief/hours.ts";
import type { ReliefBreach } from "../roads/relief/problem.ts";
import { type Instant, type Interval, instant, minutes } from "../time/units.ts";

/** A stretch of rolling with its driver, or a break of everyone aboard where the driver is null. */
export interface Rolled extends Interval {
  readonly driver: Id | null;
}

/** Who is in a vehicle at a moment, and who of them may drive it. */
export interface Aboard {
  readonly vehicle: Id;
  readonly berth: boolean;
  readonly who: readonly Id[];
  readonly drivers: readonly Id[];
  /** When it may roll: the moment asked about, or the landing of the ferry that it is on then. */
  readonly from: Instant;
  /** The leg that the wheel of what is rolled stands in. */
  readonly leg: Move;
}

/** Minutes broken since the moment, by law and by the house, and the first limits of each. */
export interface Broken {
  readonly law: number;
  readonly house: number;
  readonly breaches: readonly ReliefBreach[];
}

/** Someone's spans up to a moment; after a release they are off until then. */
function cut(person: PersonDay, at: Instant): readonly PersonSpan[] {
  const spans = person.spans.flatMap((span) =>
    span.from >= at ? [] : [{ ...span, to: instant(Math.min(span.to, at)) }],
  );
  const end = spans.at(-1)?.to;
  if (end === undefined || end >= at) return spans;
  return [...spans, { from: end, to: at, is: "off", vehicle: null, activity: null, place: null, doing: "off" }];
}

/** What someone aboard does during a stretch: drives, sleeps in the berth, rides, or has a break. */
function spanOf({ vehicle, berth }: Aboard, who: Id, { from, to, driver }: Rolled): PersonSpan {
  const common = { from, to, activity: null, place: null };
  if (driver === null) return { ...common, is: "off", vehicle: null, doing: "break" };
  if (driver === who) return { ...common, is: "driving", vehicle, doing: "drive" };
  return { ...common, is: berth ? "berth" : "riding", vehicle, doing: "ride" };
}

function movesWith(day: Day, { vehicle, leg, who }: Aboard, at: Instant, tail: readonly Rolled[]): readonly Move[] {
  const before = day.moves.flatMap((move) => {
    const wheel = move.wheel.flatMap((own) => (own.from >= at ? [] : [{ ...own, to: instant(Math.min(own.to, at)) }]));
    const isAhead = move.leg.ferry === undefined ? wheel.length === 0 : move.leave >= at;
    return move.vehicle === vehicle && isAhead ? [] : [{ ...move, wheel }];
  });
  const wheel = tail.flatMap(({ from, to, driver }) => (driver === null ? [] : [{ from, to, driver }]));
  const [first] = wheel;
  const end = wheel.at(-1);
  if (first === undefined || end === undefined) return before;
  const riders = who.filter((id) => id !== first.driver);
  const rolled: Move = {
    ...leg,
    ...{ id: `${vehicle}.rolling`, leave: first.from, arrive: end.to, driver: first.driver, riders, wheel, halts: [] },
    plannedMinutes: minutes(end.to - first.from),
  };
  return [...before, rolled];
}

/** Judges what people of the last of `days` break if a vehicle rolls on from `at`. Counts what it is asked. */
export class Rolling {
  readonly #day: Day;
  readonly #at: Instant;
  readonly #judge: ReturnType<typeof hoursJudge>;
  readonly #base = new Map<Id, Broken>();
  readonly #known = new Map<string, Broken>();
  asked = 0;

  constructor(days: readonly Day[], at: Instant) {
    const day = days.at(-1);
    if (day === undefined) throw new RangeError("no day to roll on from");
    this.#day = day;
    this.#at = at;
    this.#judge = hoursJudge(days);
  }

  #judged(aboard: Aboard, who: Id, tail: readonly Rolled[]): Broken {
    this.asked++;
    const end = tail.at(-1)?.to ?? this.#at;
    const people = this.#day.people.map((person) => {
      if (person.id !== who) return person;
      const spans = [...cut(person, this.#at), ...tail.map((stretch) => spanOf(aboard, who, stretch))];
      return { ...person, spans, release: end };
    });
    const day = { ...this.#day, people, moves: movesWith(this.#day, aboard, this.#at, tail) };
    const { lawMinutes: law, houseMinutes: house, breaches } = this.#judge.judge(day, who);
    return { law, house, breaches };
  }

  /** What one of those aboard breaks in a row of stretches, beyond what is broken at the moment already. */
  of(aboard: Aboard, who: Id, tail: readonly Rolled[]): Broken {
    const key = `${aboard.vehicle} ${who} ${tail.map(({ from, to, driver }) => `${from}-${to}${driver === null ? "b" : driver === who ? "d" : "r"}`).join()}`;
    const known = this.#known.get(key);
    if (known !== undefined) return known;
    const base = this.#base.get(who) ?? this.#judged(aboard, who, []);
    this.#base.set(who, base);
    const found = this.#judged(aboard, who, tail);
    const before = new Map(base.breaches.map((breach) => [breach.limit, breach.minutes]));
    const made: Broken = {
      law: Math.max(0, found.law - base.law),
      house: Math.max(0, found.house - base.house),
      breaches: found.breaches.filter(({ limit, minutes: own }) => own > (before.get(limit) ?? 0)),
    };
    this.#known.set(key, made);
    return made;
  }

  /** Minutes of law that all drivers aboard break together. */
  law = (aboard: Aboard, tail: readonly Rolled[]): number =>
    sumOf(aboard.drivers, (who) => this.of(aboard, who, tail).law);

  house = (aboard: Aboard, tail: readonly Rolled[]): number =>
    sumOf(aboard.drivers, (who) => this.of(aboard, who, tail).house);
}
