/** Exhaust beside people, and driving at the edge, each with the sentence that the source asks for, worked out by hand. */
import { describe, expect, it } from "vitest";
import { judgedText } from "../cases/judged.ts";
import { day, levels, type Parts, said, TWO_CARS, weather } from "./smallDay.ts";

describe("carbon monoxide", () => {
  const exhaust = async (parts: Parts) => {
    const judged = await judgedText(day(parts));
    return judged.found("caution-exhaust").map(({ level }, at) => `${level}: ${judged.said("caution-exhaust")[at]}`);
  };
  const keepAway = "keep the generator 20 ft from doors, windows and vents, never inside";

  it("names every generator, of the kit and of the places, whatever it is called", async () => {
    const parts: Parts = {
      more: 'kit: { powerGenerator: { in: car }, g2: { name: "spare genset", in: car } }',
      b: ", hazards: [generator in the tent]",
    };
    expect(await exhaust(parts)).toEqual([
      `note: powerGenerator, spare genset, generator at b: carbon monoxide while the engine runs; ${keepAway}`,
    ]);
    expect(await said("caution-hazard", parts)).toEqual(["at b: generator in the tent"]);
  });

  it("is a warning where people sleep by a generator", async () => {
    expect(await exhaust({ a: ", kind: lodging, hazards: [generator]" })).toEqual([
      `warning: wren, bo sleep where a generator runs; carbon monoxide kills sleepers; have an alarm in the room; generator at a: carbon monoxide while the engine runs; ${keepAway}`,
    ]);
  });

  // A rest is planned in the field, and the engine runs for the inverter, or for warmth at −12 °C.
  const NAP: Parts = {
    hits: '{ h: { at: "19:00", for: 3 min, place: b }, k: { at: "23:00", for: 3 min, place: b } }',
    runs: "{ car: { driver: wren, aboard: [wren, bo], stops: [a, { place: b, do: [h, nap, k] }, a] } }",
    vehicles: "{ car: { inverter: 600 W } }",
  };
  const nap = (length: string) => `tasks: { nap: { kind: rest, place: b, for: ${length}, who: [bo] } }`;

  it("is a warning where a rest is planned beside a running engine", async () => {
    expect(await exhaust({ ...NAP, more: nap("2 h") })).toEqual([
      "warning: car: the engine runs while bo rests in or beside it; carbon monoxide kills sleepers; stop the engine or rest elsewhere, and have an alarm aboard",
    ]);
    expect(await levels("caution-exhaust", { ...NAP, more: nap("10 min") })).toEqual(["note"]);
    for (const b of [", mains: true", ", kind: lodging", ", shelter: true"])
      expect(await levels("caution-exhaust", { ...NAP, b, more: nap("2 h") })).not.toContain("warning");
    const cold = { ...NAP, vehicles: "{ car: {} }", more: `${nap("2 h")}\nweather: [{ temp: -12 C }]` };
    expect(await levels("caution-exhaust", cold)).toEqual(["warning"]);
    expect(await levels("caution-exhaust", { ...cold, more: nap("2 h") })).toEqual([]);
  });

  const NIGHT: Parts = {
    runs: "{ car: { driver: wren, aboard: [wren, bo], stops: [a, b] } }",
    crew: "{ wren: { role: camera, drives: [car], sleeps: b }, bo: { role: engineer, sleeps: b } }",
  };

  it("is a warning where people sleep aboard through the night", async () => {
    const night = await exhaust({ ...NIGHT, vehicles: "{ car: { inverter: 600 W, berth: true } }" });
    expect(night.length).toBe(1);
    expect(night[0]).toMatch(/^warning: car: the engine idles overnight while wren, bo sleep aboard/);
    expect(
      await exhaust({ ...NIGHT, b: ", mains: true", vehicles: "{ car: { inverter: 600 W, berth: true } }" }),
    ).toEqual([]);
    expect(await exhaust({ ...NIGHT, b: ", kind: lodging", vehicles: "{ car: { berth: true } }" })).toEqual([]);
  });

  it("counts an engine that runs for warmth or cold while people sleep", async () => {
    const aboard: Parts = { ...NIGHT, vehicles: "{ car: { berth: true } }" };
    expect((await exhaust({ ...aboard, more: weather("{ temp: -20 C }") })).length).toBe(1);
    expect((await exhaust({ ...aboard, more: weather("{ temp: 35 C }") })).length).toBe(1);
    expect(await exhaust({ ...aboard, more: weather("{ temp: 18 C }") })).toEqual([]);
    expect(await exhaust(aboard)).toEqual([]);
  });

  it("is a note beside people at work, with snow, and nothing on mains", async () => {
    const inverter = "{ car: { inverter: 600 W } }";
    expect(await exhaust({ vehicles: inverter, more: weather("{ road: snow }") })).toEqual([
      "note: car: carbon monoxide while the engine runs; point the exhaust away from people; clear snow from the exhaust first",
    ]);
    expect(await exhaust({ vehicles: inverter, b: ", mains: true" })).toEqual([]);
  });
});

