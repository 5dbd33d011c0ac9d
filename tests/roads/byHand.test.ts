/** The small parts of the roads on figures that can be worked out on paper; each with its arithmetic. */
import { describe, expect, it } from "vitest";
import {
  by,
  type Cells,
  driveCells,
  later,
  laterOf,
  notAfter,
  notBefore,
  plus,
  point,
  trimmed,
} from "../../src/roads/chance/cells.ts";
import { chainOf, type Departure, type Gate } from "../../src/roads/chance/chain.ts";
import { chancesOf, passesOf } from "../../src/roads/chance/chance.ts";
import { normalBelow } from "../../src/roads/chance/normal.ts";
import { closedPlaces } from "../../src/roads/closed.ts";
import { fuelStates, rangeAt } from "../../src/roads/fuel.ts";
import { type RoadFill, roadFill } from "../../src/roads/fuelOnRoad.ts";
import { byId, leg, place, plan, task, vehicle } from "../day/parts.ts";
import { at, day } from "./days.ts";

const cells = (from: number, ...mass: readonly number[]): Cells => ({ from, mass: Float64Array.from(mass) });
const plain = ({ from, mass }: Cells) => ({
  from: from + 0,
  mass: [...mass].map((share) => Number(share.toFixed(12))),
});

describe("a distribution on cells", () => {
  it("is there by a cell or not", () => {
    expect([by(point(3), 2), by(point(3), 3), by(point(3), 99)]).toEqual([0, 1, 1]);
    const halves = cells(2, 0.2, 0.3, 0.5);
    expect([1, 2, 3, 4].map((cell) => Number(by(halves, cell).toFixed(12)))).toEqual([0, 0.2, 0.5, 1]);
    expect(by(later(halves, 10), 13)).toBeCloseTo(0.5, 12);
  });

  it("and a drive are added: 0.5 × 0.25; 0.5 × 0.75 + 0.5 × 0.25; 0.5 × 0.75", () => {
    expect(plain(plus(cells(2, 0.5, 0.5), cells(1, 0.25, 0.75)))).toEqual({ from: 3, mass: [0.125, 0.5, 0.375] });
  });

  it("ends with a ferry", () => {
    const some = cells(2, 0.2, 0.3, 0.5);
    expect([1, 2, 3, 4, 9].map((cell) => plain(notAfter(some, cell)).mass)).toEqual([
      ...[[0], [0.2], [0.2, 0.3], [0.2, 0.3, 0.5], [0.2, 0.3, 0.5]],
    ]);
  });

  it("waits", () => {
    const some = cells(2, 0.2, 0.3, 0.5);
    expect([1, 2, 3, 4, 9].map((cell) => plain(notBefore(some, cell)))).toEqual([
      { from: 2, mass: [0.2, 0.3, 0.5] },
      { from: 2, mass: [0.2, 0.3, 0.5] },
      { from: 3, mass: [0.5, 0.5] },
      { from: 4, mass: [1] },
      { from: 9, mass: [1] },
    ]);
  });

  // P(both by 0) = 0.5 × 0.4; by 1: 0.75 × 1; by 2: 1.
  it("and another are over when the later one is", () => {
    expect(plain(laterOf(cells(0, 0.5, 0.25, 0.25), cells(0, 0.4, 0.6)))).toEqual({ from: 0, mass: [0.2, 0.55, 0.25] });
    expect(plain(laterOf(cells(0, 0.5, 0.5), cells(1, 0.4, 0.6)))).toEqual({ from: 1, mass: [0.4, 0.6] });
  });

  it("loses a tail lighter than 1e-9, or takes it to the cut", () => {
    const some = cells(5, 0.6, 0.4 - 1.6e-9, 1e-9, 6e-10);
    expect(trimmed(some, "up").mass).toHaveLength(3);
    expect([...trimmed(some, "up").mass]).toEqual([0.6, 0.4 - 1.6e-9, 1e-9]);
    expect(trimmed(some, "down").mass[2]).toBeCloseTo(1.6e-9, 15);
    expect(trimmed(cells(5, 1e-12), "up")).toEqual(cells(5, 1e-12));
  });

  it("of a sure drive is one cell: 10 min are 40, 0.1 min lie between 0 and 1", () => {
    const sure = (median: number) =>
      (["up", "down"] as const).map((rounding) => plain(driveCells({ median, spread: 0 }, rounding)));
    expect(sure(10)).toEqual([cells(40, 1), cells(40, 1)].map(plain));
    expect(sure(0.1)).toEqual([cells(1, 1), cells(0, 1)].map(plain));
    expect(plain(driveCells({ median: 0, spread: 0.3 }, "up"))).toEqual(plain(point(0)));
    expect(driveCells({ median: 1, spread: 0.2 }, "up").mass.length).toBeGreaterThan(5);
  });

  it("of a drive is the log-normal one, a cell late or early; its tails are cut at five deviations", () => {
    // 10 min are 40 cells; at 0.2 the tails are cut at 40 e and 40 / e: 108.7 and 14.7 cells.
    const below = (cell: number) => normalBelow(Math.log(cell / 40) / 0.2);
    const [up, down] = (["up", "down"] as const).map((rounding) => driveCells({ median: 10, spread: 0.2 }, rounding));
    if (up === undefined || down === undefined) throw new Error("no drive");
    for (const cell of [14, 15, 30, 40, 55, 108, 109]) expect(by(up, cell)).toBeCloseTo(below(cell), 12);
    for (const cell of [14, 15, 30, 40, 55, 107]) expect(by(down, cell)).toBeCloseTo(below(cell + 1), 12);
    expect([by(up, 13), by(down, 0), by(down, 12)]).toEqual([0, below(14), below(14)]);
    expect(by(down, 109)).toBeCloseTo(1, 12);
    expect(by(up, 500)).toBeCloseTo(below(109), 12);
  });
});

