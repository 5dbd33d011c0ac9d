/** What the loads of random days draw, and the moments that a search is given, against a second reading of both. */
import { beforeAll, expect, it } from "vitest";
import { buildModel, type DayModel, NO_CARRIED_PACKS } from "../../../src/power/day/build.ts";
import { type HandMoment, touchesOf } from "../../../src/power/day/touches.ts";
import { workSpan } from "../../../src/power/model.ts";
import { runs } from "../../fuzz.ts";
import type { Around } from "./minutes.ts";
import { powerDay } from "./plans.ts";
import { drawn } from "./uses.ts";

interface One {
  readonly told: string;
  readonly built: DayModel;
  readonly mine: Around;
}

/** The turnaround of these days, minutes: nobody may lose of it what a swap would take. */
const NIGHT = 600;

let days: readonly One[] = [];
beforeAll(async () => {
  const found: One[] = [];
  for (let seed = 101; seed < 101 + Math.max(16, runs(24, 3000)); seed++) {
    const day = await powerDay(seed);
    if (day === null) continue;
    const bounds = new Map(day.people.map(({ id }) => [id, { lawMinutes: null, houseMinutes: NIGHT }]));
    const built = buildModel(day, { sky: null, carried: NO_CARRIED_PACKS, bounds, gear: null });
    found.push({
      told: `seed ${seed}`,
      built,
      mine: { day, presence: built.around.presence, from: built.around.span.from },
    });
  }
  days = found;
});

it("loads draw the same watts for the same activities from minute to minute", () => {
  const kinds = new Set<string>();
  for (const { told, built, mine } of days) {
    const found = built.demands.flatMap(({ demand, activity }) =>
      [...demand.watts].map(([load, watts]) =>
        [load, demand.from, demand.to, activity, demand.kind, watts.toFixed(4)].join(" "),
      ),
    );
    const wanted = drawn(mine).map(([load, from, to, activity, kind, watts]) =>
      [load, from, to, activity, kind, watts.toFixed(4)].join(" "),
    );
    for (const { demand } of built.demands) kinds.add(demand.kind);
    expect(found.toSorted(), told).toEqual(wanted.toSorted());
    const begins = built.model.demands.map(({ from }) => from);
    expect(begins, told).toEqual(begins.toSorted((a, b) => a - b));
  }
  expect(kinds).toEqual(new Set(["firm", "hit", "standby"]));
});

/** Whose time off a swap would bring below the night, at a moment: what is left of it before the next call. */
function losesRest({ mine }: One, { at }: HandMoment, hand: HandMoment["hands"][number]): boolean {
  const { swap, choreJoin } = mine.day.plan.rules;
  const work = workSpan({ id: "", at, reach: [], free: hand }, swap);
  const person = mine.day.people.find(({ id }) => id === hand.who);
  if (person === undefined) return true;
  const releases = [person.previousRelease, ...person.duties.map(({ release }) => release)];
  for (const [n, release] of releases.entries()) {
    const call = person.duties[n]?.call ?? null;
    const [from, to] = [release ?? Number.NEGATIVE_INFINITY, call ?? Number.POSITIVE_INFINITY];
    if (work.to <= from || work.from >= to) continue;
    // Within the time that joins, a swap moves the end that it is close to; else it parts the time off.
    if (work.from - from <= choreJoin && call === null) return false;
    const early = work.from - from <= choreJoin;
    const late = to - work.to <= choreJoin;
    const kept = early ? to - work.to : late ? work.from - from : to - work.to;
    const needed = to - from < NIGHT ? to - from - 2 * choreJoin : NIGHT;
    return kept < needed;
  }
  return false;
}

it("a search is given the moments whose hands keep their rest, one of those that are close", () => {
  let [less, close] = [0, 0];
  for (const one of days) {
    const { told, built } = one;
    const marks = built.demands.flatMap(({ demand }) => [demand.from, demand.to]);
    const kept: { at: number; key: string; told: string }[] = [];
    for (const touch of touchesOf(built.around, built.handBays)) {
      if (touch.at < built.model.from || touch.at > built.model.to) continue;
      const hands = touch.hands.filter((hand) => !losesRest(one, touch, hand));
      if (hands.length < touch.hands.length) less++;
      if (hands.length === 0) continue;
      const reach = touch.reach.filter((id) => {
        const allowed = built.handBays.find((bay) => bay.id === id)?.hands ?? null;
        return allowed === null || hands.some(({ who }) => allowed.includes(who));
      });
      const key = reach.join(" ");
      const twin = kept.findLast((other) => other.key === key);
      const isClose = twin !== undefined && touch.at - twin.at < 10;
      if (isClose && !marks.some((mark) => twin.at < mark && mark <= touch.at)) {
        close++;
        continue;
      }
      kept.push({ at: touch.at, key, told: [touch.at, key, ...hands.map(({ who }) => who)].join(" ") });
    }
    const found = built.touches.map(({ at, reach, hands }) =>
      [at, reach.join(" "), ...hands.map(({ who }) => who)].join(" "),
    );
    // Those of one instant in any order.
    expect(found.toSorted(), told).toEqual(kept.map((touch) => touch.told).toSorted());
    const times = built.touches.map(({ at }) => at);
    expect(times, told).toEqual(times.toSorted((a, b) => a - b));
  }
  expect(Math.min(less, close)).toBeGreaterThan(0);
});
