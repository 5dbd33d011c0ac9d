/** Cautions: raised where the plan gives reason, and not a step short of it. Figures of the sources: tests/world/safety.json. */
import { describe, expect, it } from "vitest";
import { DEFERRAL } from "../../src/cautions/deferral.ts";
import { codes as catalogue } from "../../src/cautions/findings.ts";
import { readHazard } from "../../src/cautions/hazards.ts";
import { assess, isCaution } from "../../src/cautions/index.ts";
import type { Finding } from "../../src/findings/finding.ts";
import { checkReport } from "../../src/reports/check/index.ts";
import { sayOf } from "../../src/reports/shared/wording.ts";
import { assess as assessSky } from "../../src/sky/index.ts";
import { dayFrom, inputOf, plan, sentences } from "../sky/days.ts";

const judge = async (...lines: readonly string[]) => {
  const day = await dayFrom(plan(...lines));
  const sky = await assessSky(inputOf(day));
  return { day, ...assess(inputOf(day), sky.result) };
};
const codes = async (...lines: readonly string[]): Promise<readonly string[]> =>
  (await judge(...lines)).findings.map((finding) => finding.code);
const say = async (code: string, ...lines: readonly string[]): Promise<string> => {
  const { day, findings } = await judge(...lines);
  return sentences(findings, code, day).join("\n");
};
const pier = (more: string) => `places: { lodge: { at: [46.60, -90.88] }, pier: { at: [46.81, -90.82]${more} } }`;
const NOON = 'hits: { noon: { at: "13:00", for: 3 min, place: pier } }';

describe("what a place gives reason for", () => {
  it("caution-lines: 20 ft from a line of unknown voltage, else by its voltage", async () => {
    expect(await say("caution-lines", pier(", hazards: [lines]"))).toContain(
      "unknown voltage: keep mast and dish at least 20.0 ft off",
    );
    // 29 CFR 1910.333(c)(3): 138 kV are 12.93 ft at work and 6.93 in transit.
    expect(await say("caution-lines", pier(", hazards: [lines 138 kV]"))).toMatch(
      /138 kV.*12\.9 ft off, 6\.9 ft on the move/,
    );
    expect(await codes(pier(", hazards: [water]"))).not.toContain("caution-lines");
  });

  it("caution-mast: a hazard, or a piece of that name", async () => {
    expect(await codes(pier(", hazards: [mast]"))).toContain("caution-mast");
    expect(await codes("kit: { mast: { in: wagon } }")).toContain("caution-mast");
    expect(await codes("kit: { tripod: { in: wagon } }")).not.toContain("caution-mast");
  });

  it("caution-ice: the table where nothing is known, what is too thin where it is", async () => {
    expect(await say("caution-ice", pier(", hazards: [ice]"))).toContain("no ice is safe; under 4 in");
    expect(await say("caution-ice", pier(", hazards: [ice 4 in]"))).toMatch(
      /4 in of clear ice: too thin for snowmobile, side-by-side, car, truck/,
    );
    expect(await say("caution-ice", pier(", hazards: [ice 3.9 in]"))).toMatch(/too thin for foot, snowmobile/);
    expect(await say("caution-ice", pier(", hazards: [white ice 7.9 in]"))).toMatch(/white ice: too thin for foot/);
    // Gold's formula at 20 cm and low risk: 1400 kg.
    expect(await say("caution-ice", pier(", hazards: [ice 20 cm]"))).toContain("1400 kg at most by Gold");
    expect(await codes()).not.toContain("caution-ice");
  });

  it("never calls ice safe", async () => {
    for (const hazard of ["ice", "ice 40 in", "white ice 1 in"]) {
      const said = await say("caution-ice", pier(`, hazards: [${hazard}]`));
      expect(said).toContain("no ice is safe");
      expect(said.replaceAll("no ice is safe", "")).not.toContain("safe");
    }
  });

  it("caution-water", async () => {
    expect(await codes(pier(", hazards: [water]"))).toContain("caution-water");
    expect(await codes(pier(", hazards: [ice]"))).not.toContain("caution-water");
  });

  it("caution-roadside: class by speed, and 3 in the dark", async () => {
    expect(await say("caution-roadside", NOON, pier(", hazards: [roadside 50 mph]"))).toContain("class 2");
    expect(await say("caution-roadside", NOON, pier(", hazards: [roadside 51 mph]"))).toContain("class 3");
    expect(await say("caution-roadside", pier(", hazards: [roadside 30 mph]"))).toContain(
      "class 3 for everyone on foot (30 mph, in the dark)",
    );
    expect(await codes(NOON)).not.toContain("caution-roadside");
  });

  it("speaks of places that the day uses only", async () => {
    expect(await codes("places: { lodge: {}, pier: {}, cove: { hazards: [ice] } }")).not.toContain("caution-ice");
  });
});

