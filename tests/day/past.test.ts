/** An edit of a day that is under way, on a day whose instants the test states: what stands, what follows the edit, what is told. */
import { describe, expect, it } from "vitest";
import { pastOf } from "../../src/day/facts/past.ts";
import type { Hit, Plan, Run, Stop, Task } from "../../src/plan/plan.ts";
import { day } from "../roads/days.ts";
import { at, text } from "./make.ts";
import { byId, hit, leg, person, plan, run, stop, task, vehicle } from "./parts.ts";

const NOW = at("08:00");

const STOPS = [
  stop("wagon.1", "lodge"),
  stop("wagon.2", "pier", { do: ["dawn", "feed", "noon"] }),
  stop("wagon.3", "dock"),
  stop("wagon.4", "lodge"),
];
const OLD = plan({
  crew: byId(person("wren", { drives: ["wagon"] }), person("ilse", { drives: ["wagon"] })),
  vehicles: byId(vehicle("wagon")),
  hits: byId(hit("dawn", "pier", { at: at("07:30") }), hit("noon", "pier", { at: at("12:00") })),
  tasks: byId(task("feed", "pier", { forMinutes: 30 })),
  runs: byId(run("wagon", [], { driver: "wren", aboard: ["wren", "ilse"], stops: STOPS })),
});

/** What stands of an edit at 08:00 after these instants, and what is told of it. */
function past(edited: Plan, instants: Readonly<Record<string, string>>, old = OLD) {
  const made = day([
    { vehicle: "wagon", people: ["wren"], leave: at("20:00"), way: [[leg("lodge", "pier", 30, 30), "drive", {}]] },
  ]);
  const known = new Map(Object.entries(instants).map(([name, clock]) => [name, at(clock)]));
  const { plan: now, pins, findings } = pastOf({ ...made, plan: old, instants: known, moves: [] }, old, edited, NOW);
  return {
    now,
    told: findings.map(({ facts }) => facts["what"]),
    places: findings.map(({ path }) => path?.join(".")),
    pins: [...pins].map(([name, pin]) => `${name} ${text(pin.at)}`),
    pinned: [...pins.values()],
  };
}

const withHits = (...hits: readonly Hit[]): Plan => ({ ...OLD, hits: byId(...hits) });
const [DAWN, NOON] = [hit("dawn", "pier", { at: at("07:30") }), hit("noon", "pier", { at: at("12:00") })];

describe("a hit or task after an edit", () => {
  it("is as it was if it has begun, and the edit is told", () => {
    const longer = withHits({ ...DAWN, forMinutes: 9 }, NOON);
    for (const name of ["lineCheck", "inPosition", "start"]) {
      const { now, told, places } = past(longer, { [`dawn.${name}`]: "07:59" });
      expect([now.hits.get("dawn")?.forMinutes, told, places]).toEqual([3, ["dawn"], ["hits.dawn"]]);
      // At 08:00 it has not begun; but its time is over.
      expect(past(longer, { [`dawn.${name}`]: "08:00" }).told).toEqual(["dawn"]);
    }
    expect(past(OLD, { "dawn.start": "07:30" }).told).toEqual([]);
    // Where it stands in the file says nothing.
    expect(past(withHits({ ...DAWN, path: ["hits", "other"] }, NOON), { "dawn.start": "07:30" }).told).toEqual([]);
  });

  it("follows the edit if it has not begun, unless that puts it into the past", () => {
    const moved = (clock: string) => past(withHits(DAWN, { ...NOON, at: at(clock) }), { "noon.start": "12:00" });
    expect([text(moved("08:00").now.hits.get("noon")?.at ?? null), moved("08:00").told]).toEqual(["08:00", []]);
    expect([text(moved("07:59").now.hits.get("noon")?.at ?? null), moved("07:59").told]).toEqual(["12:00", ["noon"]]);
    // One that has not changed may lie in the past: it is late.
    expect(past(OLD, {}).told).toEqual([]);
  });

  it("is new only if it lies ahead, and gone only if it had not begun", () => {
    const added = (clock: string) => past(withHits(DAWN, NOON, hit("web", "pier", { at: at(clock) })), {});
    expect([added("08:00").now.hits.has("web"), added("08:00").told]).toEqual([true, []]);
    expect([added("07:59").now.hits.has("web"), added("07:59").told]).toEqual([false, ["web"]]);
    const dropped = past(withHits(), { "dawn.start": "07:30", "noon.start": "12:00" });
    expect([[...dropped.now.hits.keys()], dropped.told]).toEqual([["dawn"], ["dawn"]]);
  });

  it("a task is over by the end of its window, else by its `by`", () => {
    const edited = (more: Partial<Task>) =>
      past({ ...OLD, tasks: byId(task("feed", "pier", { forMinutes: 30, ...more })) }, {}).told;
    expect(edited({ window: { from: at("07:00"), to: at("07:59") } })).toEqual(["feed"]);
    expect(edited({ window: { from: at("07:00"), to: at("08:00") } })).toEqual([]);
    expect(edited({ by: at("07:59") })).toEqual(["feed"]);
    expect(edited({ by: at("08:00"), window: { from: at("07:00"), to: at("09:00") } })).toEqual([]);
    expect(edited({ forMinutes: 5 })).toEqual([]);
  });

  it("a ride has begun with its lead", () => {
    const ride = {
      id: "taxi",
      path: ["rides", "taxi"],
      from: "a",
      to: "b",
      leave: at("09:00"),
      arrive: at("09:30"),
      who: ["wren"],
      leadMinutes: 0,
      by: null,
      bunk: false,
    };
    const old = { ...OLD, rides: new Map([["taxi", ride]]) };
    const edited = (leave: string) => ({ ...OLD, rides: new Map([["taxi", { ...ride, leave: at(leave) }]]) });
    const left = (leave: string, instants: Readonly<Record<string, string>>) => {
      const { now, told } = past(edited(leave), instants, old);
      return [text(now.rides.get("taxi")?.leave ?? null), told];
    };
    expect(left("10:00", { "taxi.lead": "07:59" })).toEqual(["09:00", ["taxi"]]);
    expect(left("10:00", { "taxi.leave": "07:59" })).toEqual(["09:00", ["taxi"]]);
    expect(left("10:00", { "taxi.lead": "08:00", "taxi.leave": "08:10" })).toEqual(["10:00", []]);
    expect(left("07:59", {})).toEqual(["09:00", ["taxi"]]);
  });
});

