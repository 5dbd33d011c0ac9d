/** Who is missing at a wheel, once for each cause; what enters a day in which order; whom a log leaves without their own drive. */
import { describe, expect, it } from "vitest";
import { computeDay } from "../../src/day/index.ts";
import { inRank } from "../../src/day/network/candidates.ts";
import { resolveOrder } from "../../src/day/order/resolveOrder.ts";
import { plainWording } from "../../src/reports/shared/wording.ts";
import { at, type Description, dayOf, legsOf, makePlan, text, times } from "./make.ts";
import { actual } from "./parts.ts";

const ROADS: Description["roads"] = { "home pier": [30, 40], "home cove": [45, 60] };

describe("a driver who is missing", () => {
  const missing = (crew: Description["crew"], runs: Description["runs"]) => {
    const made = makePlan({ crew, runs, roads: ROADS, hits: { dawn: { at: at("08:00"), forMinutes: 5 } } });
    return computeDay(made, legsOf(made)).findings.flatMap(({ code, facts }) =>
      code === "driver-missing" ? [`${facts["leg"]}: ${facts["may"]}`] : [],
    );
  };
  const two: Description["crew"] = { wren: { drives: ["wagon"] }, ilse: { drives: ["wagon"] }, joe: {} };

  it("is raised once for all legs on which the same people may drive", () => {
    expect(missing(two, { wagon: { aboard: ["wren", "ilse", "joe"], stops: ["home", "pier", "home"] } })).toEqual([
      "wagon.1: wren,ilse",
    ]);
  });

  it("is raised again where others may, or no one: joe drives nothing", () => {
    const back = { place: "pier", aboard: ["joe"] };
    expect(missing(two, { wagon: { aboard: ["wren", "ilse", "joe"], stops: ["home", back, "home"] } })).toEqual([
      "wagon.1: wren,ilse",
      "wagon.2: ",
    ]);
  });

  it("is not raised where no one rides, which is a mistake of its own", () => {
    expect(missing(two, { wagon: { aboard: [], stops: ["home", "pier", "home"] } })).toEqual([]);
  });

  it("is raised for each vehicle of its own, if no one may drive either", () => {
    const none = { wren: {}, ilse: {} };
    const stops = ["home", "pier", "home"];
    expect(missing(none, { wagon: { aboard: ["wren"], stops }, truck: { aboard: ["ilse"], stops } })).toEqual([
      "wagon.1: ",
      "truck.1: ",
    ]);
  });
});

describe("what enters a day", () => {
  it("is firm hits and stand-bys by time, then other hits, then what has no fixed time; each of them once", () => {
    const window = { from: at("09:00"), to: at("10:00") };
    const plan = makePlan({
      crew: { wren: { drives: ["wagon"] } },
      roads: ROADS,
      hits: {
        dawn: { at: at("08:00"), forMinutes: 5, firm: false },
        noon: { at: at("12:00"), forMinutes: 5, firm: true },
        eve: { at: at("07:30"), forMinutes: 5, firm: false },
      },
      tasks: {
        watch: { kind: "standby", forMinutes: 30 },
        hold: { kind: "standby", window },
        write: { kind: "work", forMinutes: 30, window },
      },
      runs: {
        wagon: { stops: ["home", { place: "pier", do: ["dawn", "hold", "noon", "eve", "watch", "write"] }, "home"] },
      },
    });
    const { order } = resolveOrder(plan, legsOf(plan), new Map());
    expect(inRank(order)).toEqual(
      ["hold", "noon", "eve", "dawn", "watch", "write"].map((id) => ({ kind: "activity", id })),
    );
  });
});

