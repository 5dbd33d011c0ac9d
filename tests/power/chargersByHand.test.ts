/** When chargers charge: what feeds them, what an inverter has left for each, and how frost holds them up. Every figure by hand. */
import { beforeAll, describe, expect, it } from "vitest";
import type { Day } from "../../src/day/index.ts";
import { chargerOf, drawOf, warmFrom } from "../../src/power/day/chargers.ts";
import { type Surroundings, surroundingsOf } from "../../src/power/day/surroundings.ts";
import { instant } from "../../src/time/units.ts";
import { daysOf } from "./plans.ts";

/** Two lamps of 60 W hang on the wagon: they take 120 W before any charger. The heater is in the truck, the camera on packs. */
const plan = (shore: number): string => `
daywright: 1
date: 2027-01-20
clock: America/Chicago
zone: America/Chicago
crew: { wren: { drives: [wagon, truck] } }
vehicles: { wagon: { inverter: 300 W, shore: ${shore} W }, truck: { inverter: 400 W }, bus: {} }
places: { lodge: { kind: lodging, mains: true }, hall: { mains: true }, pier: {} }
roads: [{ link: [lodge, pier], drive: 35 min, bad: 50 min }]
hits: { dawn: { at: "07:00", for: 3 min, place: pier } }
kit:
  lamp: { in: wagon, watts: 60, count: 2 }
  camera: { in: wagon, watts: 40, mount: wedge, during: hits }
  heater: { in: truck, watts: 330 }
packs: { brick: { wh: 100, mount: wedge, charge: 100%, in: wagon } }
chargers:
  other: { mount: wedge, slots: 2, watts: 60, in: truck }
  first: { mount: wedge, slots: 2, watts: 50, in: wagon }
  second: { mount: wedge, slots: 3, watts: 50, in: wagon }
  third: { mount: wedge, slots: 1, watts: 80, in: wagon }
  fourth: { mount: wedge, slots: 4, watts: 100, total: 60 W, in: wagon }
  bench: { mount: wedge, slots: 1, watts: 50, in: lodge }
  post: { mount: wedge, slots: 1, watts: 50, in: pier }
  rack: { mount: wedge, slots: 1, watts: 50, in: bus }
runs: { wagon: { driver: wren, aboard: [wren], stops: [lodge, pier, lodge] } }
`;

const days = new Map<number, Day>();
beforeAll(async () => {
  for (const shore of [200, 100]) {
    const [day] = await daysOf(plan(shore));
    if (day !== undefined) days.set(shore, day);
  }
});

/** The vehicle stands at `place` throughout; `inside` is the temperature from each minute on, `?` where no one knows it. */
function around(
  more: {
    readonly place?: string | null;
    readonly runs?: boolean;
    readonly inside?: string;
    readonly from?: number;
    readonly shore?: number;
  } = {},
): Surroundings {
  const { place = "hall", runs = false, inside = "0 20", from = 0, shore = 200 } = more;
  const day = days.get(shore);
  if (day === undefined) throw new Error("no day");
  const rows = inside.split(", ").map((row): readonly [number, number | null] => {
    const [begins, celsius] = row.split(" ");
    return [Number(begins), celsius === "?" ? null : Number(celsius)];
  });
  const next = (at: number): number => rows.find(([begins]) => begins > at)?.[0] ?? Number.POSITIVE_INFINITY;
  const last = (at: number) => rows.findLast(([begins]) => begins <= at);
  return {
    ...surroundingsOf(day),
    span: { from: instant(from), to: instant(10_000) },
    placeOf: (bay) => (day.plan.places.has(bay) ? bay : place),
    runs: () => runs,
    isBed: (id) => id === "lodge",
    inside: (_, at) => last(at)?.[1] ?? null,
    steady: (at) => ({ from: last(at)?.[0] ?? Number.NEGATIVE_INFINITY, to: next(at) }),
  };
}

