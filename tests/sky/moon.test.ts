/** The moon beside the sun's times: phases by the calendar of eclipses, words and lit share by arithmetic. */
import { Body, MakeTime, Observer, SearchRiseSet } from "astronomy-engine";
import { describe, expect, it } from "vitest";
import { moonLitShare, moonTimes, phaseWord } from "../../src/sky/almanac.ts";
import { loadEphemeris } from "../../src/sky/ephemeris.ts";
import { assess } from "../../src/sky/index.ts";
import { instant } from "../../src/time/index.ts";
import { dayFrom, inputOf, plan } from "./days.ts";

const at = (iso: string) => instant(Date.parse(iso) / 60_000);

describe("the moon", () => {
  // NASA GSFC, Five Millennium Catalogs of eclipses: the sun is darkened at new moon only, the moon at full moon only.
  it.each([
    ["2027-02-06T16:00Z", "new moon", 0],
    ["2027-08-02T10:07Z", "new moon", 0],
    ["2025-09-07T18:12Z", "full moon", 1],
    ["2026-03-03T11:34Z", "full moon", 1],
  ])("at the eclipse of %s is a %s, lit to %i", async (iso, phase, share) => {
    const { result } = await assess(inputOf(await dayFrom(plan())));
    const moon = result.moon("pier", at(iso));
    expect(moon?.phase).toBe(phase);
    expect(moon?.litShare).toBeCloseTo(share, 2);
  });

  it.each([
    ["pier", 46.81, -90.82],
    ["Singapore", 1.28, 103.83],
    ["Longyearbyen", 78.22, 15.63],
    ["Auckland", -36.83, 174.8],
  ])(
    "rises and sets over %s within a minute of the package's own search, on sixty days",
    async (_, latitude, longitude) => {
      const sky = await loadEphemeris();
      const observer = new Observer(latitude, longitude, 0);
      const minuteOf = (direction: 1 | -1, from: number): number | null => {
        const found = SearchRiseSet(Body.Moon, observer, direction, MakeTime((from - 15_778_800) / 1440), 1);
        return found === null ? null : found.ut * 1440 + 15_778_800;
      };
      for (let day = 0; day < 60; day++) {
        const from = at("2027-01-01T05:00Z") + day * 1440;
        const { rise, set, all } = moonTimes(sky, { latitude, longitude }, instant(from), instant(from + 1440));
        for (const [own, theirs] of [
          [rise, minuteOf(1, from)],
          [set, minuteOf(-1, from)],
        ] as const) {
          // Near the pole the moon skims the horizon for minutes; what one search has a moment outside the day differs.
          const near = theirs !== null && (theirs - from < 2 || from + 1440 - theirs < 2);
          if (near) continue;
          expect(own === null).toBe(theirs === null);
          if (own !== null && theirs !== null)
            expect(Math.abs(own - theirs)).toBeLessThan(Math.abs(latitude) > 70 ? 6 : 1);
        }
        expect(all === null).toBe(rise !== null || set !== null);
      }
    },
  );

  it("waxes after new and wanes after full: a week later it is half lit", async () => {
    const { result } = await assess(inputOf(await dayFrom(plan())));
    // A quarter of the synodic month of 29.53 days is 7.38 days; the moon's uneven pace moves it by less than a day.
    expect(result.moon("pier", at("2027-02-14T01:00Z"))?.phase).toBe("first quarter");
    expect(result.moon("pier", at("2026-03-10T20:00Z"))?.phase).toBe("last quarter");
    expect(result.moon("nowhere", at("2026-03-10T20:00Z"))).toBeNull();
  });

  it("holds a principal phase for 22.5 degrees to either side", () => {
    const words = [0, 22.4, 22.6, 67.4, 67.6, 112.4, 112.6, 180, 202.6, 270, 292.6, 337.4, 337.6].map(phaseWord);
    expect(words).toEqual([
      "new moon",
      "new moon",
      "waxing crescent",
      "waxing crescent",
      "first quarter",
      "first quarter",
      "waxing gibbous",
      "full moon",
      "waning gibbous",
      "last quarter",
      "waning crescent",
      "waning crescent",
      "new moon",
    ]);
  });

  it("is lit by half its disc at the quarters, by a quarter of it at 60 degrees", () => {
    expect([0, 60, 90, 180, 270].map((elongation) => Number(moonLitShare(elongation).toFixed(6)))).toEqual([
      0, 0.25, 0.5, 1, 0.5,
    ]);
  });
});