describe("what the weather gives reason for", () => {
  const weather = (row: string) => `weather: [${row}]`;

  it("caution-wind-chill: -14 °C and 30 km/h; not -9 °C without wind", async () => {
    // 2001 formula: 6.8 °F and 18.6 mph are -12.5 °F, -24.7 °C.
    expect(await say("caution-wind-chill", weather("{ temp: -14 C, wind: 30 km/h }"))).toBe(
      "at pier, 06:40 New York (05:40 Chicago) to 07:13 New York (06:13 Chicago): feels like -25 °C (-14 °C, 30 km/h); cover skin, take turns outside",
    );
    expect(await codes(weather("{ temp: -9 C, wind: 4 km/h }"))).not.toContain("caution-wind-chill");
    expect(await codes(weather("{ temp: -14 C }"))).not.toContain("caution-wind-chill");
  });

  it("is a warning with minutes from a wind chill of -18 °F on", async () => {
    // 0 °F and 12 mph are -17.5, 13 mph -18.1 °F by the formula (chart: 0 °F and 15 mph, -19, frostbite within 30 minutes).
    const at = async (mph: number) =>
      (await judge(weather(`{ temp: 0 F, wind: ${mph} mph }`))).findings.find(
        (own) => own.code === "caution-wind-chill",
      );
    expect((await at(12))?.level).toBe("note");
    expect((await at(13))?.level).toBe("warning");
    expect(await say("caution-wind-chill", weather("{ temp: -25 C, wind: 50 km/h }"))).toContain(
      "freezes within 8 min",
    );
  });

  it("takes the row that holds where and when people are outside", async () => {
    const cold = "temp: -20 C, wind: 30 km/h";
    // The hit's line check begins at 06:40 New York; the desk lets go at 07:13.
    expect(await codes(weather(`{ to: "06:40", ${cold} }`))).not.toContain("caution-wind-chill");
    expect(await codes(weather(`{ to: "06:41", ${cold} }`))).toContain("caution-wind-chill");
    expect(await say("caution-wind-chill", weather(`{ from: "06:45", to: "06:50", ${cold} }`))).toMatch(
      /^at pier, 06:45 New York .* to 06:50 New York /,
    );
    expect(await codes(weather(`{ places: [lodge], ${cold} }`))).not.toContain("caution-wind-chill");
  });

  it("caution-heat: from a heat index of 80 °F on; danger is a warning", async () => {
    expect(await codes(weather("{ temp: 79 F, humidity: 40% }"))).not.toContain("caution-heat");
    expect(await say("caution-heat", weather("{ temp: 90 F, humidity: 40% }"))).toContain(
      "heat index 91 °F, extreme caution",
    );
    const grave = (await judge(weather("{ temp: 96 F, humidity: 65% }"))).findings.find(
      (own) => own.code === "caution-heat",
    );
    expect(grave?.level).toBe("warning");
  });

  it("caution-lightning", async () => {
    expect(await codes(weather("{ lightning: true }"))).toContain("caution-lightning");
    expect(await codes(weather("{ lightning: false }"))).not.toContain("caution-lightning");
  });

  it("caution-wind-mast: gusts over 25 mph where a mast goes up", async () => {
    const mast = pier(", hazards: [mast]");
    expect(await codes(mast, weather("{ gust: 26 mph }"))).toContain("caution-wind-mast");
    expect(await codes(mast, weather("{ gust: 25 mph }"))).not.toContain("caution-wind-mast");
    expect(await codes(weather("{ gust: 60 mph }"))).not.toContain("caution-wind-mast");
  });

  it("caution-wind-dish: gusts over 45 mph where a dish is used", async () => {
    const dish = [
      "paths: { dish: { kind: satellite, vehicle: wagon, slot: 101 west, size: 1.8 m } }",
      'hits: { dawn: { at: "07:00", for: 3 min, place: pier, path: dish } }',
    ];
    expect(await codes(...dish, weather("{ gust: 46 mph }"))).toContain("caution-wind-dish");
    expect(await codes(...dish, weather("{ gust: 45 mph }"))).not.toContain("caution-wind-dish");
  });
});

