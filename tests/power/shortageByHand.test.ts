/** What is short, in figures: packs at once, slots and time on a charger before the demand, moments with hands. By hand. */
import { beforeAll, describe, expect, it } from "vitest";
import type { DayModel } from "../../src/power/day/build.ts";
import { assess } from "../../src/power/index.ts";
import type { Demand, Model } from "../../src/power/model.ts";
import { type Shortage, shortageOf } from "../../src/power/shortage/shortage.ts";
import { instant } from "../../src/time/units.ts";
import { demoDays } from "./plans.ts";
import { benchOf, packOf, smallDay, touchOf, useOf } from "./small.ts";

let real: DayModel | undefined;
beforeAll(async () => {
  real = (await assess({ days: await demoDays("2027-01-20"), patience: 1, now: null, brief: true }, null)).result.built;
});

function short(more: Partial<Model>, first: Demand, wanted: readonly Demand[] = [first]): Shortage {
  if (real === undefined) throw new RangeError("no day");
  const built = { ...real, overloads: [], model: smallDay(900, more) };
  return shortageOf(built, first, wanted, 7, { forRest: false, asleep: [] });
}

describe("charging before a demand", () => {
  const at = (from: number): Demand => useOf(from, from + 60, 40);
  const on = (...stretches: readonly (readonly [number, number])[]) =>
    benchOf(0, 0, { slots: 2, on: stretches.map(([from, to]) => ({ from: instant(from), to: instant(to) })) });

  it("is the time that the longest of the chargers has power by then, and the slots of all", () => {
    const chargers = [on([0, 100], [150, 300]), { ...on([0, 180]), id: "other", slots: 3, watts: 90 }];
    // By 200 the first has 100 + 50 min, the other 180; by 400 the first 250.
    expect(short({ chargers }, at(200)).charging).toEqual({ slots: 5, minutes: 180, watts: 90 });
    expect(short({ chargers }, at(400)).charging).toEqual({ slots: 5, minutes: 250, watts: 90 });
    expect(short({ chargers: [on([500, 600])] }, at(400))).toMatchObject({ charging: { minutes: 0 } });
    expect(short({}, at(400)).charging).toBeNull();
    expect(short({ chargers, touches: [touchOf(200)] }, at(200)).because).toBeNull();
  });

  it("is no use where nobody is at a charger by its start", () => {
    const chargers = [on([0, 300])];
    const why = (...touches: Model["touches"]): Shortage["because"] => short({ chargers, touches }, at(200)).because;
    expect([why(), why(touchOf(201)), why(touchOf(100, { reach: ["cottage"] }))]).toEqual(["hands", "hands", "hands"]);
    expect(why(touchOf(100, { reach: ["cottage"] }), touchOf(200))).toBeNull();
    // Without power at all, or without a charger, hands would not help.
    expect(short({ chargers: [on([500, 600])] }, at(200)).because).not.toBe("hands");
    expect(short({}, at(200)).because).toBeNull();
  });

  it("has moments up to its start, and none that only cut the day", () => {
    const touches = [touchOf(100), touchOf(150, { reach: [] }), touchOf(200), touchOf(201)];
    expect([short({ touches }, at(200)).moments, short({ touches }, at(99)).moments]).toEqual([2, 0]);
  });
});

describe("packs wanted at once", () => {
  const loads = ["lamp", "cam", "plate"].map((id) => ({
    ...{ id, mount: id === "plate" ? "p" : "v", bay: [{ from: instant(0), bay: "van" }] },
  }));
  const use = (from: number, to: number, ...on: readonly string[]): Demand =>
    useOf(from, to, 40, { id: `${on.join("+")}${from}`, watts: new Map(on.map((load) => [load, 40])) });
  const packs = (first: Demand, others: readonly Demand[], count = 1) =>
    short({ loads, packs: Array.from({ length: count }, (_, n) => packOf(`p${n}`)) }, first, [...others, first]).packs;

  it("are counted where most run beside it, whether they begin before it or later, of each mount by itself", () => {
    const first = use(200, 260, "lamp");
    expect(packs(first, [])).toBeNull();
    expect(packs(first, [use(100, 201, "cam")])).toEqual({ needed: 2, there: 1 });
    expect(packs(first, [use(259, 300, "cam")])).toEqual({ needed: 2, there: 1 });
    expect(packs(first, [use(100, 200, "cam"), use(260, 300, "cam")])).toBeNull();
    expect(packs(first, [use(200, 260, "cam")], 2)).toBeNull();
    // No pack fits the plate; one is there for the lamp.
    expect(packs(use(200, 260, "lamp", "plate"), [])).toEqual({ needed: 1, there: 0 });
    expect(packs(first, [use(200, 260, "plate")])).toBeNull();
  });
});
