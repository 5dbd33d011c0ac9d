import { describe, expect, it } from "vitest";
import type { Leg } from "../../src/legs/leg.ts";
import { legKey } from "../../src/legs/leg.ts";
import { legsOf } from "../../src/legs/legs.ts";
import { byId, place, plan, road, run } from "../day/parts.ts";

const leg = async (parts: Parameters<typeof plan>[0], from = "lodge", to = "pier"): Promise<Leg | undefined> =>
  (await legsOf(plan(parts))).get(legKey(from, to));

const runs = byId(run("wagon", ["lodge", "pier", "lodge"]));
const bare = byId(place("lodge"), place("pier"));
const mapped = byId(
  place("lodge", { at: { latitude: 46.6, longitude: -90.88 } }),
  place("pier", { at: { latitude: 46.81, longitude: -90.82 } }),
);
const stated = road("lodge", "pier", { driveMinutes: 35, badMinutes: 50 });

describe("a stated road", () => {
  it("holds both ways unless it is one-way", async () => {
    expect(await leg({ runs, places: bare, roads: [stated] })).toMatchObject({ likelyMinutes: 35, basis: "stated" });
    expect(await leg({ runs, places: bare, roads: [stated] }, "pier", "lodge")).toMatchObject({ likelyMinutes: 35 });
    const there = { ...stated, oneWay: true };
    expect(await leg({ runs, places: mapped, roads: [there] }, "pier", "lodge")).toMatchObject({ basis: "estimated" });
  });

  it("in this direction goes before one stated the other way round", async () => {
    const back = road("pier", "lodge", { driveMinutes: 41, oneWay: true });
    const roads = [stated, back];
    expect(await leg({ runs, places: bare, roads }, "pier", "lodge")).toMatchObject({ likelyMinutes: 41 });
    expect(await leg({ runs, places: bare, roads })).toMatchObject({ likelyMinutes: 35 });
  });

  it("is not put together from other roads", async () => {
    const roads = [road("lodge", "fuel", { driveMinutes: 5 }), road("fuel", "pier", { driveMinutes: 5 })];
    await expect(legsOf(plan({ runs, places: bare, roads }))).rejects.toThrow("from lodge to pier");
  });

  it("goes before a routing server's answer, which fills in the length", async () => {
    const routed = new Map([[legKey("lodge", "pier"), { minutes: 33, km: 41.5, line: null }]]);
    const legs = await legsOf(plan({ runs, places: bare, roads: [stated] }), routed);
    expect(legs.get(legKey("lodge", "pier"))).toMatchObject({ likelyMinutes: 35, km: 41.5, basis: "stated" });
  });

  it("of a length only is estimated from that length", async () => {
    const roads = [road("lodge", "pier", { km: 60 })];
    const places = byId(place("lodge", { roadSpeedKmh: 90 }), place("pier", { roadSpeedKmh: 60 }));
    const found = await leg({ runs, places, roads });
    expect(found).toMatchObject({ km: 60, basis: "estimated" });
    expect(found?.likelyMinutes).toBeCloseTo(60, 9); // the slower of the two ends
  });
});

describe("a routed leg", () => {
  it("goes before an estimate", async () => {
    const routed = new Map([[legKey("lodge", "pier"), { minutes: 33.4, km: 41.5, line: null }]]);
    const legs = await legsOf(plan({ runs, places: mapped }), routed);
    expect(legs.get(legKey("lodge", "pier"))).toMatchObject({ likelyMinutes: 33.4, km: 41.5, basis: "routed" });
    expect(legs.get(legKey("pier", "lodge"))).toMatchObject({ basis: "estimated" });
  });
});

describe("an estimated leg", () => {
  it("is straight line × circuity ÷ speed in each band that it runs through, with their range", async () => {
    // 23.8 km on the ellipsoid: 0.21° of latitude at 111.17 km and 0.06° of longitude at 76.4 km (hand-worked).
    const straight = Math.hypot(0.21 * 111.17, 0.06 * 76.4);
    const found = await leg({ runs, places: mapped });
    // The first 10 km × 1.45 (1.2 to 2.0) at 40 km/h, a km in 1.5 min; the rest × 1.35 (1.15 to 1.7) at a km a minute.
    const rest = straight - 10;
    expect(found?.km).toBeCloseTo(14.5 + rest * 1.35, 1);
    expect(found?.likelyMinutes).toBeCloseTo(14.5 * 1.5 + rest * 1.35, 1);
    expect(found?.range?.lowMinutes).toBeCloseTo(12 * 1.5 + rest * 1.15, 1);
    expect(found?.range?.highMinutes).toBeCloseTo(20 * 1.5 + rest * 1.7, 1);
    expect(found?.badMinutes).toBeNull();
  });
});

it("a stop at the place before takes no drive", async () => {
  const twice = byId(run("wagon", ["lodge", "lodge"]));
  expect(await leg({ runs: twice, places: bare }, "lodge", "lodge")).toMatchObject({ likelyMinutes: 0, km: 0 });
});

it("ids that are names of object properties are ordinary ids", async () => {
  const places = byId(place("__proto__"), place("constructor"));
  const roads = [road("__proto__", "constructor", { driveMinutes: 7 })];
  const found = await leg(
    { runs: byId(run("wagon", ["__proto__", "constructor"])), places, roads },
    "__proto__",
    "constructor",
  );
  expect(found?.likelyMinutes).toBe(7);
});