// Abramowitz & Stegun, table 26.2 and its continuation: the upper tail of the normal distribution.
it.each([
  [2, 2.275013195e-2],
  [3, 1.349898032e-3],
  [4, 3.167124183e-5],
  [5, 2.866515719e-7],
  [6, 9.86587645e-10],
  [7, 1.279812544e-12],
  [8, 6.220960574e-16],
])("the normal distribution beyond %i deviations", (z, tail) => {
  expect(normalBelow(-z) / tail).toBeCloseTo(1, 7);
});

describe("the chance by hand", () => {
  const wagon = (minutes: number, more: Partial<Departure["move"]> = {}): Departure["move"] => {
    const [move] = day([{ ...TRIP, way: [[leg("lodge", "pier", minutes, minutes), "drive", {}]] }]).moves;
    if (move === undefined) throw new Error("no move");
    return { ...move, ...more };
  };
  const TRIP = { vehicle: "wagon", people: ["wren"], leave: at(350) };
  const road = { move: wagon(30), time: { median: 30, spread: 0.2 }, dark: false, haltMinutes: 0, gates: [] };
  const gate = (more: Partial<Gate>): Gate => ({ departure: 0, workMinutes: 0, share: 1, until: null, ...more });
  const chanceOf = (departures: readonly Departure[], own: Gate, deadline: number) => {
    const chain = { departures, targets: [{ hit: "dawn", deadline: at(deadline), firm: true, gates: [own] }] };
    const [chance] = chancesOf(chain, passesOf(chain));
    return [chance?.low ?? -1, chance?.sameLuck ?? -1, chance?.high ?? -1];
  };
  const below = (minutes: number) => normalBelow(Math.log(minutes / 30) / 0.2);

  it("a ferry sails at 400: ten minutes of work leave 40 for a drive of 30, and what is later is never there", () => {
    const ferry = {
      ...{ move: wagon(60, { id: "wagon.2", leave: at(400), arrive: at(460) }), time: { median: 60, spread: 0 } },
      ...{ dark: false, haltMinutes: 0, gates: [gate({ workMinutes: 10, until: at(400) })] },
    };
    const [low, luck] = chanceOf([road, ferry], gate({ departure: 1, workMinutes: 20 }), 500);
    expect(low).toBeCloseTo(below(40), 9);
    expect(luck).toBeCloseTo(below(40), 9);
    // 400 + 60 + 20 is 480: with a deadline a minute before it there is no chance at all.
    expect(chanceOf([road, ferry], gate({ departure: 1, workMinutes: 20 }), 479)).toEqual([0, 0, 0]);
    expect(chanceOf([road, ferry], gate({ departure: 1, workMinutes: 20 }), 480)[0]).toBeCloseTo(below(40), 9);
  });

  it("is asked of hits: a standby has to be in position as well, and one that is not made is no target", () => {
    const made = day([{ ...TRIP, way: [[leg("lodge", "pier", 30, 30), "drive", { hit: "dawn" }]] }]);
    const [dawn] = made.activities;
    if (dawn === undefined) throw new Error("no hit");
    const standby = { ...dawn, id: "standby", activity: task("standby", "pier", { kind: "standby" }) };
    const missed = { ...dawn, id: "noon", inPosition: null };
    const { targets } = chainOf({ ...made, activities: [standby, dawn, missed] }, () => false);
    expect(targets.map(({ hit }) => hit)).toEqual(["dawn"]);
  });

  it("a hit half-way needs half of the drive, and no halt or work behind it", () => {
    const halted = { ...road, haltMinutes: 25 };
    const [low, luck] = chanceOf([halted], gate({ share: 0.5, workMinutes: 99 }), 350 + 20);
    expect(low).toBeCloseTo(below(40), 9);
    expect(luck).toBeCloseTo(below(40), 9);
    const [late, lateLuck] = chanceOf([halted], gate({ workMinutes: 5 }), 350 + 25 + 5 + 33);
    expect(late).toBeCloseTo(below(33), 9);
    expect(lateLuck).toBeCloseTo(below(33), 9);
  });
});

