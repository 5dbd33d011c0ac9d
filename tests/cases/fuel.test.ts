/** Tanks over days, without a level, with a stop on the road, in the cold; each with the arithmetic of what it should say. */
import { describe, expect, it } from "vitest";
import { type Case, judgedFile, judgedText } from "./judged.ts";

const short = ({ found }: Case) =>
  found("fuel-short").map(({ level, facts }) => ({ level, left: facts["leftKm"], within: facts["withinKm"] }));

describe("a level in a file that all days share is the first day's", () => {
  // 500 km of range, 2 × 160 km a day: 180 km are left in the evening, 140 km too few for the second day.
  it.each(["fuel", "fuel-day1"])("%s: the second day starts with what the first one left", async (name) => {
    const second = await judgedFile(`fixtures/cases/chain/${name}/2027-05-11.yaml`);
    expect(short(second)).toEqual([{ level: "error", left: -140, within: 105 }]); // 180 − 75 of reserve
    expect(second.found("fuel-restated")).toEqual([]);
    expect(short(await judgedFile(`fixtures/cases/chain/${name}/2027-05-10.yaml`))).toEqual([]);
  });

  const SHARED = `clock: America/Chicago
zone: America/Chicago
crew: { pia: { role: engineer, drives: truck, slept: motel, sleeps: motel } }
vehicles: { truck: { range: 500 km, fuel: 80% } }
places: { motel: {}, dock: {} }
roads: [ { link: [motel, dock], drive: 1 h, bad: 1 h, km: 80 } ]
runs: { truck: [motel, dock, motel] }
`;
  const day = (date: string, more: string) =>
    `daywright: 1\nuses: share.yaml\ndate: ${date}\nhits: { noon: { at: "12:00", for: 3 min, place: dock } }\n${more}`;
  const chain = async (...mores: readonly string[]) => {
    const texts = mores.map((more, index) => {
      const follows = index === 0 ? "" : `follows: ${index}.yaml\n`;
      return day(`2027-05-1${index}`, `${follows}${more}`);
    });
    const files = Object.fromEntries(texts.slice(0, -1).map((text, index) => [`${index + 1}.yaml`, text]));
    return judgedText(texts.at(-1) ?? "", { ...files, "share.yaml": SHARED });
  };
  const startOf = ({ results }: Case) => results.roads?.fuel[0]?.startKm;

  it("over three days, 160 km each of 400", async () => {
    expect(startOf(await chain(""))).toBe(400);
    expect(startOf(await chain("", ""))).toBe(240);
    expect(startOf(await chain("", "", ""))).toBe(80);
  });

  it("a level in a later day's own file wins, and a note says so", async () => {
    const full = await chain("", "vehicles: { truck: { fuel: 100% } }");
    expect(startOf(full)).toBe(500);
    expect(full.said("fuel-restated")).toEqual([
      "truck starts with 100 % of fuel as this day's file states; the day before ends with 48 %", // 240 of 500
    ]);
    expect(startOf(await chain("", "vehicles: { truck: { fuel: 100% } }", ""))).toBe(340);
  });

  it("the same level again is no news", async () => {
    const same = await chain("", "vehicles: { truck: { fuel: 48% } }");
    expect(same.found("fuel-restated")).toEqual([]);
  });

  it("a vehicle that a day in between leaves out keeps its tank", async () => {
    const away =
      "vehicles: { truck: off, car: {} }\ncrew: { pia: { drives: car } }\nruns: { truck: off, car: [motel, dock, motel] }";
    expect(startOf(await chain("", away, ""))).toBe(240);
  });

  it("a level logged at night is where the next day starts", async () => {
    expect(startOf(await chain("actual: { truck: { fuel: 30% } }", ""))).toBe(150);
  });
});

