/**
 * What a rotation asks of hands and leaves in the packs, against the replay of the same rotation; who stands where, counted the slow
 * way; and pairs of hands by hand.
 */
import { describe, expect, it } from "vitest";
import { coverAll } from "../../src/power/fast/fast.ts";
import type { PackPath } from "../../src/power/fast/packPath.ts";
import { randomFrom } from "../../src/power/fast/random.ts";
import { heldPath, lacking, openBeside, pathsFit, seatsOf } from "../../src/power/fast/seats.ts";
import { compareTolls, movesAt, type Toll, tollOf, tollWithin } from "../../src/power/fast/toll.ts";
import type { Model, ModelCharger, PackMove, Rotation, TouchWork } from "../../src/power/model.ts";
import { layBoard } from "../../src/power/proof/searchState.ts";
import { type Case, caseOf } from "../../src/power/question.ts";
import { replay } from "../../src/power/replay.ts";
import { instant } from "../../src/time/units.ts";
import { runs } from "../fuzz.ts";
import { dice, type Shape } from "./days.ts";
import { richModel } from "./everything.ts";
import { canTouch, useAt } from "./onePack.ts";
import { benchOf, packOf, smallDay, touchOf, useOf } from "./small.ts";

const SHAPE: Shape = { packs: [2, 5], touches: [2, 8], demands: [1, 4], loads: [1, 2], minutes: 600, easy: true };

/** Paths that cover a random day, with whatever margin; chargers share nothing where `alone`. */
function* covered(count: number, alone: boolean): Generator<{ told: string; one: Case; paths: readonly PackPath[] }> {
  for (let seed = 1; seed <= count; seed++) {
    const rich = richModel(seed, SHAPE);
    const chargers = alone ? rich.chargers.map((charger) => ({ ...charger, totalWatts: null })) : rich.chargers;
    const model = { ...rich, chargers };
    const one = caseOf(model, model.demands);
    const random = randomFrom(seed);
    const paths = coverAll({ paths: one.paths, marginWh: Number.NEGATIVE_INFINITY, random, rounds: 5 });
    if (paths !== null) yield { told: `day ${seed}`, one, paths };
  }
}

const idAt = ({ board }: Case, { spots }: PackPath, k: number): string =>
  board.places[board.spots[spots[k] ?? 0]?.place ?? 0]?.id ?? "";

/** The paths as moves, each touch with its moves one after the other: before it as far as hands are free, on after it else. */
function rotationOf(one: Case, paths: readonly PackPath[]): Rotation {
  const { model, spans } = one.board;
  const moves: PackMove[] = [];
  const chores: TouchWork[] = [];
  for (let k = 1; k < spans; k++) {
    const touch = model.touches[k - 1];
    if (touch === undefined) continue;
    const own = paths.flatMap((path): PackMove[] => {
      const [from, to] = [idAt(one, path, k - 1), idAt(one, path, k)];
      return from === to ? [] : [{ touch: touch.id, pack: model.packs[path.pack]?.id ?? "", from, to }];
    });
    if (own.length === 0) continue;
    const needed = own.length * model.swapMinutes;
    const begins = Math.max(touch.at - needed, touch.free?.from ?? touch.at - needed);
    const ends = Math.max(touch.at, touch.free === undefined ? 0 : Math.min(begins + needed, touch.free.to));
    moves.push(...own);
    chores.push({ touch: touch.id, begins: instant(begins), ends: instant(ends), who: [] });
  }
  return { covered: model.demands.map(({ id }) => id), moves, chores };
}

