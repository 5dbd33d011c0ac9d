/** Whole rotations of random days, looked at minute by minute: packs, slots, hands, and what is said to be short. */
import { beforeAll, expect, it } from "vitest";
import type { Day } from "../../../src/day/day.ts";
import { assess, type PowerResult, packStays } from "../../../src/power/index.ts";
import { bayAt, type PackMove, workSpan } from "../../../src/power/model.ts";
import { todoOf } from "../../../src/power/todo.ts";
import { instant } from "../../../src/time/units.ts";
import { runs } from "../../fuzz.ts";
import { replayByMinute } from "../minuteReplay.ts";
import { powerDay } from "./plans.ts";

interface One {
  readonly told: string;
  readonly day: Day;
  readonly result: PowerResult;
}

let days: readonly One[] = [];
beforeAll(async () => {
  const found: One[] = [];
  for (let seed = 201; seed < 201 + Math.max(14, runs(16, 1000)); seed++) {
    const day = await powerDay(seed);
    if (day === null) continue;
    const { result } = await assess({ days: [day], patience: 1, now: null }, null);
    found.push({ told: `seed ${seed}`, day, result });
  }
  days = found;
});

/** Where each pack is after each touch, by the moves alone. */
function* placesOf({ built, solution }: PowerResult) {
  const at = new Map(built.model.packs.map((pack) => [pack.id, pack.at]));
  yield { from: built.model.from as number, at: new Map(at) };
  for (const touch of built.model.touches) {
    for (const { pack, to } of solution.rotation.moves.filter((move) => move.touch === touch.id)) at.set(pack, to);
    yield { from: touch.at as number, at: new Map(at) };
  }
}

it("stand a replay by minute, and cover something on most days", () => {
  let covered = 0;
  for (const { told, result } of days) {
    const { model, rotation, dropped } = result.solution;
    expect(replayByMinute(model, rotation).faults, told).toEqual([]);
    if (rotation.covered.length > 0) covered++;
    expect(rotation.covered.length + dropped.length, told).toBe(model.demands.length);
    for (const { demand, before } of dropped) {
      expect(rotation.covered, told).not.toContain(demand.id);
      expect(
        before.every(({ id }) => id !== demand.id && model.demands.some((one) => one.id === id)),
        told,
      ).toBe(true);
    }
  }
  expect(covered).toBeGreaterThan(days.length / 3);
});

it("have each chore done by people who are there for all of it, at no two at once, in the time that its moves take", () => {
  let done = 0;
  for (const { told, result } of days) {
    const { built, solution } = result;
    const { chores, moves } = solution.rotation;
    expect(
      chores.map(({ touch }) => touch),
      told,
    ).toEqual([...new Set(moves.map(({ touch }) => touch))]);
    for (const [n, chore] of chores.entries()) {
      const touch = built.touches.find(({ id }) => id === chore.touch);
      const own = moves.filter((move) => move.touch === chore.touch);
      expect(chore.who.length, told).toBeGreaterThan(0);
      for (const who of chore.who) {
        const hand = touch?.hands.find((one) => one.who === who);
        if (touch === undefined || hand === undefined) throw new Error(`${told}: ${who} is not there`);
        const span = workSpan({ id: "", at: touch.at, reach: [], free: hand }, own.length * built.model.swapMinutes);
        if (chore.who.length === 1) expect([chore.begins, chore.ends], told).toEqual([span.from, span.to]);
        expect(hand.from <= chore.begins && chore.ends <= Math.max(hand.to, touch.at), `${told} ${who}`).toBe(true);
        const others = chores.filter((other, at) => at !== n && other.who.includes(who));
        expect(
          others.some(({ begins, ends }) => begins < chore.ends && chore.begins < ends),
          `${told} ${who}`,
        ).toBe(false);
        done++;
      }
      expect(
        own.every(({ from, to }) => from !== to),
        told,
      ).toBe(true);
    }
  }
  expect(done).toBeGreaterThan(20);
});

