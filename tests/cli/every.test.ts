/** `drives --relief --every`: where inside a leg drivers may change. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { ran } from "./fakeIo.ts";

const FILES = { "day.yaml": readFileSync("fixtures/edges/three-days.yaml", "utf8") };
const drives = (...flags: readonly string[]) => ran(["drives", ...flags, "day.yaml"], { files: FILES });

/** Rows of the proposal's table that begin on the road: changes inside a leg. */
const changes = (out: string): number =>
  out.split("\n").filter((line) => line.includes("on the road") && line.includes("truck")).length;

describe("--every", () => {
  it("changes drivers at multiples of that length: more often where it is shorter", async () => {
    const [usual, often] = [await drives("--relief"), await drives("--relief", "--every", "90min")];
    // the first leg takes 7 h 30: it can be cut at 2, 4, 6 h, or at 1.5, 3, 4.5, 6 h
    expect(changes(usual.out)).toBeGreaterThan(0);
    expect(often.out).toContain("1 h 30 min");
  });

  it("refuses what is no length, and stands with --relief alone", async () => {
    expect((await drives("--relief", "--every", "soon")).code).toBe(2);
    const alone = await drives("--every", "90min");
    expect([alone.code, alone.err.split("\n")[0]]).toEqual([2, "error: --every goes with --relief"]);
  });
});