describe("what a rotation leaves", () => {
  it("is what its replay leaves, where a charger gives each pack the same whoever else is in it", () => {
    let judged = 0;
    for (const { told, one, paths } of covered(runs(300, 10_000), true)) {
      const { board, wanted } = one;
      const played = replay(board.model, rotationOf(one, paths));
      const toll = tollOf(board, wanted, paths);
      if (played.faults.some((fault) => fault.includes("holds too many"))) expect.fail(`${told}: ${played.faults[0]}`);
      let held = 0;
      for (const steps of played.steps.values()) held += steps.at(-1)?.whAfter ?? 0;
      expect(toll.marginWh, told).toBeCloseTo(played.leastMarginWh ?? Number.POSITIVE_INFINITY, 6);
      expect(toll.heldWh, told).toBeCloseTo(held, 6);
      judged++;
    }
    expect(judged).toBeGreaterThan(20);
  });

  it("is no more than its replay leaves, where a charger shares, and counts each touch and move", () => {
    for (const { told, one, paths } of covered(runs(300, 10_000), false)) {
      const { board, wanted } = one;
      const rotation = rotationOf(one, paths);
      const toll = tollOf(board, wanted, paths);
      expect(toll.marginWh, told).toBeLessThanOrEqual((replay(board.model, rotation).leastMarginWh ?? Infinity) + 1e-6);
      expect(toll.moves, told).toBe(rotation.moves.length);
      expect(toll.chores, told).toBeGreaterThanOrEqual(rotation.chores.length);
      if (board.model.swapMinutes === 0) expect(toll.chores, told).toBe(rotation.chores.length);
      const used = board.model.touches.filter(({ id }) => rotation.chores.some(({ touch }) => touch === id));
      expect(toll.burden, told).toBe(used.reduce((sum, { burden = 0 }) => sum + burden, 0));
      const counts = board.model.touches.map(({ id }) => rotation.moves.filter(({ touch }) => touch === id).length);
      expect([...movesAt(board, paths)], told).toEqual([0, ...counts]);
      expect([...movesAt(board, [null, ...paths, null])], told).toEqual([0, ...counts]);
      // As much is no more; one chore, one move or one burden less than asked is.
      expect(tollWithin(board, wanted, paths, toll), told).toEqual(toll);
      expect(tollWithin(board, wanted, paths, { ...toll, chores: toll.chores + 1, moves: 0 }), told).toEqual(toll);
      for (const less of [{ chores: toll.chores - 1 }, { moves: toll.moves - 1 }, { burden: toll.burden - 1 }])
        expect(tollWithin(board, wanted, paths, { ...toll, ...less }), told).toBeNull();
    }
  });

  it("is compared by chores, then moves, then burden, then charge", () => {
    const toll: Toll = { chores: 2, moves: 4, burden: 3, marginWh: 5, heldWh: 100 };
    const than = (more: Partial<Toll>): number => Math.sign(compareTolls({ ...toll, ...more }, toll));
    expect(than({ chores: 1, moves: 9, burden: 9, heldWh: 0 })).toBe(-1);
    expect(than({ moves: 3, burden: 9, heldWh: 0 })).toBe(-1);
    expect(than({ burden: 2, heldWh: 0 })).toBe(-1);
    expect(than({ heldWh: 101 })).toBe(-1);
    expect(than({ heldWh: 99 })).toBe(1);
    expect(than({ heldWh: 100 + 1e-7 })).toBe(0);
    expect(than({ marginWh: 9 })).toBe(0);
  });
});

describe("who stands where", () => {
  it("is counted by place and interval, with the least company that someone counts on", () => {
    let tight = 0;
    for (const { told, one, paths } of covered(runs(200, 5000), false)) {
      const { board, wanted } = one;
      const { spans, places, spots } = board;
      const roll = dice(paths.length + spans);
      const some = paths.filter(() => roll(0, 3) > 0);
      const seats = seatsOf(board, some);
      const open = openBeside(board, seats);
      const lacks: number[] = [];
      places.forEach((place, p) => {
        for (let k = 0; k < spans; k++) {
          const here = some.flatMap((path) => {
            const spot = spots[path.spots[k] ?? 0];
            return spot?.place === p ? [spot] : [];
          });
          const at = p * spans + k;
          const level = Math.min(...here.map((spot) => spot.level));
          expect([seats.count[at], seats.level[at]], told).toEqual([here.length, level]);
          for (const spot of place.spots) {
            const heads = here.length + 1;
            const may = heads <= place.room && heads <= level && heads <= (spots[spot]?.level ?? 0);
            if (!may) tight++;
            expect(open[spot * spans + k], told).toBe(may ? 1 : 0);
          }
          if (useAt(board.model, board.model.demands, place.id, k).needed && here.length === 0) lacks.push(at);
        }
      });
      expect(lacking(board, wanted, some), told).toEqual(lacks);
      expect(pathsFit(board, some), told).toBe(true);
    }
    expect(tight).toBeGreaterThan(50);
  });

  it("fits up to the last slot and interval, and as far as everyone's share goes", () => {
    const bench = benchOf(0, 0, { totalWatts: 90, slots: 3 });
    const board = layBoard(day(3, { chargers: [bench] }));
    // Van, car, then the charger alone, with two and with three; two intervals.
    const path = (pack: number, ...spots: number[]): PackPath => ({
      pack,
      spots: Int16Array.from(spots),
      moves: 0,
      marginWh: 0,
    });
    expect(pathsFit(board, [path(0, 4, 4), path(1, 4, 4), path(2, 4, 4)])).toBe(true);
    expect(pathsFit(board, [path(0, 3, 0), path(1, 3, 0)])).toBe(true);
    expect(pathsFit(board, [path(0, 2, 0), path(1, 4, 0)])).toBe(false);
    expect(pathsFit(board, [path(0, 0, 3), path(1, 0, 3), path(2, 0, 4)])).toBe(false);
    expect(pathsFit(board, [path(0, 0, 4), path(1, 0, 4), path(2, 0, 4), path(2, 0, 4)])).toBe(false);
  });

  it("is its first place up to the first moment at which hands come to it", () => {
    for (const { told, one } of covered(runs(100, 2000), false)) {
      const { board, wanted } = one;
      const { model, spans, places } = board;
      for (const [pack, { at }] of model.packs.entries()) {
        const first = Array.from({ length: spans }, (_, k) => k).find(
          (k) => k > 0 && canTouch(model, model.demands, at, k),
        );
        const own = heldPath(board, wanted, pack);
        const ids = [...own.spots].map((spot) => (spot < 0 ? null : places[board.spots[spot]?.place ?? 0]?.id));
        expect(ids, told).toEqual(ids.map((_, k) => (k < (first ?? spans) ? at : null)));
        expect([own.moves, own.marginWh], told).toEqual([0, Number.POSITIVE_INFINITY]);
      }
    }
  });
});