describe("a run after an edit", () => {
  const withStops = (stops: readonly Stop[], more: Partial<Run> = {}): Plan => ({
    ...OLD,
    runs: byId(run("wagon", [], { driver: "wren", aboard: ["wren", "ilse"], stops, ...more })),
  });
  const places = ({ now }: ReturnType<typeof past>) => now.runs.get("wagon")?.stops.map(({ place }) => place);
  const other = ["inn", "quay", "yard", "cove"].map((place, n) => stop(`wagon.${n + 1}`, place));

  it("is as it was up to the stop that it is on the way to, and told for each", () => {
    const all = (instants: Readonly<Record<string, string>>) => {
      const made = past(withStops(other), instants);
      return [places(made)?.join(" "), made.told.join(" ")];
    };
    expect(all({})).toEqual(["inn quay yard cove", ""]);
    expect(all({ "wagon.1.loading": "08:00" })).toEqual(["inn quay yard cove", ""]);
    for (const name of ["walkAround", "loading"])
      expect(all({ [`wagon.1.${name}`]: "07:59" })).toEqual(["lodge quay yard cove", "wagon.1"]);
    // On the road to the second; there; on the road to the third.
    expect(all({ "wagon.1.leave": "07:00" })).toEqual(["lodge pier yard cove", "wagon.1 wagon.2"]);
    expect(all({ "wagon.1.leave": "07:00", "wagon.2.arrive": "07:30" })).toEqual([
      "lodge pier yard cove",
      "wagon.1 wagon.2",
    ]);
    expect(all({ "wagon.2.leave": "07:50" })).toEqual(["lodge pier dock cove", "wagon.1 wagon.2 wagon.3"]);
    expect(all({ "wagon.4.arrive": "07:50", "wagon.3.leave": "07:40" })).toEqual([
      ...["lodge pier dock lodge", "wagon.1 wagon.2 wagon.3 wagon.4"],
    ]);
    expect(past(OLD, { "wagon.2.leave": "07:50" }).told).toEqual([]);
  });

  it("may lose from the list of a stop it has left what was not done there, and nothing else", () => {
    // At the pier dawn was made; the feed and noon were not, and the wagon left at 07:50.
    const instants = { "wagon.1.leave": "07:00", "wagon.2.leave": "07:50", "dawn.start": "07:30" };
    const listing = (...ids: readonly string[]) => {
      const made = past(withStops(STOPS.with(1, stop("wagon.2", "pier", { do: ids }))), instants);
      return [made.now.runs.get("wagon")?.stops[1]?.do?.join(" "), made.told.join(" ")];
    };
    expect(listing("dawn", "noon")).toEqual(["dawn noon", ""]);
    expect(listing("dawn")).toEqual(["dawn", ""]);
    const asBefore = ["dawn feed noon", "wagon.2"];
    expect([listing("feed", "noon"), listing("noon", "dawn"), listing("dawn", "feed", "noon", "more")]).toEqual([
      ...[asBefore, asBefore, asBefore],
    ]);
  });

  it("is all as it was if the edit takes it out, or what it has reached", () => {
    const gone = past({ ...OLD, runs: new Map() }, { "wagon.1.leave": "07:00" });
    expect([places(gone)?.length, gone.told, gone.places]).toEqual([4, ["wagon"], ["runs.wagon"]]);
    expect(past({ ...OLD, runs: new Map() }, {}).now.runs.size).toBe(0);
    const short = past(withStops(STOPS.slice(0, 1)), { "wagon.1.leave": "07:00" });
    // Nobody drives on from the first any more.
    expect([places(short), short.told]).toEqual([
      ["lodge", "pier"],
      ["wagon.1", "wagon.2"],
    ]);
    const reached = past(withStops([]), { "wagon.2.leave": "07:00" });
    expect([places(reached), reached.told]).toEqual([
      ["lodge", "pier", "dock"],
      ["wagon.1", "wagon.2", "wagon.3"],
    ]);
  });

  it("keeps what has begun where it is, in its old order, and follows the edit in what has not", () => {
    const doing = (edited: readonly string[] | null) => {
      const stops = STOPS.map((one) => (one.id === "wagon.2" ? { ...one, do: edited } : one));
      const { now, told } = past(withStops(stops), {
        "wagon.2.arrive": "07:00",
        "dawn.start": "07:30",
        "feed.start": "07:45",
        "noon.start": "12:00",
      });
      expect(told).toEqual([]);
      return now.runs.get("wagon")?.stops[1]?.do;
    };
    expect(doing(["dawn", "noon", "feed"])).toEqual(["dawn", "noon", "feed"]);
    expect(doing(["feed", "noon", "dawn"])).toEqual(["dawn", "feed", "noon"]);
    expect(doing(["noon", "dawn"])).toEqual(["dawn", "feed", "noon"]);
    expect(doing(["noon"])).toEqual(["dawn", "feed", "noon"]);
    expect(doing(["web", "dawn", "feed"])).toEqual(["web", "dawn", "feed"]);
    expect(doing(null)).toBe(null);
  });

  it("is told where somebody else drives or rides on what is past", () => {
    const swapped = (driver: string, aboard: readonly string[], instants: Readonly<Record<string, string>>) =>
      past(withStops(STOPS, { driver, aboard }), instants).told;
    expect(swapped("ilse", ["wren", "ilse"], { "wagon.2.arrive": "07:00" })).toEqual(["wagon.1"]);
    // It has left the second and is on the road to the third.
    expect(swapped("wren", ["wren"], { "wagon.2.arrive": "07:00", "wagon.2.leave": "07:30" })).toEqual([
      "wagon.1",
      "wagon.2",
    ]);
    // Nobody drives on from the last stop.
    const atEnd = { "wagon.4.arrive": "07:00", "wagon.3.leave": "06:00" };
    expect(swapped("ilse", ["wren", "ilse"], atEnd)).toEqual(["wagon.1", "wagon.2", "wagon.3"]);
  });
});

