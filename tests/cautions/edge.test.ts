/**
 * Small days at the edge, each with the sentence that the source asks for, worked out by hand.
 *
 * MN: Minnesota Department of Natural Resources, ice (newer table; parked vehicles 50 ft apart, moved every two hours; double
 * after six hours above freezing). EC: Environment Canada's bands of the wind chill index. NWS: National Weather Service.
 */
import { describe, expect, it } from "vitest";
import { judgedText } from "../cases/judged.ts";
import { day, levels, type Parts, said, TWO_CARS, weather } from "./smallDay.ts";

const ice = async (text: string, parts: Parts = {}): Promise<string> => {
  const [only, ...more] = await said("caution-ice", { ...parts, b: `, hazards: ["${text}"]${parts.b ?? ""}` });
  expect(more).toEqual([]);
  return only ?? "";
};

describe("ice", () => {
  it.each([
    // A figure is the one that is written, whatever its shape.
    ["ice 4 1/2 in", /^at b: 4\.5 in of clear ice is too thin for car:/],
    ["ice 4½ in", /4\.5 in of clear ice/],
    ["ice ½ in", /0\.5 in of clear ice is too thin:/],
    ["ice 1 ft 2 in", /14 in of clear ice is too thin for car/],
    ["ice 1.5 ft", /18 in of clear ice: people on foot/],
    ["ice 0.3 m", /30 cm of clear ice is too thin for car: people on foot need at least 11 cm/], // 4 in are 10.2 cm, 17 in 43.2
    ["ice 25 cm", /25 cm of clear ice is too thin for car/],
    // What a load needs and what is there are compared in the unit in which both are printed: 10.5 cm are 4.13 in, and a
    // person needs 4 in, 10.16 cm, which is 11 cm rounded up.
    ["ice 10.5 cm", /^at b: 10\.5 cm of clear ice is too thin: people on foot need at least 11 cm/],
    ["ice 11 cm", /^at b: 11 cm of clear ice is too thin for car: /],
    ["ice 4 in", /^at b: 4 in of clear ice is too thin for car: people on foot need at least 4 in/],
    ["white ice 8 in", /4 in of clear ice is too thin for car/], // half of it
    // How far away or over how much water says nothing of its thickness.
    ["ice 400 m from shore", /^at b: stay off the ice: people on foot need at least 11 cm/],
    ["ice 2 m from the pier", /stay off the ice/],
    ["ice 20 in over 2 ft of water", /20 in of clear ice: people on foot/],
    ["ten inches of ice", /stay off the ice/],
    ["frozen lake", /stay off the ice/],
  ])("%s", async (text, expected) => {
    expect(await ice(text)).toMatch(expected);
  });

  it("a figure in inches stays in inches beside a weight in kilograms; a car of 2000 kg needs 12 in, or 30.48 cm (MN)", async () => {
    const car: Parts = { vehicles: "{ car: { gross: 2000 kg } }" };
    expect(await ice("ice 12 in", car)).toMatch(/^at b: 12 in of clear ice: .* car \(2000 kg\) needs at least 12 in;/);
    expect(await ice("ice 30.5 cm", car)).toMatch(
      /^at b: 30\.5 cm of clear ice is too thin for car: .* at least 31 cm;/,
    );
    expect(await ice("ice 31 cm", car)).toMatch(/^at b: 31 cm of clear ice: /);
  });

  it("a number without a unit is printed as it stands, and nothing is read from it", async () => {
    expect(await ice("ice 12")).toMatch(/^at b: stay off the ice/);
    expect(await said("caution-hazard", { b: ', hazards: ["ice 12"]' })).toEqual(["at b: ice 12"]);
    expect(await said("caution-hazard", { b: ', hazards: ["lines 138"]' })).toEqual(["at b: lines 138"]);
    for (const text of ["ice 12 in", "ice 8-12 in", "ice 8 to 12 in", "ice 12cm", "lines 138 kV", "roadside 65 mph"])
      expect(await said("caution-hazard", { b: `, hazards: ["${text}"]` })).toEqual([]);
  });

  it("two vehicles at once park apart, and one that stays moves (MN)", async () => {
    expect(await ice("ice 20 in", TWO_CARS)).toBe(
      "at b: 20 in of clear ice: people on foot need at least 4 in, car (4000 lb) needs at least 12 in, van (7000 lb) needs at least 17 in; park 50 ft apart; no ice is safe",
    );
    const long = '{ h: { at: "15:00", for: 3 min, place: b }, i: { at: "19:00", for: 3 min, place: b } }';
    expect(await ice("ice 20 in", { hits: long })).toMatch(/; move parked vehicles every 2 h; no ice is safe$/);
    expect(await ice("ice 60 cm", { ...TWO_CARS, hits: long })).toMatch(
      /park 16 m apart and move parked vehicles every 2 h/, // 50 ft are 15.24 m
    );
    expect(await ice("ice 20 in")).toMatch(/at least 17 in; no ice is safe$/);
  });

  it("a day above freezing halves what ice bears; an hour does not (MN)", async () => {
    const row = (text: string): Parts => ({ vehicles: "{ car: { gross: 4000 lb } }", more: weather(text) });
    const thaw = await ice("ice 20 in", row("{ temp: 2 C }"));
    expect(thaw).toMatch(
      /20 in of clear ice is too thin for car: people on foot need at least 8 in, car .* needs at least 24 in; figures doubled for 6 h or more above freezing/,
    );
    expect(await ice("ice 24 in", row("{ temp: 2 C }"))).not.toContain("too thin"); // 12 in for a car, doubled
    expect(await ice("ice 7 in", row("{ temp: 2 C }"))).toContain(
      "too thin: people on foot need at least 8 in, car (4000 lb) needs at least 24 in",
    );
    const hours = (...of: readonly string[]): string =>
      of
        .map((from) => `{ from: "${from}:00", to: "${String(Number(from) + 2).padStart(2, "0")}:00", temp: 2 C }`)
        .join(", ");
    // A forecast in rows of two hours: three in a row are six hours, with a gap between they are not.
    expect(await ice("ice 20 in", row(hours("12", "14", "16")))).toContain("figures doubled");
    expect(await ice("ice 20 in", row(hours("16", "12", "14")))).toContain("figures doubled");
    expect(await ice("ice 20 in", row(hours("10", "12", "16")))).not.toContain("figures doubled");
    expect(await ice("ice 20 in", row('{ from: "18:00", to: "19:00", temp: 2 C }'))).not.toContain("above freezing");
    expect(await ice("ice 20 in", row("{ temp: 0 C }"))).not.toContain("above freezing");
  });

  it("a place where a vehicle only stops counts", async () => {
    const parts: Parts = {
      places:
        "{ a: { at: [46.6, -90.8], zone: UTC }, c: { at: [46.65, -90.8], zone: UTC, hazards: [ice 3 in] }, b: { at: [46.7, -90.8], zone: UTC } }",
      roads: "[ { link: [a, c], drive: 10 min }, { link: [c, b], drive: 10 min } ]",
      runs: "{ car: { driver: wren, aboard: [wren, bo], stops: [a, c, b, c, a] } }",
    };
    expect(await levels("caution-ice", parts)).toEqual(["error"]);
  });

  it.each(["black ice", "icy steps", "ice on the road"])(
    "%s is what people slip on, not what bears them",
    async (text) => {
      const parts: Parts = { b: `, hazards: [${text}]` };
      expect(await said("caution-ice", parts)).toEqual([]);
      expect(await said("caution-hazard", parts)).toEqual([`at b: ${text}`]);
    },
  );
});

