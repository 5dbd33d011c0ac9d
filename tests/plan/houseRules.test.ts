/** The house rules: the default of each. */
import { expect, it } from "vitest";
import { type HouseRules, houseDefaults } from "../../src/plan/houseRules.ts";

/** By hand, from the table "House rules" of the plan format: minutes, shares, Wh. */
const DEFAULTS: HouseRules = {
  walkAround: 15,
  postTrip: 10,
  loading: 15,
  loadingCheckOut: 30,
  park: 5,
  setUp: 30,
  dishUp: 25,
  lineCheck: 10,
  inPosition: 10,
  clear: 10,
  strike: 20,
  unload: 10,
  turnaround: 600,
  dutyDay: 840,
  mealEvery: 360,
  mealFor: 30,
  wheelDay: 600,
  wheelBreak: { minutes: 15, every: 120 },
  wheelAwake: 840,
  reserve: 0.15,
  reserveCold: 0.25,
  swap: 2,
  choreJoin: 15,
  warmUp: 60,
  upBefore: 45,
  upBeforeOnCamera: 75,
  bedAfter: 90,
  planDrivesAt: "bad-into-firm",
  roundCalls: 5,
  enough: 15,
  shelterAfter: 30,
  dayRate: 600,
  stated: new Set(),
};

it("has the default of each rule", () => {
  expect(houseDefaults()).toEqual(DEFAULTS);
});
