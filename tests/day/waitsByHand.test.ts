/** Two stops of a run that wait: one wait is possible before each fixed instant, so another needs one between. By hand. */
import { expect, it } from "vitest";
import { at, mistakesOf } from "./make.ts";
import { CREW, HIT, ROADS } from "./wagon.ts";

const mistakes = (between: object, first: object = {}) =>
  mistakesOf({
    crew: CREW,
    roads: { ...ROADS, "cove dock": [20, 25], "dock quay": [20, 25], "quay home": [30, 40] },
    hits: { dawn: HIT("08:00"), dusk: HIT("18:00", { in: "quay" }) },
    runs: {
      wagon: {
        stops: [
          "home",
          { place: "pier", do: ["dawn"], waitHere: true, ...first },
          { place: "cove", ...between },
          { place: "dock", waitHere: true },
          { place: "quay", do: ["dusk"] },
          "home",
        ],
      },
    },
  });

it("is a mistake where nothing fixed lies between them", () => {
  expect(mistakes({})).toEqual(["two-waits"]);
  expect(mistakes({ stayMinutes: 30 })).toEqual(["two-waits"]);
});

it("is none with a stated departure between them, or at the first of them", () => {
  expect(mistakes({ leave: at("12:00") })).toEqual([]);
  expect(mistakes({}, { leave: at("10:00") })).toEqual([]);
});

it("is none with a crossing between them", () => {
  expect(mistakes({ ferry: { sail: at("12:00"), land: at("13:00"), bunk: false } })).toEqual([]);
});
