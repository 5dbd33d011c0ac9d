/** How long a crew can go on: figures by hand, each held to the minute on random chases, and orders against all orders. */
import { describe, expect, it } from "vitest";
import { enduranceOf } from "../../src/endurance/index.ts";
import { bestOrder, turnsOf } from "../../src/endurance/order.ts";
import { type Aboard, type Rolled, Rolling } from "../../src/endurance/rolling.ts";
import { aboardAt } from "../../src/endurance/vehicles.ts";
import { makeReport } from "../../src/index.ts";
import { type Instant, after as later } from "../../src/time/index.ts";
import { judgedText } from "../cases/judged.ts";
import { random } from "../day/random.ts";

const UTC = (clock: string): Instant => {
  const [hours = 0, minutes = 0] = clock.split(":").map(Number);
  return (Date.UTC(2027, 4, 10, hours, minutes) / 60_000) as Instant;
};

const TRUCK = "gross: 16000 lb, rules: us-property, week: 70/8";

/** A truck from a to b and on, with a hit that its crew follows; released in time for ten hours of rest. */
const chase = (drivers: readonly string[], vehicle: string, more = "") => `daywright: 1
date: 2027-05-10
until: +1d
clock: UTC
crew: { ${drivers.map((id) => `${id}: { role: engineer, drives: [truck] }`).join(", ")} }
history: { ${drivers.map((id) => `${id}: { released: 2027-05-09T16:00+00:00 }`).join(", ")} }
vehicles: { truck: { ${vehicle} } }
places: { a: { zone: UTC, kind: lodging }, b: { zone: UTC }, c: { zone: UTC } }
roads: [ { link: [a, b], drive: 2 h, bad: 2 h, km: 160 }, { link: [b, c], drive: 1 h, bad: 1 h, km: 80 } ]
hits: { h: { at: "12:00", for: 3 min, place: b, who: [${drivers[0]}] } }
runs: { truck: { driver: ${drivers[0]}, aboard: [${drivers.join(", ")}], stops: [a, b, c] } }
${more}`;

const asked = async (text: string, at: Instant) => {
  const { days, results } = await judgedText(text);
  const { hours, power, roads } = results;
  return enduranceOf({ days, at, hours, power, roads, routed: new Map(), patience: 1 });
};

const clock = (at: Instant | null | undefined): string | null =>
  at == null ? null : new Date(at * 60_000).toISOString().slice(8, 16);

