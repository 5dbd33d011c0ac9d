/** Cautions: raised where the plan gives reason, and not a step short of it. Figures of the sources: tests/world/safety.json. */
import { describe, expect, it } from "vitest";
import { DEFERRAL } from "../../src/cautions/deferral.ts";
import * as place from "../../src/cautions/findings.ts";
import * as weather from "../../src/cautions/findingsWeather.ts";
import { readHazards } from "../../src/cautions/hazards.ts";
import { assess, isCaution } from "../../src/cautions/index.ts";
import { codesOf } from "../../src/findings/catalogue.ts";
import type { Finding } from "../../src/findings/finding.ts";
import { checkReport } from "../../src/reports/check/index.ts";
import { wordingOf } from "../../src/reports/shared/wording.ts";
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
      "unknown voltage: keep mast and dish at least 20 ft away",
    );
    // 138 kV: 12.93 ft by 29 CFR 1910.333(c)(3), 15 ft by 1926.1408 Table A; in transit 6.93 and 10 ft.
    expect(await say("caution-lines", pier(", hazards: [lines 138 kV]"))).toMatch(
      /138 kV.*at least 15 ft away, 10 ft in transit/,
    );
    // Of two lines the higher; one without a voltage is at least an unknown line.
    expect(await say("caution-lines", pier(", hazards: [lines 12 kV, lines 345 kV]"))).toMatch(/345 kV.*20 ft away/);
    expect(await say("caution-lines", pier(", hazards: [lines 12 kV, lines]"))).toMatch(/20 ft away/);
    expect(await codes(pier(", hazards: [water]"))).not.toContain("caution-lines");
  });

  it("caution-mast: a hazard, or a piece of that name", async () => {
    expect(await codes(pier(", hazards: [mast]"))).toContain("caution-mast");
    expect(await codes("kit: { mast: { in: wagon } }")).toContain("caution-mast");
    expect(await codes("kit: { tripod: { in: wagon } }")).not.toContain("caution-mast");
  });

  it("caution-ice: what people and each vehicle that stops there need, and what the stated ice is too thin for", async () => {
    const ice = (hazards: string, gross = "") =>
      [
        pier(`, hazards: [${hazards}]`),
        `vehicles: { wagon: {${gross === "" ? "" : `${gross}, rules: us-property, week: 70/8 `}} }`,
      ] as const;
    const level = async (...lines: readonly string[]) =>
      (await judge(...lines)).findings.find(({ code }) => code === "caution-ice")?.level;
    expect(await say("caution-ice", ...ice("ice"))).toBe(
      "at pier: stay off the ice: people on foot need at least 4 in, wagon (weight not stated) needs at least 17 in of clear ice, twice that of white ice; no ice is safe",
    );
    expect(await level(...ice("ice"))).toBe("note");
    // Gold, 3.5 h²: 16,000 lb (7,257 kg) need 45.5 cm, 18 in; 33,000 lb (14,969 kg) 65.4 cm, 26 in.
    expect(await say("caution-ice", ...ice("ice 17 in", " gross: 16000 lb "))).toBe(
      "at pier: 17 in of clear ice is too thin for wagon: people on foot need at least 4 in, wagon (16000 lb) needs at least 18 in; no ice is safe",
    );
    expect(await say("caution-ice", ...ice("ice 30 in", " gross: 33000 lb "))).toContain("needs at least 26 in");
    expect(await level(...ice("ice 17 in", " gross: 16000 lb "))).toBe("error");
    expect(await level(...ice("ice 18 in", " gross: 16000 lb "))).toBe("note");
    // A car of the table: 12 in at its thicker end. White ice counts half, and the least of several figures counts.
    expect(await level(...ice("ice 12 in", " gross: 4000 lb "))).toBe("note");
    expect(await level(...ice("white ice 23 in", " gross: 4000 lb "))).toBe("error");
    expect(await level(...ice("white ice 24 in", " gross: 4000 lb "))).toBe("note");
    expect(await say("caution-ice", ...ice("ice 17 in, ice 3 in", " gross: 4000 lb "))).toContain(
      "3 in of clear ice is too thin:",
    );
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
      "everyone on foot wears high-visibility clothing of class 3 (30 mph, in the dark)",
    );
    expect(await codes(NOON)).not.toContain("caution-roadside");
  });

  it("speaks of places that the day uses only", async () => {
    expect(await codes("places: { lodge: {}, pier: {}, cove: { hazards: [ice] } }")).not.toContain("caution-ice");
  });
});

