/** How warm it is around packs: weather rows, and packs that come off a load in the frost. By hand. */
import { beforeAll, describe, expect, it } from "vitest";
import type { Day } from "../../src/day/day.ts";
import type { DayDemand } from "../../src/power/day/demands.ts";
import { mountedOutside, warmOff } from "../../src/power/day/mounted.ts";
import { coldDrawFactor, surroundingsOf } from "../../src/power/day/surroundings.ts";
import { derate } from "../../src/power/physics.ts";
import { instant } from "../../src/time/units.ts";
import { daysOf } from "./plans.ts";

const plan = (weather: string) => `
daywright: 1
date: 2027-01-20
clock: America/Chicago
zone: America/Chicago
crew: { wren: { drives: wagon } }
vehicles: { wagon: {} }
places: { lodge: { kind: lodging }, pier: {}, cove: {} }
roads: [{ link: [lodge, pier], drive: 35 min, bad: 50 min }, { link: [pier, cove], drive: 20 min, bad: 30 min }]
hits: { dawn: { at: "07:00", for: 3 min, place: pier } }
runs: { wagon: { driver: wren, aboard: [wren], stops: [lodge, pier, lodge] } }
rules: { warmUp: 40 min }
weather: [${weather}]
`;
const clock = (text: string) => instant(Date.parse(`2027-01-20T${text}-06:00`) / 60_000);

describe("outdoors", () => {
  const outdoors = async (weather: string, place: string | null, ...at: readonly string[]) => {
    const [day] = await daysOf(plan(weather));
    if (day === undefined) throw new RangeError("no day");
    const around = surroundingsOf(day);
    return at.map((text) => around.outdoors(place, clock(text)));
  };

  it("is what a row says from its start to before its end, and open where it has none", async () => {
    const row = '{ from: "10:00", to: "12:00", temp: -10 C }';
    expect(await outdoors(row, "pier", "09:59", "10:00", "11:59", "12:00")).toEqual([null, -10, -10, null]);
    expect(await outdoors('{ to: "12:00", temp: 4 C }', "pier", "00:10", "11:59", "12:00")).toEqual([4, 4, null]);
    expect(await outdoors('{ from: "12:00", temp: 4 C }', null, "11:59", "12:00", "23:00")).toEqual([null, 4, 4]);
  });

  it("is the coldest of the rows that name the place; of those that name none where no row names it", async () => {
    const rows =
      "{ temp: 2 C, places: [pier] }, { temp: 5 C, places: [pier, cove] }, { temp: -3 C }, { temp: 1 C }, { road: snow }";
    expect(await outdoors(rows, "pier", "09:00")).toEqual([2]);
    expect(await outdoors(rows, "cove", "09:00")).toEqual([5]);
    expect(await outdoors(rows, "lodge", "09:00")).toEqual([-3]);
    expect(await outdoors(rows, null, "09:00")).toEqual([-3]);
    expect(await outdoors("{ road: snow }", "pier", "09:00")).toEqual([null]);
  });

  it("is 20 °C inside where they sleep or shelter, what a running vehicle is kept at on the road, else as outdoors", async () => {
    const inside = async (wagon: string, pier: string) => {
      const text = plan("{ temp: -10 C }")
        .replace("wagon: {}", `wagon: { ${wagon} }`)
        .replace("pier: {}", `pier: { ${pier} }`);
      const [day] = await daysOf(text);
      if (day === undefined) throw new RangeError("no day");
      const around = surroundingsOf(day);
      const [out] = day.moves;
      const times = [(out?.leave ?? 0) - 1, (out?.leave ?? 0) + 1, (out?.arrive ?? 0) + 1];
      return times.map((minute) => around.inside("wagon", instant(minute)));
    };
    // Before they leave the lodge, on the road, at the pier where they work.
    expect(await inside("", "")).toEqual([20, -10, -10]);
    expect(await inside("", "shelter: true")).toEqual([20, -10, 20]);
    expect(await inside("inside: 15 C", "")).toEqual([20, 15, 15]);
  });

  it("raises a draw by the share that packs give, minute by minute", async () => {
    const [day] = await daysOf(plan('{ from: "10:00", temp: -10 C }, { to: "10:00", temp: 20 C }'));
    if (day === undefined) throw new RangeError("no day");
    const around = surroundingsOf(day);
    const factor = (from: string, to: string) =>
      coldDrawFactor(around, { from: clock(from), to: clock(to) }, (at) => around.outdoors("pier", at));
    // In the table 0.75 at -10 °C: a third more. A quarter of the time at 20 °C: (1 + 3 / 0.75) / 4.
    expect(factor("10:00", "11:00")).toBeCloseTo(1 / derate(-10), 12);
    expect(factor("09:45", "10:45")).toBeCloseTo((1 + 3 / 0.75) / 4, 12);
    expect(factor("08:00", "09:00")).toBe(1);
    expect(factor("10:30", "10:30")).toBe(1);
  });
});

