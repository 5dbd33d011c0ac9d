/** Rotations of random days that go on from a moment: what has begun stands, and what is left starts from where packs are then. */
import { beforeAll, expect, it } from "vitest";
import { assess, type PowerResult } from "../../../src/power/index.ts";
import { resumed } from "../../../src/power/past.ts";
import { instant } from "../../../src/time/units.ts";
import { random } from "../../day/random.ts";
import { runs } from "../../fuzz.ts";
import { replayByMinute } from "../minuteReplay.ts";
import { powerDay } from "./plans.ts";

let days: readonly (readonly [told: string, result: PowerResult])[] = [];
beforeAll(async () => {
  const found: (readonly [string, PowerResult])[] = [];
  for (let seed = 401; seed < 401 + Math.max(8, runs(8, 500)); seed++) {
    const day = await powerDay(seed);
    if (day === null) continue;
    found.push([`seed ${seed}`, (await assess({ days: [day], patience: 1, now: null }, null)).result]);
  }
  days = found;
});

/** A chore with what it moves, by what they are and not by their touches' numbers. */
const choresOf = ({ rotation }: PowerResult["solution"]) =>
  rotation.chores.map(({ touch, begins, ends, who }) => ({
    ...{ begins, ends, who },
    moves: rotation.moves
      .filter((move) => move.touch === touch)
      .map(({ pack, from, to }) => `${pack} ${from} ${to}`)
      .toSorted(),
  }));

it("keep every chore that has begun, as it was, begin no other before then, and stand a replay by minute", async () => {
  let [past, later] = [0, 0];
  for (const [told, { built, solution }] of days) {
    const dice = random(built.model.from);
    const whole = choresOf(solution);
    const moments = [...whole.slice(0, 1).flatMap(({ begins, ends }) => [begins, begins + 1, ends])];
    for (let n = 0; n < 2; n++) moments.push(instant(built.model.from + dice(built.model.to - built.model.from)));
    for (const now of moments) {
      const found = await resumed(built, { built, solution }, instant(now), { patience: 1 });
      if (found === null) throw new Error(`${told}: none at ${now}`);
      const mine = choresOf(found.solution);
      const begun = whole.filter(({ begins }) => begins < now);
      expect(mine.slice(0, begun.length), `${told} at ${now}`).toEqual(begun);
      expect(
        mine.slice(begun.length).every(({ begins }) => begins >= now),
        `${told} at ${now}`,
      ).toBe(true);
      if (begun.length > 0) past++;
      if (mine.length > begun.length) later++;
      const { model } = found.built;
      const { rotation, dropped, moveCount } = found.solution;
      expect(replayByMinute(model, rotation).faults, `${told} at ${now}`).toEqual([]);
      expect(rotation.covered.length, `${told} at ${now}`).toBeGreaterThanOrEqual(solution.rotation.covered.length);
      expect(rotation.covered.length + dropped.length, told).toBe(model.demands.length);
      expect(moveCount, told).toBe(rotation.moves.length);
      expect(
        model.touches.map(({ id }) => id),
        told,
      ).toEqual(found.built.touches.map(({ id }) => id));
      const times = model.touches.map(({ at }) => at);
      expect(times, told).toEqual(times.toSorted((a, b) => a - b));
    }
  }
  expect(Math.min(past, later)).toBeGreaterThan(5);
});

it("go on from where the packs are and what they hold, with no moment whose work would have begun before", async () => {
  for (const [told, { built, solution }] of days) {
    const dice = random(built.model.to);
    for (let n = 0; n < 3; n++) {
      const now = instant(built.model.from + dice(built.model.to - built.model.from));
      const found = await resumed(built, { built, solution }, now, { patience: 1 });
      if (found === null) throw new Error(`${told}: none at ${now}`);
      const { model, touches } = found.left;
      const begun = solution.rotation.chores.filter(({ begins }) => begins < now);
      const from = Math.max(now, ...begun.map(({ ends }) => ends));
      expect(model.from, `${told} at ${now}`).toBe(Math.min(from, built.model.to));
      const done = new Set(begun.map(({ touch }) => touch));
      const moves = solution.rotation.moves.filter(({ touch }) => done.has(touch));
      const rotation = { ...solution.rotation, moves, chores: begun };
      const { finalWh } = replayByMinute({ ...built.model, to: model.from }, rotation);
      for (const pack of model.packs) {
        const was = built.model.packs.find(({ id }) => id === pack.id);
        const place = moves.findLast((move) => move.pack === pack.id)?.to ?? was?.at;
        expect(pack.at, `${told} ${pack.id} at ${now}`).toBe(place);
        expect(Math.abs(pack.startWh - (finalWh.get(pack.id) ?? 0)), `${told} ${pack.id} at ${now}`).toBeLessThan(0.3);
      }
      const uses = built.model.demands.filter(({ to }) => to > model.from);
      expect(
        model.demands.map(({ id }) => id),
        told,
      ).toEqual(uses.map(({ id }) => id));
      expect(
        model.demands.map(({ from: at }) => at),
        told,
      ).toEqual(uses.map(({ from: at }) => Math.max(at, model.from)));
      for (const { at, reach, free } of model.touches) {
        expect(at, told).toBeGreaterThanOrEqual(model.from + (reach.length === 0 ? 1 : model.swapMinutes));
        if (free !== undefined) expect(free.from, told).toBeGreaterThanOrEqual(model.from);
      }
      for (const { hands } of touches)
        for (const hand of hands) expect(hand.from, told).toBeGreaterThanOrEqual(model.from);
    }
  }
});
