/** The light of a day: words at their limits, each finding and the same a step better, places that have no sun. */
import { describe, expect, it } from "vitest";
import { readOnePlan } from "../../src/plan/index.ts";
import { lightReport } from "../../src/reports/light/index.ts";
import { assess, isDark } from "../../src/sky/index.ts";
import { cloudDivisor, DARK_BELOW_LUX, lightClass, skyLux } from "../../src/sky/light.ts";
import { rowsAt, thickestCloud } from "../../src/sky/weather.ts";
import { skyWord, sunSide } from "../../src/sky/words.ts";
import { inputFor } from "../reports/inputFor.ts";
import { dayFrom, inputOf, plan, sentences } from "./days.ts";

const judge = async (...lines: readonly string[]) => {
  const day = await dayFrom(plan(...lines));
  return { day, ...(await assess(inputOf(day))) };
};
const codes = async (...lines: readonly string[]): Promise<readonly string[]> =>
  (await judge(...lines)).findings.map((finding) => finding.code);

describe("words for the sky", () => {
  // Upper limb at the horizon -0.833 degrees, civil twilight -6, nautical -12: the usual definitions, from memory. 6 degrees for
  // low sun: common practice, no source.
  it.each([
    [6, "day"],
    [5.999, "low sun"],
    [-0.833, "low sun"],
    [-0.834, "civil twilight"],
    [-6, "civil twilight"],
    [-6.001, "nautical twilight"],
    [-12, "nautical twilight"],
    [-12.001, "night"],
  ] as const)("at %s degrees it is %s", (altitude, word) => expect(skyWord(altitude)).toBe(word));

  // Common practice, no source.
  it.each([
    [10, 180, 180, "in the lens"],
    [10, 210, 180, "in the lens"],
    [10, 211, 180, "behind the subject"],
    [20.1, 180, 180, "behind the subject"],
    [30, 225, 180, "behind the subject"],
    [30, 226, 180, "from the side"],
    [30, 314, 180, "from the side"],
    [30, 315, 180, "on the face"],
    [30, 0, 180, "on the face"],
    [30, 350, 10, "behind the subject"],
    [74.9, 180, 180, "behind the subject"],
    // Two degrees off the zenith no side is left: Quito at noon in March.
    [75, 180, 180, "overhead"],
    [88, 91, 330, "overhead"],
    [-1, 180, 180, "below the horizon"],
  ] as const)("sun %s up at %s, camera to %s: %s", (altitude, azimuth, facing, side) =>
    expect(sunSide({ altitude, azimuth }, facing)).toBe(side),
  );

  // A planning rule of our own for a live shot: common practice, no source.
  it.each([
    [2000, "day"],
    [1999, "soft"],
    [400, "soft"],
    [399, "key-and-sky"],
    [100, "key-and-sky"],
    [99, "last-sky"],
    [20, "last-sky"],
    [19, "night"],
  ] as const)("%s lx are %s", (lux, is) => expect(lightClass(lux)).toBe(is));

  it("divides by cloud, 1 where nothing is stated", () => {
    expect(cloudDivisor(null)).toBe(1);
    expect(skyLux(30, "dark") * 10).toBeCloseTo(skyLux(30, null), 6);
  });
});

describe("weather at a place", () => {
  it("takes rows for that place or for all, from inside their time, and the thickest cloud", async () => {
    const day = await dayFrom(
      plan(
        "weather: [{ cloud: thin }, { places: [lodge], cloud: dark }, { from: '06:00', to: '07:00', cloud: average }]",
      ),
    );
    const rows = day.plan.weather;
    const at = day.plan.hits.get("dawn")?.at;
    if (at === undefined) throw new Error("no hit");
    expect(rowsAt(rows, "pier", { from: at, to: at }).length).toBe(1);
    expect(thickestCloud(rowsAt(rows, "lodge", { from: at, to: at }))).toBe("dark");
    expect(thickestCloud([])).toBe(null);
  });
});

describe("hits in the dark", () => {
  it("knows the dawn of the smallest plan as night, and asks for lamps", async () => {
    const { result } = await judge();
    const dawn = result.activities.get("dawn");
    expect(dawn?.sky).toBe("night");
    expect(dawn?.dark).toBe(true);
    expect(dawn?.needs).toContain("key light");
    expect(dawn?.side).toBe(null);
  });

  it("judges by the end of the live window: a slip of the desk into the dark counts", async () => {
    // Sunset at the pier on this day is 16:49 Chicago (checked to the minute in tests/world/sky.test.ts by both packages).
    const hit = (late: string) => `hits: { dusk: { at: "17:47", for: 2 min, late: ${late}, place: pier } }`;
    const early = (await judge(hit("0 min"))).result.activities.get("dusk");
    const slipped = (await judge(hit("10 min"))).result.activities.get("dusk");
    expect(early?.leastLux).toBeGreaterThanOrEqual(DARK_BELOW_LUX);
    expect(early?.dark).toBe(false);
    expect(slipped?.dark).toBe(true);
    expect(slipped?.stops).toBeLessThan(-1);
  });

  it("takes a hit as dark where nothing is known", async () => {
    const { result } = await judge("places: { lodge: {}, pier: {} }");
    expect(result.activities.size).toBe(0);
    expect(isDark(result, "dawn")).toBe(true);
  });
});

