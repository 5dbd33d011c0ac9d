/** The convolution against drives that are simply drawn, many times, with a generator of our own. */
import { expect, it } from "vitest";
import { type Chain, chainOf } from "../../src/roads/chance/chain.ts";
import { chancesOf, passesOf } from "../../src/roads/chance/chance.ts";
import { leg } from "../day/parts.ts";
import { runs } from "../fuzz.ts";
import { at, day, type Pause, type Trip } from "./days.ts";

/** Uniform numbers in (0, 1): a 32-bit xorshift. */
function uniform(seed: number): () => number {
  let state = seed | 0 || 1;
  return () => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return ((state >>> 0) + 0.5) / 4294967296;
  };
}

/** Standard normals from uniforms (Box and Muller): nothing of the code under test. */
const normals = (next: () => number) => () => Math.sqrt(-2 * Math.log(next())) * Math.cos(2 * Math.PI * next());

/** How often every hit is made, of `draws` days. */
function simulate(chain: Chain, draws: number, seed: number): number[] {
  const normal = normals(uniform(seed));
  const made = chain.targets.map(() => 0);
  for (let draw = 0; draw < draws; draw++) {
    const arrivals: number[] = [];
    for (const { move, gates, time } of chain.departures) {
      const ready = gates.map((gate) => (arrivals[gate.departure] ?? 0) + gate.workMinutes);
      arrivals.push(Math.max(move.leave, ...ready) + time.median * Math.exp(time.spread * normal()));
    }
    for (const [index, { gates, deadline }] of chain.targets.entries()) {
      if (gates.every((gate) => (arrivals[gate.departure] ?? 0) + gate.workMinutes <= deadline))
        made[index] = (made[index] ?? 0) + 1;
    }
  }
  return made.map((count) => count / draws);
}

/** A day of `legs` legs with some waits, some work and some hits. */
function randomTrip(vehicle: string, people: readonly string[], legs: number, next: () => number): Trip {
  const pause = (index: number): Pause => ({
    wait: Math.floor(next() * 40),
    work: Math.floor(next() * 60),
    ...(index === legs - 1 || next() < 0.4 ? { hit: `${vehicle}hit${index}` } : {}),
  });
  const way = Array.from({ length: legs }, (_, index): Trip["way"][number] => {
    const likely = 10 + Math.floor(next() * 180);
    const own = leg(`${vehicle}${index}`, `${vehicle}${index + 1}`, likely, Math.ceil(likely * (1 + next())));
    return [own, next() < 0.5 ? "bad" : "drive", pause(index)];
  });
  return { vehicle, people, leave: at(Math.floor(next() * 300)), way };
}

const DRAWS = runs(20_000, 1_000_000);

it.each([1, 2, 3, 4, 5])("random day %i: the drawn share lies between the bounds", (seed) => {
  const next = uniform(seed * 7919);
  const chain = chainOf(
    day([randomTrip("wagon", ["wren", "ilse"], 5, next), randomTrip("truck", ["tomas"], 3, next)]),
    () => false,
  );
  const chances = chancesOf(chain, passesOf(chain));
  const drawn = simulate(chain, DRAWS, seed);
  expect(chances.length).toBeGreaterThanOrEqual(2);
  for (const [index, { low, high }] of chances.entries()) {
    const share = drawn[index] ?? Number.NaN;
    const noise = 5 * Math.sqrt((share * (1 - share)) / DRAWS) + 1e-9;
    expect(share).toBeGreaterThanOrEqual(low - noise);
    expect(share).toBeLessThanOrEqual(high + noise);
    expect(high - low).toBeLessThan(0.03);
  }
});
