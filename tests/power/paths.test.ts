/** The best way of one pack against every way there is, on small days with random prices; and the most that a pack can hold. */
import { describe, expect, it } from "vitest";
import { type PathQuery, Paths } from "../../src/power/fast/paths.ts";
import type { Demand, Model } from "../../src/power/model.ts";
import { chargeAlone, marginCeiling, matches } from "../../src/power/proof/ceiling.ts";
import { caseOf } from "../../src/power/question.ts";
import { runs } from "../fuzz.ts";
import { dice, type Shape } from "./days.ts";
import { richModel } from "./everything.ts";
import { canTouch, charged, fits, foundAt, isBroken, isKept, useAt } from "./onePack.ts";
import { benchOf, packOf, smallDay, touchOf } from "./small.ts";

const SMALL: Shape = { packs: [1, 3], touches: [1, 3], demands: [1, 4], loads: [1, 2], minutes: 360 };
/** Charges and prices are equal up to what adding in another order changes. */
const SAME = 1e-6;

type Case = ReturnType<typeof caseOf>;

/** The value of the best way, -Infinity where there is none. */
function bestByHand({ board, wanted: { demands } }: Case, query: PathQuery): number {
  const { model, spans, spots } = board;
  const pack = model.packs[query.pack];
  if (pack === undefined) throw new RangeError("no such pack");
  const stands = spots.map(({ place, watts }) => ({ place: board.places[place]?.id ?? "", watts }));
  const uses = stands.map(({ place }) => Array.from({ length: spans }, (_, k) => useAt(model, demands, place, k)));
  const touched = stands.map(({ place }) =>
    Array.from({ length: spans }, (_, k) => canTouch(model, demands, place, k)),
  );
  const isOut = Array.from({ length: spans }, (_, k) => isBroken(model, pack, k));
  const fitting = stands.map(({ place }) => fits(model, pack, place));
  let best = Number.NEGATIVE_INFINITY;
  /** On spot `spot` in interval k since it was entered with `held`; its end is known only with the next spot. */
  const go = (k: number, spot: number, entered: boolean, before: number, value: number): void => {
    const [stand, use] = [stands[spot], uses[spot]?.[k]];
    if (stand === undefined || use === undefined || query.open[spot * spans + k] !== 1) return;
    const out = isOut[k] === true;
    if (use.needed && out) return;
    const start = foundAt(model, pack, k, before);
    const worth = value + (query.gain[spot * spans + k] ?? 0);
    const after = (leaves: boolean): number =>
      (out ? start : charged(model, pack, stand, k, start, [entered, leaves])) - use.wh;
    const lasts = (held: number): boolean => !use.needed || held >= pack.reserveWh + query.marginWh - 1e-9;
    if (k + 1 === spans) {
      const end = after(false);
      const place = board.places.findIndex(({ id }) => id === stand.place);
      if (lasts(end)) best = Math.max(best, worth + (query.endWorth?.[place] ?? 0) * end);
      return;
    }
    for (const [next, other] of stands.entries()) {
      const leaves = other.place !== stand.place;
      if (leaves && !(touched[spot]?.[k + 1] && touched[next]?.[k + 1] && fitting[next])) continue;
      const held = after(leaves);
      if (lasts(held)) go(k + 1, next, leaves, held, worth - (leaves ? (query.moveCost[k + 1] ?? 0) : 0));
    }
  };
  for (const [spot, stand] of stands.entries()) if (stand.place === pack.at) go(0, spot, false, pack.startWh, 0);
  return best;
}

/** Prices that make a pack want to stand here or there, of the kinds that the search puts. */
function randomQuery({ board, wanted }: Case, seed: number): PathQuery {
  const roll = dice(seed + 5);
  const { spans, spots, places } = board;
  const size = spots.length * spans;
  const wide = roll(0, 2);
  const gain = new Float64Array(size).map(() => (roll(0, 1) === 0 ? 0 : roll(-3, 3) * ([1, 100, 1000][wide] ?? 1)));
  for (const at of wanted.needs) {
    const [place, k] = [Math.floor(at / spans), at % spans];
    if (roll(0, 1) === 0) gain[(board.firstSpot[place] ?? 0) * spans + k] = 2000;
  }
  return {
    pack: roll(0, board.model.packs.length - 1),
    marginWh: [Number.NEGATIVE_INFINITY, 0, roll(0, 40)][roll(0, 2)] ?? 0,
    open: new Uint8Array(size).map(() => (roll(0, 9) === 0 ? 0 : 1)),
    gain,
    moveCost: new Float64Array(spans).map(() => roll(0, 2) * 60),
    ...(roll(0, 1) === 0 ? {} : { endWorth: new Float64Array(places.length).map(() => roll(0, 9)) }),
  };
}

