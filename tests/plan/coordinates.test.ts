/**
 * Signs and order of coordinates. Duluth is near 46.79 N 92.10 W, Ashland near 46.59 N 90.88 W: 93 km apart in a straight line,
 * as the haversine of the differences gives (0.2 degrees of latitude are 22 km, 1.22 of longitude 93 km at 46.7 N).
 */
import { describe, expect, it } from "vitest";
import { readChain, readOnePlan } from "../../src/plan/index.ts";
import { plainWording } from "../../src/reports/shared/wording.ts";
import { SMALLEST } from "../cli/plans.ts";

/** Places at these coordinates, the first two joined by a road. */
function plan(at: readonly string[], road: string, zone = "America/Chicago"): string {
  const ids = ["lodge", "pier", "cove"];
  const places = at.map((one, index) => `  ${ids[index]}: { at: ${one}, zone: ${zone} }`);
  return SMALLEST.replace(/places:\n.*\n.*\n/, `places:\n${places.join("\n")}\n`)
    .replace("zone: America/Chicago\n", `zone: ${zone}\n`)
    .replace("drive: 35 min, bad: 50 min }", `${road} }`);
}

async function doubts(text: string) {
  const { findings } = await readOnePlan(text, { file: "day.yaml" });
  return findings.map((one) => [one.code, one.level, one.facts["place"], one.facts["near"]]);
}

const LODGE = "[46.59, -90.88]";
const PIER = "[46.79, -92.10]";
const doubtful = (place: string, near: string | null) => ["coordinates-doubtful", "warning", place, near];

describe("coordinates that contradict the clock of their place", () => {
  it.each([
    ["no sign", [LODGE, "[46.79, 92.10]"], doubtful("pier", "[46.79, -92.1]")],
    ["the first of the plan", ["[46.59, 90.88]", PIER], doubtful("lodge", "[46.59, -90.88]")],
    ["both signs", [LODGE, "[-46.79, 92.10]"], doubtful("pier", "[46.79, -92.1]")],
  ])("%s", async (_, at, told) => {
    expect(await doubts(plan(at, "drive: 80 min"))).toEqual([told]);
  });

  it("needs no road for that, and reports two that have one zone once: either may be wrong", async () => {
    const text = plan(["[46.59, 90.88]", "[46.79, 92.10]"], "drive: 80 min").replace(/roads:\n.*\n/, "");
    expect(await doubts(text)).toEqual([["zone-doubtful", "warning", undefined, "[46.59, -90.88]"]]);
  });

  // Kashgar keeps Shanghai's clock, 120 E, at 76 E: 44 degrees off. Kiritimati is a day ahead at 157 W.
  it.each([
    ["[39.47, 75.99]", "Asia/Shanghai"],
    ["[1.87, -157.43]", "Pacific/Kiritimati"],
    ["[-13.83, -171.77]", "Pacific/Apia"],
    ["[52.85, 173.18]", "America/Adak"],
    ["[46.79, 92.10]", "UTC"],
  ])("says nothing of places that keep an odd clock: %s on %s", async (at, zone) => {
    expect(await doubts(plan([at, at], "drive: 80 min", zone))).toEqual([]);
  });
});

describe("coordinates that contradict a road", () => {
  it("in kilometres: the straight line may be a fifth and 15 km longer, for coarse coordinates", async () => {
    // One degree of latitude is 111.2 km on a sphere of 6371 km; (111.2 - 15) / 1.2 = 80.2.
    const at = ["[46, -90.88]", "[47, -90.88]"];
    expect(await doubts(plan(at, "km: 81"))).toEqual([]);
    expect((await doubts(plan(at, "km: 80"))).map(([code]) => code)).toEqual(["coordinates-doubtful"]);
  });

  it("in time: nobody drives at 160 km/h from end to end", async () => {
    // (111.2 - 15) / 160 h = 36.1 min
    const at = ["[46, -90.88]", "[47, -90.88]"];
    expect(await doubts(plan(at, "drive: 37 min"))).toEqual([]);
    expect(await doubts(plan(at, "drive: 36 min"))).toEqual([doubtful("lodge", null)]);
    expect(await doubts(plan(at, "drive: 36 min, bad: 37 min"))).toEqual([]);
  });

  it("latitude and longitude swapped, where both could be latitudes", async () => {
    // Lake Vättern: Jönköping near 57.78 N 14.16 E, Motala near 58.54 N 15.04 E, 100 km.
    expect(await doubts(plan(["[57.78, 14.16]", "[15.04, 58.54]"], "drive: 80 min", "Europe/Stockholm"))).toEqual([
      ["coordinates-doubtful", "warning", "lodge", "lodge: [14.16, 57.78], or pier: [58.54, 15.04]"],
    ]);
  });

  it("blames the place that contradicts most", async () => {
    const text = plan(["[57.78, 14.16]", "[15.04, 58.54]", "[58.41, 15.62]"], "drive: 80 min", "Europe/Stockholm");
    const roads = "roads:\n  - { link: [cove, pier], drive: 40 min }\n  - { link: [cove, lodge], drive: 90 min }\n";
    expect(await doubts(text.replace("roads:\n", roads))).toEqual([doubtful("pier", "[58.54, 15.04]")]);
  });

  it("names the other place, both lengths, and where", async () => {
    const { findings } = await readOnePlan(plan(["[46.79, -90.88]", "[-46.79, -90.88]"], "km: 130"), {
      file: "day.yaml",
    });
    const [first] = findings;
    // 93.58 degrees of latitude of 111.19 km
    expect(first?.sentence(plainWording)).toMatch(
      /^`lodge` cannot be at \[46.79, -90.88\]: it is 1040\d km from pier in a straight line, and the road is stated as 130 km$/,
    );
    expect(first?.span).toMatchObject({ line: 11, column: 16 });
  });
});

it("says once what two days share", async () => {
  const shared = `places:\n  lodge: { at: ${LODGE} }\n  pier: { at: [46.79, 92.10] }\n`;
  const day = (date: string, more: string) =>
    SMALLEST.replace(/places:\n.*\n.*\n/, "uses: shared.yaml\n")
      .replace("2027-01-20", date)
      .replace("daywright: 1\n", `daywright: 1\n${more}`);
  const texts = new Map([
    ["shared.yaml", shared],
    ["first.yaml", day("2027-01-20", "")],
  ]);
  const files = {
    read: (path: string) => {
      const text = texts.get(path);
      return text === undefined ? ({ kind: "missing", near: [] } as const) : ({ kind: "text", text } as const);
    },
  };
  const { findings } = await readChain(day("2027-01-21", "follows: first.yaml\n"), { file: "second.yaml", files });
  expect(findings.map(({ code }) => code)).toEqual(["coordinates-doubtful"]);
});