describe("on the road", () => {
  const roads = async (text: string, parts: Parts = {}) => {
    const judged = await judgedText(day({ ...parts, more: weather(text) }));
    return judged.found("caution-road").map(({ level, facts }) => `${level} ${String(facts["state"])}`);
  };

  it("tells of every state that holds, not of the slowest alone", async () => {
    expect(await roads("{ road: fog }, { road: ice }")).toEqual(["warning ice", "note fog"]);
    expect(await roads("{ road: snow }, { road: heavy-snow }")).toEqual(["warning heavy-snow"]);
    expect(await roads('{ road: ice, to: "17:00" }, { road: fog }')).toEqual(["note fog"]);
    expect(await roads('{ road: ice, from: "18:30", to: "19:30" }')).toEqual([]); // the car stands
  });

  it("a wet road at or below freezing is ice (common practice, no source)", async () => {
    expect(await roads("{ road: wet, temp: -3 C }")).toEqual(["warning freezing-rain"]);
    expect(await roads("{ road: heavy-rain }, { temp: 0 C }")).toEqual(["warning freezing-rain"]);
    expect(await roads("{ road: wet, temp: 1 C }")).toEqual([]);
    expect(await roads("{ road: wet }")).toEqual([]);
  });

  it("fog in the night", async () => {
    expect(await roads("{ road: fog }", { hits: '{ h: { at: "05:00", for: 3 min, place: b } }' })).toEqual([
      "note fog",
    ]);
  });

  const wind = (vehicles: string, more = "", hits?: string) =>
    levels("caution-wind-driving", {
      vehicles,
      more: `${weather("{ gust: 45 mph }")}\n${more}`,
      ...(hits === undefined ? {} : { hits }),
    });
  it("a high vehicle is one that is heavy, tows, has a berth, carries a dish, or is called so", async () => {
    expect(await wind("{ car: {} }")).toEqual([]);
    expect(await wind('{ car: { name: "high-roof van" } }')).toEqual(["note"]);
    expect(await wind('{ car: { name: "the high van" } }')).toEqual(["note"]);
    expect(await wind("{ car: { berth: true } }")).toEqual(["note"]);
    const dish = "paths: { dish: { kind: satellite, vehicle: car, slot: 101 west } }";
    expect(await wind("{ car: {} }", dish, '{ h: { at: "19:00", for: 3 min, place: b, path: dish } }')).toEqual([
      "note",
    ]);
  });

  it("a storm counts for every vehicle, and the advice is to stay where it stands (Mackinac Bridge Authority, from memory)", async () => {
    const storm = async (vehicles: string, gust: string): Promise<readonly string[]> =>
      said("caution-wind-driving", { vehicles, more: weather(`{ gust: ${gust} }`) });
    expect((await storm("{ car: {} }", "65 mph"))[0]).toMatch(
      /wind up to 105 km\/h \(65 mph\) against any vehicle; stay off bridges and open ground until it drops$/,
    );
    expect((await storm("{ car: { berth: true } }", "50 mph"))[0]).toMatch(/a high vehicle; stay off bridges/);
    expect((await storm("{ car: { berth: true } }", "49 mph"))[0]).toMatch(/a high vehicle; slow down on bridges/);
  });

  it("alone without signal: one car, not two that drive together", async () => {
    const roads = "[ { link: [a, b], drive: 20 min, bad: 30 min, noSignal: true } ]";
    expect(await said("caution-alone", { ...TWO_CARS, roads })).toEqual([]);
    const one: Parts = {
      crew: "{ wren: { role: camera, drives: [car] } }",
      runs: "{ car: { driver: wren, stops: [a, b, a] } }",
    };
    expect((await said("caution-alone", { ...one, roads })).length).toBe(2); // there and back
  });
});
