/** Forty people in eight vehicles: forty legs over three days, then four times as many over twelve: chances, waits, fuel. */
import { assess } from "../../src/roads/assess.ts";
import { leg } from "../day/parts.ts";
import { at, day, type Trip } from "../roads/days.ts";
import type { Bench } from "./bench.ts";

const VEHICLES = 8;
const ABOARD = 5;
const LONG_WAIT = 13 * 60;

/** A leg and a stop every fourteen hours or so; every other stop has a hit, every third a long wait. */
function trip(vehicle: number, legs: number): Trip {
  return {
    vehicle: `v${vehicle}`,
    people: Array.from({ length: ABOARD }, (_, seat) => `p${vehicle}x${seat}`),
    leave: at(vehicle * 7),
    way: Array.from({ length: legs }, (_, index) => [
      leg(`a${vehicle}x${index}`, `a${vehicle}x${index + 1}`, 50 + ((index * 7) % 30), 80 + ((index * 11) % 30)),
      index % 2 === 0 ? "bad" : "drive",
      { wait: index % 3 === 0 ? LONG_WAIT : 5, work: 20, ...(index % 2 === 0 ? { hit: `h${vehicle}x${index}` } : {}) },
    ]),
  };
}

const legsBench = (legs: number): Bench => {
  const made = day(Array.from({ length: VEHICLES }, (_, vehicle) => trip(vehicle, legs / VEHICLES)));
  return {
    name: `the roads of ${legs} legs and ${VEHICLES * ABOARD} people judged, a leg`,
    units: legs,
    run: () => assess({ days: [made], patience: 1, now: null }).result.hits.map(({ printed }) => printed),
  };
};

export const benches: readonly Bench[] = [legsBench(40), legsBench(160)];
