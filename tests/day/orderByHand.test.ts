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

describe("rides", () => {
  const ride = { leadMinutes: 0, who: ["odo"] };
  const out = { ...ride, from: "home", to: "pier", leave: at("05:00"), arrive: at("05:30") };
  const back = { ...ride, from: "pier", to: "home", leave: at("18:00"), arrive: at("18:30") };
  const base = (rides: Description["rides"]) =>
    dayOf({
      crew: { wren: { drives: ["wagon"] }, odo: { slept: "home" } },
      roads: { "home pier": [30, 40] },
      hits: { dawn: { ...HITS.dawn, who: ["wren", "odo"] } },
      runs: { wagon: { driver: "wren", aboard: ["wren"], stops: ["home", { place: "pier", do: ["dawn"] }, "home"] } },
      ...(rides === undefined ? {} : { rides }),
    });
  const terms = (rides: Description["rides"]) =>
    base(rides)
      .people.find(({ id }) => id === "odo")
      ?.terms.flatMap(({ name, from, to }) =>
        ["out", "back", "lead"].includes(name) ? [`${name} ${text(from)}-${text(to)}`] : [],
      );

  it("are taken in the order of their times, whatever the order of the file", () => {
    const wanted = ["out 05:00-05:30", "back 18:00-18:30"];
    expect(terms({ out, back })).toEqual(wanted);
    expect(terms({ back, out })).toEqual(wanted);
  });

  it("have minutes before them where they state some", () => {
    expect(terms({ out: { ...out, leadMinutes: 1 }, back })?.slice(0, 2)).toEqual([
      "lead 04:59-05:00",
      "out 05:00-05:30",
    ]);
    expect(terms({ out: { ...out, leadMinutes: 90 }, back })?.[0]).toBe("lead 03:30-05:00");
  });
});

describe("two stops at one place in a row", () => {
  it("are no drive", () => {
    const day = dayOf({
      crew: { wren: { drives: ["wagon"] } },
      roads: { "home pier": [30, 40] },
      hits: { dawn: HITS.dawn },
      runs: {
        wagon: { driver: "wren", stops: ["home", { place: "pier", do: ["dawn"] }, { place: "pier", do: [] }, "home"] },
      },
    });
    expect(day.moves.map(({ id }) => id)).toEqual(["wagon.1", "wagon.3"]);
  });
});

describe("two halts on one drive", () => {
  it("lie where the wheels have been by then: the first after 25 of 40 min, the second after 35", () => {
    const halt = (from: string, to: string) => ({
      ...({
        location: { kind: "onRoad", from: "home", to: "pier" },
        kind: "work",
        forMinutes: 10,
        who: ["wren"],
      } as const),
      window: { from: at(from), to: at(to) },
    });
    const day = dayOf({
      crew: { wren: { drives: ["wagon"] } },
      roads: { "home pier": [30, 40] },
      hits: { dawn: HITS.dawn },
      tasks: { first: halt("06:30", "06:40"), second: halt("06:50", "07:00") },
      runs: { wagon: { driver: "wren", stops: ["home", { place: "pier", do: ["dawn"] }, "home"] } },
    });
    // 40 min of road and two halts of 10 end at 07:05: left at 06:05.
    expect(day.moves.slice(0, 1).map(({ leave, arrive }) => [text(leave), text(arrive)])).toEqual([["06:05", "07:05"]]);
    expect(day.activities.filter(({ id }) => id !== "dawn").map(({ id, roadShare }) => [id, roadShare])).toEqual([
      ["first", 25 / 40],
      ["second", 35 / 40],
    ]);
  });
});

describe("a halt on the road", () => {
  it("is duty for the driver and for who rides awake, and rest for who sleeps", () => {
    const day = dayOf({
      crew: { wren: { drives: ["wagon"] }, ilse: {}, bea: {} },
      vehicles: { wagon: { berth: true } },
      roads: { "home pier": [30, 40] },
      hits: { dawn: { ...HITS.dawn, who: ["wren"] } },
      tasks: {
        look: {
          ...{ location: { kind: "onRoad", from: "home", to: "pier" }, kind: "work", forMinutes: 10, who: ["wren"] },
          window: { from: at("06:30"), to: at("06:40") },
        },
      },
      runs: {
        wagon: {
          ...{ driver: "wren", aboard: ["wren", "ilse", "bea"] },
          stops: [{ place: "home", asleep: ["bea"] }, { place: "pier", do: ["dawn"] }, "home"],
        },
      },
    });
    const at0630 = ["wren", "ilse", "bea"].map(
      (who) => day.people.find(({ id }) => id === who)?.spans.find(({ to }) => to > at("06:30"))?.is,
    );
    expect(at0630).toEqual(["duty", "duty", "berth"]);
  });
});

