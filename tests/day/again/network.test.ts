/** The network of instants on random small networks, against every path and every round: earliest, latest, conflicts, cycles. */
import { describe, expect, it } from "vitest";
import {
  type Conflict,
  cycleOf,
  type Edge,
  earliest,
  everything,
  feasible,
  fixedOnly,
  type Label,
  latestInstants,
  lowerBounds,
  Network,
  ORIGIN,
  tightestConflict,
} from "../../../src/day/network/network.ts";
import { runs } from "../../fuzz.ts";
import { random } from "../random.ts";

const label = (name: string): Label => ({ name, where: null, place: null, vehicle: null, activity: null });

function randomNetwork(seed: number): Network {
  const dice = random(seed);
  const network = new Network();
  const count = 2 + dice(5);
  for (let n = 1; n <= count; n++) network.node(`n${n}`);
  const node = (): number => 1 + dice(count);
  for (let n = 2 + dice(8); n > 0; n--) {
    const [a, b] = [node(), node()];
    const named = dice(2) === 0 ? label(`l${n}`) : null;
    if (a === b) network.notAfter(a, 5 + dice(30), label(`w${n}`), dice(2) === 0 ? "window" : "fixed");
    else if (dice(4) === 0) network.exactly(a, b, dice(9), named);
    else network.atLeast(a, b, dice(12) - (dice(5) === 0 ? 14 : 0), named);
  }
  for (let n = 1 + dice(3); n > 0; n--) {
    const at = 5 + dice(25);
    if (dice(2) === 0) network.fixed(node(), at, label(`f${n}`));
    else network.notBefore(node(), at, label(`b${n}`));
  }
  return network;
}

/** Longest distances round by round over all edges; null where they still grow after as many rounds as there are nodes. */
function longest(
  { edges, size }: Network,
  use: (edge: Edge) => boolean,
  backward: boolean,
  pins: ReadonlyMap<number, number> = new Map(),
  floor = Number.NEGATIVE_INFINITY,
): readonly number[] | null {
  const value = Array.from({ length: size }, (_, n) => pins.get(n) ?? (n === ORIGIN ? 0 : floor));
  for (let round = 0; round <= size + 1; round++) {
    const before = [...value];
    for (const edge of edges.filter(use)) {
      const [from, to] = backward ? [edge.to, edge.from] : [edge.from, edge.to];
      const reach = (before[from] ?? 0) + edge.weight;
      if (pins.has(to)) continue;
      if (to === ORIGIN && reach > 0) return null;
      if (to !== ORIGIN) value[to] = Math.max(value[to] ?? 0, reach);
    }
    if (value.every((one, n) => one === before[n])) return value;
  }
  return null;
}

/** Every way from the origin over lower bounds that visits no node twice. */
function* ways(network: Network, node = ORIGIN, path: readonly Edge[] = []): Generator<readonly Edge[]> {
  yield path;
  for (const edge of network.edges) {
    const visited = edge.to === ORIGIN || path.some(({ from }) => from === edge.to);
    if (edge.from === node && edge.bound === "none" && !visited) yield* ways(network, edge.to, [...path, edge]);
  }
}

const COUNT = Math.max(150, runs(300, 50_000));
const all = (check: (network: Network, told: string) => void): void => {
  for (let seed = 1; seed <= COUNT; seed++) check(randomNetwork(seed), `seed ${seed}`);
};

const told = (value: Float64Array | readonly number[] | null) =>
  value === null ? null : [...value].map((one) => one + 0);

