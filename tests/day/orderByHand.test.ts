/** The order in which a day has its stops, and what loads a vehicle again after a stand-down: times by hand. */
import { describe, expect, it } from "vitest";
import { at, type Description, dayOf, text } from "./make.ts";

const HITS = {
  dawn: { at: at("08:00"), forMinutes: 5, in: "pier" },
  noon: { at: at("08:30"), forMinutes: 5, in: "hall" },
};

describe("the stops of a day", () => {
  it("are in time order, of two at one time the plan's first; a first stop counts from its departure", () => {
    const day = dayOf({
      crew: { wren: { drives: ["wagon"] }, ilse: { drives: ["car"] } },
      roads: { "home pier": [30, 40], "home hall": [30, 40] },
      hits: HITS,
      runs: {
        car: { driver: "ilse", stops: ["home", { place: "hall", do: ["noon"] }, "home"] },
        wagon: { driver: "wren", stops: ["home", { place: "pier", do: ["dawn"] }, "home"] },
      },
    });
    // Park 5, set up 30, line check 10 and 10 in position: 55 min before the air at the place, 40 min of road before that.
    expect(day.stops.map(({ stop, arrive, leave }) => [stop.id, text(arrive), text(leave)])).toEqual([
      ["wagon.1", null, "06:25"],
      ["car.1", null, "06:55"],
      ["wagon.2", "07:05", "08:35"],
      ["car.2", "07:35", "09:05"],
      ["wagon.3", "09:05", null],
      ["car.3", "09:35", null],
    ]);
    expect(day.moves.map(({ id }) => id)).toEqual(["wagon.1", "car.1", "wagon.2", "car.2"]);
  });
});

describe("a stand-down before a departure", () => {
  const base = (who: readonly string[]): Description => ({
    crew: { wren: { drives: ["wagon"] }, ilse: {} },
    roads: { "home pier": [30, 40] },
    hits: { dawn: HITS.dawn },
    tasks: { down: { in: "pier", kind: "standdown", who, window: { from: at("12:00"), to: at("16:00") } } },
    runs: {
      wagon: {
        driver: "wren",
        aboard: ["wren", "ilse"],
        stops: ["home", { place: "pier", do: ["dawn", "down"] }, "home"],
      },
    },
  });
  const left = (who: readonly string[]) => {
    const day = dayOf(base(who));
    return [text(day.instants.get("wagon.2.loading") ?? null), text(day.instants.get("wagon.2.leave") ?? null)];
  };

  it("is followed by 15 min of loading, whether all aboard had one or one of them", () => {
    expect(left(["wren", "ilse"])).toEqual(["16:00", "16:15"]);
    expect(left(["wren"])).toEqual(["16:00", "16:15"]);
    expect(left(["ilse"])).toEqual(["16:00", "16:15"]);
  });
});
