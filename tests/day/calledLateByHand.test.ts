/** Departures that cannot have been before someone's logged call: at the minute, by hand from 15 min of loading and of walk-around. */
import { describe, expect, it } from "vitest";
import { calledLate } from "../../src/day/facts/calledLate.ts";
import { computeDay, NOTHING_BEFORE } from "../../src/day/index.ts";
import { at, type Description, legsOf, makePlan, text } from "./make.ts";
import { actual } from "./parts.ts";
import { CREW, HIT, ROADS } from "./wagon.ts";

type Logged = Readonly<Record<string, string>>;

/** The wagon leaves home at 06:25 for the hit at 08:00: 40 min, park 5, set-up 30, line check 10, in position 10. */
function standing(calls: Logged, stops: Readonly<Record<string, { left?: string; arrived?: string }>> = {}, more = {}) {
  const description: Description = {
    crew: CREW,
    roads: ROADS,
    hits: { dawn: HIT("08:00") },
    runs: { wagon: { stops: ["home", "pier", "home"] } },
    ...more,
  };
  const plan = makePlan(description);
  const { day } = computeDay(plan, legsOf(plan), NOTHING_BEFORE);
  if (day === null) throw new Error("no day");
  const went = actual({
    people: new Map(Object.entries(calls).map(([id, call]) => [id, { call: at(call) }])),
    stops: new Map(
      Object.entries(stops).map(([id, { left, arrived }]) => [
        id,
        { left: left === undefined ? null : at(left), arrived: arrived === undefined ? null : at(arrived) },
      ]),
    ),
  });
  const { moves, activities, instants } = day;
  return [...calledLate({ plan: { ...plan, actual: went }, moves, activities, instants })].map(([stop, when]) => [
    stop,
    text(when),
  ]);
}

describe("a vehicle whose people are called after it was to leave", () => {
  it("leaves when they have loaded; who is called by its departure does not keep it", () => {
    expect(standing({ ilse: "06:26" })).toEqual([["wagon.1", "06:41"]]);
    expect(standing({ ilse: "06:25" })).toEqual([]);
    expect(standing({})).toEqual([]);
  });

  it("leaves with the last of them, in any order", () => {
    expect(standing({ ilse: "06:30", wren: "06:50" })).toEqual([["wagon.1", "07:05"]]);
    expect(standing({ wren: "06:50", ilse: "06:30" })).toEqual([["wagon.1", "07:05"]]);
  });

  it("left as is logged", () => {
    expect(standing({ ilse: "06:30" }, { "wagon.1": { left: "06:31" } })).toEqual([]);
    expect(standing({ ilse: "06:30" }, { "wagon.2": { left: "09:00" } })).toEqual([["wagon.1", "06:45"]]);
  });

  it("left early enough for its logged arrival, but not before the call", () => {
    expect(standing({ ilse: "06:30" }, { "wagon.2": { arrived: "07:20" } })).toEqual([["wagon.1", "06:40"]]);
    expect(standing({ ilse: "06:30" }, { "wagon.2": { arrived: "07:25" } })).toEqual([["wagon.1", "06:45"]]);
    expect(standing({ ilse: "06:30" }, { "wagon.2": { arrived: "07:00" } })).toEqual([["wagon.1", "06:30"]]);
    expect(standing({ ilse: "06:30" }, { "wagon.3": { arrived: "07:20" } })).toEqual([["wagon.1", "06:45"]]);
  });

  it("waits for the walk-around of its driver, if it is commercial", () => {
    const commercial = { vehicles: { wagon: { commercial: true } } };
    expect(standing({ wren: "06:30" }, {}, commercial)).toEqual([["wagon.1", "07:00"]]);
    expect(standing({ ilse: "06:30" }, {}, commercial)).toEqual([["wagon.1", "06:45"]]);
  });

  it("is the next one behind a stand-down that began before the call", () => {
    // Home at 09:05; called again at 14:00 to leave at 14:25 for the hit at 16:00.
    const down = {
      hits: { dawn: HIT("08:00"), dusk: HIT("16:00") },
      tasks: { rest: { kind: "standdown", in: "home", window: { from: at("09:20"), to: at("14:00") } } },
      runs: {
        wagon: {
          stops: [
            "home",
            { place: "pier", do: ["dawn"] },
            { place: "home", do: ["rest"] },
            { place: "pier", do: ["dusk"] },
            "home",
          ],
        },
      },
    };
    expect(standing({ ilse: "14:40" }, {}, down)).toEqual([["wagon.3", "14:55"]]);
    expect(standing({ ilse: "09:20" }, {}, down)).toEqual([["wagon.1", "09:35"]]);
    expect(standing({ ilse: "09:21" }, {}, down)).toEqual([]);
  });
});
