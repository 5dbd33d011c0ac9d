/** The demo: the ore dock hides the satellite from the west lot, and the east lot is clear; the dawn block is dark. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { computeDay, type Day } from "../../src/day/index.ts";
import { readPlan } from "../../src/plan/index.ts";
import { legsOf } from "../../src/roads/legs.ts";
import { assess } from "../../src/signal/index.ts";
import { assess as assessSky, isDark } from "../../src/sky/index.ts";
import { inputOf } from "../sky/days.ts";

const folder = new URL("../../fixtures/days/", import.meta.url);
const text = (name: string): string => readFileSync(new URL(name, folder), "utf8");

/** The second day, its dish at one of the two lots. */
async function dayAt(lot: "dock" | "dockeast"): Promise<Day> {
  const { plan } = await readPlan(text("2027-01-20.yaml").replaceAll("dockeast", lot), {
    file: "2027-01-20.yaml",
    files: { read: (path) => ({ kind: "text", text: text(path) }) },
  });
  if (plan === null) throw new Error("the demo cannot be read");
  const { day } = computeDay(plan, await legsOf(plan));
  if (day === null) throw new Error("the demo cannot be timed");
  return day;
}

describe("the noon hit at the ore dock", () => {
  it("has its dish blocked by the skyline of the west lot", async () => {
    const { result, findings } = await assess(inputOf(await dayAt("dock")));
    const blocked = findings.find((finding) => finding.code === "skyline-blocks");
    expect(blocked?.level).toBe("error");
    expect(blocked?.facts["activities"]).toContain("noon");
    expect(result.hits.find((hit) => hit.id === "noon")).toMatchObject({ ok: false, spareOk: true });
  });

  it("is clear from the east lot", async () => {
    const { result, findings } = await assess(inputOf(await dayAt("dockeast")));
    expect(findings.map((finding) => finding.code)).not.toContain("skyline-blocks");
    expect(result.hits.find((hit) => hit.id === "noon")?.ok).toBe(true);
  });
});

describe("the dawn block", () => {
  it("is dark at its start and not at noon, so that lamps are planned for the one only", async () => {
    const { result } = await assessSky(inputOf(await dayAt("dockeast")));
    expect(isDark(result, "dawn.1")).toBe(true);
    expect(isDark(result, "noon")).toBe(false);
  });
});
