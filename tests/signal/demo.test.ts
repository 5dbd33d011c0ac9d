/** The demo: the ore dock hides the satellite from the west lot, and the east lot is clear; the dawn block is dark. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { computeDay, type Day } from "../../src/day/index.ts";
import { legsOf } from "../../src/legs/legs.ts";
import { readOnePlan } from "../../src/plan/index.ts";
import { plainWording } from "../../src/reports/shared/wording.ts";
import { assess } from "../../src/signal/index.ts";
import { assess as assessSky, isDark } from "../../src/sky/index.ts";
import { ran } from "../cli/fakeIo.ts";
import { inputOf } from "../sky/days.ts";

const folder = new URL("../../fixtures/days/", import.meta.url);
const text = (name: string): string => readFileSync(new URL(name, folder), "utf8");

const FILES = Object.fromEntries(
  ["2027-01-19.yaml", "2027-01-20.yaml", "assignment.yaml"].map((name) => [name, text(name)]),
);

/** The second day, its dish at one of the two lots. */
async function dayAt(lot: "dock" | "dockeast"): Promise<Day> {
  const { plan } = await readOnePlan(text("2027-01-20.yaml").replaceAll("dockeast", lot), {
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
    // 46.6 N, 10.1 degrees from the slot: tan E = (0.676 - 0.151) / sin 47.4 degrees = 0.713 on the sphere, 1 / 0.713 = 1.40.
    expect(blocked?.hint(plainWording)).toContain("1.4 m away for each metre that stands above it");
  });

  it("is told with the distance to keep from what stands higher than the dish", async () => {
    const { out } = await ran(["signal", "2027-01-20.yaml"], { files: FILES });
    expect(out).toContain("park 1.4 m away for each metre that something stands above the dish");
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