/** Every small day with the demands that are asked. */
function* smallDays(count: number, first = 1): Generator<{ readonly seed: number; readonly one: Case }> {
  for (let seed = first; seed < first + count; seed++) {
    const model = richModel(seed, SMALL);
    yield { seed, one: caseOf(model, model.demands) };
  }
}

describe("the best way of a pack", () => {
  it.each([0, 1, 2, 3])("is worth as much as the best of all ways (block %i)", (block) => {
    const count = runs(100, 5000);
    let found = 0;
    for (const { seed, one } of smallDays(count, 1 + block * count)) {
      const query = randomQuery(one, seed);
      const paths = new Paths(one.board, one.wanted);
      const best = paths.best(query);
      const byHand = bestByHand(one, query);
      if (byHand === Number.NEGATIVE_INFINITY) {
        expect(best, `day ${seed}`).toBeNull();
        continue;
      }
      found++;
      expect(best?.value, `day ${seed}`).toBeCloseTo(byHand, 5);
      expect(paths.best({ ...query, least: byHand - 1 })?.value, `day ${seed}`).toBeCloseTo(byHand, 5);
      expect(paths.best({ ...query, least: byHand + 1 }), `day ${seed}`).toBeNull();
    }
    expect(found).toBeGreaterThan(count / 3);
  });
});

describe("the most that a pack can hold alone", () => {
  /** By place and interval: it moves wherever hands reach and its mount fits, the full hours of each charger count, uses draw nothing. */
  function most(model: Model, number: number): Map<string, number> {
    const pack = model.packs[number];
    const held = new Map<string, number>();
    if (pack === undefined) return held;
    const stands = [
      ...model.bays.map((place) => ({ place, watts: 0 })),
      ...model.chargers.map(({ id, watts, totalWatts }) => ({
        place: id,
        watts: Math.min(watts, totalWatts ?? watts),
      })),
      ...model.loads.map(({ id }) => ({ place: id, watts: 0 })),
    ];
    const go = (k: number, at: number, before: number): void => {
      const stand = stands[at];
      if (stand === undefined) return;
      const start = foundAt(model, pack, k, before);
      const key = `${stand.place} ${k}`;
      held.set(key, Math.max(held.get(key) ?? Number.NEGATIVE_INFINITY, start));
      if (k === model.touches.length) return;
      const end = charged(model, pack, stand, k, start, [false, false]);
      for (const [next, other] of stands.entries()) {
        const moves = next !== at;
        const reached = (place: string): boolean => canTouch(model, [], place, k + 1);
        if (!moves || (reached(stand.place) && reached(other.place) && fits(model, pack, other.place)))
          go(k + 1, next, end);
      }
    };
    go(
      0,
      stands.findIndex(({ place }) => place === pack.at),
      pack.startWh,
    );
    return held;
  }

  /** The largest smallest margin when every row has a column of its own, by trying all. */
  function bestOfAll(rows: readonly number[][], used: readonly number[] = []): number {
    const [row, ...rest] = rows;
    if (row === undefined) return Number.POSITIVE_INFINITY;
    return row.reduce(
      (best, margin, column) =>
        used.includes(column) ? best : Math.max(best, Math.min(margin, bestOfAll(rest, [...used, column]))),
      Number.NEGATIVE_INFINITY,
    );
  }

  function ceilingByHand(model: Model, demands: readonly Demand[]): number {
    const alone = model.packs.map((_, pack) => most(model, pack));
    let ceiling = Number.POSITIVE_INFINITY;
    for (let k = 0; k <= model.touches.length; k++) {
      const loads = model.loads.filter(({ id }) => useAt(model, demands, id, k).needed);
      const rows = loads.map(({ id }) => {
        let [first, last] = [k, k];
        while (first > 0 && isKept(model, demands, id, first)) first--;
        while (last < model.touches.length && isKept(model, demands, id, last + 1)) last++;
        let wh = 0;
        for (let n = first; n <= last; n++) wh += useAt(model, demands, id, n).wh;
        return model.packs.map(
          ({ reserveWh }, pack) => (alone[pack]?.get(`${id} ${first}`) ?? Number.NEGATIVE_INFINITY) - wh - reserveWh,
        );
      });
      ceiling = Math.min(ceiling, bestOfAll(rows));
    }
    return ceiling;
  }

  it("is what the best of all ways holds, and the ceiling is the best sharing of that", () => {
    const count = runs(200, 5000);
    for (const { seed, one } of smallDays(count)) {
      const { board, wanted } = one;
      const { model, places, spans } = board;
      for (const pack of model.packs.keys()) {
        const held = most(model, pack);
        const alone = chargeAlone(board, pack);
        places.forEach(({ id }, place) => {
          for (let k = 0; k < spans; k++) {
            const [own, other] = [alone[place * spans + k] ?? 0, held.get(`${id} ${k}`) ?? Number.NEGATIVE_INFINITY];
            if (own !== other && !(Math.abs(own - other) < SAME))
              expect.fail(`day ${seed}, ${id} ${k}: ${own}, ${other}`);
          }
        });
      }
      const [ceiling, byHand] = [marginCeiling(board, wanted), ceilingByHand(model, model.demands)];
      if (ceiling !== byHand && !(Math.abs(ceiling - byHand) < SAME)) expect.fail(`day ${seed}: ${ceiling}, ${byHand}`);
    }
  });

  it("is matched to rows each with a column of its own, whichever comes first", () => {
    // Both rows reach 5 in the first column, only the first row in the second: the first has to make way.
    expect(
      matches(
        [
          [5, 5],
          [5, 4],
        ],
        5,
      ),
    ).toBe(true);
    expect(
      matches(
        [
          [5, 4],
          [5, 4],
        ],
        5,
      ),
    ).toBe(false);
    expect(matches([[5], [5]], 5)).toBe(false);
    expect(
      matches(
        [
          [5, 1, 5],
          [1, 5, 5],
          [5, 5, 1],
        ],
        5,
      ),
    ).toBe(true);
    expect(matches([], 5)).toBe(true);
  });
});

