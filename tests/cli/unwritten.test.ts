/** A mistake in a text that was tried and never written says so, and points at no line that another text holds. */
import { describe, expect, it } from "vitest";
import { ran } from "./fakeIo.ts";
import { SMALLEST } from "./plans.ts";

const files = { "day.yaml": SMALLEST };
const go = (words: readonly string[]) => ran(words, { files });

describe("--set", () => {
  it("says it of the line that it changes", async () => {
    const { code, out } = await go(["check", "day.yaml", "--set", "hits.dawn.at=25:00"]);
    expect(code).toBe(3);
    expect(out).toContain("day.yaml as it would be written:16:15: error: `25:00` is not a time");
  });

  it("and of no line that stands in the file as it is, though an edit is what makes it a mistake", async () => {
    const { out } = await go(["check", "day.yaml", "--set", "crew.wren.drives=[]"]);
    expect(out).toMatch(/^day\.yaml:18:11: error: no one aboard wagon may drive it/mu);
    expect(out).not.toContain("as it would be written");
  });

  it("and of findings and chains of the day", async () => {
    const { out } = await go(["calls", "day.yaml", "--set", "roads[0].bad=55min", "--why", "wren.call"]);
    expect(out).toMatch(/drive, wagon +55 min +day\.yaml as it would be written:14\n/u);
    expect(out).toContain("dawn.start at 07:00 New York (06:00 Chicago), day.yaml:16");
  });

  it("machines get the file and the path, and no line", async () => {
    const words = ["check", "day.yaml", "--set", "hits.dawn.at=25:00"];
    const [finding] = JSON.parse((await go([...words, "--json"])).out).findings;
    expect(finding.where).toEqual({ file: "day.yaml", line: null, column: null, path: "hits.dawn.at" });
    expect((await go([...words, "--format", "unix"])).out).toMatch(/^day\.yaml:1:1: error: /u);
    const sarif = JSON.parse((await go([...words, "--format", "sarif"])).out);
    expect(sarif.runs[0].results[0].locations).toEqual([
      { physicalLocation: { artifactLocation: { uri: "day.yaml" } } },
    ]);
    expect((await go([...words, "--format", "csv"])).out).toMatch(/,day\.yaml,,/u);
  });
});

describe("what a command would have written", () => {
  it("log: the plan with the entry", async () => {
    const { code, err, files: after } = await go(["log", "day.yaml", "wren", "released", "25:10"]);
    expect([code, after.get("/plans/day.yaml")]).toEqual([3, SMALLEST]);
    expect(err).toMatch(/^day\.yaml as it would be written:20:\d+: error: `25:10` is not a time/u);
  });

  it("next: tomorrow's plan, of which there is no file yet", async () => {
    const { code, err } = await go(["next", "day.yaml", "--hit", "dawn 31:00 pier 3 min"]);
    expect(code).toBe(3);
    expect(err).toMatch(/^2027-01-21\.yaml as it would be written:\d+:\d+: error: `31:00` is not a time/u);
  });

  it("new: a first plan", async () => {
    const { code, err } = await go([
      ...["new", "--date", "2027-01-20", "--desk", "America/New_Yrok", "--bed", "lodge", "--person", "wren"],
    ]);
    expect(code).toBe(3);
    expect(err).toMatch(/^2027-01-20\.yaml as it would be written:\d+:8: error: `America\/New_Yrok` is not a known/u);
    expect(err).toContain("try: America/New_York");
  });
});
