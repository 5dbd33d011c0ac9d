/** No cliffs: whatever gets worse outside never gets a milder word. */
import { describe, expect, it } from "vitest";
import { coldIndex, frostbiteWithin } from "../../src/cautions/cold.ts";
import { vehicleIceInches } from "../../src/cautions/ice.ts";
import { keepOffFeet, transitFeet } from "../../src/cautions/structures.ts";
import { heatIndex } from "../../src/cautions/weather.ts";
import { derate } from "../../src/power/physics.ts";
import { coldFuelFactor } from "../../src/roads/consumption.ts";

const range = (from: number, to: number, step: number): readonly number[] =>
  Array.from({ length: Math.round((to - from) / step) + 1 }, (_, index) => from + index * step);

const AIR = range(-60, 15, 0.5);
const WIND = range(0, 150, 0.5);
const soon = (air: number, kmh: number): number => frostbiteWithin(air, kmh) ?? Number.POSITIVE_INFINITY;

describe("wind chill", () => {
  it("is never milder with more wind, nor in colder air", () => {
    for (const air of AIR)
      for (const kmh of WIND) expect(coldIndex(air, kmh + 0.5)).toBeLessThanOrEqual(coldIndex(air, kmh) + 1e-9);
    for (const air of AIR) for (const kmh of WIND) expect(coldIndex(air - 0.5, kmh)).toBeLessThan(coldIndex(air, kmh));
  });

  it("is the air's own temperature without wind, and has no step at 5 km/h", () => {
    expect(coldIndex(-30, 0)).toBe(-30);
    for (const air of AIR) expect(Math.abs(coldIndex(air, 4.999) - coldIndex(air, 5.001))).toBeLessThan(0.05);
  });

  it.each([
    // Environment Canada's chart, °C: air, km/h, index.
    [0, 5, -2],
    [0, 60, -9],
    [-10, 20, -18],
    [-10, 60, -23],
    [-20, 30, -33],
    [-20, 80, -38],
    [-30, 10, -39],
    [-30, 70, -52],
    [-40, 40, -61],
    [-50, 80, -81],
  ])("%d °C and %d km/h are %d (Environment Canada, wind chill chart)", (air, kmh, index) => {
    expect(Math.abs(coldIndex(air, kmh) - index)).toBeLessThanOrEqual(0.6);
  });
});

describe("frostbite", () => {
  it("never comes later with more wind, nor in colder air", () => {
    for (const air of AIR)
      for (const kmh of WIND) {
        expect(soon(air, kmh + 0.5)).toBeLessThanOrEqual(soon(air, kmh));
        expect(soon(air - 0.5, kmh)).toBeLessThanOrEqual(soon(air, kmh));
      }
  });

  it.each([
    // Environment Canada's bands: from −28 in 10 to 30 min, −40 in 5 to 10, −48 in 2 to 5, −55 in less than 2.
    [-28, 0, 10],
    [-27, 0, null],
    [-39, 0, 10],
    [-40, 0, 5],
    [-48, 0, 2],
    [-55, 0, 1],
    // −35 °C: index −51 at 24 km/h; −57 at 45 km/h.
    [-35, 24, 2],
    [-35, 45, 1],
  ])("%d °C and %d km/h: %s min", (air, kmh, minutes) => {
    expect(frostbiteWithin(air, kmh)).toBe(minutes);
  });

  it("is of the next colder band above 50 km/h", () => {
    // −15 °C: index −29 at 50 km/h (10 min) and still −29 at 51 (then 5 min).
    expect(coldIndex(-15, 50)).toBeCloseTo(-28.6, 1);
    expect([frostbiteWithin(-15, 50), frostbiteWithin(-15, 51)]).toEqual([10, 5]);
  });
});

describe("heat, ice and lines", () => {
  it("the heat index grows with humidity from 80 °F on", () => {
    for (const t of range(80, 112, 1))
      for (const humidity of range(40, 99, 1))
        expect(heatIndex(t, humidity + 1)).toBeGreaterThanOrEqual(heatIndex(t, humidity) - 0.05);
  });

  it("a heavier vehicle never needs less ice, and never less than Gold's formula asks for", () => {
    let last = 0;
    for (const kg of range(500, 40_000, 50)) {
      const inches = vehicleIceInches(kg);
      expect(inches).toBeGreaterThanOrEqual(last);
      expect(3.5 * (inches * 2.54) ** 2).toBeGreaterThanOrEqual(kg - 1);
      last = inches;
    }
  });

  it.each([
    [7257, 18], // 16,000 lb: 45.5 cm
    [14_969, 26], // 33,000 lb: 65.4 cm, 25.7 in
    [6500, 17], // 43.1 cm
  ])("%d kg need %d in (Gold, 3.5 h²)", (kg, inches) => {
    expect(vehicleIceInches(kg)).toBe(inches);
  });

  it("a higher voltage never allows to come nearer, and both rules hold", () => {
    let [off, transit] = [0, 0];
    for (const kilovolts of range(0, 1500, 1)) {
      expect(keepOffFeet(kilovolts)).toBeGreaterThanOrEqual(off);
      expect(transitFeet(kilovolts)).toBeGreaterThanOrEqual(transit);
      expect(keepOffFeet(kilovolts)).toBeGreaterThanOrEqual(10 + Math.max(0, (kilovolts - 50) / 30));
      [off, transit] = [keepOffFeet(kilovolts), transitFeet(kilovolts)];
    }
  });

  it.each([
    [12.5, 10],
    [50, 10],
    [51, 15],
    [138, 15], // 12.93 by 1910.333
    [200, 15],
    [230, 20], // 16 by 1910.333
    [350, 20],
    [500, 25],
    [750, 35],
    [765, 45],
    [1000, 45],
    [1200, 49], // 10 + 115 × 4 in = 48.3 ft
  ])("%d kV: %d ft (29 CFR 1926.1408 Table A, 1910.333(c)(3))", (kilovolts, feet) => {
    expect(keepOffFeet(kilovolts)).toBe(feet);
  });
});

describe("packs and tanks", () => {
  it("a colder pack never gives more, and a colder road never takes less fuel", () => {
    for (const air of range(-60, 40, 0.5)) {
      expect(derate(air)).toBeLessThanOrEqual(derate(air + 0.5));
      expect(coldFuelFactor(air)).toBeGreaterThanOrEqual(coldFuelFactor(air + 0.5));
    }
    // US Department of Energy: 15 % fewer miles a gallon at 20 °F, 24 % on short trips.
    expect(coldFuelFactor((20 - 32) / 1.8)).toBeCloseTo(1 / 0.85, 6);
    expect(coldFuelFactor(-60)).toBeCloseTo(1 / 0.76, 6);
    expect(coldFuelFactor(25)).toBe(1);
  });
});
