/**
 * Batteries against published figures (batteries.json, each with its source); what is from memory says so there.
 * Ageing by temperature (cycle life -20 % at 30 °C) has no check: a day is too short for it, and `health` states its result.
 */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { carriageOf, POWER_BANKS } from "../../src/power/air.ts";
import type { Model } from "../../src/power/model.ts";
import { chargeWindow, derate } from "../../src/power/physics.ts";
import { chargeAfter } from "../../src/power/proof/searchState.ts";
import { replay } from "../../src/power/replay.ts";
import { instant } from "../../src/time/units.ts";

interface Entry {
  readonly id: string;
  readonly source: string;
  readonly inputs: Readonly<Record<string, unknown>>;
  readonly expected: unknown;
  readonly tolerance: number;
}

const isEntry = (value: unknown): value is Entry =>
  typeof value === "object" && value !== null && "id" in value && "expected" in value;
const data: unknown = JSON.parse(readFileSync(new URL("batteries.json", import.meta.url), "utf8"));
const entries = Array.isArray(data) ? data.filter(isEntry) : [];

function entry(id: string): Entry {
  const found = entries.find((one) => one.id === id);
  if (found === undefined) throw new Error(`no entry ${id}`);
  return found;
}

const numbers = (value: unknown): number[] => (Array.isArray(value) ? value.map(Number) : []);
const words = (value: unknown): string[] => (Array.isArray(value) ? value.map(String) : []);

describe("batteries of the world", () => {
  it("bat-derate-table: what a cold pack gives (from memory of published 18650 curves)", () => {
    const { inputs, expected, tolerance } = entry("bat-derate-table");
    numbers(inputs["T_C"]).forEach((celsius, n) => {
      expect(Math.abs(derate(celsius) - (numbers(expected)[n] ?? 0))).toBeLessThanOrEqual(tolerance);
    });
    expect(derate(-40)).toBe(0.55);
    expect(derate(35)).toBe(1);
  });

  it("bat-derate-bu502: about half at -18 °C (BU-502), batteries in general", () => {
    const { expected, tolerance } = entry("bat-derate-bu502");
    expect(Math.abs(derate(-18) - Number(expected))).toBeLessThanOrEqual(tolerance);
  });

  it("bat-charge-window: no charge in the frost, less to 5 °C (makers' usual window)", () => {
    const { inputs, expected } = entry("bat-charge-window");
    expect(numbers(inputs["T_C"]).map(chargeWindow)).toEqual(words(expected));
    expect([-0.1, 0, 4.9, 5, 45, 45.1].map(chargeWindow)).toEqual([
      "forbidden",
      "reduced",
      "reduced",
      "normal",
      "normal",
      "forbidden",
    ]);
  });

  it("bat-runtime: hours from Wh, the usable share, cold and load", () => {
    const { inputs, expected, tolerance } = entry("bat-runtime");
    const wh = Number(inputs["wh"]);
    const draw = Number(inputs["load_w"]) / Number(inputs["derate"]);
    expect(Math.abs((wh * Number(inputs["usable"])) / draw - Number(expected))).toBeLessThanOrEqual(tolerance);
    expect(Math.abs(lastsHours(wh, 1 - Number(inputs["usable"]), draw) - Number(expected))).toBeLessThanOrEqual(1 / 60);
  });

  it("bat-cccv: the straight part to the knee, then the long tail (from memory)", () => {
    const { inputs, expected, tolerance } = entry("bat-cccv");
    const [rate, knee] = [Number(inputs["rate_C"]), Number(inputs["f"])];
    const told = new Map(Object.entries(expected ?? {}).map(([key, value]) => [key, Number(value)]));
    const toKnee = told.get("to_knee_h") ?? 0;
    const after = told.get("after_knee_h") ?? 0;
    const charge = (hours: number): number => chargeAfter(0, 100, knee, rate * 100, hours) / 100;
    expect(charge(toKnee)).toBeCloseTo(knee, 9);
    expect(charge(toKnee - 0.1)).toBeLessThan(knee);
    expect(Math.abs(toKnee / (toKnee + after) - (told.get("share_of_time_at_knee") ?? 0))).toBeLessThanOrEqual(
      tolerance,
    );
    // The textbook fits the tail so that it ends at the cut-off; ours goes on for ever, and is as good as full by then.
    expect(charge(toKnee + after)).toBeGreaterThan(0.98);
    expect(charge(toKnee + after)).toBeLessThan(1);
    expect(rate * ((1 - charge(toKnee + after)) / (1 - knee))).toBeLessThan(Number(inputs["cut_C"]));
  });

  it("bat-air: packs by rated energy (49 CFR 175.10(a)(18), TSA, FAA)", () => {
    const { inputs, expected } = entry("bat-air");
    expect(numbers(inputs["wh"]).map((wh) => carriageOf(wh).how)).toEqual(words(expected));
    expect(carriageOf(100.01).perPerson).toBe(2);
    expect(carriageOf(160.01).perPerson).toBe(0);
    expect(carriageOf(98).source.clause).toBe("(a)(18)");
  });

  it("bat-powerbank-2026: two a person from 27 March 2026 (ICAO addendum)", () => {
    const { inputs, expected } = entry("bat-powerbank-2026");
    const limit = POWER_BANKS.perPerson ?? 0;
    expect({ allowed: Number(inputs["power_banks"]) <= limit, limit }).toEqual(expected);
    expect(POWER_BANKS.since).toBe("2026-03-27");
  });
});

/** How long a load runs before its pack is under the reserve, to the minute, by the replay. */
function lastsHours(wh: number, reserve: number, watts: number): number {
  const base = { bays: ["truck"], grainWh: 1, swapMinutes: 0, enoughWh: 15, touches: [], chargers: [] };
  const packs = [{ id: "brick", mount: "wedge", wh, startWh: wh, reserveWh: wh * reserve, at: "camera" }];
  const loads = [{ id: "camera", mount: "wedge", bay: [{ from: instant(0), bay: "truck" }] }];
  let minutes = 0;
  for (let to = 1; to < 600; to++) {
    const demand = {
      id: "hit",
      kind: "firm" as const,
      from: instant(0),
      to: instant(to),
      watts: new Map([["camera", watts]]),
    };
    const model: Model = { ...base, packs, loads, from: instant(0), to: instant(to), demands: [demand] };
    if (replay(model, { covered: ["hit"], moves: [], chores: [] }).faults.length > 0) break;
    minutes = to;
  }
  return minutes / 60;
}