function charges(id: string, where: Parameters<typeof around>[0], to = 120) {
  const own = around(where);
  const charger = own.day.plan.chargers.get(id);
  if (charger === undefined) throw new Error(`no charger ${id}`);
  const found = chargerOf(own, charger, charger.in, { from: instant(0), to: instant(to) });
  return {
    on: found.charger.on.map((one) => `${one.from}-${one.to}`),
    over: found.overloads.map(({ source, needWatts, haveWatts }) => [source, needWatts, haveWatts]),
  };
}
const ALL = { on: ["0-120"], over: [] };
const over = (source: string, need: number, have: number) => ({ on: [], over: [[source, need, have]] });

describe("what a charger draws", () => {
  it("is the same to each slot, or what all slots share", () => {
    const { chargers } = around().day.plan;
    const draws = ["first", "second", "third", "fourth"].map((id) => chargers.get(id)).flatMap((one) => one ?? []);
    expect(draws.map(drawOf)).toEqual([100, 150, 80, 60]);
  });
});

describe("the feed of a charger in a vehicle", () => {
  it("is the inverter, less what hangs on it, for one charger after the other as far as it goes", () => {
    // 300 - 120 = 180; the first takes 100 of it; 80 are too little for the second, enough for the third; none is left.
    const runs = { place: "pier", runs: true };
    expect(charges("first", runs)).toEqual(ALL);
    expect(charges("second", runs)).toEqual(over("inverter", 150, 80));
    expect(charges("third", runs)).toEqual(ALL);
    expect(charges("fourth", runs)).toEqual(over("inverter", 60, 0));
    // 400 - 330 = 70 in the truck, whose chargers are no matter of the wagon's.
    expect(charges("other", runs)).toEqual(over("inverter", 120, 70));
  });

  it("is nothing if it does not run, if it has no inverter, or on the road without one that runs", () => {
    expect(charges("first", { place: "pier" })).toEqual({ on: [], over: [] });
    expect(charges("rack", { place: "pier", runs: true })).toEqual({ on: [], over: [] });
    expect(charges("first", { place: null })).toEqual({ on: [], over: [] });
    expect(charges("first", { place: null, runs: true })).toEqual(ALL);
    // Nor is it later on, when something else has changed.
    const inside = "0 20, 60 21";
    expect(charges("first", { place: "pier", inside })).toEqual({ on: [], over: [] });
  });

  it("is the shore lead where there are mains: 200 - 120 = 80 W; the inverter is not asked", () => {
    for (const runs of [false, true]) {
      expect(charges("first", { runs })).toEqual(over("shore", 100, 80));
      expect(charges("third", { runs })).toEqual(ALL);
      expect(charges("fourth", { runs })).toEqual(over("shore", 60, 0));
    }
    // 100 W do not even do for the lamps: there is none to have, not less than none.
    expect(charges("third", { shore: 100 })).toEqual(over("shore", 80, 0));
  });

  it("is the mains without a limit at a bed, or if it states no shore lead", () => {
    expect(charges("second", { place: "lodge" })).toEqual(ALL);
    expect(charges("rack", { place: "hall" })).toEqual(ALL);
    expect(charges("other", { place: "hall", runs: true })).toEqual(ALL);
  });

  it("of one at a place is its mains", () => {
    expect([charges("bench", {}), charges("post", {})]).toEqual([ALL, { on: [], over: [] }]);
  });
});