describe("unloading at the last stop, 10 min", () => {
  const unload = (stops: Description["runs"][string]["stops"], more: Partial<Description> = {}) => {
    const day = dayOf({
      crew: { wren: { drives: ["wagon"] } },
      roads: { "home pier": [30, 40] },
      hits: { dawn: HITS.dawn },
      runs: { wagon: { driver: "wren", stops } },
      ...more,
    });
    const last = `wagon.${stops.length}`;
    return [`${last}.unload`, `${last}.unloaded`].map((name) => text(day.instants.get(name) ?? null));
  };
  const PIER = { place: "pier", do: ["dawn"] };

  it("begins when a visit is packed: 08:05 and 10 to clear, 20 to strike", () => {
    expect(unload(["home", PIER])).toEqual(["08:35", "08:45"]);
  });

  it("begins on arrival where nothing is done, and after a stated stay there", () => {
    expect(unload(["home", PIER, "home"])).toEqual(["09:05", "09:15"]);
    expect(unload(["home", PIER, { place: "home", stayMinutes: 25 }])).toEqual(["09:30", "09:40"]);
  });
});

describe("a call", () => {
  it("is made at a full step of the clock, or at the minute", () => {
    // Dawn at 08:01: 55 min at the place before it, 40 of road, 15 of loading: 06:11.
    const call = (roundCalls: number) =>
      text(
        dayOf({
          crew: { wren: { drives: ["wagon"] } },
          roads: { "home pier": [30, 40] },
          hits: { dawn: { ...HITS.dawn, at: at("08:01") } },
          runs: { wagon: { driver: "wren", stops: ["home", "pier", "home"] } },
          rules: { roundCalls },
        }).people[0]?.call ?? null,
      );
    expect([0, 1, 2, 3, 5, 15].map(call)).toEqual(["06:11", "06:11", "06:10", "06:09", "06:10", "06:00"]);
  });
});

describe("one hit with two vehicles, at a place that one of them comes to twice", () => {
  it("is with those of the first stop, and what fixes a time is named by its line of the plan", () => {
    const day = dayOf({
      crew: { wren: { drives: ["wagon"] }, tomas: { drives: ["truck"] } },
      roads: { "home pier": [30, 40], "pier cove": [20, 25] },
      hits: { dawn: { ...HITS.dawn, who: ["wren", "tomas"] } },
      tasks: {
        look: {
          ...({ kind: "work", in: "cove", forMinutes: 10 } as const),
          window: { from: at("12:00"), to: at("12:10") },
        },
      },
      runs: {
        wagon: {
          driver: "wren",
          stops: [
            { place: "home", leave: at("05:00") },
            { place: "pier", do: ["dawn"] },
            { place: "cove", do: ["look"] },
            { place: "pier", do: [] },
            "home",
          ],
        },
        truck: { driver: "tomas", stops: ["home", { place: "pier", do: ["dawn"] }, "home"] },
      },
    });
    expect(day.activities.find(({ id }) => id === "dawn")?.who).toEqual(["wren", "tomas"]);
    const by = (id: string) => day.why(id)?.fixedBy.where;
    expect([by("dawn.start"), by("look.start")]).toEqual([
      ["hits", "dawn", "at"],
      ["tasks", "look", "window"],
    ]);
    // Wren's call follows from the wagon's departure, which its stop states.
    expect([by("wagon.1.leave")?.at(-1), by("wren.call")?.at(-1)]).toEqual(["leave", "leave"]);
  });
});

describe("a call that a ride fixes", () => {
  it("is fixed by the ride's own line", () => {
    const day = dayOf({
      crew: { wren: { slept: "home" } },
      roads: {},
      places: { home: {}, pier: {} },
      hits: { dawn: { ...HITS.dawn, who: ["wren"] } },
      runs: {},
      rides: { bus: { from: "home", to: "pier", leave: at("06:00"), arrive: at("06:40"), who: ["wren"] } },
    });
    const why = day.why("wren.call");
    expect([text(day.people[0]?.call ?? null), why?.at]).toEqual(["06:00", at("06:00")]);
    expect(why?.fixedBy).toMatchObject({ at: at("06:00"), by: "plan" });
    expect(why?.fixedBy.where).not.toBeNull();
  });
});
