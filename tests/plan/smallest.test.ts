/** The smallest plan (the README's first screen) loads, and says what it says. */
import { describe, expect, test } from "vitest";
import { readOnePlan } from "../../src/plan/index.ts";
import { isoLocal } from "../../src/time/format.ts";
import { smallest } from "./plans.ts";

const { plan, findings } = await readOnePlan(smallest, { file: "day.yaml" });

describe("the smallest plan", () => {
  test("has no mistakes", () => {
    expect(findings).toEqual([]);
    expect(plan?.file).toBe("day.yaml");
  });

  test("reads times on the desk's clock and lengths as minutes", () => {
    const dawn = plan?.hits.get("dawn");
    expect(dawn && plan && isoLocal(dawn.at, plan.zone)).toBe("2027-01-20T06:00-06:00");
    expect(dawn?.forMinutes).toBe(3);
    expect(dawn?.location).toEqual({ kind: "place", place: "pier" });
    expect(plan?.roads[0]).toMatchObject({ driveMinutes: 35, badMinutes: 50, link: ["lodge", "pier"] });
  });

  test("numbers stops and fills defaults in", () => {
    expect(plan?.runs.get("wagon")?.stops.map(({ id, place }) => `${id} ${place}`)).toEqual([
      "wagon.1 lodge",
      "wagon.2 pier",
      "wagon.3 lodge",
    ]);
    expect(plan?.crew.get("ilse")?.drives).toEqual([]);
    expect(plan?.rules).toMatchObject({
      park: 5,
      setUp: 30,
      loading: 15,
      loadingCheckOut: 30,
      planDrivesAt: "bad-into-firm",
    });
    expect(plan?.rules.stated.size).toBe(0);
  });

  test("locates a value in its text", () => {
    expect(plan?.source.locate(["hits", "dawn", "at"])).toMatchObject({ line: 16, column: 15, length: 7 });
  });
});
