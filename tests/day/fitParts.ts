/** A day of one hit, its network, and what is posed of it, for the tests of what gives way. */
import { AS_PLANNED, type Fit, resolve } from "../../src/day/facts/fit.ts";
import { NO_PINS, type Pins } from "../../src/day/facts/pins.ts";
import { buildNetwork } from "../../src/day/network/build.ts";
import { AS_IT_WENT, type Conflict, type Edge, Network, ORIGIN, type Rule } from "../../src/day/network/network.ts";
import { type Build, label } from "../../src/day/network/nodes.ts";
import { timeLegs } from "../../src/day/network/timing.ts";
import { resolveOrder } from "../../src/day/order/resolveOrder.ts";
import type { Instant } from "../../src/time/units.ts";
import { at, legsOf, makePlan, text } from "./make.ts";

export const PLAN = makePlan({
  crew: { wren: { drives: ["wagon"] }, ilse: {}, joe: {} },
  roads: { "lodge pier": [30, 40] },
  hits: { dawn: { at: at("08:00"), forMinutes: 3, in: "pier", who: ["wren", "ilse"] } },
  tasks: {
    feed: { in: "pier", forMinutes: 30, who: ["wren"] },
    down: { kind: "standdown", in: "pier", window: { from: at("10:00"), to: at("12:00") }, who: ["wren"] },
  },
  runs: {
    wagon: { aboard: ["wren", "ilse"], stops: ["lodge", { place: "pier", do: ["dawn", "feed", "down"] }, "lodge"] },
  },
});
export const LEGS = legsOf(PLAN);
export const { order } = resolveOrder(PLAN, LEGS, new Map());

/** A build with instants of the test's own. */
export function built(...names: readonly string[]): Build {
  const whole = buildNetwork(
    order,
    timeLegs(order, new Set(), new Map()),
    { activities: new Set(), stops: new Set(), rides: new Set() },
    { pins: NO_PINS, fit: AS_PLANNED },
  );
  const network = new Network();
  return { ...whole, network, nodes: new Map(names.map((name) => [name, network.node(name)])) };
}

export const edge = (
  from: number,
  to: number,
  weight: number,
  more: Partial<Edge> & { readonly name?: string; readonly activity?: string } = {},
): Edge => {
  const { name, activity = null, ...rest } = more;
  return {
    ...{ from, to, weight, label: name === undefined ? null : label(name, { activity }) },
    ...{ bound: "none", backward: false, rule: null },
    ...rest,
  };
};

export const pinsAt = (times: Readonly<Record<string, Instant>>): Pins => ({
  ...NO_PINS,
  at: new Map(Object.entries(times).map(([name, when]) => [name, { at: when, how: "as it went", fact: null }])),
});

/** Two instants that stand, `short` minutes too near for the edges between them: node 1, 2, 3 … in a row. */
export function posed(
  lengths: readonly (Partial<Edge> & { readonly name?: string; readonly activity?: string; readonly weight: number })[],
  short: number,
) {
  const last = lengths.length + 1;
  const names = ["first", ...lengths.slice(1).map((_, n) => `n${n}`), "last"];
  const chain = lengths.map(({ weight, ...more }, n) => edge(n + 1, n + 2, weight, more));
  const conflict: Conflict = {
    start: edge(ORIGIN, 1, at("07:00"), { name: AS_IT_WENT }),
    bound: edge(last, ORIGIN, -at("07:30"), { name: AS_IT_WENT, bound: "fixed" }),
    ...{ chain, shortMinutes: short, startName: "first", boundName: "last" },
  };
  const pins = pinsAt({ first: at("07:00"), last: at("07:30") });
  return { build: built(...names), pins, conflict };
}

export const resolved = (lengths: Parameters<typeof posed>[0], short: number, fit: Fit = AS_PLANNED) => {
  const { build, pins, conflict } = posed(lengths, short);
  const made = resolve(build, pins, fit, conflict);
  if (!("fit" in made)) return made;
  const { shorter, longer, dropped, unbound, eased, hurried } = made.fit;
  return {
    shorter: Object.fromEntries(shorter),
    ...{ longer: [...longer], dropped: [...dropped.keys()], unbound: [...unbound.keys()], eased: [...eased] },
    hurried: hurried.map(({ from, to }) => `${text(from)}-${text(to)}`),
  };
};

export const rule = (key: Rule["key"], first = "dawn", second = "feed"): Rule => ({ key, first, second, where: null });
