/** What must hold on every day, whatever the plan. */
import { describe, expect, it } from "vitest";
import { computeDay, type Day, NOTHING_BEFORE } from "../../src/day/index.ts";
import type { Plan } from "../../src/plan/plan.ts";
import { after, type Instant, type Interval } from "../../src/time/units.ts";
import { runs } from "../fuzz.ts";
import { gaps } from "./gaps.ts";
import { at, legsOf, makePlan } from "./make.ts";
import { randomDay } from "./randomDay.ts";

const WEEK = 7 * 24 * 60;
const LAST_NIGHT = at(-8 * 60);

/** Every time of a plan, `by` minutes later. */
function shifted(plan: Plan, by: number): Plan {
  const move = (when: Instant | null): Instant | null => (when === null ? null : after(when, by));
  const stretch = (interval: Interval | null): Interval | null =>
    interval === null ? null : { from: after(interval.from, by), to: after(interval.to, by) };
  return {
    ...plan,
    hits: new Map([...plan.hits].map(([id, hit]) => [id, { ...hit, at: after(hit.at, by) }])),
    tasks: new Map(
      [...plan.tasks].map(([id, task]) => [id, { ...task, window: stretch(task.window), by: move(task.by) }]),
    ),
    runs: new Map(
      [...plan.runs].map(([id, run]) => [
        id,
        {
          ...run,
          stops: run.stops.map((stop) => ({ ...stop, leave: move(stop.leave), arriveBy: move(stop.arriveBy) })),
        },
      ]),
    ),
  };
}

function each(check: (day: Day, plan: Plan, seed: number) => void): void {
  for (let seed = 1; seed <= runs(300, 20_000); seed++) {
    const plan = makePlan(randomDay(seed));
    const releases = new Map([
      ["wren", LAST_NIGHT],
      ["ilse", LAST_NIGHT],
    ]);
    const { day } = computeDay(plan, legsOf(plan), { ...NOTHING_BEFORE, releases });
    if (day !== null) check(day, plan, seed);
  }
}

describe("on every day", () => {
  it("spans tile [previous release, release) and terms tile [call, release)", () => {
    each((day, _plan, seed) => {
      for (const person of day.people) {
        expect(gaps(person.spans), `seed ${seed}`).toEqual([]);
        expect(gaps(person.terms), `seed ${seed}`).toEqual([]);
        expect([person.spans[0]?.from, person.spans.at(-1)?.to], `seed ${seed}`).toEqual([LAST_NIGHT, person.release]);
        expect([person.terms[0]?.from, person.terms.at(-1)?.to], `seed ${seed}`).toEqual([person.call, person.release]);
      }
    });
  });

  it("no move is shorter than its drive, and nobody rides two at once or stands where their vehicle is not", () => {
    each((day, _plan, seed) => {
      for (const move of day.moves)
        expect(move.arrive - move.leave, `seed ${seed}`).toBeGreaterThanOrEqual(move.plannedMinutes);
      for (const person of day.people) {
        const onRoad = person.spans.filter((span) => span.is === "driving" || span.is === "riding");
        const moves = day.moves.map((move) => move.arrive - move.leave).reduce((sum, length) => sum + length, 0);
        expect(
          onRoad.reduce((sum, span) => sum + span.to - span.from, 0),
          `seed ${seed}`,
        ).toBe(moves);
        for (const span of person.spans.filter((one) => one.place !== null && one.is !== "off")) {
          const stop = day.stops.find(
            (one) =>
              one.place === span.place && (one.arrive ?? span.from) <= span.from && span.to <= (one.leave ?? span.to),
          );
          expect(stop, `seed ${seed} ${span.doing} at ${span.place}`).toBeDefined();
        }
      }
    });
  });

  it("the chain behind every instant adds up to the time between its ends", () => {
    each((day, _plan, seed) => {
      for (const [id, instant] of day.instants) {
        const why = day.why(id);
        const total = why?.terms.reduce((sum, term) => sum + term.minutes, 0);
        expect([why?.at, total], `seed ${seed} ${id}`).toEqual([instant, Math.abs((why?.fixedBy.at ?? 0) - instant)]);
      }
    });
  });

  it("a plan a week later gives the same day a week later", () => {
    each((day, plan, seed) => {
      const later = computeDay(shifted(plan, WEEK), legsOf(plan), NOTHING_BEFORE).day;
      const moved = [...(later?.instants ?? [])].map(([id, instant]) => [id, instant - WEEK]);
      expect(moved, `seed ${seed}`).toEqual([...day.instants]);
      expect(
        later?.findings.map((finding) => finding.code),
        `seed ${seed}`,
      ).toEqual(day.findings.map((finding) => finding.code));
    });
  });
});