describe("by hand, under 49 CFR 395.3", () => {
  it("one driver: a break after 8 h of driving, the end after 11 h, and the window of 14", async () => {
    // The hit at 12:00 is in position 11:50, line check 11:40, set-up 11:10, park 11:05: the truck arrives then and left at
    // 09:05, with 15 min of loading and a walk-around before it. At 09:05 nothing is driven yet: 8 h until the break at
    // 17:05; 10 min are no interruption of 30 min; 3 h more end at 20:35. The window from the call at 08:35 is later.
    const { vehicles, people, binding } = await asked(chase(["ann"], TRUCK), UTC("09:05"));
    const [truck] = vehicles;
    expect(clock(truck?.breakBy)).toBe("10T17:05");
    expect(truck?.breakBecause?.clause).toContain("395.3(a)(3)(ii)");
    expect(clock(truck?.lawUntil)).toBe("10T20:35");
    expect(truck?.lawBecause?.clause).toContain("395.3(a)(3)");
    expect(truck?.order.map(({ driver }) => driver)).toEqual(["ann", null, "ann"]);
    // Alone and without a break it is the break; ten hours of rest after the end.
    expect(clock(people[0]?.mayDriveUntil)).toBe("10T17:05");
    expect(clock(people[0]?.calledFrom)).toBe("11T06:35");
    // The house asks for 15 min every 2 h.
    expect(binding).toMatchObject({ kind: "house", vehicle: "truck", who: "ann" });
    expect(clock(binding?.until ?? null)).toBe("10T11:05");
  });

  it("two drivers and a berth roll on without a break for as long as both can", async () => {
    const one = await asked(chase(["ann"], TRUCK), UTC("09:05"));
    const two = await asked(chase(["ann", "ben"], `${TRUCK}, berth: true`), UTC("09:05"));
    expect((two.vehicles[0]?.lawUntil ?? 0) - (one.vehicles[0]?.lawUntil ?? 0)).toBeGreaterThan(6 * 60);
    expect(new Set(two.vehicles[0]?.order.map(({ driver }) => driver))).toContain("ben");
  });

  it("fuel: above the reserve, at the fastest of the plan's drives", async () => {
    // 400 km at 50 % are 200, less 60 of reserve: 140 km at 80 km/h are 105 min.
    const { vehicles } = await asked(chase(["ann"], `${TRUCK}, range: 400 km, fuel: 50%`), UTC("09:05"));
    expect(vehicles[0]?.fuelKm).toBeCloseTo(140, 6);
    expect(clock(vehicles[0]?.fuelUntil)).toBe("10T10:50");
  });

  it("reaches what is left of the fuel, there and back or one way", async () => {
    const { reach } = await asked(chase(["ann"], `${TRUCK}, range: 400 km, fuel: 90%`), UTC("09:05"));
    // 360 − 60 = 300 km: b is 160 km off, and 320 there and back.
    expect(reach.find(({ place }) => place === "b")).toMatchObject({ there: true, back: false, minutes: 120 });
  });

  it("the second night of a chase: what was driven before the day's own break no longer counts, the rest between does", async () => {
    // The first night as `first` has it: called 16:20, 2 h + 1 h of driving, released 21:53. The second: called 17:35, which
    // is more than 10 h later; 1 h of driving until 19:05, then the hit: more than 30 min without driving. So at 20:33
    // 8 h until the break at 04:33, and of the 11 h 10 are left: 2 h more after 30 min, 07:03, before the window of 14 h
    // from 17:35 ends at 07:35. Ten hours of rest follow.
    const common = `daywright: 1
clock: UTC
crew: { ann: { role: engineer, drives: [truck] } }
vehicles: { truck: { ${TRUCK} } }
places: { a: { zone: UTC, kind: lodging }, b: { zone: UTC }, c: { zone: UTC, kind: lodging } }
roads: [ { link: [a, b], drive: 2 h, bad: 2 h, km: 160 }, { link: [b, c], drive: 1 h, bad: 1 h, km: 80 } ]
hits: { h: { at: "20:00", for: 3 min, place: b, who: [ann] } }
`;
    const first = `${common}date: 2027-05-10
history: { ann: { released: 2027-05-09T20:00+00:00 } }
runs: { truck: { driver: ann, aboard: [ann], stops: [a, b, c] } }
`;
    const second = `${common}date: 2027-05-11
follows: first.yaml
runs: { truck: { driver: ann, aboard: [ann], stops: [c, b, c] } }
`;
    const { days, results } = await judgedText(second, { "first.yaml": first });
    expect(days).toHaveLength(2);
    const at = later(UTC("20:33"), 1440);
    const { hours, power, roads } = results;
    const { vehicles, people } = await enduranceOf({ days, at, hours, power, roads, routed: new Map(), patience: 1 });
    const [truck] = vehicles;
    expect([clock(truck?.breakBy), clock(truck?.lawUntil)]).toEqual(["12T04:33", "12T07:03"]);
    expect(truck?.order.map(({ from, to, driver }) => [driver, to - from])).toEqual([
      ["ann", 480],
      [null, 30],
      ["ann", 120],
    ]);
    expect(clock(people[0]?.calledFrom)).toBe("12T17:03");
  });

  it("Regulation (EC) 561/2006, Article 7: after a break of 15 min or more, 30 min end the four and a half hours", async () => {
    const eu = "gross: 9 t, rules: eu";
    const meal = 'tasks: { bite: { kind: meal, place: b, for: 20 min, who: [ann], window: ["12:40", "13:00"] } }';
    const stops = (text: string): string =>
      text.replace("stops: [a, b, c]", "stops: [a, { place: b, do: [h, bite] }, c]");
    // 2 h driven until 11:05; at 13:00 the truck leaves b: 2 h 30 until 15:30. Ten hours in all are left over two more blocks.
    const split = await asked(stops(chase(["ann"], eu, meal)), UTC("13:00"));
    expect(split.vehicles[0]?.order.map(({ to, from, driver }) => [driver, to - from])).toEqual([
      ["ann", 150],
      [null, 30],
      ["ann", 270],
      [null, 45],
      ["ann", 60],
    ]);
    // Without it the truck left at 12:33, 27 min are driven by 13:00: 2 h 3 more, and the break is 45 min.
    const whole = await asked(chase(["ann"], eu), UTC("13:00"));
    expect(whole.vehicles[0]?.order.slice(0, 2).map(({ to, from, driver }) => [driver, to - from])).toEqual([
      ["ann", 123],
      [null, 45],
    ]);
  });

  it("says the binding limit first, who and when", async () => {
    const judged = await judgedText(chase(["ann"], TRUCK));
    const { blocks, data } = await makeReport("endurance", judged, { now: UTC("09:05") });
    expect(Object.keys(data ?? {})).toEqual(["at", "binding", "vehicles", "people", "packs", "reach", "next"]);
    const [first] = blocks;
    expect(first?.kind === "line" ? first.cells.map(({ text }) => text).join("") : "").toBe(
      "truck can go on until 11:05 UTC by the house rules (ann: wheel break 15 min every 2 h).",
    );
  });
});

const LAWS = [TRUCK, "gross: 9 t, rules: eu, week: auto", "gross: 16000 lb, rules: ca-south", TRUCK];

