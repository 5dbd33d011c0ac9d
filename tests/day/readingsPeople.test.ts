/**
 * What the Day does with people, several vehicles, rides, refusals and the day before (`help plan crew`, `rides`, `history`),
 * each with a plan where another reading would give another minute. All times are worked by hand from the lengths (park 5,
 * set-up 30, line check 10, in position 10, clear 10, strike 20, unload 10, loading 15) and stand on Chicago's clock.
 */
import { describe, expect, it } from "vitest";
import { computeDay, type DayBefore, NOTHING_BEFORE } from "../../src/day/index.ts";
import { at, type Description, dayOf, legsOf, makePlan, mistakesOf, text, times } from "./make.ts";
import { CREW, day, HIT, ROADS } from "./wagon.ts";

describe("people", () => {
  it("each is called for loading of the first vehicle, rounded earlier to 5 minutes, and the minutes are a term", () => {
    const d = day({ hits: { dawn: HIT("08:03") } });
    const wren = d.people.find((one) => one.id === "wren");
    expect(times(d, "wren.call", "wagon.1.loading")).toEqual(["06:10", "06:13"]);
    expect(wren?.terms[0]).toMatchObject({ name: "rounding", minutes: 3 });
    expect(times(day({ hits: { dawn: HIT("08:03") }, rules: { roundCalls: 1 } }), "wren.call")).toEqual(["06:13"]);
  });

  it("loading takes 30 minutes where someone aboard checks out", () => {
    const d = day({ hits: { dawn: HIT("08:00") } }, ["home", "pier", "cove"]);
    expect(times(d, "wagon.1.leave", "wren.call")).toEqual(["06:25", "05:55"]);
  });

  it("the post-trip of a commercial vehicle follows unloading, for its last driver", () => {
    const d = day({ hits: { dawn: HIT("08:00") }, vehicles: { wagon: { commercial: true } } });
    expect(times(d, "wren.call", "ilse.call", "ilse.release", "wren.release")).toEqual([
      "05:55",
      "06:10",
      "09:15",
      "09:25",
    ]);
  });

  it("someone left at their bed on the way is released on arrival; elsewhere than `sleeps` is a mistake", () => {
    const stops = ["home", "pier", { place: "cove", aboard: ["wren"] }, "home"];
    const d = day({ hits: { dawn: HIT("08:00") } }, stops);
    expect(times(d, "ilse.release", "wren.release")).toEqual(["08:55", "09:50"]);
    const crew = { wren: { drives: ["wagon"] }, ilse: { sleeps: "home" } };
    expect(mistakesOf({ crew, roads: ROADS, hits: { dawn: HIT("08:00") }, runs: { wagon: { stops } } })).toEqual([
      "left-away-from-bed",
    ]);
  });

  it("someone picked up from bed on the way is called for loading before that departure", () => {
    const crew = { wren: { drives: ["wagon"] }, ilse: { slept: "cove" } };
    const stops = [{ place: "home", aboard: ["wren"] }, { place: "cove", aboard: ["wren", "ilse"] }, "pier", "home"];
    const d = dayOf({ crew, roads: ROADS, hits: { dawn: HIT("08:00") }, runs: { wagon: { stops } } });
    // leaves the cove 06:40; ilse checks out there: 30 min of loading
    expect(times(d, "wagon.2.leave", "ilse.call")).toEqual(["06:40", "06:10"]);
  });

  it("spans tile from the last release, also for someone with nothing to do", () => {
    const crew = { ...CREW, odo: { slept: "home" } };
    const d = dayOf({
      crew,
      roads: ROADS,
      hits: { dawn: HIT("08:00") },
      runs: { wagon: { aboard: ["wren", "ilse"], stops: ["home", "pier", "home"] } },
    });
    const odo = d.people.find((one) => one.id === "odo");
    expect([odo?.call, odo?.release, odo?.duties]).toEqual([null, null, []]);
  });

  it("a stand-down releases and its end is a new call", () => {
    const hits = { dawn: HIT("08:00"), dusk: HIT("16:00") };
    const tasks = { rest: { kind: "standdown", in: "home", window: { from: at("09:20"), to: at("14:00") } } } as const;
    const stops = [
      "home",
      { place: "pier", do: ["dawn"] },
      { place: "home", do: ["rest"] },
      { place: "pier", do: ["dusk"] },
      "home",
    ];
    const d = day({ hits, tasks }, stops);
    const wren = d.people.find((one) => one.id === "wren");
    // 40 min home: the next firm hit in the run is the one at dusk, so the drive is planned at bad
    expect(wren?.duties.map((duty) => [text(duty.call), text(duty.release)])).toEqual([
      ["06:10", "09:20"],
      ["14:00", "17:15"],
    ]);
    expect(wren?.spans.find((span) => span.activity === "rest")?.is).toBe("off");
  });
});

