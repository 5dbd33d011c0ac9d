/** `hours` as people read it: a log's whole text at 80 columns, and the demo's third day with the chain behind it. */
import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { DEFERRAL } from "../../src/cautions/deferral.ts";
import { ran } from "../cli/fakeIo.ts";

const folder = (name: string) => new URL(`../../fixtures/${name}/`, import.meta.url);
const filesOf = (name: string): Record<string, string> =>
  Object.fromEntries(
    readdirSync(folder(name)).map((file) => [file, readFileSync(new URL(file, folder(name)), "utf8")]),
  );

describe("hours, 80 columns wide", () => {
  it("of a log", async () => {
    const { out } = await ran(["hours", "five-days.yaml", "--width", "80"], { files: filesOf("logs") });
    await expect(out).toMatchFileSnapshot("../golden/hours/five-days.txt");
  });

  it("of the demo's third day: no line is wider, the lead's questions come first", async () => {
    const { out } = await ran(["hours", "2027-01-21.yaml", "--width", "80"], { files: filesOf("days") });
    const lines = out.split("\n");
    expect(lines.every((line) => line.length <= 80)).toBe(true);
    expect(lines[1]).toBe("times are CT unless marked");
    expect(lines[4]).toMatch(/^Who +Law: drive until +House: until +Rest \/ needed +Call again from/);
    expect(lines.slice(6, 10).map((line) => line.split("  ")[0])).toEqual([
      "Tomas Lind",
      "Wren Aalto",
      "Ilse Brandt",
      "Bea Okafor",
    ]);
  });

  it("a time at which only a break is due is not read as the end: the line says so, by law and by the house apart", async () => {
    const page = async (spans: string) => {
      const log = `log: 1\nzone: Europe/Paris\nrules: eu\npeople:\n  p: { before: { releasedAt: 2026-03-01T06:00 }, spans: [${spans}] }\n`;
      const { out } = await ran(["hours", "x.yaml"], { files: { "x.yaml": log } });
      return out.replaceAll("\n", " ");
    };
    // 4 h driven: at 10:30 the break of 45 min is due (561/2006 Art 7); of the day's 9 h five are left.
    const morning = await page("{ from: 2026-03-02T06:00, to: 2026-03-02T10:00, is: driving }");
    expect(morning).toContain("Mon 2 10:30");
    expect(morning).toContain(
      "Law time for p: a break is due (45 min break after 4 h 30 min driving), then driving may go on.",
    );
    // 4 h 30, a break, 4 h 30 and a break are 9 h, an hour short of the second day of 10 h (Art 6(1)): 16:30 + 1 h is the end.
    const day = await page(
      [
        "{ from: 2026-03-02T06:00, to: 2026-03-02T10:30, is: driving }",
        "{ from: 2026-03-02T10:30, to: 2026-03-02T11:15, is: off }",
        "{ from: 2026-03-02T11:15, to: 2026-03-02T15:45, is: driving }",
        "{ from: 2026-03-02T15:45, to: 2026-03-02T16:30, is: off }",
      ].join(", "),
    );
    expect(day).toContain("Mon 2 17:30");
    expect(day).not.toContain("a break is due");
  });

  it("ends with the line that says who decides, tired drivers or not", async () => {
    const { out } = await ran(["hours", "2027-01-21.yaml"], { files: filesOf("days") });
    expect(out.trimEnd().split("\n").at(-1)).toBe(DEFERRAL);
  });

  it("the demo's rolling total is the sum of its days on duty under the truck's rules", async () => {
    const files = filesOf("days");
    const duty = async (file: string) => {
      const { out } = await ran(["hours", file, "--json"], { files });
      return JSON.parse(out).data.people.find((one: { id: string }) => one.id === "tomas");
    };
    const days = [await duty("2027-01-19.yaml"), await duty("2027-01-20.yaml"), await duty("2027-01-21.yaml")];
    const week = days[2].limits.find((limit: { id: string }) => limit.id === "us-property.week");
    expect(week.usedMinutes).toBe(days.reduce((sum, { dutyMinutes }) => sum + dutyMinutes, 0));
  });

  it("nothing is left at the wheel after a rest that is a minute too short (49 CFR 395.3(a)(1))", async () => {
    const left = async (released: string) => {
      const spans = "[{ from: 2027-01-20T06:00, to: 2027-01-20T07:00, is: driving }]";
      const person = `tomas: { before: { releasedAt: ${released} }, spans: ${spans} }`;
      const log = `log: 1\nzone: America/Chicago\nrules: us-property\npeople:\n  ${person}\n`;
      const { out } = await ran(["hours", "x.yaml", "--format", "csv"], { files: { "x.yaml": log } });
      const [head = "", row = ""] = out.split("\r\n");
      return row.split(",")[head.split(",").indexOf("leftMinutes")];
    };
    // Of 11 h one is driven; 10 h of rest from 20:00 to 06:00.
    expect(await left("2027-01-19T20:00")).toBe("600");
    expect(await left("2027-01-19T20:01")).toBe("0");
  });
});
