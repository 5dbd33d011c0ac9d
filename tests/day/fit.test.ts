/** What gives way between two instants that stand: which length, which order, which window, and by how much. */
import { describe, expect, it } from "vitest";
import {
  AS_PLANNED,
  type Fit,
  isBetweenPins,
  pinDown,
  resolve,
  turnedRound,
  wentOtherwise,
  workedFaster,
} from "../../src/day/facts/fit.ts";
import { NO_PINS, type Pins } from "../../src/day/facts/pins.ts";
import { buildNetwork } from "../../src/day/network/build.ts";
import { AS_IT_WENT, type Conflict, type Edge, Network, ORIGIN, type Rule } from "../../src/day/network/network.ts";
import { type Build, label } from "../../src/day/network/nodes.ts";
import { timeLegs } from "../../src/day/network/timing.ts";
import { settle } from "../../src/day/order/resolveOrder.ts";
import type { Instant } from "../../src/time/units.ts";
import { at, legsOf, makePlan, text } from "./make.ts";

const PLAN = makePlan({
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
const LEGS = legsOf(PLAN);
const { order } = settle(PLAN, LEGS, new Map());

/** A build with instants of the test's own. */
function built(...names: readonly string[]): Build {
  const whole = buildNetwork(
    order,
    timeLegs(order, new Set(), new Map()),
    { activities: new Set(), stops: new Set(), rides: new Set() },
    { pins: NO_PINS, fit: AS_PLANNED },
  );
  const network = new Network();
  return { ...whole, network, nodes: new Map(names.map((name) => [name, network.node(name)])) };
}

const edge = (
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

const pinsAt = (times: Readonly<Record<string, Instant>>): Pins => ({
  ...NO_PINS,
  at: new Map(Object.entries(times).map(([name, when]) => [name, { at: when, how: "as it went", fact: null }])),
});

/** Two instants that stand, `short` minutes too near for the edges between them: node 1, 2, 3 … in a row. */
function posed(
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

const resolved = (lengths: Parameters<typeof posed>[0], short: number, fit: Fit = AS_PLANNED) => {
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

const rule = (key: Rule["key"], first = "dawn", second = "feed"): Rule => ({ key, first, second, where: null });

describe("two instants that stand too near to each other", () => {
  it("shorten what lies between them: a stay first, a drive last, what has no name of its own between", () => {
    const lengths = [
      ...[
        { name: "drive", weight: 40 },
        { name: "pictures", weight: 20 },
        { name: "in position", weight: 10 },
      ],
      ...[{ name: "park", weight: 5 }, { name: "set-up", weight: 30 }, { name: "stay", weight: 60 }, { weight: 7 }],
    ];
    const keys = ["first>n0", "n0>n1", "n1>n2", "n2>n3", "n3>n4", "n4>n5", "n5>last"] as const;
    const [drive, pictures, position, park, setUp, stay, unnamed] = keys;
    const shorter = (short: number) => resolved(lengths, short);
    expect(shorter(59)).toMatchObject({ shorter: { [stay]: 1 }, hurried: ["07:00-07:30"] });
    expect(shorter(60)).toMatchObject({ shorter: { [stay]: 0 } });
    expect(shorter(61)).toMatchObject({ shorter: { [stay]: 0, [setUp]: 29 } });
    expect(shorter(93)).toMatchObject({ shorter: { [stay]: 0, [setUp]: 0, [park]: 2 } });
    expect(shorter(100)).toMatchObject({ shorter: { [stay]: 0, [setUp]: 0, [park]: 0, [position]: 5 } });
    // Of the two without a name in the list the first gives way first.
    expect(shorter(110)).toMatchObject({ shorter: { [position]: 0, [pictures]: 15 } });
    expect(shorter(127)).toMatchObject({ shorter: { [pictures]: 0, [unnamed]: 5 } });
    const all = { [stay]: 0, [setUp]: 0, [park]: 0, [position]: 0, [pictures]: 0, [unnamed]: 0 };
    expect(shorter(142)).toMatchObject({ shorter: { ...all, [drive]: 30 } });
    expect(shorter(172)).toMatchObject({ shorter: { ...all, [drive]: 0 } });
    // 40 + 20 + 10 + 5 + 30 + 60 + 7 = 172 min: one more, and nothing fits.
    expect(shorter(173)).toEqual({ first: "first", second: "last" });
  });

  it("keep what was hurried before", () => {
    const before = { ...AS_PLANNED, hurried: [{ from: at("05:00"), to: at("06:00") }], shorter: new Map([["a>b", 3]]) };
    expect(resolved([{ name: "drive", weight: 40 }], 10, before)).toMatchObject({
      shorter: { "a>b": 3, "first>last": 30 },
      hurried: ["05:00-06:00", "07:00-07:30"],
    });
  });

  it("lengthen an exact length before that, of several the drive, of equal ones the longest", () => {
    const back = (name: string, weight: number) => ({ name, weight, backward: true });
    expect(resolved([{ name: "drive", weight: 99 }, back("strike", -30), back("drive", -10)], 5)).toMatchObject({
      longer: ["last>n1"],
      shorter: {},
    });
    expect(resolved([back("drive", -10), back("drive", -20)], 5)).toMatchObject({ longer: ["last>n0"] });
    expect(resolved([back("drive", -20), back("drive", -10)], 5)).toMatchObject({ longer: ["n0>first"] });
  });

  it("drop an order where no length is enough, and a set-up that a task is at any rate", () => {
    expect(
      resolved(
        [
          { name: "drive", weight: 10 },
          { weight: 0, rule: rule("do") },
        ],
        11,
      ),
    ).toMatchObject({
      dropped: ["do dawn feed"],
      shorter: {},
    });
    expect(
      resolved(
        [
          { name: "drive", weight: 10 },
          { weight: 0, rule: rule("do") },
        ],
        10,
      ),
    ).toMatchObject({
      dropped: [],
      shorter: { "first>n0": 0 },
    });
    const setUp = [
      { name: "drive", weight: 60 },
      { weight: 0, rule: rule("set-up") },
    ];
    expect(resolved(setUp, 5)).toMatchObject({ dropped: ["set-up dawn feed"], shorter: {} });
    // A hit is no set-up of its own.
    expect(
      resolved(
        [
          { name: "drive", weight: 60 },
          { weight: 0, rule: rule("set-up", "feed", "dawn") },
        ],
        5,
      ),
    ).toMatchObject({
      dropped: [],
      shorter: { "first>n0": 55 },
    });
  });

  it("unbind first whichever of the two is only planned", () => {
    const { build, conflict, pins } = posed([{ name: "drive", weight: 40 }], 10);
    const planned = edge(ORIGIN, 1, at("07:00"), { name: "dawn" });
    const unbound = (own: Pins, more: Partial<Conflict>) => {
      const made = resolve(build, own, AS_PLANNED, { ...conflict, ...more });
      return "fit" in made ? [...made.fit.unbound.keys()] : null;
    };
    expect(unbound(pins, { start: planned })).toEqual(["origin>first dawn"]);
    expect(unbound(pinsAt({ last: at("07:30") }), {})).toEqual([`origin>first ${AS_IT_WENT}`]);
    expect(unbound(pinsAt({ first: at("07:00") }), {})).toEqual([`last>origin ${AS_IT_WENT}`]);
    expect(unbound(pins, {})).toEqual([]);
    expect([
      isBetweenPins(build, pins, conflict),
      isBetweenPins(build, pinsAt({ first: at("07:00") }), conflict),
    ]).toEqual([true, false]);
    expect(isBetweenPins(build, pins, { ...conflict, start: planned })).toBe(false);
  });

  it("let whoever leaves early go from the end of a hit, if others stay for its clear", () => {
    // The clear of dawn, 30 min, lies before the departure of a vehicle; wren and ilse do dawn.
    const ease = (aboard: readonly string[], legs = order.legs) => {
      const { build, conflict, pins } = posed(
        [
          { name: "hit", weight: 3 },
          { name: "clear", weight: 30, activity: "dawn" },
          { name: "loading", weight: 5 },
        ],
        10,
      );
      const { network } = build;
      network.names[4] = "wagon.1.leave";
      const own: Build = { ...build, order: { ...order, legs: legs.map((leg) => ({ ...leg, aboard })) } };
      const named = {
        ...pins,
        at: new Map([...pins.at, ["wagon.1.leave", { at: at("07:30"), how: "as it went" as const, fact: null }]]),
      };
      const made = resolve(own, named, AS_PLANNED, conflict);
      return "fit" in made ? [[...made.fit.eased], Object.fromEntries(made.fit.shorter)] : null;
    };
    expect(ease(["wren"])).toEqual([["n1>wagon.1.leave"], {}]);
    expect(ease(["wren", "ilse", "joe"])).toEqual([[], { "n0>n1": 20 }]);
    expect(ease(["wren"], [])).toEqual([[], { "n0>n1": 20 }]);
  });
});

describe("what is only planned before something that happened", () => {
  const faster = (
    lengths: Parameters<typeof posed>[0],
    short: number,
    {
      start = "dawn",
      how = "as it went",
      bound = AS_IT_WENT,
    }: { start?: string; how?: "as it went" | "as planned"; bound?: string } = {},
  ) => {
    const { build, conflict } = posed(lengths, short);
    const pins: Pins = { ...NO_PINS, at: new Map([["last", { at: at("07:30"), how, fact: null }]]) };
    const own = {
      ...conflict,
      start: edge(ORIGIN, 1, at("07:00"), { name: start }),
      bound: { ...conflict.bound, label: label(bound) },
    };
    const made = workedFaster(build, pins, AS_PLANNED, own);
    return made === null
      ? null
      : [Object.fromEntries(made.shorter), made.hurried.map(({ from, to }) => `${text(from)}-${text(to)}`)];
  };

  it("was done faster: work to nothing, a drive to half, a stand-down as far as it must", () => {
    const between = ["07:00-07:30"];
    expect(
      faster(
        [
          { name: "loading", weight: 15 },
          { name: "drive", weight: 41 },
        ],
        15,
      ),
    ).toEqual([{ "first>n0": 0 }, between]);
    // Half of 41 is 20: 15 + 20 = 35.
    expect(
      faster(
        [
          { name: "loading", weight: 15 },
          { name: "drive", weight: 41 },
        ],
        35,
      ),
    ).toEqual([{ "first>n0": 0, "n0>last": 21 }, between]);
    expect(
      faster(
        [
          { name: "loading", weight: 15 },
          { name: "drive", weight: 41 },
        ],
        36,
      ),
    ).toBe(null);
    expect(faster([{ name: "down", weight: 120 }], 120)).toEqual([{ "first>last": 0 }, between]);
    // A task of another kind takes as long as it takes.
    expect(faster([{ name: "feed", weight: 30 }], 5)).toBe(null);
    expect(
      faster(
        [
          { name: "feed", weight: 30 },
          { name: "park", weight: 5 },
        ],
        5,
      ),
    ).toEqual([{ "n0>last": 0 }, between]);
  });

  it("is no reason where a fact comes first, or where it ends in no fact", () => {
    const drive = [{ name: "drive", weight: 40 }];
    expect(faster(drive, 5)).not.toBe(null);
    expect(faster(drive, 5, { start: "now" })).toBe(null);
    expect(faster(drive, 5, { how: "as planned" })).toBe(null);
    expect(faster(drive, 5, { bound: "window" })).toBe(null);
    expect(faster([...drive, { name: "strike", weight: -5, backward: true }], 5)).toBe(null);
  });
});

describe("an order that a refusal runs into", () => {
  const turned = (rules: readonly (Rule | null)[], fit: Fit = AS_PLANNED, isFact = (id: string) => id !== "down") => {
    const { build, conflict } = posed(
      rules.map((one) => ({ weight: 1, rule: one })),
      1,
    );
    // What else the plan has: the feed before the walk, and before the hit at noon.
    build.network.atLeast(1, 2, 0, null, rule("before", "feed", "walk"));
    build.network.atLeast(1, 2, 0, null, rule("time", "feed", "noon"));
    const made = turnedRound(build, fit, "feed", isFact, conflict);
    return made === null ? null : [[...made.dropped.keys()], [...made.turned]];
  };

  it("is turned round if the other is a fact", () => {
    expect(turned([rule("do"), null, rule("after", "feed", "noon"), rule("do", "dawn", "noon")])).toEqual([
      // What else puts the feed before the hit at noon is turned round with it.
      ["do dawn feed", "after feed noon", "time feed noon"],
      ["dawn feed", "feed noon"],
    ]);
    expect(turned([rule("do", "down", "feed")])).toBe(null);
    expect(turned([null])).toBe(null);
    // Once it is turned round it cannot be turned again.
    const before = { ...AS_PLANNED, dropped: new Map([["do dawn feed", rule("do")]]) };
    expect(turned([rule("do")], before)).toBe(null);
    expect(turned([rule("do"), rule("before", "feed", "noon")], before)).toEqual([
      ["do dawn feed", "before feed noon", "time feed noon"],
      ["feed noon"],
    ]);
  });
});

describe("a network with what stands", () => {
  /** dawn.start and feed.start, exactly 30 min apart, with feed after dawn; what `pinDown` makes of the edges. */
  const pinned = (pins: Pins, fit: Partial<Fit>, add: (network: Network) => void) => {
    const build = built("dawn.start", "dawn.end", "dawn.clear", "feed.start", "feed.end", "wagon.1.leave");
    add(build.network);
    pinDown(build, pins, fit === AS_PLANNED ? AS_PLANNED : { ...AS_PLANNED, ...fit });
    return build.network.edges.map((one) =>
      `${build.network.names[one.from]}>${build.network.names[one.to]} ${Math.abs(one.weight) > 10_000 ? text(at(Math.abs(one.weight) - at(0))) : one.weight} ${one.label?.name ?? ""}`.trim(),
    );
  };

  it("has a length that was shorter in both directions, and no upper end of one that was longer", () => {
    const exact = (network: Network) => network.exactly(1, 2, 3, label("hit"));
    expect(pinned(NO_PINS, AS_PLANNED, exact)).toEqual(["dawn.start>dawn.end 3 hit", "dawn.end>dawn.start -3 hit"]);
    expect(pinned(NO_PINS, { shorter: new Map([["dawn.start>dawn.end", 2]]) }, exact)).toEqual([
      ...["dawn.start>dawn.end 2 hit", "dawn.end>dawn.start -2 hit"],
    ]);
    expect(pinned(NO_PINS, { longer: new Set(["dawn.start>dawn.end"]) }, exact)).toEqual(["dawn.start>dawn.end 3 hit"]);
  });

  it("has no order that was dropped, or the other one", () => {
    const ordered = (network: Network) => network.atLeast(3, 4, 5, null, rule("do"));
    const dropped = new Map([["do dawn feed", rule("do")]]);
    expect(pinned(NO_PINS, {}, ordered)).toEqual(["dawn.clear>feed.start 5"]);
    expect(pinned(NO_PINS, { dropped }, ordered)).toEqual([]);
    // feed, which has no clear, ends before dawn, which has no line check, begins.
    expect(pinned(NO_PINS, { dropped, turned: new Set(["dawn feed"]) }, ordered)).toEqual(["feed.end>dawn.start 5"]);
  });

  it("follows the end of a hit in place of its clear where that is eased", () => {
    const eased = new Set(["dawn.clear>wagon.1.leave"]);
    expect(pinned(NO_PINS, { eased }, (network) => network.exactly(3, 6, 5, label("loading")))).toEqual([
      ...["dawn.end>wagon.1.leave 5 loading", "wagon.1.leave>dawn.end -5 loading"],
    ]);
  });

  it("keeps a bound that an instant which stands fulfils", () => {
    const bound = (network: Network) => {
      network.notBefore(1, at("07:00"), label("window"));
      network.notAfter(1, at("08:00"), label("window"), "window");
    };
    const went = (clock: string) =>
      pinned(pinsAt({ "dawn.start": at(clock) }), {}, bound).filter((one) => one.endsWith("window"));
    const both = ["origin>dawn.start 07:00 window", "dawn.start>origin 08:00 window"];
    expect([went("07:00"), went("08:00"), went("06:59"), went("08:01")]).toEqual([
      both,
      both,
      both.slice(1),
      both.slice(0, 1),
    ]);
    const unbound = new Map([["origin>dawn.start window", edge(ORIGIN, 1, at("07:00"))]]);
    expect(pinned(NO_PINS, { unbound }, bound)).toEqual(both.slice(1));
  });

  it("has nothing that is not pinned before now, nor a vehicle that stands leave before then", () => {
    const none = () => undefined;
    const standing = new Map([
      ["wagon.1", at("08:00")],
      ["wagon.9", at("08:00")],
    ]);
    expect(pinned({ ...NO_PINS, standing }, {}, none)).toEqual(["origin>wagon.1.leave 08:00 now"]);
    const left = { ...pinsAt({ "wagon.1.leave": at("07:10") }), standing };
    const fixed = [`origin>wagon.1.leave 07:10 ${AS_IT_WENT}`, `wagon.1.leave>origin 07:10 ${AS_IT_WENT}`];
    expect(pinned(left, {}, none)).toEqual(fixed);
    const now = pinned({ ...pinsAt({ "wagon.1.leave": at("07:10") }), now: at("07:30") }, {}, none);
    expect(now).toEqual([
      ...fixed,
      ...["dawn.start", "dawn.end", "dawn.clear", "feed.start", "feed.end"].map((name) => `origin>${name} 07:30 now`),
    ]);
  });
});

describe("a stretch that went otherwise", () => {
  it("was shorter or longer, or lies where there was less time than planned", () => {
    const stretch = { from: at("07:10"), to: at("07:20") };
    const went = (fit: Partial<Fit>) => wentOtherwise({ ...AS_PLANNED, ...fit }, stretch, ["a", "b"]);
    expect(went({})).toBe(false);
    expect([went({ shorter: new Map([["a>b", 0]]) }), went({ shorter: new Map([["b>a", 0]]) })]).toEqual([true, false]);
    expect([went({ longer: new Set(["a>b"]) }), went({ longer: new Set(["a>c"]) })]).toEqual([true, false]);
    const hurried = (from: string, to: string) => went({ hurried: [{ from: at(from), to: at(to) }] });
    expect([
      hurried("07:10", "07:20"),
      hurried("07:11", "07:20"),
      hurried("07:10", "07:19"),
      hurried("07:00", "08:00"),
    ]).toEqual([true, false, false, true]);
  });
});
