/**
 * What the Day does at stops, with work and on drives (`help plan hits`, `runs`, `roads`), each with a plan where another
 * reading would give another minute. People and refusals are in `readingsPeople.test.ts`. All times are
 * worked by hand from the lengths (park 5, set-up 30, line check 10, in position 10, clear 10, strike 20, unload 10,
 * loading 15) and stand on Chicago's clock.
 */
import { describe, expect, it } from "vitest";
import { at, type Description, dayOf, mistakesOf, times } from "./make.ts";
import { CREW, day, HIT, ROADS } from "./wagon.ts";

describe("edges", () => {
  it("`leave` is exact: an early departure is kept and the wait stands before the line check", () => {
    const d = day({ hits: { dawn: HIT("08:00") } }, [{ place: "home", leave: at("05:00") }, "pier", "home"]);
    expect(times(d, "wagon.1.leave", "wagon.2.arrive", "wagon.2.ready", "dawn.lineCheck")).toEqual([
      "05:00",
      "05:40",
      "06:15",
      "07:40",
    ]);
  });

  it("`arriveBy` bounds, it does not fix: the arrival is the earlier of it and what the hit needs", () => {
    const d = day({ hits: { dawn: HIT("08:00") } }, ["home", { place: "pier", arriveBy: at("06:00") }, "home"]);
    expect(times(d, "wagon.2.arrive", "wagon.1.leave")).toEqual(["06:00", "05:20"]);
    const loose = day({ hits: { dawn: HIT("08:00") } }, ["home", { place: "pier", arriveBy: at("07:30") }, "home"]);
    expect(times(loose, "wagon.2.arrive")).toEqual(["07:05"]);
  });

  it("`stay` is at least, from the arrival, at a stop where nothing is done (and where nothing is done nobody parks)", () => {
    const d = day({ hits: { dawn: HIT("08:00") } }, ["home", "pier", { place: "cove", stayMinutes: 50 }, "home"]);
    // 08:05 end, 08:15 clear, 08:35 struck, 20 min to the cove
    expect(times(d, "wagon.3.arrive", "wagon.3.leave", "wagon.3.parked")).toEqual(["08:55", "09:45", null]);
  });

  it("puts a task that names the hit behind it before that hit, also where no `do` lists either", () => {
    const hits = { dawn: HIT("08:00"), noon: HIT("10:00") };
    const meal = { in: "pier", forMinutes: 30, after: ["dawn"], before: ["noon"] };
    const d = day({ hits, tasks: { meal } }, ["home", "pier", "home"]);
    // dawn ends 08:05; noon's line was checked with dawn's, and is in position 10 min before 10:00
    expect(times(d, "meal.start", "meal.end", "noon.inPosition")).toEqual(["08:05", "08:35", "09:50"]);
    expect(d.findings.map(({ code }) => code)).not.toContain("order-unstated");
  });

  it("all of a task lies inside its `window`, and before `by`", () => {
    const task = { in: "cove", forMinutes: 30, window: { from: at("10:00"), to: at("11:00") } };
    const d = day({ hits: { dawn: HIT("08:00") }, tasks: { pictures: task } }, [
      "home",
      "pier",
      { place: "cove", do: ["pictures"] },
      "home",
    ]);
    expect(times(d, "pictures.start", "pictures.end", "wagon.3.leave")).toEqual(["10:00", "10:30", "10:30"]);
    const by = day(
      { hits: { dawn: HIT("08:00") }, tasks: { pictures: { in: "cove", forMinutes: 30, by: at("09:29") } } },
      ["home", "pier", { place: "cove", do: ["pictures"] }, "home"],
    );
    // parked 09:00, could end 09:30: one minute too late
    expect(by.activities.find((one) => one.id === "pictures")?.state).toBe("missed");
    expect(by.findings[0]?.shortMinutes).toBe(1);
  });

  it("`after` and `before` hold across visits and people", () => {
    const tasks = {
      edit: { in: "pier", forMinutes: 20, who: ["ilse"] },
      meal: { in: "pier", forMinutes: 30, who: ["wren"], after: ["edit"] },
    };
    const d = day({ hits: { dawn: HIT("08:00") }, tasks }, [
      "home",
      { place: "pier", do: ["dawn", "edit", "meal"] },
      "home",
    ]);
    // struck 08:35; without `after` the meal would begin at 08:35 too, since it shares nobody with the edit
    expect(times(d, "edit.start", "meal.start")).toEqual(["08:35", "08:55"]);
    const before = day(
      {
        hits: { dawn: HIT("08:00") },
        tasks: { check: { in: "home", forMinutes: 10, who: ["wren"], before: ["dawn"] } },
      },
      [{ place: "home", do: ["check"] }, "pier", "home"],
    );
    expect(times(before, "check.end", "wagon.1.loading")).toEqual(["06:10", "06:10"]);
  });

  it("what shares nobody and no path is not ordered by `do`", () => {
    const tasks = {
      edit: { in: "pier", forMinutes: 20, who: ["ilse"] },
      meal: { in: "pier", forMinutes: 30, who: ["wren"] },
    };
    const d = day({ hits: { dawn: HIT("08:00") }, tasks }, [
      "home",
      { place: "pier", do: ["dawn", "edit", "meal"] },
      "home",
    ]);
    expect(times(d, "edit.start", "meal.start", "wagon.2.leave")).toEqual(["08:35", "08:35", "09:05"]);
  });
});

