import { describe, expect, it } from "vitest";
import { chainOf } from "../../src/roads/chance/chain.ts";
import { chancesOf, leaveByFor, passesOf, type TargetChance } from "../../src/roads/chance/chance.ts";
import { convolved } from "../../src/roads/chance/convolve.ts";
import { normalBelow } from "../../src/roads/chance/normal.ts";
import { leg } from "../day/parts.ts";
import { at, day, type Trip } from "./days.ts";

const light = () => false;

function chances(...trips: readonly Trip[]): readonly TargetChance[] {
  const chain = chainOf(day(trips), light);
  return chancesOf(chain, passesOf(chain));
}

const wagon = (...way: Trip["way"]): Trip => ({ vehicle: "wagon", people: ["wren", "ilse"], leave: at(300), way });

describe("one leg against its closed form", () => {
  it.each([
    ["planned at bad is met by 19 of 20", 35, 50, "bad", 0, normalBelow(1.645)],
    ["planned at likely is met by half", 35, 50, "drive", 0, 0.5],
    [
      "a wait before the hit is margin",
      35,
      50,
      "drive",
      10,
      normalBelow((1.645 * Math.log(45 / 35)) / Math.log(50 / 35)),
    ],
  ] as const)("%s", (_, likely, bad, plannedAt, wait, expected) => {
    const [dawn] = chances(wagon([leg("lodge", "pier", likely, bad), plannedAt, { wait, work: 45, hit: "dawn" }]));
    expect(dawn?.low).toBeCloseTo(expected, 6);
    expect(dawn?.sameLuck).toBeCloseTo(expected, 9);
    expect(dawn?.high).toBeGreaterThanOrEqual(expected);
    expect(dawn?.high).toBeLessThan(expected + 0.02);
  });

  it("a drive that always takes the same is sure to the minute", () => {
    const sure = leg("lodge", "pier", 20, 20);
    expect(chances(wagon([sure, "bad", { hit: "dawn" }]))[0]).toMatchObject({ low: 1, high: 1, sameLuck: 1 });
    const late = leg("lodge", "pier", 20.25, 20.25);
    const [dawn] = chancesOfPlanned(late, 20);
    expect(dawn).toMatchObject({ low: 0, high: 0, sameLuck: 0 });
  });
});

/** A leg that really takes `own`, planned at fewer minutes than that. */
function chancesOfPlanned(own: ReturnType<typeof leg>, planned: number): readonly TargetChance[] {
  const made = day([wagon([leg("lodge", "pier", planned, planned), "drive", { hit: "dawn" }])]);
  const chain = chainOf({ ...made, moves: made.moves.map((move) => ({ ...move, leg: own })) }, light);
  return chancesOf(chain, passesOf(chain));
}

describe("a chain", () => {
  const long = leg("lodge", "harbour", 180, 300);
  const short = leg("harbour", "pier", 20, 30);

  /** The chance that a second drive, left at `leave` or when the first is over, ends by `end`: summed over the first. */
  const bothFit = (leave: number, end: number, [likely, bad] = [180, 300], [next, worst] = [20, 30]): number => {
    const [s1, s2] = [Math.log(bad / likely) / 1.645, Math.log(worst / next) / 1.645];
    const steps = 40_000;
    let sum = 0;
    for (let i = 0; i < steps; i++) {
      const z = -8 + (16 * (i + 0.5)) / steps;
      const left = end - Math.max(leave, likely * Math.exp(s1 * z));
      const weight = Math.exp(-(z * z) / 2) / Math.sqrt(2 * Math.PI);
      if (left > 0) sum += (16 / steps) * weight * normalBelow(Math.log(left / next) / s2);
    }
    return sum;
  };

  it("is not cut by a five-minute wait: 180/300 then 20/30 gives 0.57", () => {
    const [dawn] = chances(wagon([long, "drive", { wait: 5 }], [short, "bad", { hit: "dawn" }]));
    const exact = bothFit(185, 215);
    expect(exact).toBeCloseTo(0.57, 2);
    expect(dawn?.low).toBeLessThanOrEqual(exact);
    expect(dawn?.high).toBeGreaterThanOrEqual(exact);
    expect(dawn?.printed).toBeCloseTo(0.57, 2);
  });

  it("of drives of days has the chance of their sum: 20/60 h twice, planned at 60 h each", () => {
    const [out, on] = [leg("lodge", "harbour", 1200, 3600), leg("harbour", "pier", 1200, 3600)];
    const [dawn] = chances(wagon([out, "bad", {}], [on, "bad", { hit: "dawn" }]));
    const exact = bothFit(3600, 7200, [1200, 3600], [1200, 3600]);
    expect(dawn?.low).toBeLessThanOrEqual(exact);
    expect(dawn?.high).toBeGreaterThanOrEqual(exact);
    expect(dawn?.low).toBeCloseTo(exact, 3);
  });

  it("with the same luck on both legs is as good as the luck that just fits both", () => {
    const [dawn] = chances(wagon([long, "bad", {}], [short, "bad", { hit: "dawn" }]));
    expect(dawn?.sameLuck).toBeCloseTo(normalBelow(1.645), 9); // 330 minutes are exactly bad and bad
    // An early first leg wins nothing, since the second leaves as planned; so independent drives do worse.
    expect(dawn?.low).toBeCloseTo(bothFit(300, 330), 3);
    expect(dawn?.printed).toBe(dawn?.low);
  });

  it("is cut by a wait that is long enough", () => {
    const [dawn] = chances(wagon([long, "drive", { wait: 2000 }], [short, "bad", { hit: "dawn" }]));
    expect(dawn?.low).toBeCloseTo(normalBelow(1.645), 4);
  });

  it("counts only the wait of whoever has the least of it", () => {
    const made = day([wagon([long, "drive", { wait: 60 }], [short, "bad", { hit: "dawn" }])]);
    const busy = made.people.map((person) =>
      person.id === "ilse" ? { ...person, terms: person.terms.map((term) => ({ ...term, name: "meal" })) } : person,
    );
    const chain = chainOf({ ...made, people: busy }, light);
    const [dawn] = chancesOf(chain, passesOf(chain));
    const [none] = chances(wagon([long, "drive", { work: 60 }], [short, "bad", { hit: "dawn" }]));
    expect(dawn?.low).toBeCloseTo(none?.low ?? -1, 12);
  });
});

