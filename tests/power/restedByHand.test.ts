/** Rotations under people's rests: moments in duty come first, and what a rest does not allow is left out, proved. By hand. */
import { beforeAll, describe, expect, it } from "vitest";
import type { DayModel } from "../../src/power/day/build.ts";
import type { Rests } from "../../src/power/day/rests.ts";
import { assess } from "../../src/power/index.ts";
import type { Model, Touch } from "../../src/power/model.ts";
import { crewed, mayAll } from "../../src/power/rested.ts";
import { instant } from "../../src/time/units.ts";
import { daysOf } from "./plans.ts";
import { benchOf, packOf, smallDay, touchOf, useOf } from "./small.ts";

const PLAN = `daywright: 1
date: 2027-01-20
clock: America/Chicago
zone: America/Chicago
crew: { nia: { drives: van }, ole: {} }
vehicles: { van: {} }
places: { lodge: { kind: lodging }, pier: {} }
roads: [{ link: [lodge, pier], drive: 30 min, bad: 40 min }]
packs: { brick: { wh: 100, mount: v, charge: 100%, in: van } }
chargers: { bench: { mount: v, slots: 1, watts: 60, in: van, hands: [ole] } }
runs: { van: { driver: nia, aboard: [nia, ole], stops: [{ place: lodge, leave: "08:00" }, pier, lodge] } }
`;

let real: DayModel | undefined;
beforeAll(async () => {
  const days = await daysOf(PLAN);
  real = (await assess({ days, patience: 1, now: null }, null)).result.built;
});

/** Nia rests until 600 and is there at every touch; a chore leaves the part of her rest behind it, of which she needs so much. */
function built(model: Model, needed: number): DayModel {
  if (real === undefined) throw new RangeError("no day");
  const rest = { from: instant(0), to: instant(600) };
  const rests: Rests = {
    restAt: (_, { from, to }) => (from < rest.to && rest.from < to ? rest : null),
    kept: (_, chores) => rest.to - Math.max(0, ...chores.map(({ to }) => to)),
    needed: () => needed,
    neededByLaw: () => needed,
    joins: () => false,
  };
  const nia = { who: "nia", doing: "night", from: instant(0), to: instant(900) };
  const touches = model.touches.map((touch) => ({ ...touch, where: "lodge", hands: [nia] }));
  return { ...real, model, touches, rests, handBays: [] };
}

const APART = { burden: 12 };
/** The lamp wants 60 Wh from 700 to 760; the pack lies in the van. */
const day = (touches: readonly Touch[], more: Partial<Model> = {}): Model =>
  smallDay(900, { touches, swapMinutes: 2, demands: [useOf(700, 760, 60)], ...more });
const solved = async (model: Model, needed: number) => {
  const { rotation, dropped, proof } = await crewed(built(model, needed), { patience: 1 });
  return {
    chores: rotation.chores.map(({ touch, who }) => `${touch} ${who.join("+")}`),
    dropped: dropped.map(({ demand, proved }) => [demand.id, proved]),
    coverage: proof.coverage,
  };
};

describe("a rotation under rests", () => {
  it("uses a moment in duty or next to it before one apart from it", async () => {
    const both = day([touchOf(100, APART), touchOf(650)]);
    expect(await solved(both, 0)).toEqual({ chores: ["t650 nia"], dropped: [], coverage: "exhausted" });
  });

  it("uses none apart from duty that covers no more, though the packs would have more left", async () => {
    // 300 Wh for dusk no pack has. At 100 the pack could go on the bench, and be full at 650; without that 80 Wh are enough.
    const dusk = useOf(800, 860, 300);
    const packs = [packOf("one", { startWh: 80 })];
    const charged = day([touchOf(100, APART), touchOf(650)], {
      ...{ packs, chargers: [benchOf(0, 700)], enoughWh: 1000 },
      demands: [useOf(700, 760, 60), dusk],
    });
    expect(await solved(charged, 0)).toEqual({
      ...{ chores: ["t650 nia"], dropped: [["use800", true]], coverage: "impossible" },
    });
  });

  it("uses one apart from duty where no other does, as long as the rest stays what binds", async () => {
    const apart = day([touchOf(100, APART)]);
    expect(await solved(apart, 500)).toEqual({ chores: ["t100 nia"], dropped: [], coverage: "exhausted" });
    expect(await solved(apart, 501)).toEqual({ chores: [], dropped: [["use700", true]], coverage: "impossible" });
  });

  it("uses an earlier one where a later one would leave too little, and proves what then is left out", async () => {
    const two = day([touchOf(100, APART), touchOf(300, APART)], { packs: [packOf("one")] });
    expect((await solved(two, 450)).chores).toEqual(["t100 nia"]);
    // A use at 200 to 260 and one at 700: 60 Wh each of 85. The second pack can only go in between, which leaves 300 min.
    const uses = [useOf(200, 260, 60), useOf(700, 760, 60)];
    const swap = day([touchOf(100, APART), touchOf(300, APART)], {
      packs: [packOf("one"), packOf("two")],
      demands: uses,
    });
    expect(await solved(swap, 300)).toEqual({ chores: ["t100 nia", "t300 nia"], dropped: [], coverage: "exhausted" });
    expect(await solved(swap, 301)).toEqual({
      ...{ chores: ["t100 nia"], dropped: [["use700", true]], coverage: "impossible" },
    });
  });
});

describe("where not all chores can be shared out", () => {
  it("goes without the most unwelcome moment first", async () => {
    // One chore leaves the rest whole, two do not. Without t300 the lamp has a pack at 200, without t100 at 700: one use either way.
    const swap = (early: number, late: number) =>
      day([touchOf(100, { burden: early }), touchOf(300, { burden: late })], {
        packs: [packOf("one"), packOf("two")],
        demands: [useOf(200, 260, 60), useOf(700, 760, 60)],
      });
    const chores = async (early: number, late: number) => {
      const model = built(swap(early, late), 100);
      const kept: Rests["kept"] = (_, all) => (all.length > 1 ? 0 : 600);
      const { rotation } = await crewed({ ...model, rests: { ...model.rests, kept } }, { patience: 1 });
      return [...rotation.covered, ...rotation.chores.map(({ touch }) => touch)];
    };
    expect(await chores(12, 20)).toEqual(["use200", "t100"]);
    expect(await chores(20, 12)).toEqual(["use700", "t300"]);
  });

  it("proves nothing once its questions are used up", async () => {
    const model = built(day([touchOf(100, APART)]), 501);
    const { dropped, proof } = await crewed(model, { patience: 0.05 });
    expect([dropped.map(({ demand, proved }) => [demand.id, proved]), proof.coverage]).toEqual([
      [["use700", false]],
      "simulated",
    ]);
  });
});

describe("who may touch the places of moves", () => {
  it("are all where no one is named, and those alone who are named for a charger or a bay", () => {
    if (real === undefined) throw new RangeError("no day");
    const bays = [{ id: "box", within: "van", hands: ["nia"] }];
    const may = (who: string, from: string, to: string) =>
      mayAll({ ...(real ?? built(day([]), 0)), handBays: bays }, who, [{ from, to }]);
    expect([may("nia", "van", "lamp"), may("ole", "van", "lamp")]).toEqual([true, true]);
    expect([may("nia", "van", "bench"), may("ole", "van", "bench")]).toEqual([false, true]);
    expect([may("nia", "box", "van"), may("ole", "van", "box")]).toEqual([true, false]);
    expect([may("nia", "box", "bench"), may("ole", "box", "bench")]).toEqual([false, false]);
  });
});
