import { describe, expect, it } from "vitest";
import { waitsOf } from "../../src/cautions/waits.ts";
import type { Day } from "../../src/day/day.ts";
import type { Task } from "../../src/plan/plan.ts";
import { plainWording } from "../../src/reports/shared/wording.ts";
import { assess, LOW_CHANCE } from "../../src/roads/assess.ts";
import { normalBelow } from "../../src/roads/chance/normal.ts";
import { FUEL_RESERVE_SHARE, fuelStates, IDLE_KM_PER_HOUR } from "../../src/roads/fuel.ts";
import { minutes } from "../../src/time/units.ts";
import { byId, leg, place, vehicle } from "../day/parts.ts";
import { random } from "../day/random.ts";
import { at, day, type Trip } from "./days.ts";

const judge = (...days: readonly Day[]) => assess({ days, patience: 1, now: null });
const codes = (...days: readonly Day[]) => judge(...days).findings.map(({ code, level }) => `${level} ${code}`);

const wagon = (...way: Trip["way"]): Trip => ({ vehicle: "wagon", people: ["wren", "ilse"], leave: at(300), way });
const sure = (from: string, to: string, km: number | null = null) => leg(from, to, 30, 30, { km });

describe("the chance of a firm hit", () => {
  // Planned at likely with a wait: Φ(1.645 ln((35 + wait) / 35) / ln(50 / 35)) is 0.8 at a wait of 7.03 minutes.
  const withWait = (wait: number, firm = true) =>
    day([wagon([leg("lodge", "pier", 35, 50), "drive", { wait, hit: "dawn", firm }])]);

  it("is warned of below 0.8, and not a minute's wait above", () => {
    const chance = (wait: number) => normalBelow((1.645 * Math.log((35 + wait) / 35)) / Math.log(50 / 35));
    expect([chance(6) < LOW_CHANCE, chance(7) < LOW_CHANCE, chance(8) < LOW_CHANCE]).toEqual([true, true, false]);
    expect(codes(withWait(7))).toEqual(["warning chance-low"]);
    expect(codes(withWait(8))).toEqual([]);
  });

  it("never falls with more slack before it", () => {
    let last = 0;
    for (let wait = 0; wait <= 60; wait++) {
      const printed = judge(withWait(wait)).result.hits[0]?.printed ?? Number.NaN;
      expect(printed).toBeGreaterThanOrEqual(last);
      last = printed;
    }
    expect(last).toBeGreaterThan(0.99);
  });

  it("never falls with a longer wait anywhere on a way of several drives", () => {
    const below = random(15);
    for (let n = 0; n < 40; n++) {
      const count = 1 + below(4);
      const drives = Array.from({ length: count }, (_, i) => {
        const likely = 5 + below(180);
        return leg(`p${i}`, `p${i + 1}`, likely, likely + 1 + below(120));
      });
      const waits = drives.map(() => (below(3) === 0 ? 0 : below(40)));
      const longer = below(count);
      let last = 0;
      for (let more = 0; more <= 40; more += 2) {
        const way = drives.map((own, i): Trip["way"][number] => {
          const wait = (waits[i] ?? 0) + (i === longer ? more : 0);
          return [own, "drive", i === count - 1 ? { wait, hit: "dawn" } : { wait, work: 10 }];
        });
        const printed = judge(day([wagon(...way)])).result.hits[0]?.printed ?? Number.NaN;
        expect(printed, `way ${n}, ${more} min more`).toBeGreaterThanOrEqual(last);
        last = printed;
      }
    }
  });

  it("of two vehicles on one road is judged by the worse one: their product is only a lower bound", () => {
    const both = (wait: number) =>
      ["wagon", "truck"].map(
        (of): Trip => ({
          ...wagon([leg("lodge", "pier", 35, 50), "drive", { wait, hit: "dawn" }]),
          vehicle: of,
          people: [of],
        }),
      );
    expect(codes(day(both(8)))).toEqual([]);
    expect(codes(day(both(7)))).toEqual(["warning chance-low"]);
    // One of them too late suffices, whichever comes first.
    const [early, late] = [both(20), both(7)];
    expect(codes(day([...early.slice(0, 1), ...late.slice(1)]))).toEqual(["warning chance-low"]);
    expect(codes(day([...late.slice(0, 1), ...early.slice(1)]))).toEqual(["warning chance-low"]);
  });

  it("is smaller in the dark, which moves no time", () => {
    const made = withWait(8);
    const at6 = (altitude: number | null) =>
      assess({ days: [made], patience: 1, now: null }, { sunAltitude: () => altitude }).findings.map(
        ({ code }) => code,
      );
    expect([at6(-6), at6(-6.1), at6(null)]).toEqual([[], ["chance-low"], []]);
  });

  it("is not warned of where the hit is not firm", () => {
    expect(codes(withWait(0, false))).toEqual([]);
  });

  it("belongs to every leg that leads to it, and to none after it", () => {
    const made = day([
      wagon(
        [sure("lodge", "inn"), "bad", {}],
        [leg("inn", "pier", 35, 50), "bad", { hit: "dawn" }],
        [sure("pier", "lodge"), "drive", {}],
      ),
    ]);
    const { onward } = judge(made).result;
    expect([...onward].map(([move, { target }]) => [move, target.hit])).toEqual([
      ["wagon.2", "dawn"],
      ["wagon.1", "dawn"],
    ]);
  });

  it("is that of the first hit by time that a leg can make late, whichever the plan has first", () => {
    const made = day([
      wagon(
        [leg("lodge", "pier", 35, 50), "bad", { hit: "dawn" }],
        [leg("pier", "dock", 35, 50), "bad", { wait: 5, hit: "noon" }],
      ),
    ]);
    for (const activities of [made.activities, made.activities.toReversed()]) {
      const { onward } = judge({ ...made, activities }).result;
      expect([...onward].map(([move, { target }]) => `${move} ${target.hit}`).sort()).toEqual([
        "wagon.1 dawn",
        "wagon.2 noon",
      ]);
    }
  });

  it("knows what has happened: a drive that is over no longer varies", () => {
    const made = withWait(0);
    const arrive = made.moves[0]?.arrive ?? at(0);
    expect(assess({ days: [made], patience: 1, now: arrive }).result.hits[0]?.printed).toBe(1);
    expect(assess({ days: [made], patience: 1, now: at(300) }).result.hits[0]?.printed).toBeCloseTo(0.5, 6);
  });
});

