/** One moment on two clocks: which columns a table has, and what stands in them. Chicago is one hour behind New York in January. */
import { describe, expect, it } from "vitest";
import { clocksOf } from "../../src/reports/shared/clocks.ts";
import { wordingOf } from "../../src/reports/shared/wording.ts";
import { instant, isoUtc } from "../../src/time/index.ts";
import { zoneNamed } from "../day/parts.ts";
import { dayOfFile } from "../day/read.ts";

const { plan } = await dayOfFile(
  "day.yaml",
  `daywright: 1
date: 2027-01-20
clock: America/New_York
zone: America/Chicago
labels: { ET: America/New_York, CT: America/Chicago }
crew:
  wren: { role: camera, drives: wagon }
vehicles:
  wagon: {}
places:
  lodge: { at: [46.60, -90.88] }
  inn: { at: [46.62, -89.81], zone: America/New_York }
roads:
  - { link: [lodge, inn], drive: 60 min, bad: 80 min }
hits:
  dawn: { at: "07:00", for: 3 min, place: lodge }
runs:
  wagon: [lodge, inn]
`,
);
const say = wordingOf(plan);
/** 2027-01-20T13:00Z: 08:00 in New York, 07:00 in Chicago; Unix days to 2027-01-20 are 20838. */
const EIGHT = instant(20838 * 1440 + 13 * 60);

describe("clocks", () => {
  it("begin at the moment meant", () => expect(isoUtc(EIGHT)).toBe("2027-01-20T13:00Z"));

  it("are two columns where the places go by another clock than the control room", () => {
    const clocks = clocksOf(plan, say, ["lodge", "inn"]);
    expect(clocks.columns("Call", "call").map(({ label, key }) => [label, key])).toEqual([
      ["Call, CT", "call"],
      ["ET", "callDesk"],
    ]);
    expect(clocks.cells(EIGHT, "lodge").map(({ text }) => text)).toEqual(["07:00", "08:00"]);
    expect(clocks.cells(EIGHT, "inn").map(({ text }) => text)).toEqual(["08:00 ET", "08:00"]);
    expect(clocks.cells(null, "inn")).toHaveLength(2);
  });

  it("are one column where the main clock is the control room's; a place on another has both readings", () => {
    const clocks = clocksOf(plan, say, ["inn", "lodge"]);
    expect(clocks.columns("Call", "call").map(({ label }) => label)).toEqual(["Call"]);
    expect(clocks.cells(EIGHT, "inn").map(({ text }) => text)).toEqual(["08:00"]);
    expect(clocks.cells(EIGHT, "lodge").map(({ text }) => text)).toEqual(["07:00 CT (08:00)"]);
    expect(clocks.cells(null, "lodge")).toHaveLength(1);
  });

  it("are one without brackets where the desk's zone shows the same time under another name", () => {
    // Detroit keeps New York's time in January.
    const near = { ...plan, clock: zoneNamed("America/Detroit") };
    const clocks = clocksOf(near, say, ["inn"]);
    expect(clocks.columns("Call", "call")).toHaveLength(1);
    expect(clocks.cells(EIGHT, "inn").map(({ text }) => text)).toEqual(["08:00"]);
  });
});