describe("looking for the best way", () => {
  /** A van with two shelves' worth of bays, a charger that is on all day, and so many touches that reach all of them. */
  const day = (touches: number): Model =>
    smallDay(10 * touches + 10, {
      bays: ["van", "car"],
      touches: Array.from({ length: touches }, (_, n) => touchOf(10 * n + 10, { reach: ["van", "car"] })),
      packs: [packOf("one", { startWh: 20 })],
      chargers: [benchOf(0, 10 * touches + 10, { watts: 10 })],
      loads: [],
    });

  // Three spots. Where all is worth the same, the way that came furthest is taken up first: at each of the touches it leaves at most
  // one label for each spot, and no other is ever taken up. Where a way costs something, each state of the three is taken up once at
  // most for each amount of charge that is more than all before; the one that charges longest comes first, so again once.
  it.each([10, 100, 400])("takes labels in proportion to its %i touches, not to its ways", (touches) => {
    const { board, wanted } = caseOf(day(touches), []);
    const paths = new Paths(board, wanted);
    const size = board.spots.length * board.spans;
    const query = {
      ...{ pack: 0, marginWh: 0, open: new Uint8Array(size).fill(1) },
      ...{ gain: new Float64Array(size), moveCost: new Float64Array(board.spans) },
    };
    paths.best(query);
    expect(paths.desk.size).toBeLessThanOrEqual(3 * board.spans + 1);
    // Besides its labels a search counts 50, or one for eight intervals of spots.
    const more = Math.max(50, (board.spots.length * board.spans) / 8);
    expect(paths.desk.work).toBe(paths.desk.size + more);
    // The same again makes the same labels anew, and the work of both is counted.
    const once = paths.desk.size;
    paths.best(query);
    expect([paths.desk.size, paths.desk.work]).toEqual([once, 2 * (once + more)]);
  });
});
