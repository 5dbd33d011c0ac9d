/** What a command does at its edges: names of files on the terminal, files that must not or cannot be written. */
import { describe, expect, it } from "vitest";
import { type FakeOptions, ran } from "./fakeIo.ts";
import { SMALLEST } from "./plans.ts";

it("a file name cannot drive the terminal", async () => {
  const name = "calls\u001b[31m.txt";
  const { err, files } = await ran(["calls", "x.yaml", "-o", name], { files: { "x.yaml": SMALLEST } });
  expect(err).toContain("wrote calls<1B>[31m.txt");
  expect(files.has(`/plans/${name}`)).toBe(true);
});

describe("what a routing server answered", () => {
  const day = `${SMALLEST.replace(/roads:\n.*\n/u, "")}routing: { url: "http://roads.example/", keep: kept.json }\n`;
  /** Answers like an engine: 1,800 s and 40,000 m for every road there is. */
  const fetch: NonNullable<FakeOptions["fetch"]> = async (address) => {
    const points = address.split("/driving/")[1]?.split("?")[0]?.split(";") ?? [];
    const table = (value: number) => points.map((_, row) => points.map((_unused, at) => (row === at ? 0 : value)));
    const geometry = { type: "LineString", coordinates: [] };
    return Response.json(
      address.includes("/route/")
        ? { code: "Ok", routes: [{ duration: 1800, distance: 40000, geometry, legs: [] }], waypoints: [] }
        : { code: "Ok", durations: table(1800), distances: table(40000), sources: [], destinations: [] },
    );
  };

  it("is kept beside the plan, and for an older plan that is only compared it is not", async () => {
    const old = day.replace("kept.json", "old.json");
    const files = { "x.yaml": day, "old.yaml": old };
    const { code, err, files: after } = await ran(["calls", "x.yaml", "--since", "old.yaml"], { files, fetch });
    expect([code, err]).toEqual([0, expect.not.stringContaining("error")]);
    expect(after.has("/plans/kept.json")).toBe(true);
    expect(after.has("/plans/old.json")).toBe(false);
  });
});

it("a plan in which nobody has anything to do is of its own date", async () => {
  const idle = SMALLEST.replace(/hits:[\s\S]*$/u, "");
  const { out } = await ran(["calls", "x.yaml"], { files: { "x.yaml": idle } });
  // 2027-01-20 is a Wednesday in winter: six hours behind UTC in Chicago.
  expect(out).toMatch(/2027-01-20 · times on Chicago \(UTC-06:00\)/u);
  expect(out).not.toContain("1970");
});