describe("two vehicles", () => {
  const crew: Description["crew"] = { wren: { drives: ["wagon"] }, ilse: {}, tomas: { drives: ["truck"] } };
  const both = (
    wagon: Description["runs"][string],
    truck: Description["runs"][string],
    more: Partial<Description> = {},
  ) => dayOf({ crew, roads: ROADS, hits: { dawn: HIT("08:00") }, runs: { wagon, truck }, ...more });
  const wagon = { aboard: ["wren", "ilse"], stops: ["home", { place: "pier", do: ["dawn"] }, "home"] };
  const truck = { aboard: ["tomas"], stops: ["home", { place: "pier", do: ["dawn"] }, "home"] };

  it("each parks, sets up and strikes its own; the line check waits for the last", () => {
    const d = both(wagon, { ...truck, stops: ["home", { place: "pier", do: ["dawn"], setUpMinutes: 60 }, "home"] });
    expect(times(d, "wagon.2.arrive", "truck.2.arrive", "dawn.lineCheck")).toEqual(["07:05", "06:35", "07:40"]);
    const late = both({ ...wagon, stops: ["home", { place: "pier", do: ["dawn"], setUpMinutes: 0 }, "home"] }, truck);
    expect(times(late, "wagon.2.arrive", "truck.2.arrive")).toEqual(["07:35", "07:05"]);
  });

  it("a drive that brings someone to a firm hit is planned at bad, also where the other vehicle lists the hit", () => {
    const leaves = { place: "home", leave: at("06:55") };
    // home to pier: 30 min likely, 40 min bad, and 5 to park; the line check at 07:40 needs ilse there
    const into = (who: readonly string[], firm: boolean, stop: object = {}) => {
      const w = { aboard: ["wren", "ilse"], stops: [leaves, { place: "pier", ...stop }, "home"] };
      const d = both(w, truck, { hits: { dawn: HIT("08:00", { who, firm }) } });
      return d.moves.filter((move) => move.vehicle === "wagon").map((move) => [move.plannedAt, move.plannedMinutes]);
    };
    expect(into(["ilse", "tomas"], true)).toEqual([
      ["bad", 40],
      ["drive", 30],
    ]);
    expect(into(["ilse", "tomas"], true, { do: [] })[0]).toEqual(["bad", 40]);
    expect(into(["ilse", "tomas"], false)[0]).toEqual(["drive", 30]);
    expect(into(["tomas"], true)[0]).toEqual(["drive", 30]);
  });

  it("a drive to a ride by others is planned at bad, for whoever gets out to take it: it does not wait", () => {
    // home to pier: 30 min likely, 40 min bad; the ferry of others sails from the pier.
    const planned = (
      who: readonly string[],
      stops: Description["runs"][string]["stops"],
      hit: object = { who: ["tomas"] },
    ) => {
      const w = { aboard: ["wren", "ilse"], stops: [{ place: "home", leave: at("06:00") }, ...stops] };
      const rides = { boat: { from: "pier", to: "far", leave: at("09:00"), arrive: at("09:40"), who } };
      const d = both(w, truck, { rides, hits: { dawn: HIT("08:00", hit) } });
      return d.moves.filter((move) => move.vehicle === "wagon").map((move) => move.plannedAt);
    };
    const without = [{ place: "pier", aboard: ["wren"] }, "home"];
    expect(planned(["ilse"], without)).toEqual(["bad", "drive"]);
    expect(planned(["ilse", "wren"], ["pier"])).toEqual(["bad"]);
    // Nobody's ride, and a hit before it that may be missed.
    expect(planned([], ["pier", "home"])).toEqual(["drive", "drive"]);
    expect(planned(["ilse"], without, { who: ["ilse", "tomas"], firm: false })[0]).toBe("drive");
  });

  it("a hit in no `do` belongs to the visit of the vehicle that carries its people, and its drive is planned at bad", () => {
    const w = { aboard: ["wren", "ilse"], stops: ["home", "pier", "home"] };
    const t = { aboard: ["tomas"], stops: [{ place: "home", leave: at("06:00") }, "pier", "home"] };
    const d = both(w, t, { hits: { dawn: HIT("08:00", { who: ["ilse"] }) } });
    expect(d.moves.filter((move) => move.plannedAt === "bad").map((move) => move.id)).toEqual(["wagon.1"]);
  });

  it("`who` left out is everyone who arrives with a vehicle that lists it", () => {
    expect(both(wagon, truck).activities[0]?.who).toEqual(["wren", "ilse", "tomas"]);
    expect(
      both(
        wagon,
        { aboard: ["tomas"], stops: [{ place: "home", leave: at("06:00") }, { place: "pier", do: [] }, "home"] },
        { hits: { dawn: HIT("08:00", { who: ["wren", "ilse"] }) } },
      ).activities[0]?.who,
    ).toEqual(["wren", "ilse"]);
  });

  it("the next vehicle waits for who changes into it: after clear, not after the other's strike", () => {
    const w = { aboard: ["wren", "ilse"], stops: ["home", { place: "pier", do: ["dawn"], aboard: ["wren"] }, "home"] };
    const t = {
      aboard: ["tomas"],
      stops: ["home", { place: "pier", do: [], setUpMinutes: 0, aboard: ["tomas", "ilse"] }, "cove"],
    };
    const d = both(
      w,
      { ...t, stops: [{ place: "home", leave: at("06:00") }, ...t.stops.slice(1)] },
      { hits: { dawn: HIT("08:00", { who: ["wren", "ilse"] }) } },
    );
    // ilse is free at 08:15; the wagon strikes until 08:35
    expect(times(d, "truck.2.leave", "wagon.2.leave")).toEqual(["08:15", "08:35"]);
  });

  it("who is in position for the next hit is held for it, not by the clear of the last, in any order of the file", () => {
    // `one` ends at 08:05 and is the truck's last: its clear ends at 08:15. ilse is in position for `two` from 08:10.
    const [one, two] = [HIT("08:00", { who: ["ilse", "tomas"] }), HIT("08:20", { who: ["ilse"] })];
    const runs = {
      wagon: { aboard: ["wren", "ilse"], stops: ["home", { place: "pier", do: ["one", "two"] }, "home"] },
      truck: { aboard: ["tomas"], stops: ["home", { place: "pier", do: ["one"] }, "home"] },
    };
    for (const hits of [
      { one, two },
      { two, one },
    ]) {
      const ilse = dayOf({ crew, roads: ROADS, hits, runs }).people.find(({ id }) => id === "ilse");
      const held = (ilse?.spans ?? []).filter(({ doing }) => doing === "clear" || doing === "in position");
      expect(held.map(({ doing, from, to }) => [doing, text(from), text(to)])).toEqual([
        ["in position", "07:50", "08:00"],
        ["clear", "08:05", "08:10"],
        ["in position", "08:10", "08:20"],
        ["clear", "08:25", "08:35"],
      ]);
    }
  });

  it("someone's order of rides follows from the places; two orders are a mistake, and so is a missing ride", () => {
    const w = { aboard: ["wren", "ilse"], stops: ["home", { place: "pier", do: ["dawn"] }, "home"] };
    expect(
      mistakesOf({
        crew,
        roads: ROADS,
        hits: { dawn: HIT("08:00") },
        runs: { wagon: w, truck: { aboard: ["tomas", "ilse"], stops: ["cove", "pier", "cove"] } },
      }),
    ).toContain("ride-missing");
    const loop = { aboard: ["tomas", "ilse"], stops: [{ place: "home", leave: at("12:00") }, "cove", "home"] };
    expect(mistakesOf({ crew, roads: ROADS, hits: { dawn: HIT("08:00") }, runs: { wagon: w, truck: loop } })).toEqual([
      "ride-order-open",
    ]);
    const after = { ...loop, stops: [{ place: "home", leave: at("12:00"), after: ["dawn"] }, "cove", "home"] };
    expect(mistakesOf({ crew, roads: ROADS, hits: { dawn: HIT("08:00") }, runs: { wagon: w, truck: after } })).toEqual(
      [],
    );
  });
});