describe("a network of instants", () => {
  it("has the earliest and latest instants that all edges, or some, allow", () => {
    let [open, shut] = [0, 0];
    all((network, seed) => {
      for (const use of [everything, lowerBounds, fixedOnly]) {
        const early = longest(network, use, false);
        expect(told(earliest(network, use)), seed).toEqual(early);
        const late = longest(network, use, true)?.map((one) => -one + 0) ?? null;
        expect(told(latestInstants(network, use)), seed).toEqual(late);
        if (early === null) shut++;
        else open++;
      }
    });
    expect(Math.min(open, shut)).toBeGreaterThan(20);
  });

  it("takes pinned instants as given", () => {
    all((network, seed) => {
      const pins = new Map([
        [1, 10],
        [network.size - 1, 20],
      ]);
      expect(told(earliest(network, lowerBounds, pins)), seed).toEqual(longest(network, lowerBounds, false, pins));
      const back = new Map([...pins].map(([node, at]) => [node, -at]));
      const late = longest(network, lowerBounds, true, back)?.map((one) => -one + 0) ?? null;
      expect(told(latestInstants(network, lowerBounds, pins)), seed).toEqual(late);
    });
  });

  it("can be kept where no cycle gains, also one that no fixed instant leads to", () => {
    let kept = 0;
    all((network, seed) => {
      const can = longest(network, everything, false, new Map(), 0) !== null;
      expect(feasible(network), seed).toBe(can);
      if (can) kept++;
    });
    expect(kept).toBeGreaterThan(20);
    expect(kept).toBeLessThan(COUNT - 20);
  });
});

describe("the tightest conflict", () => {
  const terms = (path: readonly Edge[]): number => path.filter((edge) => edge.label !== null).length;
  const sum = (path: readonly Edge[]): number => path.reduce((total, { weight }) => total + weight, 0);

  it("is the way to a bound that is short by most, of those with the fewest terms, and tiles the time between them", () => {
    let found = 0;
    all((network, seed) => {
      const conflict: Conflict | null = tightestConflict(network);
      if (longest(network, lowerBounds, false) === null) {
        expect(conflict, seed).toBeNull();
        return;
      }
      const short = [...ways(network)].flatMap((path) =>
        network.edges.flatMap((bound) => {
          const end = path.at(-1)?.to ?? ORIGIN;
          const by = sum(path) + bound.weight;
          return bound.bound !== "none" && bound.from === end && by > 0 ? [{ by, path, bound }] : [];
        }),
      );
      const most = Math.max(...short.map(({ by }) => by));
      if (short.length === 0) {
        expect(conflict, seed).toBeNull();
        return;
      }
      found++;
      if (conflict === null) throw new Error(`${seed}: no conflict`);
      const { start, chain, bound, shortMinutes, startName, boundName } = conflict;
      expect(shortMinutes, seed).toBe(most);
      const path = [start, ...chain];
      expect(
        path.map(({ from }) => from),
        seed,
      ).toEqual([ORIGIN, ...path.slice(0, -1).map(({ to }) => to)]);
      expect(path.at(-1)?.to, seed).toBe(bound.from);
      expect(sum(path) + bound.weight, seed).toBe(most);
      const fewest = Math.min(...short.filter(({ by }) => by === most).map((one) => terms(one.path)));
      expect(terms(path), seed).toBe(fewest);
      expect([startName, boundName], seed).toEqual([network.names[start.to], network.names[bound.from]]);
    });
    expect(found).toBeGreaterThan(20);
  });

  it("is none where a cycle of lengths alone gains, which is told by the names on it", () => {
    let cycles = 0;
    all((network, seed) => {
      const inner = (edge: Edge): boolean => edge.bound === "none" && edge.from !== ORIGIN;
      const gains = longest(network, inner, false, new Map(), 0) === null;
      const cycle = cycleOf(network);
      expect(cycle !== null, seed).toBe(gains);
      if (cycle === null) return;
      cycles++;
      expect(new Set(cycle).size, seed).toBe(cycle.length);
      const around = [...cycle, cycle[0] ?? ""];
      const total = around.slice(1).reduce((minutes, to, n) => {
        const edges = network.edges.filter(
          (edge) => inner(edge) && network.names[edge.from] === around[n] && network.names[edge.to] === to,
        );
        return minutes + Math.max(...edges.map(({ weight }) => weight));
      }, 0);
      expect(total, seed).toBeGreaterThan(0);
    });
    expect(cycles).toBeGreaterThan(5);
  });
});

it("edges that are changed are known from both of their ends", () => {
  all((network, seed) => {
    network.change((edge) => (edge.weight < 0 ? [] : [{ ...edge, weight: edge.weight + 1 }, edge]));
    for (let node = 0; node < network.size; node++) {
      expect(network.out(node), seed).toEqual(network.edges.filter(({ from }) => from === node));
      expect(network.into(node), seed).toEqual(network.edges.filter(({ to }) => to === node));
    }
  });
});
