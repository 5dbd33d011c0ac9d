/**
 * Whole published tables, row by row, of which the files beside this one hold single points; each with its source. None was
 * made by running this program.
 */
import { describe, expect, it } from "vitest";
import { frostbiteWithin } from "../../src/cautions/cold.ts";
import { exhaust } from "../../src/cautions/findings.ts";
import { iceInches, vehicleIceInches } from "../../src/cautions/ice.ts";
import {
  keepOffFeet,
  transitClearanceFeet,
  UNKNOWN_LINE_FEET,
  visibilityClass,
} from "../../src/cautions/structures.ts";
import { GUST_LIMITS, heatBand, heatIndex, windPressure } from "../../src/cautions/weather.ts";
import { BANDS, estimateFromStraight } from "../../src/legs/estimate.ts";
import { DRY, timeFactor } from "../../src/legs/weather.ts";
import { derate } from "../../src/power/physics.ts";
import { cableLoss, halfClock, NEAR_SHARE, reachFor } from "../../src/signal/cable/coax.ts";
import { lookAngle } from "../../src/signal/dish/look.ts";
import { nextSeason } from "../../src/signal/dish/outage.ts";
import { sunTimes } from "../../src/sky/almanac.ts";
import { loadEphemeris } from "../../src/sky/ephemeris.ts";
import { exposureOfLux, LIT_SCENES } from "../../src/sky/exposure.ts";
import { clearSkyLux } from "../../src/sky/light.ts";
import { offsetMinutes } from "../../src/time/index.ts";
import { instant } from "../../src/time/units.ts";
import { at, zoneOf } from "../time/zones.ts";

const sky = await loadEphemeris();
const minute = (iso: string): number => Date.parse(iso) / 60_000;

describe("a geostationary satellite on a sphere (Roddy's formulas, Re 6371 km, a 42164 km)", () => {
  it.each([
    // Central angle, and the elevation at which it is seen.
    [81.3, 0],
    [76.3, 5],
    [71.4, 10],
  ])("%d degrees away it stands %d degrees high", (away, elevation) => {
    const seen = lookAngle({ latitude: 0, longitude: 0 }, away, { radiusKm: 6371, flattening: 0 }, 42164);
    expect(Math.abs(seen.elevation - elevation)).toBeLessThan(0.06);
  });

  it.each([
    // Two rows of the table of outages by latitude (ITU-R S.1525-1 and the sun's declination): latitude, peaks of 2027.
    // The table names no meridian: the southern row is that of Sydney, the northern ones of 95 degrees west.
    [45, -95, "2027-03-03", "2027-10-10"],
    [-34, 151.2, "2027-04-04", "2027-09-09"],
  ])(
    "at %d degrees of latitude the sun stands behind it, on meridian %d, on %s and %s",
    (latitude, east, spring, autumn) => {
      const spot = { latitude, longitude: east };
      const target = { spot, look: lookAngle(spot, east), angle: 1 };
      const peak = (start: string): string => {
        const days = nextSeason(sky, target, minute(start));
        return new Date(days.reduce((a, b) => (b.closest < a.closest ? b : a)).peak * 60_000)
          .toISOString()
          .slice(0, 10);
      };
      expect([peak("2027-01-20T00:00Z"), peak("2027-07-20T00:00Z")]).toEqual([spring, autumn]);
    },
  );
});