/** A chase of some drivers at some moment of its first half day. */
async function randomChase(seed: number) {
  const below = random(seed);
  const drivers = ["ann", "ben", "cal"].slice(0, 1 + below(3));
  const law = (LAWS[below(LAWS.length)] ?? TRUCK).replace(", week: auto", "");
  const berth = below(2) === 0 ? ", berth: true" : "";
  const fuel = below(2) === 0 ? `, range: ${400 + below(600)} km, fuel: ${30 + below(70)}%` : "";
  const judged = await judgedText(chase(drivers, `${law}${berth}${fuel}`));
  const at = later(UTC("08:40"), below(420));
  return { judged, at };
}

const plus = (order: readonly Rolled[], driver: string, at: Instant): readonly Rolled[] => {
  const from = order.at(-1)?.to ?? at;
  return turnsOf([...order, { from, to: later(from, 1), driver }]);
};

describe("on random chases every figure holds to the minute, and a minute longer does not", () => {
  it.each(Array.from({ length: 25 }, (_, index) => index + 1))("chase %i", async (seed) => {
    const { judged, at } = await randomChase(seed);
    const { hours, power, roads } = judged.results;
    const found = await enduranceOf({ days: judged.days, at, hours, power, roads, routed: new Map(), patience: 1 });
    const rolling = new Rolling(judged.days, at);
    for (const own of found.vehicles) {
      const aboard = aboardAt(judged.day, at).find(({ vehicle }) => vehicle === own.vehicle);
      if (aboard === undefined) throw new Error("nobody aboard");
      const until = (end: Instant) =>
        own.order.flatMap((stretch) =>
          stretch.from >= end ? [] : [{ ...stretch, to: stretch.to < end ? stretch.to : end }],
        );
      expect(rolling.law(aboard, own.order)).toBe(0);
      if (own.lawBecause !== null)
        for (const driver of aboard.drivers)
          expect(rolling.law(aboard, plus(own.order, driver, at))).toBeGreaterThan(0);
      const first = until(own.breakBy);
      if (own.breakBecause !== null)
        for (const driver of aboard.drivers) expect(rolling.law(aboard, plus(first, driver, at))).toBeGreaterThan(0);
      expect(rolling.house(aboard, until(own.houseUntil))).toBe(0);
      if (own.houseUntil < own.lawUntil)
        expect(rolling.house(aboard, until(later(own.houseUntil, 1)))).toBeGreaterThan(0);
      if (own.fuelKm !== null && own.fuelUntil !== null) {
        // The plan's roads are driven at 80 km/h.
        expect(((own.fuelUntil - at) * 80) / 60).toBeLessThanOrEqual(Math.max(0, own.fuelKm) + 1e-6);
        expect(((own.fuelUntil + 1 - at) * 80) / 60).toBeGreaterThan(own.fuelKm);
      }
    }
    for (const person of found.people) {
      const aboard = aboardAt(judged.day, at).find(({ drivers }) => drivers.includes(person.who));
      if (person.mayDriveUntil === null || aboard === undefined) continue;
      const alone = (end: Instant) =>
        end <= at ? 0 : rolling.of(aboard, person.who, [{ from: at, to: end, driver: person.who }]).law;
      expect(alone(person.mayDriveUntil)).toBe(0);
      if (person.mayDriveUntil - at < 2880) expect(alone(later(person.mayDriveUntil, 1))).toBeGreaterThan(0);
    }
  });
});

/** The farthest end over every order of drivers on the same grid: each tried, none cut off. */
function exhaustive(rolling: Rolling, aboard: Aboard, from: Instant, every: number, depth: number): Instant {
  let best = from;
  const tryAll = (tail: readonly Rolled[], at: Instant): void => {
    for (const driver of aboard.drivers) {
      for (let m = 1; m <= every; m++) {
        if (rolling.law(aboard, turnsOf([...tail, { from: at, to: later(at, m), driver }])) > 0) break;
        if (later(at, m) > best) best = later(at, m);
      }
      if (tail.length + 1 < depth) tryAll([...tail, { from: at, to: later(at, every), driver }], later(at, every));
    }
  };
  tryAll([], from);
  return best;
}

describe("the order of drivers", () => {
  it.each([1, 2, 3, 4])("is never worse than an exhaustive one: chase %i", async (seed) => {
    const below = random(seed * 7);
    const drivers = ["ann", "ben"].slice(0, 1 + (seed % 2));
    const { days, day } = await judgedText(chase(drivers, below(2) === 0 ? TRUCK : `${TRUCK}, berth: true`));
    const at = later(UTC("12:00"), below(180));
    const [aboard] = aboardAt(day, at);
    if (aboard === undefined) throw new Error("nobody aboard");
    const [every, depth] = [300, 3];
    const best = bestOrder(new Rolling(days, at), aboard, {
      from: at,
      before: [],
      every,
      budget: 100_000,
      most: every * depth,
    });
    expect(best.proven).toBe(true);
    expect(best.until).toBeGreaterThanOrEqual(exhaustive(new Rolling(days, at), aboard, at, every, depth));
  });
});