describe("instants that stand", () => {
  it("are those before now, with the ends of what has begun", () => {
    const { pins, pinned } = past(OLD, {
      ...{ "dawn.lineCheck": "07:50", "dawn.inPosition": "08:05", "dawn.start": "08:10", "dawn.end": "08:13" },
      ...{ "feed.start": "07:59", "feed.end": "08:29", "feed.clear": "08:40" },
      ...{ "wagon.1.leave": "08:00", "wagon.1.loading": "07:45" },
    });
    // Line check to the position; the task to its end, but not to its clear, which begins later; the loading to the departure.
    expect(pins).toEqual([
      ...["dawn.lineCheck 07:50", "dawn.inPosition 08:05", "feed.start 07:59", "feed.end 08:29"],
      ...["wagon.1.loading 07:45", "wagon.1.leave 08:00"],
    ]);
    expect(pinned.every(({ how, fact }) => how === "as planned" && fact === null)).toBe(true);
    const ended = past(OLD, { "feed.start": "07:20", "feed.end": "07:50", "feed.clear": "08:10" });
    expect(ended.pins).toEqual(["feed.start 07:20", "feed.end 07:50", "feed.clear 08:10"]);
  });

  it("hold the arrival of a drive that has begun", () => {
    const [, arrive] = [at("07:59"), at("08:30")];
    const arrivals = (leave: string) => {
      const own = day([
        { vehicle: "wagon", people: ["wren"], leave: at(leave), way: [[leg("lodge", "pier", 30, 30), "drive", {}]] },
      ]);
      const instants = new Map([["wagon.2.arrive", arrive]]);
      return [...pastOf({ ...own, plan: OLD, instants }, OLD, OLD, NOW).pins].map(
        ([name, pin]) => `${name} ${text(pin.at)}`,
      );
    };
    expect(arrivals("07:59")).toEqual(["wagon.2.arrive 08:29"]);
    expect(arrivals("08:00")).toEqual([]);
  });
});