describe("the dark", () => {
  it("slows the chance by the speed factor of low visibility, 0.96, and nothing else", () => {
    const made = day([wagon([leg("lodge", "pier", 35, 50), "bad", { hit: "dawn" }])]);
    const chain = chainOf(made, () => true);
    const [dawn] = chancesOf(chain, passesOf(chain));
    const z = (1.645 * Math.log((50 * 0.96) / 35)) / Math.log(50 / 35);
    expect(dawn?.low).toBeCloseTo(normalBelow(z), 6);
    expect(made.moves[0]?.plannedMinutes).toBe(50);
  });
});

describe("two vehicles at one hit", () => {
  const truck = (...way: Trip["way"]): Trip => ({ vehicle: "truck", people: ["tomas"], leave: at(300), way });

  it("are multiplied; a shared road makes the product a lower bound", () => {
    const both = leg("lodge", "pier", 35, 50);
    const [dawn] = chances(wagon([both, "bad", { hit: "dawn" }]), truck([both, "bad", { hit: "dawn" }]));
    expect(dawn?.low).toBeCloseTo(normalBelow(1.645) ** 2, 6);
    expect(dawn?.sameLuck).toBeCloseTo(normalBelow(1.645), 9);
    expect(dawn?.lowerBound).toBe(true);
    expect(dawn?.gates).toHaveLength(2);
  });

  it("on a shared road have at most the chance of the slower one", () => {
    // Both have 50 min: to the wagon that is its bad time, 0.95, to the truck its likely one, a half.
    const quick = wagon([leg("lodge", "pier", 35, 50), "bad", { hit: "dawn" }]);
    const slow = truck([leg("lodge", "pier", 50, 80), "drive", { hit: "dawn" }]);
    for (const trips of [
      [quick, slow],
      [slow, quick],
    ]) {
      const [dawn] = chances(...trips);
      expect(dawn?.gates).toHaveLength(2);
      expect(dawn?.atMost).toBeCloseTo(0.5, 6);
    }
  });

  it("on roads of their own are simply both needed", () => {
    const [dawn] = chances(
      wagon([leg("lodge", "pier", 35, 50), "bad", { hit: "dawn" }]),
      truck([leg("inn", "pier", 35, 50), "bad", { hit: "dawn" }]),
    );
    expect(dawn?.lowerBound).toBe(false);
  });
});

describe("leaving by, for a wanted chance", () => {
  const aimOf = (trip: Trip, wanted: number, departure = 0) => {
    const chain = chainOf(day([trip]), light);
    const [target] = chain.targets;
    const gate = target?.gates[0];
    if (target === undefined || gate === undefined) throw new Error("no target");
    return leaveByFor(chain, passesOf(chain), departure, { target, gate }, wanted);
  };

  it("is the quantile of one leg before the deadline", () => {
    const trip = wagon([leg("lodge", "pier", 35, 50), "bad", { hit: "dawn" }]);
    expect(aimOf(trip, 0.95)).toBe(at(300)); // exactly the plan
    expect(aimOf(trip, 0.5)).toBe(at(315)); // the median is 15 minutes shorter
    const spread = Math.log(50 / 35) / 1.645;
    expect(aimOf(trip, 0.99)).toBe(at(350 - Math.ceil(35 * Math.exp(2.3263 * spread))));
  });

  it("is nothing where a later departure is planned too late", () => {
    const trip = wagon(
      [leg("lodge", "inn", 30, 40), "bad", { wait: 60 }],
      [leg("inn", "pier", 35, 50), "drive", { hit: "dawn" }],
    );
    expect(aimOf(trip, 0.95)).toBeNull();
    expect(aimOf(trip, 0.95, 1)).toBe(at(300 + 40 + 60 - 15));
  });
});

describe("long drives", () => {
  it("add up by the transform as they do one by one", () => {
    // 2,500 by 2,000 products are more than are added one by one; each row is compared with the sum by its definition.
    const x = Float64Array.from({ length: 2500 }, (_, k) => ((k * 7919) % 104_729) / 1e8);
    const y = Float64Array.from({ length: 2000 }, (_, k) => ((k * 104_729) % 7919) / 1e7);
    const sum = convolved(x, y);
    expect(sum.length).toBe(4499);
    const asked = [0, 1, 2, 1023, 1024, 1999, 2000, 2499, 2500, 3333, 4497, 4498];
    for (const n of asked) {
      const exact = [...y].reduce((all, weight, k) => all + weight * (x[n - k] ?? 0), 0);
      expect(sum[n]).toBeCloseTo(exact, 12);
    }
  });

  it("whose spread is beyond all reason end at the last deadline: planned at bad, 19 of 20 arrive", () => {
    const wild = leg("lodge", "pier", 1, 21_600);
    const [dawn] = chances(wagon([wild, "bad", { hit: "dawn" }]));
    expect(dawn?.low).toBeCloseTo(normalBelow(1.645), 4);
    expect(dawn?.high).toBeGreaterThanOrEqual(dawn?.low ?? 1);
    expect(dawn?.high).toBeLessThan(0.951);
  });
});
