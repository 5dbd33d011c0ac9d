/** A whole plan seven days later, within one offset, gives the same calls, hours and drives but for their dates. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { ran } from "./fakeIo.ts";

const WEEK = new Map([
  ["2027-01-18", "2027-01-25"],
  ["2027-01-19", "2027-01-26"],
  ["2027-01-20", "2027-01-27"],
  ["2027-01-21", "2027-01-28"],
  ["2027-01-22", "2027-01-29"],
]);

const later = (text: string): string => text.replace(/2027-01-(?:18|19|20|21|22)/g, (date) => WEEK.get(date) ?? date);

const read = (name: string): string => readFileSync(`fixtures/days/${name}.yaml`, "utf8");
const FILES = {
  "assignment.yaml": read("assignment"),
  "2027-01-19.yaml": read("2027-01-19"),
  "2027-01-20.yaml": read("2027-01-20"),
};
const LATER = Object.fromEntries(Object.entries(FILES).map(([name, text]) => [later(name), later(text)]));

describe.each(["calls", "hours", "drives"])("%s", (command) => {
  it("differ by dates alone", async () => {
    const now = await ran([command, "--json", "2027-01-20.yaml"], { files: FILES });
    const then = await ran([command, "--json", "2027-01-27.yaml"], { files: LATER });
    expect([now.code, then.code]).toEqual([0, 0]);
    expect(then.out).toBe(later(now.out));
  });
});
