/** The moves of one moment in the order in which hands can do them: what leaves a place before what enters it. By hand. */
import { describe, expect, it } from "vitest";
import { Paths } from "../../src/power/fast/paths.ts";
import type { Demand, Model, ModelPack } from "../../src/power/model.ts";
import { solve } from "../../src/power/proof/solve.ts";
import { caseOf } from "../../src/power/question.ts";
import { instant } from "../../src/time/units.ts";

const pack = (id: string, wh: number, startWh: number, at: string, more: Partial<ModelPack> = {}): ModelPack => ({
  ...{ id, mount: "v", wh, startWh, reserveWh: 15, at },
  ...more,
});
type Broken = readonly (readonly [number, number])[];
const use = (id: string, from: number, wh: number): Demand => ({
  ...{ id, kind: "firm", from: instant(from), to: instant(from + 60) },
  watts: new Map([["camera", wh]]),
});

/** An hour of use each: dawn, noon and dusk; hands are free at minute 100 between the first two and at 300 between the last two. */
const model = (packs: readonly ModelPack[], demands: readonly Demand[]): Model => ({
  ...{ from: instant(0), to: instant(500), bays: ["van"], grainWh: 1, swapMinutes: 0, enoughWh: 0 },
  touches: [100, 300].map((minute) => ({ id: `at${minute}`, at: instant(minute), reach: ["van"] })),
  packs,
  chargers: [
    {
      ...{ id: "bench", mount: "v", bay: "van", slots: 1, watts: 60, taper: 1, totalWatts: null },
      on: [{ from: instant(0), to: instant(500) }],
    },
  ],
  loads: [{ id: "camera", mount: "v", bay: [{ from: instant(0), bay: "van" }] }],
  demands,
});

describe("the moves of one moment", () => {
  it("are first what goes on a shelf, then what goes from a charger or load, then what comes from a shelf", async () => {
    // One (70 Wh) is in the camera and gives dawn its 50; noon's 60 and the reserve of 15 only two has, which is in the charger;
    // dusk's 60 only three can have (two is at 40 by then), from 20 Wh by the charger in between. So all three move at 100.
    const uses = [use("dawn", 0, 50), use("noon", 200, 60), use("dusk", 400, 60)];
    const packs = [pack("three", 100, 20, "van"), pack("two", 100, 100, "bench"), pack("one", 70, 70, "camera")];
    for (const order of [packs, packs.toReversed()]) {
      const { rotation } = await solve(model(order, uses), { patience: 1 });
      expect(rotation.covered).toEqual(["dawn", "noon", "dusk"]);
      expect(rotation.moves.filter(({ touch }) => touch === "at100").map(({ pack: id, to }) => `${id} ${to}`)).toEqual([
        "one van",
        "two camera",
        "three bench",
      ]);
    }
  });
});

describe("a pack that is out of service", () => {
  const noon = [use("noon", 200, 60)];
  /** It is in the charger with 20 Wh; noon takes 60 of the 75 that it needs with the reserve. */
  const day = (broken: Broken): Model => {
    const own = pack("one", 100, 20, "bench", {
      broken: broken.map(([from, to]) => ({ from: instant(from), to: instant(to) })),
    });
    // A day has a moment in no one's reach wherever a pack goes out of service or comes back.
    const edges = [...new Set(broken.flat())].map((n) => ({ id: `edge${n}`, at: instant(n), reach: [] }));
    const whole = model([own], noon);
    const touches = [...whole.touches, ...edges].toSorted((a, b) => a.at - b.at);
    return { ...whole, touches };
  };
  const covered = async (broken: Broken) => {
    const { rotation, replay } = await solve(day(broken), { patience: 1 });
    return [rotation.covered, replay.leastMarginWh];
  };
  /** The same by its best path where every minute in the camera is worth something. */
  const alone = (broken: Broken) => {
    const { board, wanted } = caseOf(day(broken), noon);
    const { spans, spots, places, placeOf } = board;
    const gain = new Float64Array(spots.length * spans).map((_, n) =>
      places[placeOf[Math.floor(n / spans)] ?? 0]?.id === "camera" ? 1 : 0,
    );
    const open = new Uint8Array(gain.length).fill(1);
    const moveCost = new Float64Array(spans + 1);
    const best = new Paths(board, wanted).best({ pack: 0, marginWh: 0, open, gain, moveCost });
    return best === null ? null : [best.moves, best.marginWh];
  };

  it("does not charge meanwhile: of 100 minutes at 60 W, 55 are needed", async () => {
    // All 100 minutes are more than fit: 100 Wh - 60 - 15 = 25.
    expect(await covered([])).toEqual([["noon"], 25]);
    // 60 minutes: 20 + 60 - 60 - 15 = 5. 55 minutes: nothing is left over. 54: too little.
    expect(await covered([[0, 40]])).toEqual([["noon"], 5]);
    expect([alone([]), alone([[0, 40]])]).toEqual([
      [1, 25],
      [1, 5],
    ]);
    expect((await covered([[0, 45]]))[0]).toEqual(["noon"]);
    expect((await covered([[0, 46]]))[0]).toEqual([]);
    expect(
      (
        await covered([
          [20, 40],
          [70, 96],
        ])
      )[0],
    ).toEqual([]);
  });

  it("does not power meanwhile, and what is over before or begins after is no matter", async () => {
    expect((await covered([[259, 260]]))[0]).toEqual([]);
    expect((await covered([[260, 300]]))[0]).toEqual(["noon"]);
    expect((await covered([[100, 200]]))[0]).toEqual(["noon"]);
  });
});
