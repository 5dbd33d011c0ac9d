/** The board that a search plays on, against the model itself minute by minute. */
import { describe, expect, it } from "vitest";
import { type Model, workSpan } from "../../../src/power/model.ts";
import { type Board, chargeAfter, intervalMinutes, layBoard, wantedOf } from "../../../src/power/proof/searchState.ts";
import { runs } from "../../fuzz.ts";
import { TINY } from "../days.ts";
import { richModel } from "../everything.ts";

const COUNT = Math.max(40, runs(60, 3000));

function each(check: (model: Model, board: Board, told: string) => void): void {
  for (let seed = 1; seed <= COUNT; seed++) {
    const model = richModel(seed, { ...TINY, packs: [2, 4], loads: [1, 3] });
    check(model, layBoard(model), `seed ${seed}`);
  }
}

const chargerAt = (model: Model, board: Board, p: number) =>
  model.chargers.find(({ id }) => id === board.places[p]?.id);

describe("a board", () => {
  it("has a place for each bay, charger and load, with the room that it has, and packs where they start", () => {
    each((model, board, told) => {
      const { bays, chargers, loads, packs } = model;
      expect(
        board.places.map(({ id, kind, room, mount }) => [id, kind, room, mount]),
        told,
      ).toEqual([
        ...bays.map((id) => [id, "shelf", Number.POSITIVE_INFINITY, null]),
        ...chargers.map(({ id, slots, mount }) => [id, "charger", slots, mount]),
        ...loads.map(({ id, mount }) => [id, "load", 1, mount]),
      ]);
      expect(
        board.startPlace.map((p) => board.places[p]?.id),
        told,
      ).toEqual(packs.map(({ at }) => at));
      for (const [n, pack] of packs.entries())
        for (const [p, place] of board.places.entries())
          expect(board.fits[n]?.[p], told).toBe(place.mount === null || place.mount === pack.mount);
      for (const [p, place] of board.places.entries()) {
        expect([board.taper[p], board.on[p] ?? []], told).toEqual([
          chargerAt(model, board, p)?.taper ?? 1,
          chargerAt(model, board, p)?.on ?? [],
        ]);
        const [first, next] = [board.firstSpot[p] ?? 0, board.firstSpot[p + 1] ?? 0];
        expect(place.spots, told).toEqual(Array.from({ length: next - first }, (_, n) => first + n));
      }
    });
  });

  it("has a spot for each head count that changes the power of a charger", () => {
    let shared = 0;
    each((model, board, told) => {
      for (const [p, place] of board.places.entries()) {
        const charger = chargerAt(model, board, p);
        if (charger === undefined) {
          expect(
            place.spots.map((spot) => board.wattsOf[spot]),
            told,
          ).toEqual([0]);
          continue;
        }
        const levels = place.spots.map((spot) => board.levelOf[spot] ?? 0);
        expect(levels, told).toEqual(levels.toSorted((a, b) => a - b));
        expect(levels.at(-1), told).toBe(charger.slots);
        if (levels.length > 1) shared++;
        for (let heads = 1; heads <= charger.slots; heads++) {
          const spot = place.spots.find((one) => (board.levelOf[one] ?? 0) >= heads) ?? -1;
          const power =
            charger.totalWatts === null ? charger.watts : Math.min(charger.watts, charger.totalWatts / heads);
          expect(board.wattsOf[spot], `${told} ${charger.id} ${heads}`).toBeCloseTo(power, 9);
          expect(board.placeOf[spot], told).toBe(p);
        }
        const powers = place.spots.map((spot) => board.wattsOf[spot]);
        expect(new Set(powers).size, told).toBe(powers.length);
      }
    });
    expect(shared).toBeGreaterThan(3);
  });

  it("knows what each touch reaches, and how long a charger is on for what stays, leaves, enters, and both", () => {
    each((model, board, told) => {
      const { touches, swapMinutes, from, to } = model;
      const work = touches.map((touch) => workSpan(touch, swapMinutes * (touch.moves ?? 1)));
      for (const [p, place] of board.places.entries()) {
        const on = chargerAt(model, board, p)?.on ?? [];
        for (let k = 0; k < board.spans; k++) {
          const at = p * board.spans + k;
          const [before, after] = [touches[k - 1], touches[k]];
          const [begin, end] = [before?.at ?? from, after?.at ?? to];
          expect(intervalMinutes(model, k), told).toEqual([begin, end]);
          const load = model.loads.find(({ id }) => id === place.id);
          const stage = load?.bay.findLast((one, n) => n === 0 || (before !== undefined && one.from <= before.at));
          const bay = stage?.bay ?? chargerAt(model, board, p)?.bay ?? place.id;
          expect(board.reach[at], `${told} ${place.id} ${k}`).toBe(before?.reach.includes(bay) === true ? 1 : 0);
          const enter = before === undefined ? begin : Math.max(before.warm ?? begin, work[k - 1]?.to ?? begin);
          const leave = after === undefined ? end : (work[k]?.from ?? end);
          const hours = (first: number, last: number): number => {
            let minutes = 0;
            for (let m = first; m < last; m++) if (on.some((one) => one.from <= m && m < one.to)) minutes++;
            return minutes / 60;
          };
          const found = [board.hours, board.hoursOut, board.hoursIn, board.hoursBoth].map((all) => all[at] ?? 0);
          const wanted = [hours(begin, end), hours(begin, leave), hours(enter, end), hours(enter, leave)];
          for (const [n, one] of wanted.entries())
            expect(found[n], `${told} ${place.id} ${k} ${n}`).toBeCloseTo(one, 9);
        }
      }
    });
  });

  it("knows what packs were found to hold and when they are out of service", () => {
    let [seen, out] = [0, 0];
    each((model, board, told) => {
      for (const [n, { found = [], broken = [] }] of model.packs.entries())
        for (let k = 0; k < board.spans; k++) {
          const [begin, end] = intervalMinutes(model, k);
          // Of touches at one minute the last one begins the interval.
          const own = begin === end ? undefined : found.find(({ at }) => at === begin);
          if (own !== undefined) seen++;
          if (begin !== end && begin > model.from) expect(board.found[n]?.get(k), told).toBe(own?.wh);
          let isOut = false;
          for (let m = begin as number; m < end; m++) isOut ||= broken.some((one) => one.from <= m && m < one.to);
          if (isOut) out++;
          if (begin < end) expect(board.broken[n]?.[k] ?? false, told).toBe(isOut);
        }
    });
    expect(Math.min(seen, out)).toBeGreaterThan(5);
  });

  it("asks for a pack, and its energy, in each minute of a use, and keeps it in place within one", () => {
    let locked = 0;
    each((model, board, told) => {
      const wanted = wantedOf(board, model.demands);
      const needs: number[] = [];
      for (const [p, place] of board.places.entries())
        for (let k = 0; k < board.spans; k++) {
          const at = p * board.spans + k;
          const [begin, end] = intervalMinutes(model, k);
          const uses = model.demands.filter(({ watts }) => place.kind === "load" && watts.has(place.id));
          let wh = 0;
          let need = false;
          for (let m = begin as number; m < end; m++)
            for (const use of uses)
              if (use.from <= m && m < use.to) {
                need = true;
                wh += (use.watts.get(place.id) ?? 0) / 60;
              }
          if (need) needs.push(at);
          expect(wanted.need[at], `${told} ${place.id} ${k}`).toBe(need ? 1 : 0);
          expect(wanted.drain[at], `${told} ${place.id} ${k}`).toBeCloseTo(wh, 9);
          const inside = uses.some((use) => k > 0 && use.kind !== "standby" && use.from < begin && begin < use.to);
          if (inside) locked++;
          expect(wanted.locked[at], `${told} ${place.id} ${k}`).toBe(inside ? 1 : 0);
        }
      expect([...wanted.needs], told).toEqual(needs);
    });
    expect(locked).toBeGreaterThan(5);
  });
});