describe("hazards in people's own words", () => {
  const of = (text: string): Parts => ({ b: `, hazards: ["${text}"]` });

  it("prints an entry of which one word is known and another is not", async () => {
    const bears = await judgedText(day(of("ice and polar bears")));
    expect(bears.said("caution-ice").length).toBe(1);
    expect(bears.said("caution-hazard")).toEqual(["at b: ice and polar bears"]);
    expect(await said("caution-hazard", of("overhead power lines 138 kV"))).toEqual([]);
  });

  it.each([
    // 29 CFR 1926.1408 Table A: 25 ft to 500 kV, 15 ft to 200 kV; 20 ft where nothing says how much.
    ["high voltage 400 kV", /^at b: overhead lines of 400 kV: keep mast and dish at least 25 ft away/],
    ["danger 138 kV", /^at b: overhead lines of 138 kV: keep mast and dish at least 15 ft away/],
    ["high voltage", /^at b: overhead lines of unknown voltage: keep mast and dish at least 20 ft away/],
  ])("takes %s for power lines, though no word says lines", async (text, expected) => {
    const [only, ...more] = await said("caution-lines", of(text));
    expect([only, more]).toEqual([expect.stringMatching(expected), []]);
  });

  it("but not a socket of 230 V", async () => {
    expect(await said("caution-lines", of("wet sockets 230 V"))).toEqual([]);
    expect(await said("caution-hazard", of("wet sockets 230 V"))).toEqual(["at b: wet sockets 230 V"]);
  });

  it("reads capitals, one text for a list, and leaves an empty one", async () => {
    expect(await said("caution-lines", of("POWER LINES 33kV"))).toEqual([
      // 29 CFR 1926.1408 Table A to 50 kV: 10 ft; in transit Table T of 1926.1411 (from memory): 6 ft.
      "at b: overhead lines of 33 kV: keep mast and dish at least 10 ft away, 6 ft in transit with it lowered",
    ]);
    const both = await judgedText(day({ b: ', hazards: "ice 12 cm, road 50 mph"' }));
    expect([both.said("caution-ice").length, both.said("caution-roadside").length]).toEqual([1, 1]);
    expect(await said("caution-hazard", of(""))).toEqual([]);
    expect(await said("caution-hazard", of("Hochspannung"))).toEqual(["at b: Hochspannung"]);
  });

  it("prints a long one whole", async () => {
    const long = `loose rock ${"above the path ".repeat(20)}and adders`;
    expect(await said("caution-hazard", of(long))).toEqual([`at b: ${long}`]);
  });

  it.each([
    ["overhed cabels", "caution-lines"],
    ["pylons", "caution-lines"],
    ["highwy", "caution-roadside"],
    ["generatr", "caution-exhaust"],
    ["gensets", "caution-exhaust"],
    ["frozen river", "caution-ice"],
    ["harbour", "caution-water"],
  ])("%s", async (text, code) => {
    expect((await said(code, of(text))).length).toBe(1);
  });

  it.each([
    // 29 CFR 1926.1408 Table A: 15 ft to 200 kV, 20 to 350, 25 to 500; an unknown line 20.
    ["lines 69 000 V", 15],
    ["lines 69,000 V", 15],
    ["lines 350.1 kV", 25],
    ["lines 20 kilovolts", 10],
    ["lines", 20],
  ])("%s: %d ft", async (text, feet) => {
    expect((await said("caution-lines", of(text)))[0]).toContain(`at least ${feet} ft away`);
  });
});