describe("light of a clear sky (Explanatory Supplement, l0 + l1 x + l2 x² + l3 x³) and its exposure value", () => {
  it.each([
    [60, 1.03e5, 15.3],
    [45, 7.78e4, 14.9],
    [30, 4.63e4, 14.2],
    [20, 2.74e4, 13.4],
    [15, 1.92e4, 12.9],
    [10, 1.11e4, 12.1],
    [6, 5620, 11.1],
    [5, 4540, 10.8],
    [3, 2690, 10.1],
    [1, 1270, 9.0],
    [0, 759, 8.2],
    [-0.833, 454, 7.5],
    [-2, 189, 6.2],
    [-3, 79.1, 5.0],
    [-4, 29.9, 3.6],
    [-5, 10.4, 2.1],
    [-6, 3.41, 0.4],
    [-8, 0.348, -2.8],
    [-10, 0.0421, -5.9],
    [-12, 0.00806, -8.3],
    [-15, 0.00202, -10.3],
    [-18, 0.000645, -11.9],
  ])("at %d degrees %d lx, EV %d", (altitude, lux, ev) => {
    const ours = clearSkyLux(altitude);
    expect(Math.abs(ours / lux - 1)).toBeLessThan(0.005);
    expect(Math.abs(exposureOfLux(ours) - ev)).toBeLessThan(0.06);
  });

  it.each([
    // Scenes at ISO 100 (published exposure table): lowest and highest value.
    ["bright street", 8, 8],
    ["night street, shop windows", 7, 8],
    ["night traffic", 5, 5],
    ["floodlit building", 3, 5],
    ["distant lit buildings", 2, 2],
    ["full moonlight", -3, -2],
  ])("%s is EV %d to %d", (name, low, high) => {
    expect(LIT_SCENES.find(({ is }) => is === name)).toMatchObject({ lowEv: low, highEv: high });
  });

  it("just after sunset, EV 9 to 11 by the same table, is brighter than what the sky alone gives", () => {
    // The sky at the upper limb's setting: 454 lx, EV 7.5; the scene's sky is brighter than a level surface.
    expect(exposureOfLux(clearSkyLux(-0.833))).toBeLessThan(9);
  });

  it("the sun sets in Golden on 2015-08-02 at 19:13 mountain standard time (US Naval Observatory)", () => {
    const spot = { latitude: 39.742476, longitude: -105.1786 };
    const { set } = sunTimes(sky, spot, instant(minute("2015-08-02T19:00Z")));
    // In standard time, seven hours behind: 02:13 UTC of the next day.
    expect(typeof set === "number" ? Math.abs(set - minute("2015-08-03T02:13Z")) : set).toBeLessThan(1);
  });
});

describe("cold, heat and wind", () => {
  it.each([
    // Environment Canada's bands of the wind chill index, without wind: -28, -40, -48, -55, each with its shorter figure.
    [-27, 0, null],
    [-28, 0, 10],
    [-39, 0, 10],
    [-40, 0, 5],
    [-47, 0, 5],
    [-48, 0, 2],
    [-54, 0, 2],
    [-55, 0, 1],
    // Above 50 km/h of sustained wind the next colder band: -29 at 51 km/h.
    [-15, 51, 5],
  ])("at %d °C and %d km/h bare skin freezes within %s min (Environment Canada)", (air, kmh, minutes) => {
    expect(frostbiteWithin(air, kmh)).toBe(minutes);
  });

  it("skin freezes within 30 min from a wind chill of -18 °F on (National Weather Service)", () => {
    // -18 °F are -27.8 °C; -17 °F are -27.2.
    expect(frostbiteWithin((-18 - 32) / 1.8, 0)).not.toBeNull();
    expect(frostbiteWithin((-17 - 32) / 1.8, 0)).toBeNull();
  });

  it.each([
    [79.9, null],
    [80, "caution"],
    [89.9, "caution"],
    [90, "extreme caution"],
    [102.9, "extreme caution"],
    [103, "danger"],
    [124.9, "danger"],
    [125, "extreme danger"],
  ])("a heat index of %d °F is %s (National Weather Service, lower edges)", (index, band) => {
    expect(heatBand(index)).toBe(band);
  });

  it("82 °F at 90 % are 92 by the adjusted formula, where an older chart has 91 (National Weather Service)", () => {
    expect(Math.round(heatIndex(82, 90))).toBe(92);
  });

  it.each([
    // q = 0.613 v² Pa; 40 mph are 17.88 m/s.
    [40, 196],
    [25, 76.6],
    [45, 248],
  ])("wind of %d mph presses with %d Pa (0.613 v²)", (mph, pascal) => {
    expect(Math.abs(windPressure(mph) - pascal)).toBeLessThan(0.6);
  });

  it("without the maker's limit no mast above gusts of 25 mph, a dish is stowed above 45 (cautious defaults)", () => {
    expect(GUST_LIMITS).toEqual({ mast: 25, dish: 45 });
  });
});

