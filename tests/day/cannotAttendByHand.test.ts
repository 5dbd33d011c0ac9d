/** Who cannot be at something: told with the vehicles that come to its place, and no others. By hand. */
import { expect, it } from "vitest";
import { computeDay, NOTHING_BEFORE } from "../../src/day/index.ts";
import { at, type Description, legsOf, makePlan } from "./make.ts";
import { HIT, ROADS } from "./wagon.ts";

const told = (runs: Description["runs"]) => {
  const plan = makePlan({
    crew: { wren: { drives: ["wagon"] }, tomas: { drives: ["truck"] }, joe: { slept: "home" } },
    roads: ROADS,
    hits: { dawn: HIT("08:00", { who: ["wren", "joe"] }) },
    runs,
  });
  return computeDay(plan, legsOf(plan), NOTHING_BEFORE).findings.map(({ code, who, facts }) => [
    code,
    who,
    facts["by"],
  ]);
};

const wagon = { aboard: ["wren"], stops: ["home", "pier", "home"] };
const truck = (place: string) => ({ aboard: ["tomas"], stops: [{ place: "home", leave: at("06:00") }, place, "home"] });

it("names the vehicles that come there", () => {
  expect(told({ wagon, truck: truck("cove") })).toEqual([["cannot-attend", "joe", ["wagon"]]]);
  expect(told({ wagon, truck: truck("pier") })).toEqual([["cannot-attend", "joe", ["wagon", "truck"]]]);
});

it("is no one who rides there", () => {
  expect(told({ wagon: { ...wagon, aboard: ["wren", "joe"] }, truck: truck("cove") })).toEqual([]);
});
