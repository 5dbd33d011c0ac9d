/** The night the clocks go back: every view says which 01:30 is meant. */
import { describe, expect, it } from "vitest";
import { ran } from "./fakeIo.ts";
import { SMALLEST } from "./plans.ts";

/** In Chicago 01:00 to 02:00 comes twice, first at UTC-05:00, then at UTC-06:00. */
const NIGHT = SMALLEST.replace("2027-01-20", "2027-11-07")
  .replace("America/New_York", "America/Chicago")
  .replace('"07:00"', '"01:30 UTC-06:00"');

const COMMANDS = [
  ["calls"],
  ["calls", "--why", "wren.call"],
  ["hours"],
  ["drives"],
  ["light"],
  ["signal"],
  ["sheet"],
  ["sheet", "--format", "markdown"],
  ["sheet", "--format", "html"],
  ["sheet", "--format", "chat"],
];

describe("the repeated hour", () => {
  it.each(COMMANDS.map((words) => [words.join(" "), words] as const))("%s names the offset", async (_, words) => {
    const [command = "", ...flags] = words;
    const { out } = await ran([command, "day.yaml", ...flags], { files: { "day.yaml": NIGHT } });
    // Markdown escapes the minus. A length such as `01:30:00` or an ISO instant of the page is no clock.
    const clocks = [...out.matchAll(/(?<![T\d:])01:\d\d(?!:)(.{0,12})/g)].map(([, rest]) => rest ?? "");
    expect(clocks.length).toBeGreaterThan(0);
    expect(clocks.filter((rest) => !/^ UTC\\?-0[56]:00/.test(rest))).toEqual([]);
  });

  it("the hit is at the second 01:30, two hours after a call at 00:30", async () => {
    const { out } = await ran(["calls", "day.yaml"], { files: { "day.yaml": NIGHT } });
    expect(out).toMatch(/dawn +01:30 UTC-06:00/);
    // 10 in position, 10 line check, 30 set-up, 5 park, 50 drive at bad, 15 loading: two hours
    expect(out).toMatch(/wren +00:30 /);
    expect(out).toMatch(/wagon +00:45 .*01:35 UTC-05:00/);
  });

  it("what a view prints can be written into a plan", async () => {
    const first = NIGHT.replace("UTC-06:00", "UTC-05:00");
    const json = async (plan: string) =>
      JSON.parse((await ran(["calls", "day.yaml", "--json"], { files: { "day.yaml": plan } })).out).data.activities[0];
    expect((await json(NIGHT)).start).toBe("2027-11-07T01:30-06:00");
    expect((await json(first)).start).toBe("2027-11-07T01:30-05:00");
  });
});
