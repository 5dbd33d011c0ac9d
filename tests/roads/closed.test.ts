/** `place-closed`: a visit lies within the hours in which its place is open, to the minute and past midnight. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { assess } from "../../src/roads/assess.ts";
import { dayOfFile } from "../day/read.ts";

const FILE = "fixtures/smallest.yaml";
const TEXT = readFileSync(FILE, "utf8");

/** At the pier from 05:05 to 06:33 local; with `night` a hit from 23:50 to 00:10, there from 22:55 to 00:40. */
const closed = async (open: string, night = false) => {
  const text = TEXT.replace("-90.82] }", `-90.82], open: [${open}] }`);
  const day = await dayOfFile(FILE, night ? text.replace('"07:00", for: 3', '"23:50 local", for: 20') : text);
  return assess({ days: [day], patience: 1, now: null }).findings.flatMap(({ code, facts }) =>
    code === "place-closed" ? [facts["what"]] : [],
  );
};

describe("a place that is closed", () => {
  it("is told where a visit begins a minute too early or ends a minute too late", async () => {
    expect(await closed('"05:05", "06:33"')).toEqual([]);
    expect(await closed('"05:06", "06:33"')).toEqual(["dawn"]);
    expect(await closed('"05:05", "06:32"')).toEqual(["dawn"]);
  });

  it("is open through midnight only where one day ends as the next begins", async () => {
    expect(await closed('"00:00", "24:00"', true)).toEqual([]);
    expect(await closed('"06:00", "24:00"', true)).toEqual(["dawn"]);
  });
});
