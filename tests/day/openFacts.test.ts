/** Logs of which one end alone is there: what is filled in as planned, from instants that the test states. */
import { describe, expect, it } from "vitest";
import { type Completed, completeFacts } from "../../src/day/facts/openFacts.ts";
import { withArrivals } from "../../src/day/facts/vehiclesStood.ts";
import type { Plan, Task } from "../../src/plan/plan.ts";
import { at, text } from "./make.ts";
import { actual, byId, hit, plan, run, stop, task } from "./parts.ts";

type Row = Readonly<Record<string, object>>;
const mapped = (row: Row | undefined) => new Map(Object.entries(row ?? {}));

/** Wagon: lodge, pier (dawn at 08:00 for 3 min, feed), home. Car: lodge, dock. */
const logged = (went: { readonly activities?: Row; readonly stops?: Row }, feed: Partial<Task> = {}): Plan =>
  plan({
    hits: byId(hit("dawn", "pier", { at: at("08:00") })),
    tasks: byId(task("feed", "pier", { forMinutes: 30, ...feed })),
    runs: byId(
      run("wagon", [], {
        stops: [stop("wagon.1", "lodge"), stop("wagon.2", "pier", { do: ["dawn", "feed"] }), stop("wagon.3", "home")],
      }),
      run("car", [], { stops: [stop("car.1", "lodge"), stop("car.2", "dock", { do: [] })] }),
    ),
    actual: actual({ activities: mapped(went.activities), stops: mapped(went.stops) }),
  });

/** The facts after they were completed from `planned`, by name. */
function completed(own: Plan, planned: Readonly<Record<string, string>>) {
  const asked: { readonly name: string; readonly facts: readonly string[] }[] = [];
  const facts = ({ plan: now }: Completed): string[] => [
    ...[...now.actual.activities].flatMap(([id, { at: began, end }]) => [
      ...(began === null ? [] : [`${id}.at ${text(began)}`]),
      ...(end === null ? [] : [`${id}.end ${text(end)}`]),
    ]),
    ...[...now.actual.stops].flatMap(([id, { arrived, left }]) => [
      ...(arrived === null ? [] : [`${id}.arrived ${text(arrived)}`]),
      ...(left === null ? [] : [`${id}.left ${text(left)}`]),
    ]),
  ];
  const made = completeFacts(own, (before, name) => {
    asked.push({ name, facts: facts(before) });
    const clock = planned[name];
    return clock === undefined ? null : at(clock);
  });
  return {
    asked,
    facts: facts(made).sort(),
    assumed: [...made.assumed],
    standing: [...made.standing].map(([id, when]) => `${id} ${text(when)}`),
  };
}

describe("a task of which the end alone is logged", () => {
  const own = logged({ activities: { feed: { end: at("09:30") } } });

  it("began as the day without it has it, if that is before its end", () => {
    const made = completed(own, { "feed.start": "09:05" });
    expect(made.asked).toEqual([{ name: "feed.start", facts: [] }]);
    expect(made).toMatchObject({ facts: ["feed.at 09:05", "feed.end 09:30"], assumed: ["feed.start"], standing: [] });
    for (const planned of [{}, { "feed.start": "09:30" }, { "feed.start": "09:31" }])
      expect(completed(own, planned)).toMatchObject({ facts: ["feed.end 09:30"], assumed: [] });
    expect(completed(own, { "feed.start": "09:29" }).assumed).toEqual(["feed.start"]);
  });

  it("is no question if it fills a window or is a hit", () => {
    const window = { from: at("09:00"), to: at("10:00") };
    const went = { activities: { feed: { end: at("09:30") } } };
    for (const kind of ["standby", "standdown"] as const) {
      expect(completed(logged(went, { kind, window }), { "feed.start": "09:05" }).asked).toEqual([]);
      expect(completed(logged(went, { kind }), { "feed.start": "09:05" }).assumed).toEqual(["feed.start"]);
    }
    expect(completed(logged(went, { kind: "work", window }), { "feed.start": "09:05" }).assumed).toEqual([
      "feed.start",
    ]);
    expect(completed(logged({ activities: { dawn: { end: at("08:05") } } }), { "dawn.start": "08:00" }).asked).toEqual(
      [],
    );
    const both = logged({ activities: { feed: { at: at("09:10"), end: at("09:30") } } });
    expect(completed(both, { "feed.start": "09:05" }).asked).toEqual([]);
  });
});

