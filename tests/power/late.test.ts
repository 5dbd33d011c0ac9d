/** `late` moves nothing, but the packs must cover it: a load is wanted until the desk clears and as long as a hit may slip. */
import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { assess } from "../../src/power/index.ts";
import { daysOfFile } from "../day/read.ts";

const FILE = "fixtures/days/2027-01-20.yaml";

async function spanOf(id: string, text: string): Promise<number> {
  const { result } = await assess({ days: await daysOfFile(FILE, text), patience: 1, now: null }, null);
  const demand = result.built.model.demands.find((one) => one.id === id);
  return (demand?.to ?? 0) - (demand?.from ?? 0);
}

// evening: in position 10 min before, 4 min on air, 10 min until the desk clears
it("adds the slip of a visit's last hit behind its clear", async () => {
  const text = readFileSync(FILE, "utf8");
  expect(await spanOf("evening", text.replace("show: evening, late: 10 min", "show: evening"))).toBe(24);
  expect(await spanOf("evening", text)).toBe(34);
});
