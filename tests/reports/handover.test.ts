/** `handover`: how full a tank is, by what is known of it. */
import { expect, it } from "vitest";
import { ran } from "../cli/fakeIo.ts";
import { SMALLEST } from "../cli/plans.ts";

const fuelOf = async (vehicle: string, actual: string): Promise<string | undefined> => {
  const plan = `${SMALLEST.replace("wagon: {}", `wagon: ${vehicle}`)}actual:\n  wagon: ${actual}\n`;
  const { out } = await ran(["handover", "day.yaml"], { files: { "day.yaml": plan } });
  return /^wagon +\S+ +(.+?) +–$/mu.exec(out)?.[1];
};

it("says the level where no range is stated, and nothing where neither is", async () => {
  expect(await fuelOf("{}", "{ fuel: 50% }")).toBe("50 % full");
  expect(await fuelOf("{}", "{ at: lodge }")).toBe("–");
});

// Half of 600 km, read as the day ends.
it("says how far it goes where a range is stated", async () => {
  expect(await fuelOf("{ range: 600 km }", '{ fuel: 50%, fuelAt: "09:00" }')).toBe("for 300 km");
});