describe("an arrival without a departure", () => {
  it("left the stop before it as planned, if that is earlier", () => {
    const own = logged({ stops: { "wagon.2": { arrived: at("07:00") } } });
    const made = completed(own, { "wagon.1.leave": "06:20" });
    expect(made.asked).toEqual([
      { name: "wagon.1.leave", facts: [] },
      { name: "wagon.2.arrive", facts: [] },
    ]);
    expect(made.facts).toEqual(["wagon.1.left 06:20", "wagon.2.arrived 07:00"]);
    expect(made.assumed).toEqual(["wagon.1.leave"]);
    expect(completed(own, { "wagon.1.leave": "07:00" })).toMatchObject({
      facts: ["wagon.2.arrived 07:00"],
      assumed: [],
    });
  });

  it("leaves the departure open where less than half of the planned drive would be left for it", () => {
    // 06:20 to 07:19 are 59 min, and half of them 29.5.
    const plan = { "wagon.1.leave": "06:20", "wagon.2.arrive": "07:19" };
    const arrived = (clock: string) =>
      completed(logged({ stops: { "wagon.2": { arrived: at(clock) } } }), plan).assumed;
    expect([arrived("06:49"), arrived("06:50")]).toEqual([[], ["wagon.1.leave"]]);
  });

  it("is no question at the first stop, nor with the departure logged; what else is logged there stays", () => {
    expect(completed(logged({ stops: { "wagon.1": { arrived: at("05:00") } } }), {}).asked).toEqual([]);
    const both = logged({ stops: { "wagon.1": { left: at("06:10") }, "wagon.2": { arrived: at("07:00") } } });
    expect(completed(both, { "wagon.1.leave": "06:20" }).asked).toEqual([]);
    const on = logged({
      stops: { "wagon.2": { arrived: at("07:00"), left: at("09:00") }, "wagon.1": { driver: "wren" } },
    });
    expect(completed(on, { "wagon.1.leave": "06:20" }).facts).toEqual([
      ...["wagon.1.left 06:20", "wagon.2.arrived 07:00", "wagon.2.left 09:00"],
    ]);
  });

  it("is asked about by the day with what came before it", () => {
    const own = logged({
      activities: { feed: { end: at("07:30") } },
      stops: { "wagon.3": { arrived: at("09:00") }, "wagon.2": { arrived: at("07:00") } },
    });
    const { asked } = completed(own, { "wagon.1.leave": "06:20", "feed.start": "07:10", "wagon.2.leave": "08:20" });
    // By the time of each end: 07:00, 07:30, 09:00.
    expect(asked).toEqual([
      { name: "wagon.1.leave", facts: [] },
      { name: "wagon.2.arrive", facts: [] },
      { name: "feed.start", facts: ["wagon.2.arrived 07:00", "wagon.1.left 06:20"] },
      {
        name: "wagon.2.leave",
        facts: ["feed.at 07:10", "feed.end 07:30", "wagon.2.arrived 07:00", "wagon.1.left 06:20"],
      },
      {
        name: "wagon.3.arrive",
        facts: ["feed.at 07:10", "feed.end 07:30", "wagon.2.arrived 07:00", "wagon.1.left 06:20"],
      },
    ]);
  });
});