describe("someone logged at the wheel of another vehicle", () => {
  const crew = {
    wren: { drives: ["wagon"] },
    ilse: { drives: ["wagon", "car"] },
    tomas: { drives: ["truck"] },
    bea: { drives: ["car"] },
  };
  const stops = ["base", "pier", "base"];
  const roads = { ...ROADS, "base pier": [20, 20] } as const;
  /** Ilse is logged as the driver of wagon.1; by the plan she is in the car, which comes after the truck of the others. */
  const told = (car: Description["runs"][string], rides: Description["rides"] = {}) => {
    const made = makePlan({
      ...{ crew, roads, rides, hits: { dawn: { at: at("08:00"), forMinutes: 5, who: ["wren"] } } },
      runs: {
        truck: { driver: "tomas", aboard: ["tomas"], stops: [{ place: "home", leave: at("06:00") }, "cove", "home"] },
        wagon: { driver: "wren", aboard: ["wren"], stops },
        car,
      },
    });
    const plan = { ...made, actual: actual({ stops: new Map([["wagon.1", { driver: "ilse" }]]) }) };
    const found = computeDay(plan, legsOf(plan)).findings.filter(({ code }) => code === "driver-elsewhere");
    return found.map((one) => one.sentence(plainWording));
  };
  const leaving = { place: "home", leave: at("06:30") };

  it("leaves the car that no one else may drive: that leg is named, and that she was to drive it", () => {
    expect(told({ driver: "ilse", aboard: ["ilse"], stops: [leaving, "cove", "home"] })).toEqual([
      expect.stringMatching(/^ilse is logged at the wheel of wagon from wagon\.1, but is to drive car from car\.1/u),
    ]);
  });

  it("who has to be in the car for a ride that stands is told with the first leg that she was to ride", () => {
    const back = { from: "cove", to: "home", leave: at("11:00"), arrive: at("12:00"), who: ["ilse"] };
    const car = {
      driver: "bea",
      stops: [{ ...leaving, aboard: ["bea", "ilse"] }, { place: "cove", aboard: ["bea"] }, "home"],
    };
    expect(told(car, { back })).toEqual([
      expect.stringMatching(/^ilse is logged at the wheel of wagon from wagon\.1, but is to ride in car from car\.1/u),
    ]);
  });
});

describe("the last stop of a run", () => {
  it("unloads once what stands there is packed", () => {
    // Noon 12:00 to 12:05, 10 min of clear, 20 of strike: 12:35.
    const day = dayOf({
      crew: { wren: { drives: ["wagon"] } },
      roads: ROADS,
      hits: { noon: { at: at("12:00"), forMinutes: 5 } },
      runs: { wagon: { stops: ["home", { place: "pier", do: ["noon"] }] } },
    });
    expect(times(day, "wagon.2.packed", "wagon.2.unload")).toEqual(["12:35", "12:35"]);
  });

  it("unloads once it is parked for those who get out for what another vehicle does there", () => {
    // The car is to be there by 10:00 and takes 5 min to park; ilse comes in it for noon, which the wagon makes.
    const day = dayOf({
      crew: { wren: { drives: ["wagon"] }, ilse: { drives: ["car"] } },
      roads: ROADS,
      hits: { noon: { at: at("12:00"), forMinutes: 5, who: ["wren", "ilse"] } },
      runs: {
        wagon: { driver: "wren", aboard: ["wren"], stops: ["home", { place: "pier", do: ["noon"] }, "home"] },
        car: {
          driver: "ilse",
          aboard: ["ilse"],
          stops: [
            { place: "home", leave: at("09:20") },
            { place: "pier", do: [] },
          ],
        },
      },
    });
    expect(times(day, "car.2.arrive", "car.2.parked", "car.2.unload")).toEqual(["10:00", "10:05", "10:05"]);
  });
});

describe("loading at a stop on the way", () => {
  it("is for who boards there from bed, 30 min if they check out, and not for who came with the vehicle", () => {
    // Off at 08:35: 08:05 until then.
    const day = dayOf({
      crew: { wren: { drives: ["wagon"], slept: "home" }, ilse: { slept: "pier", sleeps: "home" } },
      roads: ROADS,
      hits: { dawn: { at: at("08:00"), forMinutes: 5, who: ["wren"] } },
      runs: {
        wagon: {
          driver: "wren",
          stops: [
            { place: "home", aboard: ["wren"] },
            { place: "pier", do: ["dawn"], aboard: ["wren", "ilse"] },
            "home",
          ],
        },
      },
    });
    const loads = (who: string) =>
      day.people
        .find(({ id }) => id === who)
        ?.terms.flatMap(({ name, from, to }) => (name === "loading" ? [`${text(from)}-${text(to)}`] : []));
    expect(times(day, "wagon.2.leave")).toEqual(["08:35"]);
    expect(loads("ilse")).toEqual(["08:05-08:35"]);
    // Wren loads at home: 15 min before 06:25.
    expect(loads("wren")).toEqual(["06:10-06:25"]);
  });
});
