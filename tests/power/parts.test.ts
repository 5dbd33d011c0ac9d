/** The small parts of the search, each by itself: chance, budgets, labels that wait, cold. By hand. */
import { describe, expect, it } from "vitest";
import { Desk } from "../../src/power/fast/desk.ts";
import * as budgets from "../../src/power/fast/effort.ts";
import { randomFrom } from "../../src/power/fast/random.ts";
import type { Model, Touch } from "../../src/power/model.ts";
import { chargeWindow, derate } from "../../src/power/physics.ts";
import { dice, randomModel, TINY } from "./days.ts";

describe("chance", () => {
  /** The same generator in whole numbers of any length, cut to 32 bits after each step. */
  function numbers(seed: bigint, count: number): number[] {
    const cut = (n: bigint): bigint => BigInt.asUintN(32, n);
    let state = cut(seed);
    return Array.from({ length: count }, () => {
      state = cut(state + 0x9e3779b9n);
      let mixed = cut((state ^ (state >> 16n)) * 0x85ebca6bn);
      mixed = cut((mixed ^ (mixed >> 13n)) * 0xc2b2ae35n);
      return Number(cut(mixed ^ (mixed >> 16n))) / 2 ** 32;
    });
  }

  it("is the same on every machine", () => {
    for (const seed of [0, 8, 20_270_120, 2 ** 32 - 1]) {
      const random = randomFrom(seed);
      expect(Array.from({ length: 50 }, random.next)).toEqual(numbers(BigInt(seed), 50));
    }
  });

  it("draws below a count, and shuffles all that is there", () => {
    const random = randomFrom(3);
    const drawn = Array.from({ length: 600 }, () => random.below(3));
    // A third each, give or take five standard deviations of 11.5.
    for (const value of [0, 1, 2]) expect(Math.abs(drawn.filter((one) => one === value).length - 200)).toBeLessThan(58);
    const orders = new Set<string>();
    for (let n = 0; n < 60; n++) {
      const order = random.shuffle(["a", "b", "c"]);
      expect(order.toSorted()).toEqual(["a", "b", "c"]);
      orders.add(order.join(""));
    }
    expect(orders.size).toBe(6);
  });
});

describe("a budget", () => {
  const model = (packs: number, touches: number): Model => {
    const one = randomModel(1, TINY);
    const [pack, touch] = [one.packs[0], one.touches[0]];
    if (pack === undefined || touch === undefined) throw new RangeError("an empty day");
    return { ...one, packs: new Array<typeof pack>(packs).fill(pack), touches: new Array<Touch>(touches).fill(touch) };
  };

  it("of tries grows with patience, that of work with its square", () => {
    const small = model(5, 10);
    const tries = [
      budgets.coverRounds,
      budgets.marginRounds,
      budgets.raiseRounds,
      budgets.restQuestions,
      budgets.lpRounds,
    ];
    for (const one of [
      ...tries,
      budgets.diveSteps,
      budgets.diagnosisQuestions,
      (effort: budgets.Effort) => budgets.choreRounds(effort, small),
    ]) {
      expect(one({ patience: 1 })).toBeGreaterThan(1);
      expect(one({ patience: 3 })).toBe(3 * one({ patience: 1 }));
      expect(one({ patience: 0.001 })).toBe(1);
    }
    for (const one of [budgets.searchWork, budgets.diagnosisWork]) {
      const [once, thrice] = [one({ patience: 1 }), one({ patience: 3 })];
      expect(thrice).toEqual({ labels: 9 * once.labels, chores: 9 * once.chores, margin: 9 * once.margin });
    }
  });

  it("is less for what is only tried, and what is left of one where others were asked before", () => {
    expect(budgets.searchWork({ patience: 1, brief: true }).labels).toBeLessThan(
      budgets.searchWork({ patience: 1 }).labels,
    );
    expect(budgets.searchWork({ patience: 1, brief: false })).toEqual(budgets.searchWork({ patience: 1 }));
    const left = { labels: 9, chores: 7, margin: 5 };
    expect(budgets.searchWork({ patience: 1, left })).toBe(left);
    expect([1, 1.5, 2].map((patience) => budgets.isPatient({ patience }))).toEqual([false, true, true]);
  });

  it("has fewer tries for each touch where there are more than 200 ways to move", () => {
    const tries = (packs: number, touches: number) => budgets.choreRounds({ patience: 1 }, model(packs, touches));
    expect(tries(10, 20)).toBe(tries(5, 10));
    expect(tries(3, 67)).toBeLessThan(tries(10, 20));
  });

  it("is spent at its end, or after too long without a gain", () => {
    const desk = { work: 1000 };
    const allowance = new budgets.Allowance(desk, 100, 40);
    const spentAt = (work: number): boolean => {
      desk.work = work;
      return allowance.isSpent();
    };
    expect([spentAt(1000), spentAt(1039), spentAt(1040)]).toEqual([false, false, true]);
    desk.work = 1039;
    allowance.gain();
    expect([spentAt(1078), spentAt(1079)]).toEqual([false, true]);
    desk.work = 1078;
    allowance.gain();
    expect([spentAt(1099), spentAt(1100)]).toEqual([false, true]);
  });

  it("of saving chores is 400,000 labels for all searches of a day, and by uses where nothing is gained", () => {
    /** At how many labels it ends: with a gain every hundred labels, or with none. */
    const ends = (uses: number, gains: boolean, effort: Partial<budgets.Effort> = {}): number => {
      const desk = new Desk();
      const allowance = budgets.choreAllowance({ patience: 1, ...effort }, uses, desk);
      while (!allowance.isSpent()) {
        desk.work += 100;
        if (gains) allowance.gain();
      }
      return desk.work;
    };
    expect(ends(1, true)).toBe(400_000);
    expect(ends(1, true, { patience: 2 })).toBe(1_600_000);
    // What is left by the searches before, and a little where nothing is.
    expect(ends(1, true, { left: { labels: 0, chores: 70_000, margin: 0 } })).toBe(70_000);
    expect(ends(1, true, { left: { labels: 0, chores: -5, margin: 0 } })).toBe(10_000);
    // Without a gain 1,000 labels and 80 times the third power of the uses, here in steps of 100: 1,080 for one, 6,120 for four,
    // 11,000 for five; four times that at twice the patience.
    expect(ends(1, false)).toBe(1100);
    expect(ends(4, false)).toBe(6200);
    expect(ends(5, false)).toBe(11_000);
    expect(ends(5, false, { patience: 2 })).toBe(44_000);
  });
});