describe("a pack that comes off a load outside", () => {
  let day: Day | undefined;
  beforeAll(async () => {
    [day] = await daysOf(plan("{ temp: 20 C }"));
  });

  /** Mounted at the pier from minute 0 to `to`, off at `at`; so cold outside, and in the bay from `warm` on 10 °C, before 9. */
  const warm = (outside: number | null | ((minute: number) => number), { to = 100, at = 100, inside = 0 } = {}) => {
    if (day === undefined) throw new RangeError("no day");
    const around = {
      ...surroundingsOf(day),
      outdoors: (_: string | null, minute: number) => (typeof outside === "function" ? outside(minute) : outside),
      inside: (_: string, minute: number) => (minute >= inside ? 10 : 9),
      // It may change with every minute.
      steady: (minute: number) => ({ from: minute, to: minute + 1 }),
    };
    const mounted = { load: "camera", place: "pier", from: instant(0), to: instant(to) };
    return warmOff(around, mounted, "wagon", instant(at)) - at;
  };

  it("is warm at once unless it was an hour in the frost, below 0 °C, without a break", () => {
    expect([warm(20), warm(null), warm(0), warm(0.5)]).toEqual([0, 0, 0, 0]);
    // Warm from 0 on in the bay: 40 min after it came off.
    expect([warm(-1), warm(-0.1)]).toEqual([40, 40]);
    expect([warm(-1, { to: 60, at: 60 }), warm(-1, { to: 59, at: 59 })]).toEqual([40, 0]);
    expect(warm((minute) => (minute < 39 || minute >= 41 ? -1 : 1))).toBe(0);
    expect(warm((minute) => (minute < 40 ? 1 : -1))).toBe(40);
    expect(warm((minute) => (minute < 41 ? 1 : -1))).toBe(0);
  });

  it("warms for 40 min from when the use has ended and its bay has 10 °C, and by the time it comes off at the latest", () => {
    // The use is over at 100, it comes off at 130: 10 of the 40 minutes are left. At 150: none.
    expect(warm(-1, { at: 130 })).toBe(10);
    expect(warm(-1, { at: 150 })).toBe(0);
    expect(warm(-1, { at: 130, inside: 110 })).toBe(20);
    expect(warm(-1, { at: 130, inside: 500 })).toBe(40);
  });
});

describe("what is mounted outside", () => {
  const use = (load: string, outside: string | null, from: number, to: number): DayDemand => ({
    ...{ activity: "dawn", coldest: null, outside },
    demand: {
      ...{ id: `${load}${from}`, kind: "firm", from: instant(from), to: instant(to) },
      watts: new Map([[load, 10]]),
    },
  });
  const stretches = (...uses: readonly DayDemand[]) =>
    mountedOutside(uses).map(({ load, place, from, to }) => `${load} ${place} ${from}-${to}`);

  it("is each load from its first use at a place to its last one there", () => {
    expect(stretches(use("cam", "pier", 10, 20), use("cam", "pier", 40, 50))).toEqual(["cam pier 10-50"]);
    expect(stretches(use("cam", "pier", 40, 50), use("cam", "pier", 10, 60))).toEqual(["cam pier 10-60"]);
    expect(stretches(use("cam", "pier", 10, 20), use("lamp", "pier", 40, 50))).toEqual([
      ...["cam pier 10-20", "lamp pier 40-50"],
    ]);
  });

  it("begins anew where it was elsewhere between, and is nothing aboard", () => {
    expect(stretches(use("cam", "pier", 10, 20), use("cam", "cove", 25, 30), use("cam", "pier", 40, 50))).toEqual([
      ...["cam pier 10-20", "cam cove 25-30", "cam pier 40-50"],
    ]);
    expect(stretches(use("cam", null, 10, 20))).toEqual([]);
  });
});