/** So many packs in the van, two bays, a lamp in the van and one touch at minute 100 that reaches both; two minutes a move. */
function day(packs: number, more: Partial<Model> = {}, free?: readonly [number, number]): Model {
  const hands = free === undefined ? {} : { free: { from: instant(free[0]), to: instant(free[1]) } };
  return smallDay(300, {
    ...{ bays: ["van", "car"], swapMinutes: 2 },
    touches: [touchOf(100, { reach: ["van", "car"], ...hands })],
    packs: Array.from({ length: packs }, (_, n) => packOf(`p${n}`)),
    ...more,
  });
}

describe("a charger whose watts are shared", () => {
  const levels = (more: Partial<ModelCharger>) => {
    const board = layBoard(day(2, { chargers: [benchOf(0, 0, more)] }));
    return board.spots
      .filter(({ place }) => board.places[place]?.id === "bench")
      .map(({ level, watts }) => [level, watts]);
  };

  it("has a spot for each head count that changes what a pack gets", () => {
    // 90 W: 60 for one, 45 for two, 30 for three. 120 W: 60 for one and for two, 40 for three.
    expect(levels({ slots: 3, totalWatts: 90 })).toEqual([
      [1, 60],
      [2, 45],
      [3, 30],
    ]);
    expect(levels({ slots: 3, totalWatts: 120 })).toEqual([
      [2, 60],
      [3, 40],
    ]);
    expect(levels({ slots: 3, totalWatts: 180 })).toEqual([[3, 60]]);
    expect(levels({ slots: 2, totalWatts: null })).toEqual([[2, 60]]);
    expect(levels({ slots: 2, totalWatts: 40 })).toEqual([
      [1, 40],
      [2, 20],
    ]);
  });
});

describe("pairs of hands", () => {
  /** Chores where so many packs go from the van to the car and one, where `lit`, to the lamp that is wanted from then on. */
  function chores(
    count: number,
    { free, lamp }: { free?: readonly [number, number]; lamp?: readonly [number, number] } = {},
  ) {
    const demands = (lamp === undefined ? [] : [lamp]).map(([from, to]) => useOf(from, to, 10, { kind: "standby" }));
    const model = day(count, { demands }, free);
    const { board, wanted } = caseOf(model, demands);
    // Van, car and lamp are the spots 0, 1 and 2.
    const paths = model.packs.map((_, pack) => ({
      ...{ pack, spots: Int16Array.of(0, lamp !== undefined && pack === 0 ? 2 : 1), moves: 1, marginWh: 0 },
    }));
    return tollOf(board, wanted, paths).chores;
  }

  it("are one where there is time for all moves, and as many as it takes where there is not", () => {
    // Three moves are six minutes.
    expect(chores(3)).toBe(1);
    expect(chores(3, { free: [94, 100] })).toBe(1);
    expect(chores(3, { free: [95, 100] })).toBe(2);
    expect(chores(3, { free: [97, 103] })).toBe(1);
    expect(chores(3, { free: [98, 100] })).toBe(3);
    expect(chores(3, { free: [99, 100] })).toBe(6);
    expect(chores(3, { free: [100, 100] })).toBe(6);
  });

  it("are more where a load that they touch is wanted before they are done", () => {
    // From 98 to 104 where nothing waits; the lamp at 102 leaves four of the six minutes, at 100 two, at 104 all of them.
    expect(chores(3, { free: [98, 110], lamp: [104, 200] })).toBe(1);
    expect(chores(3, { free: [98, 110], lamp: [102, 200] })).toBe(2);
    expect(chores(3, { free: [98, 110], lamp: [100, 200] })).toBe(3);
    expect(chores(3, { free: [98, 110], lamp: [50, 200] })).toBe(3);
    // What is over by then does not wait, and before the touch there is time enough.
    expect(chores(3, { free: [98, 110], lamp: [50, 100] })).toBe(1);
    expect(chores(3, { free: [80, 110], lamp: [100, 200] })).toBe(1);
  });
});