describe("rides by others", () => {
  it("are fixed, and begin their lead before", () => {
    const rides = {
      flight: { from: "home", to: "far", leave: at("12:00"), arrive: at("14:00"), who: ["ilse"], leadMinutes: 90 },
    };
    const d = day({ hits: { dawn: HIT("08:00") }, rides, places: { far: {} } });
    const ilse = d.people.find((one) => one.id === "ilse");
    expect(times(d, "flight.lead", "ilse.release")).toEqual(["10:30", "14:00"]);
    expect(ilse?.sleeps).toBe("far");
    expect(ilse?.terms.at(-1)).toMatchObject({ name: "flight", minutes: 120 });
  });
});

describe("refusals", () => {
  const two = (more: object, early: object = {}) =>
    day({ hits: { one: HIT("08:00", early), two: HIT("08:50", { in: "cove", ...more }) } }, [
      "home",
      "pier",
      "cove",
      "home",
    ]);

  it("of two that contradict, the earlier firm one stays; the message has the minutes and a chain that adds up", () => {
    const d = two({});
    expect(d.activities.map((one) => [one.id, one.state])).toEqual([
      ["one", "fixed"],
      ["two", "missed"],
    ]);
    const [finding] = d.findings;
    // 08:00 + 5 + 10 + 20 + 25 + 5 + 30 + 10 + 10 = 09:55
    expect(finding?.code).toBe("hit-missed");
    expect(finding?.shortMinutes).toBe(65);
    expect(finding?.chain.map((term) => [term.name, term.minutes])).toEqual([
      ["one", 5],
      ["clear", 10],
      ["strike", 20],
      ["drive", 25],
      ["park", 5],
      ["set-up", 30],
      ["line check", 10],
      ["in position", 10],
    ]);
  });

  it("firm comes before not firm, whatever the time; a stop's own time comes before both", () => {
    expect(two({}, { firm: false }).activities.map((one) => [one.id, one.state])).toEqual([
      ["one", "missed"],
      ["two", "fixed"],
    ]);
    const d = day({ hits: { dawn: HIT("08:00") } }, [{ place: "home", leave: at("07:10") }, "pier", "home"]);
    expect(d.findings.map((one) => [one.code, one.shortMinutes])).toEqual([["hit-missed", 45]]);
    expect(times(d, "wagon.1.leave", "wagon.2.arrive", "dawn.start")).toEqual(["07:10", "07:40", null]);
  });

  it("the day is then the day without it: its stop is visited, nobody parks, the drive into it is planned at likely", () => {
    const d = two({});
    expect(times(d, "wagon.2.leave", "wagon.3.arrive", "wagon.3.leave")).toEqual(["08:35", "08:55", "08:55"]);
  });

  it("a stop's own time that contradicts an earlier stop's is left out, and so is a ride that leaves before its people come", () => {
    const stops = [{ place: "home", leave: at("06:00") }, { place: "pier", arriveBy: at("06:39") }, "home"];
    const d = day({ hits: { dawn: HIT("08:00") } }, stops);
    // 40 minutes at bad into a firm hit
    expect(d.findings.map((one) => [one.code, one.facts["what"], one.shortMinutes])).toEqual([
      ["stop-time-missed", "wagon.2", 1],
    ]);
    const rides = {
      out: { from: "home", to: "far", leave: at("12:00"), arrive: at("14:00"), who: ["ilse"] },
      on: { from: "far", to: "farther", leave: at("13:50"), arrive: at("15:00"), who: ["ilse"] },
    };
    const late = day({ hits: { dawn: HIT("08:00") }, rides, places: { far: {}, farther: {} } });
    expect(late.findings.map((one) => [one.code, one.facts["what"], one.shortMinutes])).toEqual([
      ["ride-missed", "on", 10],
    ]);
  });

  it("a task that its window puts between two hits says which `do` it needs, and fits with it", () => {
    const hits = { dawn: HIT("08:00"), noon: HIT("12:00") };
    const tasks = { lunch: { in: "pier", forMinutes: 30, window: { from: at("09:00"), to: at("11:00") } } };
    const told = (stop: object) =>
      day({ hits, tasks }, ["home", { place: "pier", ...stop }, "home"]).findings.map((one) => [
        one.code,
        one.facts["byTime"],
      ]);
    expect(told({})).toEqual([["task-missed", ["dawn", "lunch", "noon"]]]);
    expect(told({ do: ["dawn", "lunch", "noon"] })).toEqual([]);
  });

  /** What waits for a later stop of its own run; the plan's text alone does not show it. */
  it("a task that waits for a later stop of its run is a mistake of the plan", () => {
    const waiting = (order: object): Description => ({
      crew: CREW,
      roads: { ...ROADS, "pier cove": [5, 10], "home cove": [30, 40] },
      hits: { dawn: HIT("08:00") },
      tasks: { load: { in: "pier", forMinutes: 5 }, pictures: { in: "cove", forMinutes: 5, ...order } },
      runs: { wagon: { stops: ["home", "pier", "cove", "home"] } },
    });
    const plan = makePlan(waiting({ before: ["load"] }));
    const { day, findings } = computeDay(plan, legsOf(plan));
    expect(day).toBeNull();
    expect(findings.map(({ code, path }) => [code, path])).toEqual([["order-loop", ["tasks", "pictures", "before"]]]);
    const [loop] = findings;
    expect(loop?.facts["ring"]).toEqual(["load", "wagon.2", "wagon.3", "pictures", "load"]);
    expect(mistakesOf(waiting({ after: ["load"] }))).toEqual([]);
  });
});

describe("after the day before", () => {
  const plan = makePlan({
    crew: CREW,
    roads: ROADS,
    hits: { dawn: HIT("08:00") },
    runs: { wagon: { stops: ["home", "pier", "home"] } },
  });
  const codes = (before: Partial<DayBefore>): readonly string[] =>
    computeDay(plan, legsOf(plan), { ...NOTHING_BEFORE, ...before }).day?.findings.map((finding) => finding.code) ?? [];

  it("a vehicle sets off from where it ended", () => {
    expect(codes({ vehicles: new Map([["wagon", "home"]]) })).toEqual([]);
    expect(codes({ vehicles: new Map([["wagon", "cove"]]) })).toEqual(["vehicle-elsewhere"]);
  });

  it("rides begin at the bed the day before ended at", () => {
    const away = computeDay(plan, legsOf(plan), { ...NOTHING_BEFORE, beds: new Map([["ilse", "cove"]]) });
    expect(away.findings.map((finding) => finding.code)).toEqual(["ride-missing"]);
    // The wagon's first drive is the one that she cannot come to.
    expect(away.findings.map(({ facts }) => facts)).toMatchObject([
      { who: "ilse", at: "cove", next: "wagon", from: "home" },
    ]);
  });
});
