/** The simulator: every way in which a rotation can be wrong is told, and a right one is not. Values worked by hand. */
import { describe, expect, it } from "vitest";
import type { Model, PackMove, Rotation } from "../../src/power/model.ts";
import { replay } from "../../src/power/replay.ts";
import { instant } from "../../src/time/units.ts";

const at = instant;
const MODEL: Model = {
  from: at(0),
  to: at(300),
  bays: ["truck", "wagon"],
  grainWh: 1,
  swapMinutes: 0,
  enoughWh: 15,
  touches: [
    { id: "early", at: at(60), reach: ["truck"] },
    { id: "inside", at: at(130), reach: ["truck"] },
    { id: "away", at: at(200), reach: ["wagon"] },
  ],
  packs: [
    { id: "one", mount: "wedge", wh: 100, startWh: 40, reserveWh: 15, at: "bench" },
    { id: "two", mount: "wedge", wh: 100, startWh: 100, reserveWh: 15, at: "truck" },
    { id: "odd", mount: "plate", wh: 100, startWh: 100, reserveWh: 15, at: "truck" },
  ],
  chargers: [
    {
      id: "bench",
      mount: "wedge",
      bay: "truck",
      slots: 1,
      watts: 30,
      taper: 0.8,
      totalWatts: null,
      on: [{ from: at(0), to: at(90) }],
    },
  ],
  loads: [
    {
      id: "camera",
      mount: "wedge",
      bay: [
        { from: at(0), bay: "truck" },
        { from: at(190), bay: "wagon" },
      ],
    },
  ],
  demands: [
    { id: "dawn", kind: "firm", from: at(120), to: at(150), watts: new Map([["camera", 60]]) },
    { id: "noon", kind: "firm", from: at(240), to: at(300), watts: new Map([["camera", 25]]) },
  ],
};

const move = (touch: string, pack: string, from: string, to: string): PackMove => ({ touch, pack, from, to });
const faultsOf = (
  moves: readonly PackMove[],
  covered: readonly string[] = ["dawn"],
  model: Model = MODEL,
): readonly string[] => replay(model, { covered, moves, chores: [] }).faults;

describe("replay", () => {
  it("follows a right rotation to the Wh", () => {
    const rotation: Rotation = {
      covered: ["dawn", "noon"],
      moves: [move("early", "one", "bench", "camera")],
      chores: [],
    };
    const { faults, uses, leastMarginWh, steps } = replay(MODEL, rotation);
    expect(faults).toEqual([]);
    // 40 + 30 W for an hour = 70; less 60 W for half an hour = 40; less 25 W for an hour = 15, which is the reserve.
    expect(uses.map((use) => [use.demand, use.packs, use.marginWh])).toEqual([
      ["dawn", ["one"], 25],
      ["noon", ["one"], 0],
    ]);
    expect(leastMarginWh).toBe(0);
    expect(
      steps.get("one")?.map((step) => [step.from, step.to, step.at, step.doing, step.whBefore, step.whAfter]),
    ).toEqual([
      [0, 60, "bench", "charge", 40, 70],
      [60, 120, "camera", "rest", 70, 70],
      [120, 150, "camera", "power", 70, 40],
      [150, 240, "camera", "rest", 40, 40],
      [240, 300, "camera", "power", 40, 15],
    ]);
  });

  it("tells a pack under its reserve, and one Wh more does", () => {
    const noon = MODEL.demands.map((one) => (one.id === "noon" ? { ...one, watts: new Map([["camera", 26]]) } : one));
    expect(
      faultsOf([move("early", "one", "bench", "camera")], ["dawn", "noon"], { ...MODEL, demands: noon }),
    ).toHaveLength(1);
    expect(faultsOf([move("early", "one", "bench", "camera")], ["dawn", "noon"])).toEqual([]);
  });

  // Each rotation has its own fault told, whatever else is wrong with it: an empty camera would be a fault in several.
  it.each([
    ["an empty load", /^camera has no pack during dawn/, []],
    ["a pack that is not there", /^one .*it is at bench$/, [move("early", "one", "truck", "camera")]],
    ["a pack that does not move", /^two .*does not move$/, [move("early", "two", "truck", "truck")]],
    ["a mount that does not fit", /^odd .*mount does not fit$/, [move("early", "odd", "truck", "camera")]],
    [
      "a place out of reach",
      /^two .*at away: \S+ is out of reach$/,
      [move("early", "two", "truck", "camera"), move("away", "two", "camera", "truck")],
    ],
    [
      "two packs on one load",
      /^camera holds too many after early$/,
      [move("early", "one", "bench", "camera"), move("early", "two", "truck", "camera")],
    ],
    ["too many in a charger", /^bench holds too many after early$/, [move("early", "two", "truck", "bench")]],
    [
      "a swap on air",
      /^two .*at inside: during dawn$/,
      [move("early", "two", "truck", "camera"), move("inside", "two", "camera", "truck")],
    ],
    [
      "a pack moved twice at once",
      /^two moves twice at early$/,
      [move("early", "two", "truck", "camera"), move("early", "two", "camera", "truck")],
    ],
    [
      "a touch that is none",
      /^late is no touch$/,
      [move("early", "two", "truck", "camera"), move("late", "one", "bench", "truck")],
    ],
    [
      "a pack that is none",
      /^six .*no such pack$/,
      [move("early", "two", "truck", "camera"), move("early", "six", "truck", "wagon")],
    ],
  ])("tells %s", (_, fault, moves) => {
    expect(faultsOf(moves)).toContainEqual(expect.stringMatching(fault));
  });

  it("tells a hundredth of a Wh under the reserve", () => {
    // 15 Wh are left at noon's end with 25 W for an hour; 25.01 W leave 14.99.
    const noon = MODEL.demands.map((one) =>
      one.id === "noon" ? { ...one, watts: new Map([["camera", 25.01]]) } : one,
    );
    const faults = faultsOf([move("early", "one", "bench", "camera")], ["dawn", "noon"], { ...MODEL, demands: noon });
    expect(faults).toEqual([expect.stringMatching(/^one is 0\.010 Wh below its reserve/)]);
  });

  it("lets others move during a hit, and two packs trade places at one touch", () => {
    expect(
      faultsOf([
        move("early", "one", "bench", "camera"),
        move("early", "two", "truck", "bench"),
        move("inside", "two", "bench", "truck"),
      ]),
    ).toEqual([]);
  });

  it("charges the rest of the way ever slower: 20 Wh missing shrink by e in 20 Wh of full power", () => {
    const start = MODEL.packs.map((pack) => (pack.id === "one" ? { ...pack, startWh: 80 } : pack));
    const wh =
      replay({ ...MODEL, packs: start }, { covered: [], moves: [], chores: [] }).steps.get("one")?.[0]?.whAfter ?? 0;
    expect(wh).toBeCloseTo(100 - 20 * Math.exp((-30 * 1.5) / 20), 9);
  });

  it("splits a shared total by the packs present, full ones counted", () => {
    const [bench] = MODEL.chargers;
    if (bench === undefined) throw new Error("no bench");
    const chargers = [{ ...bench, slots: 2, totalWatts: 30 }];
    const packs = MODEL.packs.map((pack) => (pack.id === "two" ? { ...pack, at: "bench" } : pack));
    const steps = replay({ ...MODEL, chargers, packs }, { covered: [], moves: [], chores: [] }).steps;
    expect(steps.get("one")?.[0]?.whAfter).toBe(40 + 15 * 1.5);
  });
});
