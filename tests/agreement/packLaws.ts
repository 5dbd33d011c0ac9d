/** What is true of work with packs on every day: it is somebody's time, and the pack, the hands and the charger are together. */
import type { Judged } from "../../src/index.ts";
import { holderStays } from "../../src/kit/track.ts";
import type { Id } from "../../src/plan/plan.ts";
import { holderOfSpot } from "../../src/power/asFound.ts";
import type { PowerResult } from "../../src/power/index.ts";
import { type Instant, instant } from "../../src/time/units.ts";
import { same } from "./days.ts";

export function powerOf({ results }: Judged): PowerResult {
  if (results.power === undefined) throw new Error("power was not judged");
  return results.power;
}

/** Every chore lies in its person's spans, and nobody is off at it. */
export function choresInSpans({ day }: Judged): void {
  for (const { id, chores, spans } of day.people) {
    for (const { from, to } of chores) {
      const at = `${id} from ${from} to ${to}`;
      const inside = spans.filter((span) => span.from < to && from < span.to);
      const covered = inside.reduce((sum, span) => sum + Math.min(span.to, to) - Math.max(span.from, from), 0);
      same([covered, inside.filter(({ is }) => is === "off")], [to - from, []], at);
    }
  }
}

/** The pack, the piece or charger and the hands of every move are at one place, and the hands are awake. */
export function movesTogether(judged: Judged): void {
  const { built, solution } = powerOf(judged);
  // The day before its chores are entered: they are what is asked about.
  const { day, presence } = built.around;
  /** Where a vehicle or place is; a vehicle on the road is its own place. */
  const spot = (holder: Id, at: Instant): Id | null => {
    const stay = holderStays(day, presence, holder).find(({ from, to }) => from <= at && at < to);
    return stay === undefined ? null : (stay.place ?? holder);
  };
  for (const { pack, from, to, touch } of solution.rotation.moves) {
    const work = solution.rotation.chores.find((one) => one.touch === touch);
    if (work === undefined) continue;
    // Hands are at their work until its end: the last whole minute of it, or the instant where it takes no time.
    const at = instant(Math.max(work.begins, work.ends - 1));
    const where = spot(holderOfSpot(built, from, at), at);
    const said = `${pack} from ${from} to ${to} at ${touch}`;
    if (where === null) throw new Error(`${said}: nowhere`);
    same(spot(holderOfSpot(built, to, at), at), where, said);
    for (const who of work.who) {
      const stretch = presence.personAt(who, at);
      same([stretch?.place ?? stretch?.vehicle, stretch?.awake], [where, true], `${said}, ${who}`);
    }
  }
}

/** With its chores in it a day has each person where they do them. */
export function choresWhereDone({ day }: Judged): void {
  for (const { id, chores, spans } of day.people) {
    for (const { from, to, place, vehicle } of chores) {
      const during = spans.filter((span) => span.from < to && from < span.to && span.doing === "chore");
      for (const span of during) same([span.place, span.vehicle], [place, vehicle], `${id} at ${from}`);
    }
  }
}

/** Which pack goes where and when, with whose hands. */
export const rotationOf = (judged: Judged) => {
  const { built, solution } = powerOf(judged);
  const touchAt = (touch: Id): number => Number(built.touches.find(({ id }) => id === touch)?.at);
  return {
    covered: solution.rotation.covered,
    moves: solution.rotation.moves.map(({ pack, from, to, touch }) => ({ pack, from, to, at: touchAt(touch) })),
    chores: solution.rotation.chores.map(({ begins, ends, who }) => ({ begins, ends, who })),
    left: solution.replay.leastMarginWh,
  };
};
