/** What of a day stands in the way of packs: rests, frost and heat, where loads ride, what may fly. By hand. */
import { beforeAll, describe, expect, it } from "vitest";
import type { Day, PersonDay } from "../../src/day/day.ts";
import { flyingPacks } from "../../src/power/air.ts";
import type { DayModel } from "../../src/power/day/build.ts";
import { frozenMinutes, hotMinutes } from "../../src/power/day/idleChargers.ts";
import { restsOf } from "../../src/power/day/rests.ts";
import { assess } from "../../src/power/index.ts";
import { bayAt } from "../../src/power/model.ts";
import { instant } from "../../src/time/units.ts";
import { daysOf } from "./plans.ts";

/** Off 06:20 or so, at the pier for dawn until it is cleared, and home; the lodge has mains, the wagon an inverter. */
const plan = (more: string, wagon = "inverter: 300 W", packs = "brick: { wh: 100, mount: v, in: wagon }") => `
daywright: 1
date: 2027-01-20
clock: America/Chicago
zone: America/Chicago
crew: { wren: { drives: wagon } }
vehicles: { wagon: { ${wagon} }, cart: {} }
places: { lodge: { kind: lodging, mains: true }, pier: {} }
roads: [{ link: [lodge, pier], drive: 35 min, bad: 50 min }]
hits: { dawn: { at: "07:00", for: 3 min, place: pier } }
kit: { camera: { in: wagon, watts: 40, mount: v, during: hits } }
packs: { ${packs} }
chargers: { bench: { mount: v, slots: 1, watts: 50, in: wagon } }
runs: { wagon: { driver: wren, aboard: [wren], stops: [lodge, pier, lodge] } }
${more}
`;

async function builtOf(text: string): Promise<{ readonly day: Day; readonly built: DayModel }> {
  const days = await daysOf(text);
  const day = days.at(-1);
  if (day === undefined) throw new RangeError("no day");
  return { day, built: (await assess({ days, patience: 1, now: null }, null)).result.built };
}

describe("the time in which a charger has power and may not use it", () => {
  const minutes = async (celsius: number | null, wagon?: string) => {
    const { day, built } = await builtOf(plan(celsius === null ? "" : `weather: [{ temp: ${celsius} C }]`, wagon));
    const [out, back] = day.moves;
    // The wagon runs on the road, and at the pier, where they work from the arrival to the departure.
    const runs = (back?.arrive ?? 0) - (out?.leave ?? 0);
    return { runs, frost: frozenMinutes(built, "wagon"), heat: hotMinutes(built, "wagon") };
  };

  it("is all that the engine runs in the frost, below 0 °C", async () => {
    const cold = await minutes(-1);
    expect(cold.runs).toBeGreaterThan(70);
    expect(cold).toEqual({ runs: cold.runs, frost: cold.runs, heat: 0 });
    expect(await minutes(0)).toMatchObject({ frost: 0, heat: 0 });
    expect(await minutes(null)).toMatchObject({ frost: 0, heat: 0 });
    expect(await minutes(-1, "inverter: 300 W, inside: 20 C")).toMatchObject({ frost: 0 });
  });

  it("is all that the engine runs in more than 45 °C; a room at the lodge is cooler", async () => {
    const hot = await minutes(46);
    expect(hot).toEqual({ runs: hot.runs, frost: 0, heat: hot.runs });
    expect(await minutes(45)).toMatchObject({ frost: 0, heat: 0 });
  });

  it("is none without an inverter, and none in a vehicle that stands still", async () => {
    expect(await minutes(-1, "")).toMatchObject({ frost: 0, heat: 0 });
    expect(await minutes(46, "")).toMatchObject({ frost: 0, heat: 0 });
    const { built } = await builtOf(plan("weather: [{ temp: -5 C }]"));
    expect([frozenMinutes(built, "cart"), hotMinutes(built, "cart"), frozenMinutes(built, "lodge")]).toEqual([0, 0, 0]);
  });
});