it("are told as steps with slots that are free, by who does them or could as well", () => {
  for (const { told, day, result } of days) {
    const { built, solution } = result;
    const { chargers } = day.plan;
    const held = new Map<string, string>();
    const slotOf = (place: string, pack: string): number | null => {
      for (const [key, one] of held) if (one === pack && key.startsWith(`${place} `)) return Number(key.split(" ")[1]);
      return null;
    };
    const firstFree = (place: string): number | null => {
      const count = chargers.get(place)?.slots ?? 0;
      return Array.from({ length: count }, (_, n) => n + 1).find((n) => !held.has(`${place} ${n}`)) ?? null;
    };
    const enter = (place: string, pack: string): number | null => {
      const slot = firstFree(place);
      if (slot !== null) held.set(`${place} ${slot}`, pack);
      return slot;
    };
    for (const { id, at } of built.model.packs) enter(at, id);
    const tasks = todoOf(built, solution);
    expect(tasks.map(({ from, to }) => [from, to])).toEqual(
      solution.rotation.chores.map(({ begins, ends }) => [begins, ends]),
    );
    for (const [n, task] of tasks.entries()) {
      const chore = solution.rotation.chores[n];
      const touch = built.touches.find(({ id }) => id === chore?.touch);
      const moves = solution.rotation.moves.filter((move) => move.touch === chore?.touch);
      const out = moves.map(({ from, pack }) => slotOf(from, pack));
      for (const [at, { from }] of moves.entries()) held.delete(`${from} ${out[at]}`);
      const steps = moves.map(({ pack, from, to }, at) => ({
        pack,
        from,
        to,
        fromSlot: out[at],
        toSlot: enter(to, pack),
      }));
      expect(task.steps, told).toEqual(steps);
      expect(task.workMinutes, told).toBe(moves.length * day.plan.rules.swap);
      expect([task.where, task.who], told).toEqual([touch?.where, chore?.who]);
      // Whoever could as well is there for exactly that time, awake, and may touch all of it.
      const may = (who: string, all: readonly PackMove[]): boolean =>
        all.every(({ from, to }) => [from, to].every((place) => chargers.get(place)?.hands?.includes(who) ?? true));
      for (const other of task.others) {
        const hand = touch?.hands.find(({ who }) => who === other);
        if (touch === undefined || hand === undefined) throw new Error(`${told}: ${other} is not there`);
        const span = workSpan({ id: "", at: touch.at, reach: [], free: hand }, task.workMinutes);
        expect([span.from, span.to, may(other, moves), task.who.includes(other)], told).toEqual([
          ...[task.from, task.to, true, false],
        ]);
      }
    }
  }
});

it("have each pack in the bay, or that of its charger or piece, from minute to minute", () => {
  for (const { told, day, result } of days) {
    const { model } = result.built;
    const stays = packStays(result);
    const places = [...placesOf(result)];
    for (const { id } of model.packs) {
      for (let minute = model.from as number; minute < model.to; minute += 7) {
        const place = places.findLast(({ from }) => from <= minute)?.at.get(id) ?? "";
        const load = model.loads.find((one) => one.id === place);
        const bay = load === undefined ? (day.plan.chargers.get(place)?.in ?? place) : bayAt(load, minute);
        const found = stays.get(id)?.findLast(({ from }) => from <= minute);
        expect(found?.holder, `${told} ${id} at ${minute}`).toBe(bay);
      }
      const holders = stays.get(id)?.map(({ holder }) => holder) ?? [];
      expect(
        holders.every((holder, n) => n === 0 || holder !== holders[n - 1]),
        told,
      ).toBe(true);
    }
  }
});

it("name of the first use that is left out what it lacks: packs at once, energy of one pack, power before it", () => {
  let told = 0;
  for (const { result } of days) {
    const { built, missing, solution } = result;
    const { model } = built;
    const out = solution.dropped[0]?.demand;
    if (missing === null || out === undefined) {
      expect(solution.dropped).toEqual([]);
      continue;
    }
    told++;
    const { short } = missing;
    expect(missing.first).toBe(out.id);
    const uncut = model.chargers.map(({ on }) => {
      let minutes = 0;
      for (const { from, to } of on) for (let at = from; at < to && at < out.from; at = instant(at + 1)) minutes++;
      return minutes;
    });
    const most = (all: readonly number[]): number => all.toSorted((a, b) => b - a)[0] ?? 0;
    const slots = model.chargers.reduce((sum, one) => sum + one.slots, 0);
    expect(short.charging).toEqual({
      slots,
      minutes: most(uncut),
      watts: most(model.chargers.map(({ watts }) => watts)),
    });
    expect(short.moments).toBe(model.touches.filter(({ at, reach }) => at <= out.from && reach.length > 0).length);
    // A use keeps its pack: the fullest of each mount, full, above its reserve.
    const beyond = [...out.watts].filter(([load, watts]) => {
      const mount = model.loads.find(({ id }) => id === load)?.mount;
      const fitting = model.packs.filter((pack) => pack.mount === mount);
      const gives = most(fitting.map(({ wh, reserveWh }) => wh - reserveWh));
      return fitting.length > 0 && out.kind !== "standby" && (watts * (out.to - out.from)) / 60 > gives + 1e-9;
    });
    expect(short.beyond === null).toBe(beyond.length === 0);
    expect(missing.blocking.includes(out.id)).toBe(true);
  }
  expect(told).toBeGreaterThan(3);
});