describe("a charger by the temperature inside", () => {
  const on = (inside: string, to = 120) => charges("bench", { inside }, to).on;

  it("charges in the warm and where no one knows, not in the frost or above 45 °C", () => {
    expect(on("0 ?")).toEqual(["0-120"]);
    // Half an hour of frost does not go through a pack.
    expect(on("0 -1, 30 20")).toEqual(["30-120"]);
    expect(on("0 20, 50 46, 70 45")).toEqual(["0-50", "70-120"]);
  });

  it("counts half the time below 5 °C, lost at the beginning of each hour", () => {
    // An hour of 3 °C is half an hour less; one that is cold for its last 30 min begins 15 min later.
    expect(on("0 3", 60)).toEqual(["30-60"]);
    expect(on("0 3, 60 20")).toEqual(["30-120"]);
    expect(on("0 20, 90 3")).toEqual(["0-60", "75-120"]);
    expect(on("0 20, 60 3, 90 20")).toEqual(["0-60", "75-120"]);
    // Half of a single minute is none.
    expect(on("0 3", 1)).toEqual([]);
    // Two hours of it: each hour's own half; the hour that is begun last is of 20 min and loses 10.
    expect(on("0 3", 140)).toEqual(["30-60", "90-120", "130-140"]);
  });

  it("waits for the packs to warm after an hour of frost: 60 min from 10 °C on", () => {
    expect(on("0 -1, 60 15", 300)).toEqual(["120-300"]);
    expect(on("0 -1, 59 15", 300)).toEqual(["59-300"]);
    // It ends before they are warm.
    expect(on("0 -1, 60 15", 110)).toEqual([]);
  });
});

describe("when what lies in a bay is warm", () => {
  const warm = (at: number, inside: string, from = 0): number =>
    warmFrom(around({ inside, from }), "wagon", instant(at));

  it("at once, if it lay in no frost, or in it for less than an hour", () => {
    expect(warm(500, "0 20")).toBe(500);
    expect(warm(500, "0 ?")).toBe(500);
    expect(warm(500, "0 0")).toBe(500);
    expect(warm(200, "0 20, 100 -5, 159 20")).toBe(200);
  });

  it("60 min after it first came to 10 °C, if it lay in the frost for an hour", () => {
    expect(warm(200, "0 20, 100 -5, 160 20")).toBe(220);
    expect(warm(200, "0 20, 100 -5, 160 10")).toBe(220);
    // One minute there is enough to begin.
    expect(warm(161, "0 20, 100 -5, 160 20")).toBe(220);
    // 20 min at 5 °C warm nothing: 180 + 60.
    expect(warm(200, "0 20, 100 -5, 160 5, 180 12")).toBe(240);
    // A first hour at 12 °C and more at 20 °C: it came into the warm at 160.
    expect(warm(300, "0 20, 100 -5, 160 12, 220 20")).toBe(220);
  });

  it("60 min from now, if it is still cold", () => {
    expect(warm(200, "0 20, 100 -5, 160 9")).toBe(260);
    expect(warm(200, "0 20, 100 -5")).toBe(260);
  });

  it("adds frost to frost of another depth, and nothing across a stretch without one", () => {
    expect(warm(200, "0 20, 100 -5, 130 -9, 160 20")).toBe(220);
    expect(warm(200, "0 20, 90 -5, 130 0, 131 -5, 171 20")).toBe(200);
  });

  it("after a second frost that was short, from the first time it was warm", () => {
    // Frost 0-80, warm from 80, frost again 100-130: frozen until 80, so warm at 140.
    expect(warm(150, "0 -5, 80 12, 100 -5, 130 12")).toBe(140);
    // One minute of it is enough: 12 °C from 60 to 61 between two frosts, warm at 120.
    expect(warm(150, "0 -5, 60 12, 61 -5, 91 12")).toBe(120);
    expect(warm(110, "0 -5, 60 12, 61 -5, 91 12")).toBe(120);
  });

  it("looks back for six hours, and not before the day that is judged", () => {
    // Of a frost up to 360 min ago nothing is seen; of one until 300 min ago 60 min are, until 301 min ago 59.
    expect(warm(1000, "0 20, 500 -5, 700 20")).toBe(760);
    expect(warm(1000, "0 20, 500 -5, 699 20")).toBe(1000);
    expect(warm(200, "0 -5, 150 20", 90)).toBe(210);
    expect(warm(200, "0 -5, 150 20", 91)).toBe(200);
  });
});