describe("rests that chores must leave whole", () => {
  const BOUND = 600;
  let day: Day | undefined;
  beforeAll(async () => {
    [day] = await daysOf(plan(""));
  });

  /** Released at minute 0, on duty from 700 to 1300; bound to 600 min by the house, to so many by law. What joins: 60 min. */
  function rests({
    call = 700,
    house = BOUND,
    law = null,
  }: {
    call?: number;
    house?: number | null;
    law?: number | null;
  }) {
    const [wren] = day?.people ?? [];
    if (day === undefined || wren === undefined) throw new RangeError("no day");
    const duty = { call: instant(call), callPlace: "lodge", release: instant(1300), releasePlace: "lodge" };
    const person: PersonDay = { ...wren, previousRelease: instant(0), duties: [duty] };
    const { plan: own } = day;
    const made = { ...day, plan: { ...own, rules: { ...own.rules, choreJoin: 60 } }, people: [person] };
    return restsOf(made, new Map([["wren", { lawMinutes: law, houseMinutes: house }]]));
  }
  const span = (from: number, to: number) => ({ from: instant(from), to: instant(to) });
  const night = (call = 700) => span(0, call);

  it("lie between a release and the next call, and hold what lies in any part of them", () => {
    const { restAt } = rests({});
    expect([restAt("wren", span(100, 102)), restAt("wren", span(699, 800)), restAt("wren", span(-50, 1))]).toEqual([
      ...[night(), night(), night()],
    ]);
    expect([restAt("wren", span(700, 800)), restAt("wren", span(-50, 0)), restAt("ilse", span(1, 2))]).toEqual([
      ...[null, null, null],
    ]);
    expect(restAt("wren", span(1300, 1302))?.from).toBe(1300);
  });

  it("need what the house asks; a shorter one may lose what joins its two ends", () => {
    expect(rests({}).needed("wren", night())).toBe(600);
    expect(rests({ call: 600 }).needed("wren", night(600))).toBe(600);
    // 599 min are too short anyway: an hour at each end may go.
    expect(rests({ call: 599 }).needed("wren", night(599))).toBe(479);
    expect(rests({ house: null }).needed("wren", night())).toBe(0);
    expect(rests({}).needed("ilse", night())).toBe(0);
  });

  it("need what the law asks where that is more, and all of one that the law finds too short", () => {
    expect(rests({ law: 650 }).needed("wren", night())).toBe(650);
    expect(rests({ law: 480 }).needed("wren", night())).toBe(600);
    expect(rests({ law: 800 }).needed("wren", night())).toBe(700);
    const { neededByLaw } = rests({ law: 480 });
    expect([neededByLaw("wren", night()), rests({ law: 800 }).neededByLaw("wren", night())]).toEqual([480, 700]);
    expect(rests({}).neededByLaw("wren", night())).toBe(0);
  });

  it("keep what is left before the call; a chore within an hour of an end only moves that end", () => {
    const { kept, joins } = rests({});
    const chore = (from: number) => span(from, from + 10);
    expect(kept(night(), [])).toBe(700);
    expect([kept(night(), [chore(60)]), joins(night(), chore(60))]).toEqual([630, true]);
    expect([kept(night(), [chore(61)]), joins(night(), chore(61))]).toEqual([629, false]);
    expect([kept(night(), [chore(630)]), joins(night(), chore(630))]).toEqual([630, true]);
    expect([kept(night(), [chore(629)]), joins(night(), chore(629))]).toEqual([61, false]);
    expect(kept(night(), [chore(300), chore(200)])).toBe(390);
  });
});

describe("what a load is wanted for", () => {
  const wanted = async (kit: string) => {
    const { built } = await builtOf(plan("").replace("camera: { in: wagon, watts: 40", kit));
    return built.demands.map(({ demand, activity }) => [activity, ...demand.watts.keys()]);
  };

  it("is a hit at the place where its vehicle is, and none where that is elsewhere", async () => {
    expect(await wanted("camera: { in: wagon, watts: 40")).toEqual([["dawn", "camera"]]);
    expect(await wanted("camera: { in: wagon, count: 2, watts: 40")).toEqual([["dawn", "camera.1", "camera.2"]]);
    expect(await wanted("camera: { in: pier, watts: 40")).toEqual([["dawn", "camera"]]);
    expect(await wanted("camera: { in: cart, watts: 40")).toEqual([]);
    expect(await wanted("camera: { in: lodge, watts: 40")).toEqual([]);
  });

  it("is no hit of which any minute is one in which it is out of service", async () => {
    // Wanted from the line check, 20 min before 07:00, until the desk has cleared, 10 min after 07:03.
    const broken = (from: string, to: string | null) =>
      wanted(`camera: { broken: { from: "${from}"${to === null ? "" : `, to: "${to}"`} }, in: wagon, watts: 40`);
    expect([await broken("05:00", "06:40"), await broken("05:00", "06:41")]).toEqual([[["dawn", "camera"]], []]);
    expect([await broken("07:13", "09:00"), await broken("07:12", "09:00")]).toEqual([[["dawn", "camera"]], []]);
    expect([await broken("07:13", null), await broken("07:12", null), await broken("06:50", "06:51")]).toEqual([
      ...[[["dawn", "camera"]], [], []],
    ]);
  });
});

describe("a load", () => {
  it("rides where it was put last, from that minute on, and before in the first bay", () => {
    const bay = [
      { from: instant(100), bay: "wagon" },
      { from: instant(200), bay: "truck" },
    ];
    const at = (minute: number) => bayAt({ id: "camera", mount: "v", bay }, minute);
    expect([at(0), at(100), at(199), at(200), at(900)]).toEqual(["wagon", "wagon", "wagon", "truck", "truck"]);
  });
});

// Over 100 Wh: with the airline's approval, two spares a person (tests/world/batteries.json, air carriage); none over 160 Wh.
describe("packs that fly", () => {
  it("are two for each person over 100 Wh, whatever group they are of, and all of those up to 100 Wh", async () => {
    const packs =
      "brick: { count: 3, wh: 120, mount: v, in: wagon }, block: { count: 4, wh: 150, mount: v, in: wagon }, " +
      "small: { count: 9, wh: 100, mount: v, in: wagon }, slab: { count: 2, wh: 161, mount: v, in: wagon }";
    const [day] = await daysOf(plan("", undefined, packs));
    const allowed = (people: number) =>
      day === undefined ? [] : flyingPacks(day.plan, people).map(({ group, allowed: many }) => `${group} ${many}`);
    expect(allowed(1)).toEqual(["brick 2", "block 0", "small 9", "slab 0"]);
    expect(allowed(2)).toEqual(["brick 3", "block 1", "small 9", "slab 0"]);
    expect(allowed(4)).toEqual(["brick 3", "block 4", "small 9", "slab 0"]);
  });
});