describe("what the weather gives reason for", () => {
  const weather = (row: string) => `weather: [${row}]`;

  it("caution-wind-chill: -14 °C and 30 km/h; not -7 °C in still air", async () => {
    // 2001 formula: 6.8 °F and 18.6 mph are -12.5 °F, -24.7 °C.
    expect(await say("caution-wind-chill", weather("{ temp: -14 C, wind: 30 km/h }"))).toBe(
      "at pier, 06:10 New York (05:10 Chicago) to 07:33 New York (06:33 Chicago): feels like −25 °C (−14 °C, 30 km/h); cover skin, take turns outside",
    );
    expect(await codes(weather("{ temp: -7 C, wind: 4 km/h }"))).not.toContain("caution-wind-chill");
    // Without a wind the air's own temperature is the index.
    expect(await codes(weather("{ temp: -9 C }"))).not.toContain("caution-wind-chill");
    expect(await say("caution-wind-chill", weather("{ temp: -14 C }"))).toContain(
      "feels like −14 °C (−14 °C, wind not stated)",
    );
    expect(await say("caution-wind-chill", weather("{ temp: -40 C }"))).toContain("bare skin freezes within 5 min");
    // Beyond 100 km/h, where the tables end.
    expect(await say("caution-wind-chill", weather("{ temp: -20 C, wind: 120 km/h }"))).toContain(
      "feels at least as cold as",
    );
  });

  it("is a warning with minutes from a wind chill of -18 °F on", async () => {
    // 0 °F and 11 mph are -16.7 °F (-27.1 °C), 12 mph -17.5 °F (-27.5 °C), which rounds to -28, where the band begins
    // (chart: 0 °F and 15 mph, -19 °F, frostbite within 30 minutes).
    const at = async (mph: number) =>
      (await judge(weather(`{ temp: 0 F, wind: ${mph} mph }`))).findings.find(
        (own) => own.code === "caution-wind-chill",
      );
    expect((await at(11))?.level).toBe("note");
    expect((await at(12))?.level).toBe("warning");
    // Ducharme and Brajkovic 7.8 min; the index is -42 °C: 5 to 10 min.
    expect(await say("caution-wind-chill", weather("{ temp: -25 C, wind: 50 km/h }"))).toContain(
      "freezes within 5 min",
    );
  });

  it("takes the row that holds where and when people are outside", async () => {
    const cold = "temp: -20 C, wind: 30 km/h";
    // The hit's line check begins at 06:40 New York, after 30 min of set-up; the desk lets go at 07:13, and 20 min of
    // strike end at 07:33 where the wagon drives on.
    const back = "runs: { wagon: [lodge, pier, lodge] }";
    expect(await codes(weather(`{ to: "06:10", ${cold} }`))).not.toContain("caution-wind-chill");
    expect(await codes(weather(`{ to: "06:11", ${cold} }`))).toContain("caution-wind-chill");
    expect(await codes(back, weather(`{ from: "07:33", ${cold} }`))).toContain("caution-wind-chill");
    expect(await codes(back, weather(`{ from: "07:34", ${cold} }`))).not.toContain("caution-wind-chill");
    expect(await say("caution-wind-chill", weather(`{ from: "06:45", to: "06:50", ${cold} }`))).toMatch(
      /^at pier, 06:45 New York .* to 06:50 New York /,
    );
    expect(await codes(weather(`{ places: [lodge], ${cold} }`))).not.toContain("caution-wind-chill");
  });

  it("caution-heat: from a heat index of 80 °F on; danger is a warning", async () => {
    expect(await codes(weather("{ temp: 79 F, humidity: 40% }"))).not.toContain("caution-heat");
    // The chart of the National Weather Service prints 80 for 80 °F at 40 %, in the colour of caution; 39.4 °C print as 103 °F.
    expect(await codes(weather("{ temp: 80 F, humidity: 40% }"))).toContain("caution-heat");
    expect(await say("caution-heat", weather("{ temp: 39.4 C }"))).toMatch(/\(103 °F; .*\), danger;/);
    expect(await say("caution-heat", weather("{ temp: 90 F, humidity: 40% }"))).toContain(
      "heat index 33 °C (91 °F), extreme caution",
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
    // More wind never takes a line away: people can hardly walk (Beaufort 8), mast or no mast.
    expect(await codes(mast, weather("{ gust: 40 mph }"))).toContain("caution-wind");
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
    expect(await say("caution-radiation", ...dish(""))).toBe("at pier: keep clear of the front of dish while it is up");
    // The published study of this dish: 87.1 W and 43.2 dBi reach 1 mW/cm² at 120.3 m and 5 at 53.8.
    const known = ", size: 1.2 m, band: 14.25 GHz, uplink: 87.1 W";
    expect(await say("caution-radiation", ...dish(known))).toContain(
      "public limit up to 121 m, over the limit for trained people up to 54 m",
    );
    expect(await say("caution-radiation", ...dish(known.replace("14.25", "11.95")))).toContain("up to 121 m");
    // 8 W put 1.84 mW/cm² into the beam, 3 W 1.06 on the reflector alone, 2 W nowhere 1.
    const watts = (count: number) => say("caution-radiation", ...dish(known.replace("87.1", String(count))));
    expect(await watts(8)).toMatch(
      /at 8 W the beam is over the public limit up to 32 m, nowhere over the limit for trained people$/,
    );
    expect(await watts(3)).toMatch(
      /at 3 W the beam is over the public limit at the reflector only, nowhere over the limit for trained/,
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
    expect(
      ["night-driving", "short-sleep-at-wheel", "awake-too-long-at-wheel"].every((code) => isCaution({ code })),
    ).toBe(true);
    expect(isCaution({ code: "driving-too-long" })).toBe(false);
  });
});

describe("the catalogue and the report", () => {
  it("marks every code as a caution, with a source", () => {
    for (const entry of [place, weather].flatMap(codesOf)) {
      expect(isCaution(entry)).toBe(true);
      expect(entry.source?.title ?? "").not.toBe("");
      expect(entry.why.length).toBeGreaterThan(60);
    }
  });

  it("is ended by who decides, and nothing is said where there is none", async () => {
    const { day, findings } = await judge(pier(", hazards: [ice]"));
    const last = (all: readonly Finding[]) =>
      checkReport({ findings: all, notJudged: [], say: wordingOf(day.plan), redact: false }).blocks.at(-1);
    expect(last(findings)).toEqual({ kind: "line", cells: [{ text: DEFERRAL, tone: "muted" }] });
    expect(last([])).not.toEqual(last(findings));
  });

  it("reads hazards as people write them", () => {
    const first = (said: string) => readHazards(said)[0];
    expect(first("power lines 230 kV")).toMatchObject({ kind: "lines", kilovolts: 230 });
    expect(first("white ice 30 cm")).toMatchObject({ kind: "ice", white: true });
    expect(first("ice 300 mm")?.inches).toBeCloseTo(11.81, 2);
    expect(first("ice 0.4 m")?.inches).toBeCloseTo(15.75, 2); // 40 cm
    expect(first("ice 12-17 in")?.inches).toBe(12);
    expect(first('ice 17"')?.inches).toBe(17);
    expect(first("ice 1.5 ft")?.inches).toBe(18);
    expect(first("ice 40,5 cm")?.inches).toBeCloseTo(15.94, 2);
    expect(first("lines 138000 V")?.kilovolts).toBe(138);
    expect(first("roadside 90 km/h")?.mph).toBeCloseTo(55.9, 1);
    expect(
      ["overhead cables", "power wires", "genset", "icy pier", "generater", "highwy"].map((said) => first(said)?.kind),
    ).toEqual(["lines", "lines", "generator", "ice", "generator", "roadside"]);
    expect(readHazards("mast under power lines").map(({ kind }) => kind)).toEqual(["mast", "lines"]);
    expect(first("bears")?.kind).toBe("other");
    expect(first("rice paddy")?.kind).toBe("other");
  });
});