describe("fuel", () => {
  const truck = (fuel: number | null, parts = {}) => byId(vehicle("wagon", { rangeKm: 400, fuel, ...parts }));
  const trip = (km: number) =>
    day([wagon([sure("lodge", "pier", km), "bad", {}], [sure("pier", "lodge", km), "drive", {}])], {
      vehicles: truck(0.5),
    });

  it("is short where it eats into the reserve of 15 %, told with the stop where it must be filled", () => {
    expect(FUEL_RESERVE_SHARE).toBe(0.15);
    expect(codes(trip(70))).toEqual([]); // 200 − 140 = 60 km, exactly the reserve
    const [short] = judge(trip(71)).findings;
    expect(short).toMatchObject({
      code: "fuel-short",
      level: "warning",
      facts: { place: "pier", withinKm: 69, leftKm: 58, reserveKm: 60 },
    });
  });

  it("is an error where the tank runs dry", () => {
    expect(codes(trip(100))).toEqual(["warning fuel-short"]);
    expect(codes(trip(101))).toEqual(["error fuel-short"]);
  });

  const fuelTask: Task = {
    id: "fill",
    path: ["tasks", "fill"],
    kind: "fuel",
    location: { kind: "place", place: "pier" },
    forMinutes: 10,
    who: null,
    after: [],
    before: [],
    signalPath: null,
    needs: [],
    what: null,
    window: null,
    by: null,
    sizeMegabytes: null,
  };

  it("is filled up by a fuel task at a stop", () => {
    const made = trip(101);
    const stops = made.stops.map((stop) => (stop.place === "pier" ? { ...stop, activities: ["fill"] } : stop));
    const filled = { ...made, stops, plan: { ...made.plan, tasks: byId(fuelTask) } };
    expect(codes(filled)).toEqual([]);
    expect(fuelStates([filled])[0]).toMatchObject({ endKm: 299, leastKm: 99 });
  });

  it("idles at a stop without mains where an inverter is fed", () => {
    const idle = (parts: object, mains: boolean) =>
      fuelStates([
        day([wagon([sure("lodge", "pier", 50), "bad", { work: 90 }], [sure("pier", "lodge", 50), "drive", {}])], {
          vehicles: truck(1, parts),
          places: byId(place("pier", { mains })),
        }),
      ])[0];
    expect(idle({ inverterWatts: 600 }, false)).toMatchObject({
      idleMinutes: 90,
      idleKm: 1.5 * IDLE_KM_PER_HOUR,
      endKm: 300 - 24,
    });
    expect(idle({ inverterWatts: 600 }, true)?.idleMinutes).toBe(0);
    expect(idle({}, false)?.idleMinutes).toBe(0);
  });

  it("is carried over from the day before, unless stated", () => {
    const next = (fuel: number | null) => fuelStates([trip(70), day([], { vehicles: truck(fuel) })])[0]?.startKm;
    expect(next(null)).toBe(60);
    expect(next(1)).toBe(400);
    expect(fuelStates([day([], { vehicles: truck(null) })])).toEqual([]);
  });

  it("comes back as due, to the percent", () => {
    const due = (fuel: number) =>
      codes({
        ...trip(20),
        plan: { ...trip(20).plan, vehicles: truck(0.5, { due: { place: null, at: null, fuel } }) },
      });
    expect(due(0.4)).toEqual([]); // 200 − 40 = 160 km, 40 %
    expect(due(0.41)).toEqual(["warning fuel-due-short"]);
  });
});