describe("distances, ice and exhaust", () => {
  it.each([
    // Voltages up to and including those of the table, kV, and feet.
    [50, 10],
    [200, 15],
    [350, 20],
    [500, 25],
    [750, 35],
    [1000, 45],
  ])("to %d kV keep %d ft away (29 CFR 1926.1408 Table A)", (kilovolts, feet) => {
    expect(keepOffFeet(kilovolts)).toBe(feet);
    // The step is above the voltage, not at it; the table ends at 1000 kV.
    if (kilovolts < 1000) expect(keepOffFeet(kilovolts + 1)).toBeGreaterThan(feet);
  });

  it("a line of unknown voltage is kept 20 ft away (29 CFR 1926.1408)", () => {
    expect(UNKNOWN_LINE_FEET).toBe(20);
  });

  it("lowered in transit 4 ft, and 4 in more for each 10 kV above 50 (29 CFR 1910.333(c)(3))", () => {
    expect(transitClearanceFeet(50)).toBe(4);
    expect(transitClearanceFeet(80)).toBeCloseTo(5, 9);
  });

  it.each([
    ["foot", 4],
    ["snowmobile", 5],
    ["side-by-side", 7],
    ["car", 9],
    ["truck", 13],
  ] as const)("new clear ice for %s is %d in, twice that of white ice (Minnesota, newer table)", (load, inches) => {
    expect([iceInches(load, false), iceInches(load, true)]).toEqual([inches, 2 * inches]);
  });

  it.each([
    // Gold, 3.5 h²: 16,000 lb are 7,257 kg and need 45.5 cm; 33,000 lb are 14,969 kg and need 65.4; 17 in bear 6.5 t.
    [7257, 45.5],
    [14_969, 65.4],
    [6500, 43.1],
  ])("%d kg need %d cm of clear ice (Gold 1971), rounded up to inches", (kilograms, centimeters) => {
    expect(vehicleIceInches(kilograms)).toBe(Math.ceil(centimeters / 2.54));
  });

  it.each([
    [25, false, 2],
    [50, false, 2],
    [51, false, 3],
    [25, true, 3],
  ])("at %d mph, night %s, clothing is of class %d (ISEA's guidance to 107)", (mph, night, wears) => {
    expect(visibilityClass(mph, night)).toBe(wears);
  });

  it("a generator stands 20 ft from openings with 3 to 4 ft free around it (CPSC, CDC; OSHA)", () => {
    expect(exhaust.entry.why).toContain("20 ft from doors, windows and vents with 3 to 4 ft free around it");
  });
});

describe("cable", () => {
  it.each([
    // Rate in Mb/s, budget in dB, metres of Series 6 at 0.208 dB and of RG-59 at 0.256 dB per 100 ft and root MHz.
    [270, 30, 378, 307],
    [1485, 20, 108, 87],
    [2970, 20, 76, 62],
    [5940, 40, 108, 87],
    [11_880, 40, 76, 62],
  ])("%d Mb/s with %d dB reach %d m on Series 6 and %d on RG-59", (rate, budget, series6, rg59) => {
    const reach = reachFor(budget, halfClock(rate));
    expect(Math.abs(reach - series6)).toBeLessThan(0.6);
    expect(Math.abs((reach * 0.208) / 0.256 - rg59)).toBeLessThan(0.6);
    expect(cableLoss(100)).toBeCloseTo(2.08, 9);
  });

  it("the picture is gone within some 15 m, so a run is near its end from 90 % on (published measurements)", () => {
    expect(NEAR_SHARE).toBe(0.9);
    expect(reachFor(20, halfClock(1485)) * (1 - NEAR_SHARE)).toBeLessThan(15);
  });
});

describe("packs", () => {
  it.each([
    [-20, 0.55],
    [-10, 0.75],
    [0, 0.87],
    [10, 0.95],
    [20, 1],
    [40, 1],
  ])(
    "at %d °C a pack gives %d of its energy (studies from -20 to 45 °C, such as Ji, Zhang and Wang 2013)",
    (air, share) => {
      expect(derate(air)).toBe(share);
    },
  );
});