describe("labels that wait", () => {
  it("come by worth, then by how far they came, then by charge, however many there are", () => {
    const roll = dice(9);
    const desk = new Desk();
    for (const count of [1, 2, 3, 50, 3000]) {
      desk.clear(10, 4, 4);
      expect(desk.pop()).toBe(-1);
      const ids = Array.from({ length: count }, (_, id) => id);
      for (const id of ids) {
        desk.room(1);
        desk.size++;
        [desk.left[id], desk.time[id], desk.charge[id]] = [roll(0, 4), roll(0, 3), roll(0, 50)];
      }
      const key = (id: number) => [desk.left[id] ?? 0, desk.time[id] ?? 0, desk.charge[id] ?? 0];
      const byAll = (a: readonly number[], b: readonly number[]): number =>
        a.map((value, n) => (b[n] ?? 0) - value).find((more) => more !== 0) ?? 0;
      const popped: number[] = [];
      for (const [n, id] of ids.entries()) {
        const first = popped.length === n ? null : [...ids.slice(0, n)].filter((one) => !popped.includes(one));
        if (first !== null && n < 60)
          expect(desk.isNext(id)).toBe(first.every((other) => byAll(key(other), key(id)) > 0));
        desk.push(id);
        if (n % 7 === 3) popped.push(desk.pop());
      }
      const rest: number[] = [];
      for (let id = desk.pop(); id >= 0; id = desk.pop()) rest.push(id);
      expect([...popped, ...rest].toSorted((a, b) => a - b)).toEqual(ids);
      expect(rest.map(key)).toEqual(rest.map(key).toSorted(byAll));
    }
  });

  it("keep what they hold when more come, and are forgotten with the question", () => {
    const desk = new Desk();
    desk.clear(6, 2, 3);
    const arrays = () => [desk.worth, desk.left, desk.seen, desk.charge, desk.out, desk.parent, desk.spot, desk.time];
    const before = arrays();
    for (const [n, array] of before.entries()) array[5] = n + 1;
    desk.size = 2040;
    desk.room(8);
    expect(arrays().map(({ length }) => length)).toEqual(before.map(({ length }) => length));
    desk.room(9);
    expect(arrays().map((array) => array[5])).toEqual([1, 2, 3, 4, 5, 6, 7, 8]);
    expect(arrays().every(({ length }) => length >= 2049)).toBe(true);
    desk.fullest.fill(4);
    desk.push(3);
    desk.clear(6, 2, 3);
    expect([desk.size, desk.pop(), ...desk.fullest.slice(0, 6)]).toEqual([0, -1, -1, -1, -1, -1, -1, -1]);
  });

  it("lie beside arrays that are empty at first, as long as they are asked for", () => {
    const desk = new Desk();
    for (const length of [3, 8, 5]) {
      desk.clear(length, length, 2);
      expect([desk.ahead, desk.fullest, desk.hand].map((array) => array.length >= 2)).toEqual([true, true, true]);
      expect(desk.ahead.length).toBeGreaterThanOrEqual(length);
      expect(Math.min(desk.stay.length, desk.put.length)).toBeGreaterThanOrEqual(2 * length);
      const [gain, open, seats, cost] = [desk.gain(length), desk.open(length), desk.seats(length), desk.cost(length)];
      const first = (array: Float64Array | Uint8Array): readonly number[] => [...array.slice(0, length)];
      expect([first(gain), first(open), first(seats.count)]).toEqual(new Array(3).fill(new Array(length).fill(0)));
      expect(first(seats.level)).toEqual(new Array(length).fill(Number.POSITIVE_INFINITY));
      expect(cost.length).toBeGreaterThanOrEqual(length);
      for (const array of [gain, open, seats.count, seats.level]) array.fill(1);
    }
  });
});

describe("cold", () => {
  it("takes a share by straight lines between the rows of the table, which ends at -20 and 20 °C", () => {
    // Rows: 0.55, 0.75, 0.87, 0.95 and 1 at -20, -10, 0, 10 and 20 °C; half way between two rows the mean of both.
    expect([-20, -10, 0, 10, 20].map(derate)).toEqual([0.55, 0.75, 0.87, 0.95, 1]);
    expect([-40, -21, 21, 45].map(derate)).toEqual([0.55, 0.55, 1, 1]);
    [0.65, 0.81, 0.91, 0.975].forEach((share, n) => {
      expect(derate(-15 + 10 * n)).toBeCloseTo(share, 12);
    });
    expect(derate(-12.5)).toBeCloseTo(0.7, 12);
  });

  it("lets a pack charge slowly from 0 to below 5 °C, and up to 45 °C", () => {
    expect([-1, 0, 4.9, 5, 45, 45.1].map(chargeWindow)).toEqual([
      ...["forbidden", "reduced", "reduced", "normal", "normal", "forbidden"],
    ]);
  });
});
