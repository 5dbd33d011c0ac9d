/** What is interpolated against the ephemeris package asked for each moment itself: its own equator, place by place. */
import { Body, Equator, Horizon, MakeTime, Observer } from "astronomy-engine";
import { describe, expect, it } from "vitest";
import { type Horizontal, separation } from "../../src/sky/angles.ts";
import { loadEphemeris } from "../../src/sky/ephemeris.ts";

const YEAR = 525_960;
/** 2000-01-01T12:00Z in minutes since 1970. */
const J2000 = 15_778_800;

function asked(body: Body, at: number, latitude: number, longitude: number): Horizontal {
  const time = MakeTime((at - J2000) / 1440);
  const observer = new Observer(latitude, longitude, 0);
  const { ra, dec } = Equator(body, time, observer, true, true);
  return Horizon(time, observer, ra, dec);
}

/** Even steps that never fall on the steps of the almanac, from 1950 to 2090. */
const moments = Array.from({ length: 400 }, (_, n) => -20 * YEAR + n * 184_087.37);
const places = [0, 46.8, -33.9, 78.2, 89.99, -90].map((latitude, n) => ({ latitude, longitude: n * 71 - 180 }));

describe("sun and moon between the moments of the almanac", () => {
  it.each([
    ["sun", Body.Sun],
    ["moon", Body.Moon],
  ] as const)("stand within 0.000001 degrees of the package: %s", async (name, body) => {
    const sky = await loadEphemeris();
    let widest = 0;
    for (const at of moments)
      for (const from of places)
        widest = Math.max(widest, separation(sky[name](at, from), asked(body, at, from.latitude, from.longitude)));
    expect(widest).toBeLessThan(1e-6);
  });

  it("meet at the moments themselves, and where the sun's own turn passes noon", async () => {
    const sky = await loadEphemeris();
    const from = { latitude: 46.8, longitude: -90.9 };
    for (let at = 28_000_800 - 3; at <= 28_000_800 + 723; at += 3) {
      const seen = sky.sun(at, from);
      expect(separation(seen, asked(Body.Sun, at, from.latitude, from.longitude))).toBeLessThan(1e-6);
    }
  });
});
