/** What gives way between two instants that stand: which length, which order, which window, and by how much. */
import { describe, expect, it } from "vitest";
import { AS_PLANNED, type Fit, isBetweenPins, resolve, turnedRound, workedFaster } from "../../src/day/facts/fit.ts";
import { NO_PINS, type Pins } from "../../src/day/facts/pins.ts";
import { AS_IT_WENT, type Conflict, ORIGIN, type Rule } from "../../src/day/network/network.ts";
import { type Build, label } from "../../src/day/network/nodes.ts";
import { edge, order, pinsAt, posed, resolved, rule } from "./fitParts.ts";
import { at, text } from "./make.ts";

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
