/** A chain of days: up to 40, no more; what is not known between two of them is said, never guessed. */
import { describe, expect, it } from "vitest";
import { ran } from "../cli/fakeIo.ts";
import { SMALLEST } from "../cli/plans.ts";

const RELEASED =
  "history: { wren: { released: 2026-11-30T18:00-06:00 }, ilse: { released: 2026-11-30T18:00-06:00 } }\n";
const dates = Array.from({ length: 41 }, (_, at) => new Date(Date.UTC(2026, 11, 1 + at)).toISOString().slice(0, 10));

/** Day after day of the smallest plan, each following the one before. */
const files = Object.fromEntries(
  dates.map((date, at) => [
    `${date}.yaml`,
    `${SMALLEST.replace("2027-01-20", date)}${at === 0 ? RELEASED : `follows: ${dates[at - 1]}.yaml\n`}`,
  ]),
);

const check = async (name: string, all: Readonly<Record<string, string>> = files) =>
  JSON.parse((await ran(["check", name, "--json"], { files: all })).out);
const codes = (answer: { readonly findings: readonly { readonly code: string }[] }): readonly string[] =>
  answer.findings.map(({ code }) => code);

describe("a chain of days", () => {
  it("is read over 40 files, and refused beyond them", async () => {
    expect((await check(`${dates[39]}.yaml`)).ok).toBe(true);
    const beyond = await check(`${dates[40]}.yaml`);
    expect([beyond.data, codes(beyond)]).toEqual([null, ["chain-too-long"]]);
  });

  it("counts the rest from the day before, as logged: 10 h 42 min are enough, 9 h 42 min are 18 short", async () => {
    // Called at 05:00 New York; turnaround 10 h. Released at 18:18 the day before is 10 h 42 min, at 19:18 it is 9 h 42 min.
    const [one = "", two = ""] = dates;
    const logged = (time: string) => ({
      ...files,
      [`${one}.yaml`]: `${files[`${one}.yaml`]}actual: { wren: { released: ${time} } }\n`,
    });
    const short = (answer: { findings: readonly { code: string; who: string; shortMinutes: number }[] }) =>
      answer.findings
        .filter(({ code, who }) => code === "rest-too-short" && who === "wren")
        .map((finding) => finding.shortMinutes);
    expect(short(await check(`${two}.yaml`, logged('"18:18"')))).toEqual([]);
    expect(short(await check(`${two}.yaml`, logged('"19:18"')))).toEqual([18]);
  });

  it("says which days are missing, and nothing where none is", async () => {
    const [one = "", two = "", three = "", four = ""] = dates;
    const jump = (date: string) => ({
      ...files,
      "late.yaml": `${SMALLEST.replace("2027-01-20", date)}follows: ${one}.yaml\n`,
    });
    const missing = async (date: string) =>
      (await check("late.yaml", jump(date))).findings
        .filter(({ code }: { code: string }) => code === "days-missing")
        .map(({ message }: { message: string }) => message);
    expect(await missing(two)).toEqual([]);
    expect(await missing(three)).toEqual([
      `${two}, between ${one}.yaml and this day, is unknown: neither rest nor work is counted, and figures that span it are minimums`,
    ]);
    expect(await missing(four)).toEqual([
      `${two} to ${three}, between ${one}.yaml and this day, are unknown: neither rest nor work is counted, and figures that span it are minimums`,
    ]);
  });
});
