/** What is found of many people alike is told once in views; in JSON each has their own. */
import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { ran } from "./fakeIo.ts";

const FORTY = readFileSync("fixtures/edges/forty-people.yaml", "utf8");
const IDS = Array.from({ length: 40 }, (_, n) => `p${String(n + 1).padStart(2, "0")}`);

const rests = (text: string): number => [...text.matchAll(/\(rest-not-stated\)/g)].length;

it("tells forty people without a stated release in one finding, by their number", async () => {
  const { out } = await ran(["check", "day.yaml"], { files: { "day.yaml": FORTY } });
  expect(rests(out)).toBe(1);
  expect(out).toContain("for all 40 people");
  expect(out).not.toContain("p39, p40");
  const { err } = await ran(["hours", "day.yaml"], { files: { "day.yaml": FORTY } });
  expect(rests(err)).toBe(1);
});

it("keeps one a person in JSON, and for a person of their own", async () => {
  const { out } = await ran(["check", "--json", "day.yaml"], { files: { "day.yaml": FORTY } });
  const { findings, data } = JSON.parse(out) as {
    findings: readonly { code: string; who: string | null }[];
    data: { warnings: number };
  };
  const whose = findings.filter(({ code }) => code === "rest-not-stated").map(({ who }) => who);
  expect([...whose].sort()).toEqual(IDS);
  expect(data.warnings).toBeGreaterThanOrEqual(40);
  const mine = await ran(["check", "--for", "p07", "day.yaml"], { files: { "day.yaml": FORTY } });
  expect(mine.out).toContain("cannot check rest for p07: no last release given");
});

it("parts those of whom something else is wanted, and those who are accepted", async () => {
  const accepted = `${FORTY}\naccept: [{ code: rest-not-stated, who: [p01, p02], why: known }]\n`;
  const { out } = await ran(["check", "day.yaml"], { files: { "day.yaml": accepted } });
  expect(rests(out)).toBe(2);
  expect(out).toContain("p01, p02 (2)");
});

it("names the day where a finding stands in a file that several days share, and nowhere else", async () => {
  const names = ["assignment.yaml", "2027-01-19.yaml", "2027-01-20.yaml"];
  const files = Object.fromEntries(names.map((name) => [name, readFileSync(`fixtures/days/${name}`, "utf8")]));
  const { out } = await ran(["check", "2027-01-19.yaml", "2027-01-20.yaml"], { files });
  const located = out.split("\n").filter((line) => /^[\w-]+\.yaml:\d+:\d+: (?:error|warning|note): /u.test(line));
  const named = located.filter((line) => /: (?:error|warning|note): 2027-01-(?:19|20): /u.test(line));
  expect(named.length).toBeGreaterThan(0);
  expect(named).toEqual(located.filter((line) => line.startsWith("assignment.yaml:")));
});