describe("without a level a full tank is assumed, and said", () => {
  it("850 km on a range of 100: short whatever the level", async () => {
    const day = await judgedFile("fixtures/cases/world/fuel-no-level.yaml");
    expect(short(day)).toEqual([{ level: "error", left: -750, within: 85 }]); // 100 − 850; 100 − 15 of reserve
    expect(day.said("fuel-not-stated")).toEqual([
      "the fuel in car at the start is not stated; until the first fuel stop it needs 850 km of range, 865 % of a tank with the reserve",
    ]);
  });

  const trip = (vehicle: string, km: number, more = "") =>
    judgedText(`daywright: 1
date: 2027-05-10
clock: UTC
crew: { wren: { drives: [car] } }
vehicles: { car: ${vehicle}, van: { range: 300 km } }
places: { a: { zone: UTC, kind: lodging }, b: { zone: UTC } }
roads: [ { link: [a, b], drive: ${km} min, bad: ${km} min, km: ${km} } ]
tasks: { w: { place: b, for: 1 h, window: ["18:00", "20:00"] } }
runs: { car: { driver: wren, stops: [a, b] } }
${more}`);

  it("is a note for half a tank or less, a warning above", async () => {
    // 400 km of range, 60 of them reserve: 140 km need exactly half a tank.
    const level = async (km: number) => (await trip("{ range: 400 km }", km)).found("fuel-not-stated")[0]?.level;
    expect(await level(140)).toBe("note");
    expect(await level(141)).toBe("warning");
  });

  it("says nothing of a vehicle without a range, with a level, or that stands still", async () => {
    expect((await trip("{}", 100)).found("fuel-not-stated")).toEqual([]);
    expect((await trip("{ range: 400 km, fuel: 50% }", 100)).found("fuel-not-stated")).toEqual([]);
    const idle = await trip("{ range: 400 km, fuel: 50% }", 100).then(({ results }) => results.roads?.fuel.length);
    expect(idle).toBe(1);
  });

  it("cold and snow take more of the range", async () => {
    // −6.7 °C (20 °F) is 15 % fewer miles a gallon: 100 km take 100 / 0.85 = 117.6 km. Snow adds 10 %.
    const left = async (weather: string) => {
      const { results } = await trip("{ range: 400 km, fuel: 100% }", 100, `weather: [ ${weather} ]`);
      return results.roads?.fuel[0]?.endKm ?? Number.NaN;
    };
    expect(await left("{ temp: 25 C }")).toBeCloseTo(300, 6);
    expect(await left("{ temp: 20 F }")).toBeCloseTo(400 - 100 / 0.85, 1);
    expect(await left("{ road: snow }")).toBeCloseTo(400 - 110, 6);
    expect(await left("{ temp: -40 C, road: heavy-snow }")).toBeCloseTo(400 - (100 / 0.76) * 1.2, 6);
  });
});

describe("a fuel stop on the road stands where the tank needs it", () => {
  it("850 km with 20 km in a tank of 400: one stop is not enough in any place", async () => {
    const day = await judgedFile("fixtures/cases/world/fuel-onroad.yaml");
    // The best that one stop can do: both stretches as short as they can be, (20 + 400 − 850) / 2.
    expect(short(day)).toEqual([{ level: "error", left: -215, within: 0 }]);
    expect(day.said("fuel-short")).toEqual([
      "car runs dry 215 km before it is filled up, even with its fuel stop on the road in the best place",
    ]);
    expect(day.found("fuel-short")[0]?.facts).toMatchObject({ holdsKm: 20, everyKm: 340 });
  });

  const way = (km: number, fuel: string, task = "onRoad: [a, b], for: 10 min", at = "18:00") =>
    judgedText(`daywright: 1
date: 2027-05-10
clock: UTC
crew: { wren: { drives: [car] } }
vehicles: { car: { range: 400 km, fuel: ${fuel} } }
places: { a: { zone: UTC, kind: lodging }, b: { zone: UTC } }
roads: [ { link: [a, b], drive: ${km} min, bad: ${km} min, km: ${km} } ]
tasks: { f: { kind: fuel, ${task} }, w: { place: b, for: 1 h, window: ["${at}", "20:00"] } }
runs: { car: { driver: wren, stops: [a, b] } }
`);

  it("says the stretch, to the kilometre", async () => {
    // 50 % of 400 is 200, less 60 of reserve: at 140 km at the latest. A full tank goes 340 km with the reserve: of 420 km
    // the stop stands at 80 km at the earliest.
    const day = await way(420, "50%");
    expect(short(day)).toEqual([]);
    expect(day.said("fuel-stop-place")).toEqual(["the fuel stop f of car must lie 80 to 140 km from a"]);
    expect(day.results.roads?.fuel[0]).toMatchObject({ endKm: 60, leastKm: 60 });
  });

  it("480 km are the most that one stop does from half a tank, 481 are too far", async () => {
    expect(short(await way(480, "50%"))).toEqual([]);
    expect(short(await way(481, "50%"))).toMatchObject([{ level: "warning", within: 140 }]);
  });

  it("says nothing where the stop may stand anywhere", async () => {
    const day = await way(100, "100%");
    expect(day.found("fuel-stop-place")).toEqual([]);
    expect(short(day)).toEqual([]);
  });
});
