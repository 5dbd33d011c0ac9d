/** The demo assignment, judged whole: three sound days, and the spoiled one with every fault that was put into it. */
import { describe, expect, it } from "vitest";
import { judge } from "../../src/index.ts";
import { daysOfFile } from "./read.ts";

async function codesOf(file: string): Promise<ReadonlyMap<string, number>> {
  const { findings, notJudged } = await judge({ days: await daysOfFile(file), now: null });
  expect(notJudged).toEqual([]);
  const counts = new Map<string, number>();
  for (const { code, level } of findings) if (level !== "note") counts.set(code, (counts.get(code) ?? 0) + 1);
  return counts;
}

describe("the demo assignment", () => {
  it.each(["2027-01-19", "2027-01-20", "2027-01-21"])("%s has neither error nor warning", async (date) => {
    expect([...(await codesOf(`fixtures/days/${date}.yaml`)).keys()]).toEqual([]);
  });

  it("the spoiled day has each fault that its first lines promise", async () => {
    const codes = await codesOf("fixtures/days/spoiled.yaml");
    const promised = [
      "skyline-blocks",
      "window-too-short",
      "hit-missed",
      "slip-too-long",
      "cable-across-road",
      "cable-too-short",
      "kit-missing",
      "hit-unpowered",
      "fuel-short",
      "rest-too-short",
      "duty-too-long",
      "meal-late",
    ];
    expect(promised.filter((code) => !codes.has(code))).toEqual([]);
  });
});