/** At the pier from 06:00 to 06:30 in Chicago, which in January is 12:00 to 12:30 UTC, minute 720 of the day. */
describe("a place that is closed for one who comes without a vehicle", () => {
  const closed = (open: readonly [number, number], from: number, to: number, parked: boolean) => {
    const made = day([{ ...ONE, way: [[leg("lodge", "pier", 30, 30), "drive", { work: 5, hit: "dawn" }]] }], {
      places: byId(place("pier", { open: [{ fromMinute: open[0], toMinute: open[1] }] })),
    });
    const activities = made.activities.map((one) => ({
      ...{ ...one, lineCheck: null, inPosition: at(720 + from), start: at(725 + from), end: at(720 + to) },
      clearEnd: at(720 + to),
    }));
    const stops = made.stops.map((own) =>
      own.place === "pier" && parked ? { ...own, arrive: at(720), parked: at(725), leave: at(750) } : own,
    );
    return closedPlaces({ ...made, activities, stops }).map(({ facts }) => facts["closed"]);
  };
  const ONE = { vehicle: "wagon", people: ["wren"], leave: at(690) };
  const shut = (minute: number) => ({ at: at(720 + minute) });

  it("is told to the minute", () => {
    expect(closed([365, 380], 5, 20, false)).toEqual([]);
    expect(closed([366, 380], 5, 20, false)).toEqual([shut(5)]);
    expect(closed([365, 379], 5, 20, false)).toEqual([shut(19)]);
  });

  it("is told once for what is done where a vehicle stands, and again for what begins before or ends after it", () => {
    expect(closed([370, 390], 5, 20, true)).toEqual([shut(0)]);
    expect(closed([370, 390], -5, 20, true)).toEqual([shut(0), shut(-5)]);
    expect(closed([360, 390], 5, 40, true)).toEqual([shut(30)]);
    expect(closed([360, 389], 0, 30, true)).toEqual([shut(29)]);
  });
});

describe("a tank on a leg with a stop", () => {
  const open: RoadFill = { activity: "fill", share: null, fixed: false };
  const fixed = (share: number): RoadFill => ({ activity: "fill", share, fixed: true });
  const fill = (km: number, fills: readonly RoadFill[], more: { tankKm?: number; factor?: number } = {}) =>
    roadFill({ km, factor: 1, tankKm: 300, rangeKm: 500, reserveKm: 75, ...more }, fills);
  const stands = (fromKm: number, toKm: number, plannedKm: number | null = null) => ({
    ...{ activity: "fill", fromKm, toKm, plannedKm },
  });

  it("as far on as the tank goes, 300 − 75, and as near to the end as a full one needs, 600 − 425", () => {
    expect(fill(600, [open])).toEqual({ leastKm: 75, endKm: 75, firstKm: 175, where: stands(175, 225) });
  });

  it("in the cold every kilometre takes 1.2", () => {
    expect(fill(500, [open], { factor: 1.2 }).where).toEqual(stands(175 / 1.2, 225 / 1.2));
  });

  it("where its time puts it, or where that comes nearest", () => {
    expect(fill(600, [fixed(1 / 3)])).toEqual({ leastKm: 100, endKm: 100, firstKm: 175, where: stands(175, 225) });
    expect(fill(600, [fixed(0.5)])).toEqual({ leastKm: 75, endKm: 125, firstKm: 175, where: stands(175, 225, 300) });
    expect(fill(600, [fixed(0.25)]).where).toEqual(stands(175, 225, 150));
    expect([175, 225].map((km) => fill(600, [fixed(km / 600)]).where?.plannedKm)).toEqual([null, null]);
  });

  it("anywhere, if the tank lasts", () => {
    expect(fill(200, [open])).toEqual({ leastKm: 300, endKm: 300, firstKm: 0, where: null });
    expect([225, 226].map((km) => fill(km, [open]).where)).toEqual([null, stands(0, 225)]);
  });

  it("nowhere, if not even 225 + 425 do: then every stretch is as long as the others", () => {
    expect(fill(650, [open])).toEqual({ leastKm: 75, endKm: 75, firstKm: 225, where: stands(225, 225) });
    // (300 + 500 − 651) / 2
    expect(fill(651, [open])).toEqual({ leastKm: 74.5, endKm: 74.5, firstKm: 225.5, where: null });
    // A tank below its reserve never has more than it holds: (70 + 500 − 100) / 2 = 235.
    expect(fill(100, [open], { tankKm: 70 })).toEqual({ leastKm: 70, endKm: 70, firstKm: 0, where: null });
    expect(fill(100, [open], { tankKm: 75 }).where).toEqual(stands(0, 0));
    expect(fill(600, [])).toMatchObject({ leastKm: -300, where: null });
  });

  it("with two stops: 225 + 2 × 425, and whatever is left of the last tank", () => {
    expect(fill(1075, [open, open])).toEqual({ leastKm: 75, endKm: 75, firstKm: 0, where: null });
    expect(fill(400, [open, open])).toEqual({ leastKm: 75, endKm: 100, firstKm: 0, where: null });
    expect(fill(1076, [open, open]).leastKm).toBeCloseTo((300 + 1000 - 1076) / 3, 9);
  });
});