describe("placing", () => {
  it("a task before the first fixed instant goes late; one after it goes early", () => {
    const tasks = { first: { in: "cove", forMinutes: 30 }, second: { in: "cove", forMinutes: 30 } };
    const stops = ["home", { place: "cove", do: ["first"] }, "pier", { place: "cove", do: ["second"] }, "home"];
    const d = day({ hits: { dawn: HIT("08:00") }, tasks }, stops);
    // pier arrival 07:05, 25 min at bad from the cove: leave 06:40, first 06:10-06:40
    expect(times(d, "first.start", "wagon.2.leave", "second.start")).toEqual(["06:10", "06:40", "09:00"]);
    expect(d.activities.map((one) => [one.id, one.state])).toEqual([
      ["first", "late"],
      ["dawn", "fixed"],
      ["second", "early"],
    ]);
  });

  it("a later hit pulls the first departure earlier only through something before the first fixed instant", () => {
    const hits = { dawn: HIT("08:00"), noon: HIT("12:00", { in: "cove" }) };
    const d = day({ hits }, ["home", "pier", "cove", "home"]);
    expect(times(d, "wagon.1.leave", "wagon.2.leave", "wagon.3.arrive", "noon.lineCheck")).toEqual([
      "06:25",
      "08:35",
      "09:00",
      "11:40",
    ]);
  });

  it("`wait: here` holds the departure back to the next fixed instant", () => {
    const hits = { dawn: HIT("08:00"), noon: HIT("12:00", { in: "cove" }) };
    const d = day({ hits }, ["home", { place: "pier", waitHere: true }, "cove", "home"]);
    // noon: in position 11:50, line check 11:40, set up from 11:10, parked from 11:05, 25 min at bad
    expect(times(d, "wagon.2.leave", "wagon.3.arrive")).toEqual(["10:40", "11:05"]);
  });

  it("two `wait: here` before one fixed instant are a mistake; with a fixed instant between them they are not", () => {
    const wait = (place: string) => ({ place, waitHere: true });
    const two = { crew: CREW, roads: ROADS, hits: { dawn: HIT("08:00"), noon: HIT("14:00", { in: "cove" }) } };
    expect(
      mistakesOf({
        ...two,
        runs: { wagon: { stops: ["home", { ...wait("pier"), do: ["dawn"] }, wait("home"), "cove", "home"] } },
      }),
    ).toEqual(["two-waits"]);
    const hits = { ...two.hits, mid: HIT("11:00", { in: "home" }) };
    const stops = ["home", { ...wait("pier"), do: ["dawn"] }, { ...wait("home"), do: ["mid"] }, "cove", "home"];
    expect(mistakesOf({ ...two, hits, runs: { wagon: { stops } } })).toEqual([]);
  });

  it("a wait longer than 30 minutes bound for a bare place is spent at the stop with a roof; of just 30 it is not", () => {
    const hits = (clock: string) => ({ dawn: HIT("08:00"), noon: HIT(clock, { in: "cove" }) });
    const places = { pier: { shelter: true } };
    // leave 08:35 at the earliest, cove 09:00, ready 09:35; line check 20 min before the hit
    const thirty = day({ hits: hits("10:25"), places }, ["home", "pier", "cove", "home"]);
    expect(times(thirty, "wagon.2.leave", "noon.lineCheck")).toEqual(["08:35", "10:05"]);
    const thirtyOne = day({ hits: hits("10:26"), places }, ["home", "pier", "cove", "home"]);
    expect(times(thirtyOne, "wagon.2.leave", "wagon.3.ready")).toEqual(["09:06", "10:06"]);
    const bare = day({ hits: hits("10:26") }, ["home", "pier", "cove", "home"]);
    expect(times(bare, "wagon.2.leave")).toEqual(["08:35"]);
    const warm = day({ hits: hits("10:26"), places: { ...places, cove: { mains: true } } }, [
      "home",
      "pier",
      "cove",
      "home",
    ]);
    expect(times(warm, "wagon.2.leave")).toEqual(["08:35"]);
  });

  it("a run that nothing fixes starts at its first window; without one it is a mistake", () => {
    const tasks = { pictures: { in: "pier", forMinutes: 30, window: { from: at("10:00"), to: at("15:00") } } };
    const d = day({ tasks });
    // parked 5 min before; 30 min on the road, for no firm hit waits
    expect(times(d, "pictures.start", "wagon.1.leave", "wagon.2.leave")).toEqual(["10:00", "09:25", "10:30"]);
    const open = { pictures: { in: "pier", forMinutes: 30 } };
    expect(
      mistakesOf({ crew: CREW, roads: ROADS, tasks: open, runs: { wagon: { stops: ["home", "pier", "home"] } } }),
    ).toEqual(["run-unfixed"]);
  });
});

