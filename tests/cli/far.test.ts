/** A wrong year, wherever a time stands: refused, with the date that was meant. */
import { describe, expect, it } from "vitest";
import { ran } from "./fakeIo.ts";
import { SMALLEST } from "./plans.ts";

const codes = async (text: string, ...more: readonly string[]): Promise<readonly [number, readonly string[]]> => {
  const { code, out } = await ran(["check", "day.yaml", "--json", ...more], { files: { "day.yaml": text } });
  const found: readonly { readonly code: string }[] = JSON.parse(out).findings;
  return [code, found.map((one) => one.code).filter((one) => one === "time-far")];
};

describe("a time in another year", () => {
  it.each([
    ["a hit", SMALLEST.replace('at: "07:00"', "at: 2026-01-20T07:00-05:00")],
    [
      "a departure",
      SMALLEST.replace("wagon: [lodge, pier", "wagon: [{ place: lodge, leave: 2026-01-20T04:15-06:00 }, pier"),
    ],
    [
      "a window",
      `${SMALLEST}tasks:\n  notes: { place: pier, for: 5 min, window: ["06:00", 2028-01-20T08:00-05:00] }\n`,
    ],
    ["what happened", `${SMALLEST}actual:\n  wren: { released: 2026-01-20T19:10-06:00 }\n`],
    ["what went before", `${SMALLEST}history:\n  wren: { released: 2026-01-19T19:10-06:00 }\n`],
  ])("%s", async (_, text) => {
    expect(await codes(text)).toEqual([3, ["time-far"]]);
  });

  it("but what went before may be weeks ago", async () => {
    expect((await codes(`${SMALLEST}history:\n  wren: { released: 2026-12-20T19:10-06:00 }\n`))[1]).toEqual([]);
    expect((await codes(`${SMALLEST}actual:\n  wagon: { at: lodge, since: 2026-12-20T19:10-06:00 }\n`))[1]).toEqual([]);
  });

  it("in --now is wrong usage", async () => {
    const { code, err } = await ran(["calls", "day.yaml", "--now", "2026-01-20T05:00-06:00"], {
      files: { "day.yaml": SMALLEST },
    });
    expect(code).toBe(2);
    expect(err).toBe(
      "error: --now: `2026-01-20T05:00-06:00` is a year before the plan's date, 2027-01-20\ntry: 2027-01-20T05:00-06:00\n",
    );
  });
});
