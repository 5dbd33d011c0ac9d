/** The file in which a routing server's answers are kept. */
import { describe, expect, it } from "vitest";
import { routes } from "../roads/engine.ts";
import { type FakeOptions, ran } from "./fakeIo.ts";

const PLAN = `daywright: 1
date: 2027-01-20
clock: America/New_York
zone: America/Chicago
crew: { wren: { role: camera, drives: wagon } }
vehicles: { wagon: {} }
places: { lodge: { at: [46.60, -90.88] }, pier: { at: [46.81, -90.82] } }
routing: { url: http://localhost:5000, keep: kept/roads.json }
hits: { dawn: { at: "07:00", for: 3 min, place: pier } }
runs: { wagon: [lodge, pier, lodge] }
`;

async function checked(options: FakeOptions) {
  const { out, files } = await ran(["check", "day.yaml", "--json"], {
    files: { "day.yaml": PLAN },
    fetch: routes,
    ...options,
  });
  const findings: readonly { readonly code: string }[] = JSON.parse(out).findings;
  return { codes: findings.map(({ code }) => code), kept: files.has("/plans/kept/roads.json") };
}

describe("routing-keep-unwritten", () => {
  it("where the file cannot be written; the roads are routed all the same", async () => {
    const { codes, kept } = await checked({ unwritable: "kept/roads.json" });
    expect(codes).toContain("routing-keep-unwritten");
    expect(codes).not.toContain("road-estimated");
    expect(kept).toBe(false);
  });

  it("not where it can", async () => {
    const { codes, kept } = await checked({});
    expect(codes).not.toContain("routing-keep-unwritten");
    expect(kept).toBe(true);
  });
});