describe("a charger fills a pack", () => {
  /** Step by step: the full power up to the knee, above it the share of it that the missing charge is of that at the knee. */
  function filled(held: number, full: number, taper: number, watts: number, hours: number): number {
    const steps = 20_000;
    let wh = held;
    for (let n = 0; n < steps; n++) {
      const share = wh < taper * full ? 1 : taper >= 1 ? 0 : (full - wh) / (full - taper * full);
      wh = Math.min(full, wh + (Math.max(0, share) * watts * hours) / steps);
    }
    return wh;
  }

  it("as it does step by step, below the knee, across it and above it", () => {
    for (const taper of [0.8, 0.5, 1])
      for (const held of [0, 20, 79, 80, 81, 95])
        for (const [watts, hours] of [
          [60, 0.5],
          [60, 2],
          [1, 10],
          [0.5, 8],
        ] as const)
          expect(chargeAfter(held, 100, taper, watts, hours), `${taper} ${held} ${watts}`).toBeCloseTo(
            filled(held, 100, taper, watts, hours),
            1,
          );
    expect(chargeAfter(50, 100, 0.8, 60, 0)).toBe(50);
    expect(chargeAfter(50, 100, 0.8, 0, 1)).toBe(50);
    expect([chargeAfter(100, 100, 0.8, 60, 1), chargeAfter(101, 100, 0.8, 60, 1)]).toEqual([100, 101]);
    // To the knee in exactly an hour, and not a Wh more.
    expect(chargeAfter(20, 100, 0.8, 60, 1)).toBe(80);
  });
});