describe("findings, each with the same a step better", () => {
  it("light-unknown: a place without coordinates, and with them", async () => {
    const { day, findings } = await judge("places: { lodge: { at: [46.60, -90.88] }, pier: {} }");
    expect(sentences(findings, "light-unknown", day)).toEqual([
      "pier has no coordinates: sun, light and the need for lamps are not known for dawn",
    ]);
    expect(await codes()).not.toContain("light-unknown");
  });

  it("sun-in-lens: within 30 degrees of a low sun, and one degree more", async () => {
    const noon = (facing: number) => `hits: { noon: { at: "13:10", for: 3 min, place: pier, facing: ${facing} } }`;
    const { result } = await judge(noon(0));
    const azimuth = result.activities.get("noon")?.sun.azimuth ?? 0;
    // Noon in January stands over 20 degrees; the same hit in the morning is low.
    expect(await codes(noon(Math.round(azimuth)))).not.toContain("sun-in-lens");
    const morning = (facing: number) => `hits: { noon: { at: "10:30", for: 3 min, place: pier, facing: ${facing} } }`;
    const low = (await judge(morning(0))).result.activities.get("noon")?.sun;
    const seen = low?.azimuth ?? 0;
    expect(low?.altitude).toBeLessThan(20);
    expect(await codes(morning(Math.ceil(seen - 30)))).toContain("sun-in-lens");
    expect(await codes(morning(Math.floor(seen - 31)))).not.toContain("sun-in-lens");
  });

  it("dark-without-lamp: gear without a lamp, with one, in daylight, and a plan without gear", async () => {
    const kit = (lamp: string) => `kit: { camera: { in: wagon, during: hits }${lamp} }`;
    expect(await codes(kit(""))).toContain("dark-without-lamp");
    expect(await codes(kit(", lamp: { in: wagon, during: dark }"))).not.toContain("dark-without-lamp");
    expect(await codes(kit(""), 'hits: { noon: { at: "13:00", for: 3 min, place: pier } }')).not.toContain(
      "dark-without-lamp",
    );
    expect(await codes()).not.toContain("dark-without-lamp");
  });

  it("light-changes-fast: a stop or more over the live window, and a minute less", async () => {
    const hit = (late: number) => `hits: { dusk: { at: "18:05", for: 2 min, late: ${late} min, place: pier } }`;
    const stops = async (late: number) => Math.abs((await judge(hit(late))).result.activities.get("dusk")?.stops ?? 0);
    let late = 0;
    while ((await stops(late)) < 1) late++;
    expect(late).toBeGreaterThan(0);
    expect(await codes(hit(late))).toContain("light-changes-fast");
    expect(await codes(hit(late - 1))).not.toContain("light-changes-fast");
  });
});

describe("far places", () => {
  const at = (place: string) => `places: { lodge: { at: ${place} }, pier: { at: ${place} } }`;
  const data = async (place: string, date: string) => {
    const { day, result } = await judge(at(place), `date: ${date}`);
    const report = lightReport({ ...inputFor(day), result });
    return JSON.parse(JSON.stringify(report.data)) as {
      places: { rise: unknown; civilDawn: unknown }[];
      hits: { sunAltitudeDegrees: number }[];
    };
  };

  it("says polar night and polar day in words", async () => {
    // Longyearbyen: US Naval Observatory tables, tests/world/sky.json.
    expect((await data("[78.22, 15.63]", "2027-12-15")).places[0]?.rise).toBe("polar night");
    const summer = (await data("[78.22, 15.63]", "2027-06-15")).places[0];
    expect([summer?.rise, summer?.civilDawn]).toEqual(["polar day", "polar day"]);
    // Anchorage in June: the sun sets, and civil twilight lasts all night.
    const anchorage = (await data("[61.22, -149.87]", "2027-06-15")).places[0];
    expect(anchorage?.civilDawn).toBe("light all night");
    expect(anchorage?.rise).toMatch(/^2027-06-1\dT\d\d:\d\d/);
  });

  it("works at the poles", async () => {
    for (const pole of ["[90, 0]", "[-90, 0]"]) {
      const { places, hits } = await data(pole, "2027-01-20");
      expect(places[0]?.rise).toBe(pole === "[90, 0]" ? "polar night" : "polar day");
      // The sun's declination that day is about -20 degrees (Meeus, low accuracy).
      expect(Math.abs(hits[0]?.sunAltitudeDegrees ?? 0)).toBeCloseTo(20, 0);
    }
  });
});

describe("bad input", () => {
  it("refuses a bearing of 400 degrees", async () => {
    const { plan: read, findings } = await readOnePlan(
      plan('hits: { dawn: { at: "07:00", for: 3 min, place: pier, facing: 400 } }'),
      {
        file: "day.yaml",
      },
    );
    expect(read).toBe(null);
    expect(findings.map((finding) => finding.path?.join("."))).toContain("hits.dawn.facing");
  });
});
