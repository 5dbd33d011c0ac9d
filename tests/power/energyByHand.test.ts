/** The sum of energy of a day, by hand: what packs hold above their reserves, what comes out of chargers, what is found. */
import { expect, it } from "vitest";
import type { Model } from "../../src/power/model.ts";
import { lacksEnergy } from "../../src/power/proof/energy.ts";
import { caseOf } from "../../src/power/question.ts";
import { instant } from "../../src/time/units.ts";
import { benchOf, packOf, smallDay, touchOf, useOf } from "./small.ts";

/** Whether a lamp that draws so much from minute 100 to 160 lacks energy. */
function lacks(watts: number, more: Partial<Model>, marginWh = 0): boolean {
  const model = smallDay(200, { touches: [touchOf(90)], ...more, demands: [useOf(100, 160, watts)] });
  const { board, wanted } = caseOf(model, model.demands);
  return lacksEnergy(board, wanted, marginWh);
}

it("of two packs is 2 x 85 Wh above their reserves, and less by a margin of each", () => {
  const packs = [packOf("one"), packOf("two")];
  expect([lacks(170, { packs }), lacks(170.1, { packs })]).toEqual([false, true]);
  expect([lacks(150, { packs }, 10), lacks(150.1, { packs }, 10)]).toEqual([false, true]);
  expect(lacks(1e6, { packs }, Number.NEGATIVE_INFINITY)).toBe(false);
});

it("counts no pack below its reserve, and none of another mount", () => {
  const packs = [packOf("one", { startWh: 10 }), packOf("two", { mount: "plate" }), packOf("three", { startWh: 45 })];
  expect([lacks(30, { packs }), lacks(30.1, { packs })]).toEqual([false, true]);
});

it("counts what a charger gave until the last touch that reaches it before a use", () => {
  // From 0 to 60 min at 60 W: 60 Wh. The pack has its reserve and no more.
  const packs = [packOf("one", { startWh: 15, at: "bench" })];
  const chargers = [benchOf(0, 60)];
  expect([lacks(60, { packs, chargers }), lacks(60.1, { packs, chargers })]).toEqual([false, true]);
  // With a touch at 30 the first half comes out at it, the rest at 90.
  expect(lacks(60.1, { packs, chargers, touches: [touchOf(30), touchOf(90)] })).toBe(true);
  expect(lacks(60, { packs, chargers, touches: [touchOf(30), touchOf(90)] })).toBe(false);
  // What is not reached before the use stays inside, and what is in the van cannot have been put in.
  expect(lacks(1, { packs, chargers, touches: [touchOf(90, { reach: [] })] })).toBe(true);
  expect(lacks(1, { packs: [packOf("one", { startWh: 15 })], chargers })).toBe(true);
});

it("counts slots up to the packs that there are, what they share, and no more than a pack holds", () => {
  const packs = ["one", "two", "three"].map((id) => packOf(id, { startWh: 15 }));
  const touches = [touchOf(1), touchOf(90)];
  // From 30 to 90 min: 60 Wh a slot.
  const bench = (more: object) => [benchOf(30, 90, { slots: 4, ...more })];
  expect(lacks(180, { packs, touches, chargers: bench({}) })).toBe(false);
  expect(lacks(180.1, { packs, touches, chargers: bench({}) })).toBe(true);
  // 90 W for all together.
  expect(lacks(90, { packs, touches, chargers: bench({ totalWatts: 90 }) })).toBe(false);
  expect(lacks(90.1, { packs, touches, chargers: bench({ totalWatts: 90 }) })).toBe(true);
  // 1,000 W would give 1,000 Wh to a slot; three packs hold 300.
  expect(lacks(300, { packs, touches, chargers: bench({ watts: 1000 }) })).toBe(false);
  expect(lacks(300.1, { packs, touches, chargers: bench({ watts: 1000 }) })).toBe(true);
});

it("counts what a pack is found to hold as given, which is never too little", () => {
  const found = [{ at: instant(50), wh: 70 }];
  const touches = [touchOf(50, { reach: [] }), touchOf(90)];
  expect(lacks(70, { packs: [packOf("one", { startWh: 5, found })], touches })).toBe(false);
});

it("is held against what is drawn by then, not against the whole day", () => {
  // The charger is on after the use only.
  const packs = [packOf("one", { startWh: 15, at: "bench" })];
  expect(lacks(1, { packs, chargers: [benchOf(160, 200)] })).toBe(true);
});
