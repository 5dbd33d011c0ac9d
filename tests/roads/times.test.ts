import { describe, expect, it } from "vitest";
import type { Leg } from "../../src/legs/leg.ts";
import { badTime, driveTime, plannedMinutes } from "../../src/legs/times.ts";
import { DRY, timeFactor, weatherOn } from "../../src/legs/weather.ts";
import type { RoadState, Weather } from "../../src/plan/plan.ts";
import { instant } from "../../src/time/units.ts";
import { leg as stated, weather } from "../day/parts.ts";

const leg = (likelyMinutes: number, badMinutes: number | null): Leg =>
  stated("lodge", "pier", likelyMinutes, badMinutes);

const row = (road: RoadState | null, parts: Partial<Weather> = {}): Weather => weather({ road, ...parts });

const dry = { slower: 1, weather: DRY };
const snow = { slower: 1, weather: weatherOn([row("snow")], { from: instant(0), to: instant(1) }, []) };

describe("planned minutes", () => {
  it("are the stated ones", () => {
    expect(plannedMinutes(leg(35, 50), { ...dry, at: "bad" })).toBe(50);
    expect(plannedMinutes(leg(35, 50), { ...dry, at: "drive" })).toBe(35);
  });

  it("are times `slower`, rounded up, and not up by the dust of a product", () => {
    expect(plannedMinutes(leg(35, 50), { ...dry, slower: 1.1, at: "bad" })).toBe(55); // 50 × 1.1 is 55.000000000000007
    expect(plannedMinutes(leg(35, 50), { ...dry, slower: 1.1, at: "drive" })).toBe(39); // 38.5
  });

  it("are times the weather factor: 30 % slower is 1 / 0.7", () => {
    expect(plannedMinutes(leg(35, 49), { ...snow, at: "bad" })).toBe(70);
    expect(plannedMinutes(leg(35, 49), { ...snow, at: "drive" })).toBe(50);
  });

  it("take the 95 % point of the buffer index where `bad` is missing", () => {
    // 1 + BI = exp(1.645 s − s²/2) by bisection, not by the closed form of the code.
    const spread = (bi: number): number => {
      let [low, high] = [0, 1.645];
      for (let step = 0; step < 60; step++) {
        const mid = (low + high) / 2;
        if (Math.exp(1.645 * mid - (mid * mid) / 2) < 1 + bi) low = mid;
        else high = mid;
      }
      return low;
    };
    expect(plannedMinutes(leg(100, null), { ...dry, at: "bad" })).toBe(Math.ceil(100 * Math.exp(1.645 * spread(0.15)))); // 116
    expect(plannedMinutes(leg(70, null), { ...snow, at: "bad" })).toBe(Math.ceil(100 * Math.exp(1.645 * spread(0.25)))); // 127
  });
});

describe("a drive's distribution", () => {
  it("has the likely time as its median and the bad time as its 95 % point", () => {
    const time = driveTime(leg(180, 300), dry);
    expect(time.median).toBe(180);
    expect(badTime(time)).toBeCloseTo(300, 9);
  });

  it("keeps the buffer index between its mean and its 95 % point", () => {
    const time = driveTime(leg(100, null), dry);
    const mean = time.median * Math.exp((time.spread * time.spread) / 2);
    expect(badTime(time) / mean - 1).toBeCloseTo(0.15, 9);
  });

  it("of a bad time that equals the likely one never varies", () => {
    expect(driveTime(leg(20, 20), dry).spread).toBe(0);
  });
});

describe("the weather on a leg", () => {
  const during = { from: instant(100), to: instant(150) };
  const on = (...rows: Weather[]) => weatherOn(rows, during, ["lodge", "pier"]).state;

  it("is the worst row that overlaps it, ends half-open", () => {
    expect(on(row("wet"), row("ice", { from: instant(149) }))).toBe("ice");
    expect(on(row("wet"), row("ice", { from: instant(150) }))).toBe("wet");
    expect(on(row("wet"), row("ice", { to: instant(100) }))).toBe("wet");
    expect(on(row("wet"), row("ice", { to: instant(101) }))).toBe("ice");
  });

  it("counts rows of everywhere and of either end", () => {
    expect(on(row("fog", { places: ["pier"] }))).toBe("fog");
    expect(on(row("fog", { places: ["lodge"] }))).toBe("fog");
    expect(on(row("fog", { places: ["inn"] }))).toBeNull();
  });

  it("prefers, of two equally slow states, whichever comes first", () => {
    expect(on(row("ice"), row("heavy-snow"))).toBe("ice");
  });

  it("knows no state where no row has one", () => {
    expect(on(row(null))).toBeNull();
    expect(on(row("dry"))).toBe("dry");
  });

  it("grows with the state, inside the published arterial ranges (FHWA: wet 10-25 %, snow and slush 30-40 %)", () => {
    const reduction = (state: RoadState) => 1 - 1 / timeFactor(state);
    for (const state of ["wet", "heavy-rain"] as const) {
      expect(reduction(state)).toBeGreaterThanOrEqual(0.1 - 1e-12);
      expect(reduction(state)).toBeLessThanOrEqual(0.25 + 1e-12);
    }
    for (const state of ["snow", "heavy-snow", "ice"] as const) {
      expect(reduction(state)).toBeGreaterThanOrEqual(0.3 - 1e-12);
      expect(reduction(state)).toBeLessThanOrEqual(0.4 + 1e-12);
    }
    expect(timeFactor("dry")).toBe(1);
  });
});