describe("waits", () => {
  const waiting = (wait: number, parts = {}) =>
    day([wagon([sure("lodge", "pier"), "bad", { wait, hit: "dawn" }])], {
      places: byId(place("lodge", { kind: "lodging" }), place("pier", parts)),
    });

  it("without a roof are warned of beyond `shelterAfter`", () => {
    expect(codes(waiting(30))).toEqual([]);
    expect(codes(waiting(31))).toEqual(["warning wait-outside"]);
    const [told] = judge(waiting(31)).findings;
    expect(told?.facts).toMatchObject({ from: { at: told?.at }, to: { at: (told?.at ?? 0) + 31 } });
    expect(told?.sentence(plainWording)).toMatch(
      /^wren, ilse wait outside at pier for 31 min, \S+Z to \S+Z; the rule allows 30 min$/,
    );
    expect(codes(waiting(31, { shelter: true }))).toEqual([]);
    expect(codes(waiting(31, { mains: true }))).toEqual([]);
    // A finding of one person names them; one of several is of none of them.
    const alone = { ...wagon([sure("lodge", "pier"), "bad", { wait: 31, hit: "dawn" }]), people: ["wren"] };
    const places = byId(place("lodge", { kind: "lodging" }), place("pier"));
    expect(judge(day([alone], { places })).findings.map(({ code, who }) => [code, who])).toEqual([
      ["wait-outside", "wren"],
    ]);
    expect(told?.who).toBeNull();
    const camper = { ...waiting(31), plan: { ...waiting(31).plan, vehicles: byId(vehicle("wagon", { berth: true })) } };
    expect(codes(camper)).toEqual([]);
  });

  it("say how much later one could leave a roof, and who waits together", () => {
    const made = waiting(45);
    const slack = { ...made, moves: made.moves.map((move) => ({ ...move, slackMinutes: minutes(40) })) };
    expect(waitsOf(slack)).toMatchObject([
      { place: "pier", who: ["wren", "ilse"], minutes: 45, sheltered: false, laterMinutes: 40, move: "wagon.1" },
    ]);
  });
});

it("an estimated road is noted once, whichever way it is driven", () => {
  const guess = (from: string, to: string) =>
    leg(from, to, 30, 40, { basis: "estimated", range: { lowMinutes: 25.6, highMinutes: 44.2 } });
  const made = day([wagon([guess("lodge", "pier"), "bad", {}], [guess("pier", "lodge"), "drive", {}])]);
  const { findings } = judge(made);
  expect(findings.map(({ code, facts }) => ({ code, facts }))).toEqual([
    { code: "road-estimated", facts: { from: "lodge", to: "pier", low: 25, likely: 30, high: 45 } },
  ]);
  expect(codes(day([wagon([sure("lodge", "pier"), "bad", {}])]))).toEqual([]);
});