describe("a visit", () => {
  it("set-up once, line check once, in position before each hit, clear and strike after the last", () => {
    const d = day({ hits: { one: HIT("08:00"), two: HIT("08:30"), three: HIT("08:40") } });
    expect(times(d, "wagon.2.arrive", "one.lineCheck", "two.lineCheck", "two.inPosition")).toEqual([
      "07:05",
      "07:40",
      null,
      "08:20",
    ]);
    // three is in position when two ends, 5 min before it
    expect(times(d, "three.inPosition", "one.clear", "three.clear", "wagon.2.packed")).toEqual([
      "08:35",
      "08:05",
      "08:55",
      "09:15",
    ]);
  });

  it("a stated `clear` on an earlier hit holds people until it ends or the next is in position", () => {
    const tasks = { coffee: { in: "pier", forMinutes: 3 } };
    const stops = ["home", { place: "pier", do: ["one", "coffee", "two"] }, "home"];
    const free = day({ hits: { one: HIT("08:00"), two: HIT("08:30") }, tasks }, stops);
    expect(times(free, "coffee.start")).toEqual(["08:05"]);
    const held = day({ hits: { one: HIT("08:00", { clearMinutes: 8 }), two: HIT("08:30") }, tasks }, stops);
    expect(times(held, "coffee.start", "one.clear")).toEqual(["08:13", "08:13"]);
    const long = day({ hits: { one: HIT("08:00", { clearMinutes: 60 }), two: HIT("08:30") } });
    expect(times(long, "one.clear")).toEqual(["08:20"]);
  });

  it("dish-up stands beside set-up where two people are there, after it where one is alone, only at the path's vehicle", () => {
    const paths = { dish: { kind: "satellite", vehicle: "wagon" } } as const;
    const hits = { dawn: HIT("08:00", { signalPath: "dish" }) };
    expect(times(day({ hits, paths }), "wagon.2.arrive")).toEqual(["07:05"]);
    expect(times(day({ hits, paths, rules: { dishUp: 50 } }), "wagon.2.arrive")).toEqual(["06:45"]);
    const alone = dayOf({
      crew: { wren: { drives: ["wagon"] } },
      roads: ROADS,
      hits,
      paths,
      runs: { wagon: { stops: ["home", "pier", "home"] } },
    });
    expect(times(alone, "wagon.2.arrive")).toEqual(["06:40"]);
  });

  it("`setUp` of a stop replaces the rule; a visit for a task alone needs none", () => {
    expect(
      times(
        day({ hits: { dawn: HIT("08:00") } }, ["home", { place: "pier", setUpMinutes: 40 }, "home"]),
        "wagon.2.arrive",
      ),
    ).toEqual(["06:55"]);
    const d = day({ hits: { dawn: HIT("08:00") }, tasks: { pictures: { in: "cove", forMinutes: 30 } } }, [
      "home",
      "pier",
      { place: "cove", do: ["pictures"] },
      "home",
    ]);
    expect(times(d, "wagon.3.arrive", "pictures.start", "wagon.3.leave")).toEqual(["08:55", "09:00", "09:30"]);
  });

  it("a standby fills its window, is prepared like a hit, and hits inside it overlap it", () => {
    const tasks = { ready: { kind: "standby", in: "pier", window: { from: at("08:00"), to: at("10:00") } } } as const;
    const d = day({ hits: { dawn: HIT("08:30") }, tasks }, ["home", { place: "pier", do: ["ready", "dawn"] }, "home"]);
    expect(
      times(d, "ready.lineCheck", "ready.start", "ready.end", "dawn.inPosition", "dawn.lineCheck", "ready.clear"),
    ).toEqual(["07:40", "08:00", "10:00", "08:20", null, "10:10"]);
    const wren = d.people.find((one) => one.id === "wren");
    expect(wren?.spans.filter((span) => span.doing === "ready").map((span) => span.is)).toEqual(["standby", "standby"]);
  });

  it("`late` moves nothing and is a warning where less room is left", () => {
    const hits = (late: number) => ({ one: HIT("08:00", { lateMinutes: late }), two: HIT("08:30") });
    // one ends 08:05; two is in position 08:20
    expect(day({ hits: hits(15) }).findings).toEqual([]);
    const d = day({ hits: hits(16) });
    expect(d.findings.map((one) => [one.code, one.level])).toEqual([["slip-too-long", "warning"]]);
    expect(times(d, "one.start")).toEqual(["08:00"]);
  });
});