describe("a hit that went out late", () => {
  const own = logged({ activities: { dawn: { at: at("08:10"), done: true } } });
  const early = { "wagon.1.leave": "06:20", "car.1.leave": "07:59", "car.2.leave": "20:00" };

  it("leaves departures before its planned time as planned; later ones have not happened by then", () => {
    const made = completed(own, early);
    expect(made.facts).toEqual(["car.1.left 07:59", "dawn.at 08:10", "wagon.1.left 06:20"]);
    expect(made.assumed).toEqual(["wagon.1.leave", "car.1.leave"]);
    // The wagon's way to the hit, and every departure of the car.
    expect(made.standing).toEqual(["car.2 08:00"]);
    expect(completed(own, { ...early, "car.1.leave": "08:00" }).standing).toEqual(["car.1 08:00", "car.2 08:00"]);
    expect(completed(own, { ...early, "car.1.leave": "08:05" }).standing).toEqual(["car.1 08:00", "car.2 08:00"]);
  });

  it("leaves a departure as planned, too, for which people were called by then", () => {
    // Calls are rounded to 5 min: whoever loads from 08:04 may be called at 07:59, before 08:00; from 08:05 not.
    const loads = (name: string, clock: string, leave = "08:30") =>
      completed(own, { "car.1.leave": leave, [`car.1.${name}`]: clock }).standing;
    for (const name of ["walkAround", "loading"]) {
      expect(loads(name, "08:04")).toEqual([]);
      expect(loads(name, "08:05")).toEqual(["car.1 08:00"]);
      // Nothing is loaded before it leaves.
      expect(loads(name, "08:04", "08:04")).toEqual(["car.1 08:00"]);
    }
    // The walk-around is before the loading.
    const both = { "car.1.leave": "08:30", "car.1.walkAround": "08:02", "car.1.loading": "08:20" };
    expect(completed(own, both).standing).toEqual([]);
    expect(completed(own, { "car.1.leave": "08:04" }).standing).toEqual(["car.1 08:00"]);
  });

  it("is one only if it was done and began later than planned", () => {
    for (const went of [
      { at: at("08:00"), done: true },
      { at: at("07:59"), done: true },
      { at: at("08:10"), done: false },
    ])
      expect(completed(logged({ activities: { dawn: went } }), early).asked).toEqual([]);
    const left = logged({
      activities: { dawn: { at: at("08:10"), done: true } },
      stops: { "wagon.1": { left: at("06:00") } },
    });
    expect(completed(left, early).assumed).toEqual(["car.1.leave"]);
  });

  it("is where its stop names it, else where a stop that names nothing is at its place", () => {
    const stops = (first: Partial<Parameters<typeof stop>[2]>, second: Partial<Parameters<typeof stop>[2]>) => ({
      ...own,
      runs: byId(
        run("wagon", [], {
          stops: [stop("wagon.1", "pier", first), stop("wagon.2", "pier", second), stop("wagon.3", "home")],
        }),
      ),
    });
    const asked = (made: Plan) => completed(made, {}).asked.map(({ name }) => name);
    const leaves = (count: number) => ["wagon.1.leave", "wagon.2.leave", "wagon.3.leave"].slice(0, count);
    expect(asked(stops({ do: [] }, { do: ["dawn"] }))).toEqual(leaves(1));
    expect(asked(stops({}, { do: ["dawn"] }))).toEqual(leaves(1));
    expect(asked(stops({}, {}))).toEqual([]);
    expect(asked(stops({ do: ["dawn"] }, {}))).toEqual([]);
    expect(asked(stops({ do: [] }, { do: [] }))).toEqual(leaves(3));
  });
});

describe("arrivals that are taken as logged", () => {
  it("stand beside what is logged of the stop", () => {
    const own = logged({ stops: { "wagon.2": { left: at("09:00") } } });
    expect(withArrivals(own, new Map())).toBe(own);
    const { stops } = withArrivals(
      own,
      new Map([
        ["wagon.2", at("07:00")],
        ["car.2", at("07:30")],
      ]),
    ).actual;
    expect([...stops].map(([id, { arrived, left }]) => [id, text(arrived), text(left)])).toEqual([
      ["wagon.2", "07:00", "09:00"],
      ["car.2", "07:30", null],
    ]);
  });
});