describe("roads", () => {
  it.each([
    // Mean of road over straight line by country (Ballou and others 2002): inside an estimate of 50 to 300 km.
    ["United States", 1.2],
    ["Canada", 1.3],
    ["Mexico", 1.46],
    ["Brazil", 1.23],
    ["Argentina", 1.22],
    ["Australia", 1.28],
    ["England", 1.4],
    ["Germany", 1.32],
    ["Italy", 1.18],
    ["Europe", 1.46],
    ["Poland", 1.21],
    ["Russia", 1.37],
    ["China", 1.33],
    ["India", 1.31],
    ["Japan", 1.41],
    ["South Africa", 1.23],
  ])("the mean of %s, %d, lies in the range of an estimate of 50 to 300 km", (_, mean) => {
    const band = BANDS[2];
    expect(mean).toBeGreaterThanOrEqual(band?.low ?? Number.NaN);
    expect(mean).toBeLessThanOrEqual(band?.high ?? Number.NaN);
  });

  it.each([
    // Water, mountains and deltas break the rule: the estimate is too short there, which its page says.
    ["New Zealand", 2.05],
    ["France", 1.65],
    ["Spain", 1.58],
    ["Egypt", 2.1],
    ["Alaska", 1.79],
  ])("the mean of %s, %d, lies beyond it, and in that of a short drive no more than by a tenth", (_, mean) => {
    expect(mean).toBeGreaterThan(BANDS[2]?.high ?? Number.NaN);
    expect(mean).toBeLessThanOrEqual(1.1 * (BANDS[0]?.high ?? Number.NaN));
  });

  it("roads are longer by less the farther they go (Giacomin and Levinson)", () => {
    const ratio = (km: number): number => estimateFromStraight(km, null).km / km;
    expect([5, 30, 100, 400].map(ratio)).toEqual([5, 30, 100, 400].map(ratio).toSorted((a, b) => b - a));
  });

  it.each([
    // Reductions of speed on freeways (FHWA Road Weather Management), per cent: no state is planned milder than the least.
    ["wet", 3, 13],
    ["snow", 3, 13],
    ["heavy-snow", 5, 40],
    ["heavy-rain", 3, 16],
    ["fog", 10, 12],
  ] as const)(
    "%s slows by at least the least of %d to %d %%, and heavy snow and fog by no more than the most",
    (state, least, most) => {
      const slower = 100 * (1 - 1 / timeFactor(state));
      expect(slower).toBeGreaterThanOrEqual(least - 1e-9);
      if (state === "heavy-snow" || state === "fog") expect(slower).toBeLessThanOrEqual(most + 1e-9);
    },
  );

  it("a rural road in clear weather has a buffer index of 0.15 (within FHWA's range)", () => {
    expect(DRY.bufferIndex).toBe(0.15);
  });
});

describe("clocks", () => {
  it.each([
    // Between the two changes of March and of autumn New York and London are four hours apart (tz database).
    ["2027-03-13T12:00Z", 5],
    ["2027-03-20T12:00Z", 4],
    ["2027-03-29T12:00Z", 5],
    ["2027-11-03T12:00Z", 4],
    ["2027-11-08T12:00Z", 5],
  ])("at %s London is %d h ahead of New York", (iso, hours) => {
    const offset = (name: string): number => offsetMinutes(zoneOf(name), at(iso));
    expect(offset("Europe/London") - offset("America/New_York")).toBe(hours * 60);
  });

  it.each([
    // Arizona keeps -07 all year, the Navajo Nation follows Denver; Regina and Whitehorse are fixed (tz database).
    ["America/Phoenix", -420, -420],
    ["Navajo", -420, -360],
    ["America/Regina", -360, -360],
    ["America/Whitehorse", -420, -420],
    ["America/Vancouver", -420, -420],
  ])("%s is at %d min in January and %d in July 2027", (name, winter, summer) => {
    const offset = (iso: string): number => offsetMinutes(zoneOf(name), at(iso));
    expect([offset("2027-01-15T18:00Z"), offset("2027-07-15T18:00Z")]).toEqual([winter, summer]);
  });
});