describe("planned time", () => {
  const lonely = (hits: NonNullable<Description["hits"]>, more: Partial<Description> = {}) =>
    day({ hits, ...more }, ["home", "cove", "pier", "home"]);

  it("bad into the first hit listed at or after the stop, where that is firm; else likely", () => {
    expect(times(lonely({ dawn: HIT("08:00") }), "wagon.1.leave", "wagon.2.leave")).toEqual(["05:40", "06:40"]);
    expect(times(lonely({ dawn: HIT("08:00", { firm: false }) }), "wagon.1.leave", "wagon.2.leave")).toEqual([
      "06:00",
      "06:45",
    ]);
    const d = day({ hits: { soft: HIT("08:00", { firm: false }), hard: HIT("09:00") } });
    expect(times(d, "wagon.1.leave")).toEqual(["06:35"]);
    expect(d.moves.map((move) => move.plannedAt)).toEqual(["drive", "drive"]);
  });

  it("times `slower`, rounded up; a missing `bad` is the log-normal 95 % point at buffer index 0.15", () => {
    expect(day({ hits: { dawn: HIT("08:00") }, vehicles: { wagon: { slower: 1.01 } } }).moves[0]?.plannedMinutes).toBe(
      41,
    );
    // s = 1.645 - sqrt(1.645^2 - 2 ln 1.15) = 0.08726; 60 exp(1.645 s) = 69.26
    const d = day({ hits: { dawn: HIT("08:00") }, roads: { "home pier": [60, null] } });
    expect(d.moves[0]?.plannedMinutes).toBe(70);
    // on snow s = 0.14177: 60 exp(1.645 s) = 75.76, and the snow's own factor 1 / 0.7: 108.2
    const snow = day({ hits: { dawn: HIT("08:00") }, roads: { "home pier": [60, null] }, weather: [{ road: "snow" }] });
    expect(snow.moves[0]?.plannedMinutes).toBe(109);
  });

  it("takes the weather of the dry timing, once", () => {
    // dry: leaves 06:25, arrives 07:05. Rain until 06:26 overlaps; rain until 06:25 does not. 40 / 0.9 = 44.4
    const rain = (to: string) => day({ hits: { dawn: HIT("08:00") }, weather: [{ to: at(to), road: "wet" }] });
    expect(times(rain("06:26"), "wagon.1.leave")).toEqual(["06:20"]);
    expect(times(rain("06:25"), "wagon.1.leave")).toEqual(["06:25"]);
    // rain from 06:00 to 06:21 touches the wet leg (06:20) but not the dry one: not judged again
    const d = day({ hits: { dawn: HIT("08:00") }, weather: [{ from: at("06:00"), to: at("06:21"), road: "wet" }] });
    expect(times(d, "wagon.1.leave")).toEqual(["06:25"]);
  });

  it("a halt on the road lengthens the leg by its length, and its spot follows from the time", () => {
    const tasks = {
      fuel: { kind: "fuel", forMinutes: 12, location: { kind: "onRoad", from: "pier", to: "home" } },
    } as const;
    const d = day({ hits: { dawn: HIT("08:00") }, tasks });
    expect(times(d, "wagon.2.leave", "wagon.3.arrive")).toEqual(["08:35", "09:17"]);
    const at20 = day({
      hits: { dawn: HIT("08:00") },
      tasks: { fuel: { ...tasks.fuel, window: { from: at("08:50"), to: at("10:00") } } },
    });
    expect(at20.activities.find((one) => one.id === "fuel")?.roadShare).toBe(0.5);
    expect(times(at20, "wagon.3.arrive")).toEqual(["09:17"]);
  });

  it("the relief driver takes the wheel after the stated planned minutes", () => {
    const crew = { ...CREW, bea: { drives: ["wagon"] } };
    const d = dayOf({
      crew,
      roads: ROADS,
      hits: { dawn: HIT("08:00") },
      runs: {
        wagon: {
          driver: "wren",
          aboard: ["wren", "ilse", "bea"],
          stops: [{ place: "home", relieve: [{ afterMinutes: 15, driver: "bea" }] }, "pier", "home"],
        },
      },
    });
    expect(d.moves[0]?.wheel.map((one) => [one.driver, one.to - one.from])).toEqual([
      ["wren", 15],
      ["bea", 25],
    ]);
    const bea = d.people.find((one) => one.id === "bea");
    expect(bea?.spans.filter((span) => span.is === "driving").map((span) => span.to - span.from)).toEqual([25, 15]);
  });
});