describe("the range in the tank at a moment", () => {
  // 05:00 to 05:30 50 km, at the pier to 07:13 (90 min of work and a hit of 3 with 10 before it), 50 km back by 07:43; 400 km.
  const made = day(
    [
      {
        ...{ vehicle: "wagon", people: ["wren"], leave: at(300) },
        way: [
          [leg("lodge", "pier", 30, 30, { km: 50 }), "drive", { work: 90, hit: "fill" }],
          [leg("pier", "lodge", 30, 30, { km: 50 }), "drive", {}],
        ],
      },
    ],
    { vehicles: byId(vehicle("wagon", { rangeKm: 400, fuel: 1, inverterWatts: 600 })) },
  );
  const at3 = (of: typeof made, ...minutes: readonly number[]) => {
    const [state] = fuelStates([of]);
    if (state === undefined) throw new Error("no fuel");
    return minutes.map((minute) => Number(rangeAt(of, state, at(minute)).toFixed(6)));
  };

  it("goes down with the share of a drive, and by 16 km an hour of idling", () => {
    // Half of 50 km; all of it; 30 min of 16 km/h; 103 min: 27.466667 km; half of 50 more.
    expect(at3(made, 300, 315, 330, 360, 433, 448, 463)).toEqual([
      ...[400, 375, 350, 342, 322.533333, 297.533333, 272.533333],
    ]);
    expect(fuelStates([made])[0]).toMatchObject({ idleMinutes: 103, drivenKm: 100 });
  });

  it("is a full tank when a fill is done, not before", () => {
    const filled = { ...made, plan: { ...made.plan, tasks: byId(task("fill", "pier", { kind: "fuel" })) } };
    // In position at 07:00, at 07:10 the three minutes begin: 102 min of idling are 27.2 km.
    expect(at3(filled, 432, 433, 448)).toEqual([322.8, 400, 375]);
  });

  const readAt = (minute: number) => {
    const common = { place: null, since: null, odometerKm: null, engineHours: null, note: null };
    const wagon = { ...common, fuel: 0.5, fuelAt: at(minute) };
    return { ...made, plan: { ...made.plan, actual: { ...plan().actual, vehicles: new Map([["wagon", wagon]]) } } };
  };

  it("is what was read at a stop from then on: half of 400 at 07:00, 13 min of idling more", () => {
    expect(at3(readAt(420), 330, 390, 419)).toEqual([350, 334, 326.266667]);
    expect(at3(readAt(420), 420, 433, 448)).toEqual([200, 196.533333, 171.533333]);
    expect(fuelStates([readAt(420)])[0]).toMatchObject({ startKm: 400, idleMinutes: 103, endKnown: true });
    expect(fuelStates([readAt(420)])[0]?.endKm).toBeCloseTo(400 / 2 - (13 / 60) * 16 - 50, 9);
  });

  it("is what was read on a drive, less the rest of it: half of 400 at 05:12, 18 of 30 min and 30 km before the end", () => {
    expect(at3(readAt(312), 306, 312, 321, 330)).toEqual([390, 200, 185, 170]);
    expect(fuelStates([readAt(312)])[0]?.steps[0]?.leftKm).toBeCloseTo(170, 9);
    expect(fuelStates([readAt(312)])[0]?.endKm).toBeCloseTo(200 - 30 - (103 / 60) * 16 - 50, 9);
  });

  it("is what was read before the first drive, or where the day ends", () => {
    expect(at3(readAt(300), 300, 315)).toEqual([200, 175]);
    expect(fuelStates([readAt(463)])[0]?.endKm).toBe(200);
  });
});
