/** A release and a call part two working days, however short the night between them was: a short rest never hides itself. */
import { describe, expect, it } from "vitest";
import { judge } from "../../src/index.ts";
import { plainWording } from "../../src/reports/shared/wording.ts";
import { daysOfFile } from "../day/read.ts";

const plan = (released: string, vehicle: string): string => `daywright: 1
date: 2027-01-21
clock: America/Chicago
zone: America/Chicago
history: { wren: { released: ${released} } }
crew: { wren: { role: camera, drives: wagon } }
vehicles: { wagon: ${vehicle} }
places: { lodge: {}, pier: {} }
roads: [ { link: [lodge, pier], drive: 35 min, bad: 50 min } ]
hits: { dawn: { at: "06:00", for: 3 min, place: pier } }
runs: { wagon: [lodge, pier, lodge] }
`;

/** Rest findings of a day whose call is at 04:00 (03:45 with the walk-around of a truck). */
async function rests(released: string, vehicle = "{}"): Promise<readonly (readonly [string, string, unknown])[]> {
  const days = await daysOfFile("day.yaml", plan(released, vehicle));
  const { findings } = await judge({ days, now: null }, { topics: ["hours"] });
  return findings
    .filter(({ code }) => code.startsWith("rest"))
    .map((finding) => [finding.code, finding.level, finding.facts["restMinutes"]] as const);
}

describe("a short night", () => {
  it.each([
    ["2027-01-20T21:59-06:00", 361],
    ["2027-01-20T22:00-06:00", 360],
    ["2027-01-20T22:01-06:00", 359],
    ["2027-01-21T03:00-06:00", 60],
  ])("released %s is too short for the house", async (released, rest) => {
    expect(await rests(released)).toEqual([["rest-too-short", "error", rest]]);
  });

  it("of just ten hours is enough", async () => {
    expect(await rests("2027-01-20T18:00-06:00")).toEqual([]);
  });

  it("is told as what it is under the law, too", async () => {
    const found = await rests("2027-01-20T22:00-06:00", "{ gross: 16000 lb, rules: us-property }");
    expect(found.map(([code, , rest]) => [code, rest])).toContainEqual(["rest-too-short", 345]);
    expect(found.map(([code]) => code)).not.toContain("rest-not-stated");
  });

  it("is worded with the rest that there was", async () => {
    const days = await daysOfFile("day.yaml", plan("2027-01-20T22:48-06:00", "{}"));
    const { findings } = await judge({ days, now: null }, { topics: ["hours"] });
    expect(findings.find(({ code }) => code === "rest-too-short")?.sentence(plainWording)).toContain(
      "5 h 12 min of rest",
    );
  });
});
