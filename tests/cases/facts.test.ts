/** Days that went wrong where facts, the past and missing instants meet; each with what it should say and why. */
import { describe, expect, it } from "vitest";
import { dayOfFile } from "../day/read.ts";
import { clocks } from "./clock.ts";

describe("a run of which only the end is open", () => {
  it("is placed, though a task before the only fixed hit has nothing to wait for", async () => {
    // Wren does `fix` while Ilse is on air at 07:00, and nothing says when the wagon goes: as soon as it is packed.
    const day = await dayOfFile("fixtures/cases/hostile/placed-min.yaml");
    // 07:03, clear 10, strike 20, and 30 to load where somebody checks out: wren and ilse end at the pier.
    expect(clocks(day, "dawn.start", "wagon.1.loading", "wagon.1.leave")).toEqual(["07:00", "07:33", "08:03"]);
    expect(day.findings.filter(({ level }) => level === "error")).toEqual([]);
  });
});