describe("what paths, engines and the hour give reason for", () => {
  it("caution-radiation: with the distance where power, size and band are known", async () => {
    const dish = (more: string) => [
      `paths: { dish: { kind: satellite, vehicle: wagon, slot: 101 west${more} } }`,
      'hits: { dawn: { at: "07:00", for: 3 min, place: pier, path: dish } }',
    ];
    expect(await say("caution-radiation", ...dish(""))).toBe("at pier: nobody in front of dish while it is up");
    // The published study of this dish: 87.1 W and 43.2 dBi reach 1 mW/cm² at 120.3 m and 5 at 53.8.
    const known = ", size: 1.2 m, band: 14.25 GHz, uplink: 87.1 W";
    expect(await say("caution-radiation", ...dish(known))).toContain(
      "public limit to 120 m, over the trained one to 54 m",
    );
    expect(await say("caution-radiation", ...dish(known.replace("14.25", "11.95")))).toContain("to 120 m");
    // 8 W put 1.84 mW/cm² into the beam, 3 W 1.06 on the reflector alone, 2 W nowhere 1.
    const watts = (count: number) => say("caution-radiation", ...dish(known.replace("87.1", String(count))));
    expect(await watts(8)).toMatch(/at 8 W the beam is over the public limit to 31 m, nowhere over the trained one$/);
    expect(await watts(3)).toMatch(
      /at 3 W the beam is over the public limit at the reflector only, nowhere over the trained/,
    );
    expect(await watts(2)).toMatch(/at 2 W the beam is nowhere over the public limit$/);
    expect(await codes("paths: { dish: { kind: satellite, slot: 101 west } }")).not.toContain("caution-radiation");
  });

  it("caution-exhaust: a generator, or chargers on a vehicle's inverter", async () => {
    expect(await codes("kit: { generator: { in: wagon } }")).toContain("caution-exhaust");
    const chargers = "chargers: { bench: { mount: wedge, slots: 2, watts: 60, in: wagon } }";
    expect(await codes("vehicles: { wagon: { inverter: 300 W } }", chargers)).toContain("caution-exhaust");
    expect(await codes(chargers)).not.toContain("caution-exhaust");
    expect(await say("caution-exhaust", "kit: { generator: { in: wagon } }", "weather: [{ road: snow }]")).toContain(
      "clear snow",
    );
  });

  it("counts fatigue at the wheel, found by hours, as a caution, and no limit of law", () => {
    expect(["night-driving", "short-sleep-at-wheel"].every((code) => isCaution({ code }))).toBe(true);
    expect(isCaution({ code: "driving-too-long" })).toBe(false);
  });
});

describe("the catalogue and the report", () => {
  it("marks every code as a caution, with a source", () => {
    for (const entry of catalogue) {
      expect(isCaution(entry)).toBe(true);
      expect(entry.source?.title ?? "").not.toBe("");
      expect(entry.why.length).toBeGreaterThan(60);
    }
  });

  it("is ended by who decides, and nothing is said where there is none", async () => {
    const { day, findings } = await judge(pier(", hazards: [ice]"));
    const last = (all: readonly Finding[]) =>
      checkReport({ findings: all, notJudged: [], say: sayOf(day.plan), redact: false }).blocks.at(-1);
    expect(last(findings)).toEqual({ kind: "line", cells: [{ text: DEFERRAL, tone: "muted" }] });
    expect(last([])).not.toEqual(last(findings));
  });

  it("reads hazards as people write them", () => {
    expect(readHazard("power lines 230 kV")).toMatchObject({ kind: "lines", kilovolts: 230 });
    expect(readHazard("white ice 30 cm")).toMatchObject({ kind: "ice", white: true });
    expect(readHazard("ice 300 mm")?.inches).toBeCloseTo(11.81, 2);
    expect(readHazard("roadside 90 km/h")?.mph).toBeCloseTo(55.9, 1);
    expect(readHazard("bears")).toBe(null);
    expect(readHazard("rice paddy")).toBe(null);
  });
});