describe("cold, wet, heat", () => {
  const row = (text: string, more: Parts = {}): Parts => ({ ...more, more: weather(text) });

  it.each([
    // EC: −48 to −54 in 2 to 5 min, −55 and colder in less than 2; above 50 km/h the next colder band.
    ["{ temp: -50 C }", "feels like −50 °C (−50 °C, wind not stated); bare skin freezes within 2 min"],
    ["{ temp: -56 C }", "bare skin freezes in less than 2 min"],
    ["{ temp: -58 F }", "feels like −50 °C"],
    // 2001 formula: −20 °C and 60 km/h are −36.4; EC: −28 to −39 are 10 to 30 min, above 50 km/h 5 to 10.
    ["{ temp: -20 C, gust: 60 km/h }", "feels like −36 °C (−20 °C, 60 km/h); bare skin freezes within 5 min"],
    ["{ temp: -20 C, wind: 60 km/h, gust: 20 km/h }", "(−20 °C, 60 km/h); bare skin freezes within 5 min"],
    // Wind in a row of its own, at the same time.
    ["{ temp: -20 C }, { wind: 60 km/h }", "(−20 °C, 60 km/h); bare skin freezes within 5 min"],
  ])("%s", async (text, expected) => {
    expect((await said("caution-wind-chill", row(text)))[0]).toContain(expected);
  });

  it("a wind that has gone when the cold comes does not count with it", async () => {
    const text = '{ to: "18:30", wind: 60 km/h, temp: 0 C }, { from: "18:30", temp: -20 C }';
    expect((await said("caution-wind-chill", row(text)))[0]).toContain("(−20 °C, wind not stated); cover skin");
  });

  it("a hit on the road is outside", async () => {
    const parts = row("{ temp: -35 C, wind: 30 km/h }", { hits: '{ h: { at: "19:00", for: 3 min, onRoad: [a, b] } }' });
    // −35 °C and 30 km/h: −52.4, EC 2 to 5 min. In position 10 min before, ten more until the desk clears.
    expect(await said("caution-wind-chill", parts)).toEqual([
      "on the road between a, b, 18:50 UTC to 19:13 UTC: feels like −52 °C (−35 °C, 30 km/h); bare skin freezes within 2 min",
    ]);
  });

  it.each([
    // CDC: trench foot at up to 60 °F.
    ["{ temp: 60 F, road: wet }", 1],
    ["{ temp: 61 F, road: wet }", 0],
    ["{ temp: 0 C, road: snow }", 1],
    ["{ temp: -4 C, road: snow }", 0],
    ["{ temp: -4 C, road: heavy-rain }", 1],
    // The cold was dry and is over when the rain comes.
    ['{ to: "18:20", temp: -10 C }, { from: "18:20", temp: 3 C, road: wet }', 1],
    ["{ temp: 3 C }, { road: wet }", 1],
    ['{ to: "18:20", temp: 3 C }, { from: "18:20", temp: 20 C, road: wet }', 0],
  ])("wet: %s", async (text, count) => {
    expect((await said("caution-wet-cold", row(text))).length).toBe(count);
  });

  it("48 °C: without humidity the air's temperature, with it not beyond the end of the chart (NWS)", async () => {
    expect((await said("caution-heat", row("{ temp: 48 C }")))[0]).toContain(
      "heat index 48 °C (118 °F; humidity not stated",
    );
    expect((await said("caution-heat", row("{ temp: 48 C, humidity: 60% }")))[0]).toContain(
      "heat index over 58 °C (137 °F), extreme danger",
    );
    // The damp of the morning is not that of the noon: 95 °F at 50 % are 105 °F, at 90 % they would be 147.
    const text = '{ to: "18:20", temp: 20 C, humidity: 90% }, { from: "18:20", temp: 95 F, humidity: 50% }';
    expect((await said("caution-heat", row(text)))[0]).toContain("heat index 41 °C (105 °F), danger");
  });

  it("lightning during strike alone counts, with its minutes", async () => {
    expect(await said("caution-lightning", row('{ from: "19:20", lightning: true }'))).toEqual([
      "at b, 19:20 UTC to 19:33 UTC: thunderstorms; at the first thunder lower mast and dish and go inside, and stay there until 30 min after the last",
    ]);
  });

  it("over midnight, in a wait between two hits, in a standby; not at a meal", async () => {
    const night = row('{ from: "23:00", to: "01:00 +1d", temp: -40 C }', {
      hits: '{ h: { at: "00:30 +1d", for: 3 min, place: b } }',
    });
    expect((await said("caution-wind-chill", night))[0]).toMatch(
      /^at b, 23:40 UTC to Thu 01:00 UTC: feels like −40 °C/,
    );
    const wait = row('{ from: "12:00", to: "14:00", temp: -30 C }', {
      hits: '{ h: { at: "10:00", for: 3 min, place: b }, i: { at: "16:00", for: 3 min, place: b } }',
    });
    expect((await said("caution-wind-chill", wait))[0]).toMatch(/^at b, 12:00 UTC to 14:00 UTC: feels like −30 °C/);
    const task = (kind: string): Parts => ({
      hits: "{}",
      more: `tasks: { s: { kind: ${kind}, place: b, for: 2 h, window: ["10:00", "12:00"] } }\n${weather("{ lightning: true }")}`,
    });
    expect((await said("caution-lightning", task("standby"))).length).toBe(1);
    expect(await said("caution-lightning", task("meal"))).toEqual([]);
  });

  it("a hurricane is Beaufort 12, the end of the scale", async () => {
    expect((await said("caution-wind", row("{ wind: 300 km/h }")))[0]).toContain(
      "wind up to 300 km/h (187 mph), Beaufort 12",
    );
  });

  it("wind without a temperature is told as wind, rounded up", async () => {
    const wind = await judgedText(day(row("{ wind: 70 km/h }"))); // 43.5 mph
    expect(wind.said("caution-wind-chill")).toEqual([]);
    expect(wind.said("caution-wind")[0]).toContain("wind up to 70 km/h (44 mph), Beaufort 8");
  });
});
