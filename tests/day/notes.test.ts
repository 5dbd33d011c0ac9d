/** Where a log differs from its plan: told of what the plan states, to the minute; what is equal, or not stated, is no news. */
import { describe, expect, it } from "vitest";
import { releasedEarly, withoutContradiction } from "../../src/day/facts/contradictions.ts";
import { AS_PLANNED, type Fit } from "../../src/day/facts/fit.ts";
import { overrideNotes } from "../../src/day/facts/notes.ts";
import { factOf, hasPast, NO_PINS, pinsOf } from "../../src/day/facts/pins.ts";
import type { Plan, Stop, Task } from "../../src/plan/plan.ts";
import { instant } from "../../src/time/units.ts";
import { actual, byId, hit, person, plan, run, stop, task, vehicle } from "./parts.ts";

const at = (clock: string) => {
  const [hours = 0, minutes = 0] = clock.split(":").map(Number);
  return instant(30_006_720 + hours * 60 + minutes);
};

type Row = Readonly<Record<string, object>>;
interface Logged {
  readonly people?: Row;
  readonly activities?: Row;
  readonly stops?: Row;
}
const mapped = (row: Row | undefined) => new Map(Object.entries(row ?? {}));

const base = (went: Logged, more: Partial<Plan> = {}, stops: Partial<Stop> = {}, own: Partial<Task> = {}): Plan =>
  plan({
    crew: byId(person("wren", { drives: ["wagon"] }), person("ilse", { drives: ["wagon"] })),
    vehicles: byId(vehicle("wagon")),
    hits: byId(hit("dawn", "pier", { at: at("08:00"), forMinutes: 3, signalPath: "dish" })),
    tasks: byId(task("feed", "pier", { forMinutes: 30, ...own })),
    runs: byId(
      run("wagon", [], { driver: "wren", stops: [stop("wagon.1", "lodge", stops), stop("wagon.2", "pier", stops)] }),
    ),
    actual: actual({ people: mapped(went.people), activities: mapped(went.activities), stops: mapped(went.stops) }),
    ...more,
  });
type Instants = Readonly<Record<string, string>>;
const notes = (own: Plan, fit: Partial<Fit> = {}, instants: Instants = {}, missed: readonly string[] = []) =>
  overrideNotes(own, own, {
    fit: { ...AS_PLANNED, ...fit },
    instantOf: (name) => (instants[name] === undefined ? null : at(instants[name])),
    isMissed: (stop) => missed.includes(stop),
  }).map(({ facts }) => `${facts["what"]} ${facts["rule"]}`);

describe("a note of what went otherwise", () => {
  const window = { from: at("09:00"), to: at("10:00") };
  it.each<[string, Logged, Partial<Task>, readonly string[]]>([
    ["a hit of three minutes", { activities: { dawn: { at: at("08:01"), end: at("08:04") } } }, {}, []],
    ["a hit of four", { activities: { dawn: { at: at("08:01"), end: at("08:05") } } }, {}, ["dawn for"]],
    ["only an end", { activities: { dawn: { end: at("08:30") } } }, {}, []],
    ["the same path", { activities: { dawn: { signalPath: "dish" } } }, {}, []],
    ["another path", { activities: { dawn: { signalPath: "phone" } } }, {}, ["dawn path"]],
    ["a path where none is stated", { activities: { feed: { signalPath: "phone" } } }, {}, []],
    [
      "the whole window",
      { activities: { feed: { at: at("09:00"), end: at("10:00") } } },
      { window, forMinutes: 60 },
      [],
    ],
    [
      "a minute before it",
      { activities: { feed: { at: at("08:59"), end: at("09:29") } } },
      { window },
      ["feed window"],
    ],
    ["a minute after it", { activities: { feed: { at: at("09:31"), end: at("10:01") } } }, { window }, ["feed window"]],
    ["by its length up to the end of it", { activities: { feed: { at: at("09:30") } } }, { window }, []],
    ["by its length a minute more", { activities: { feed: { at: at("09:31") } } }, { window }, ["feed window"]],
    ["done by then", { activities: { feed: { end: at("10:00") } } }, { by: at("10:00") }, []],
    ["done a minute later", { activities: { feed: { end: at("10:01") } } }, { by: at("10:00") }, ["feed by"]],
    ["by its length a minute later", { activities: { feed: { at: at("09:31") } } }, { by: at("10:00") }, ["feed by"]],
  ])("%s", (_, went, own, told) => {
    expect(notes(base(went, {}, {}, own))).toEqual(told);
  });

  it.each<[string, Logged, Partial<Stop>, readonly string[]]>([
    ["left as planned", { stops: { "wagon.1": { left: at("05:00") } } }, { leave: at("05:00") }, []],
    ["left later", { stops: { "wagon.1": { left: at("05:01") } } }, { leave: at("05:00") }, ["wagon.1 leave"]],
    ["left at no stated time", { stops: { "wagon.1": { left: at("05:01") } } }, {}, []],
    ["there by then", { stops: { "wagon.2": { arrived: at("06:00") } } }, { arriveBy: at("06:00") }, []],
    [
      "there a minute later",
      { stops: { "wagon.2": { arrived: at("06:01") } } },
      { arriveBy: at("06:00") },
      ["wagon.2 arriveBy"],
    ],
    ["there early", { stops: { "wagon.2": { arrived: at("05:00") } } }, { arriveBy: at("06:00") }, []],
    ["driven as planned", { stops: { "wagon.1": { driver: "ilse" } } }, { driver: "ilse" }, []],
    ["driven by another", { stops: { "wagon.1": { driver: "wren" } } }, { driver: "ilse" }, ["wagon.1 driver"]],
  ])("%s", (_, went, stops, told) => {
    expect(notes(base(went, {}, stops))).toEqual(told);
  });

  it("of a stop's own time that does not hold because of what was logged elsewhere, unless it is said to be missed", () => {
    const [leave, arriveBy] = [at("05:00"), at("06:00")];
    const later = { "wagon.1.leave": "05:01", "wagon.2.arrive": "06:01" };
    const both = base({}, {}, { leave, arriveBy });
    expect(notes(both, {}, later)).toEqual(["wagon.1 leave", "wagon.2 arriveBy"]);
    expect(notes(both, {}, later, ["wagon.1"])).toEqual(["wagon.2 arriveBy"]);
    expect(notes(both, {}, { "wagon.1.leave": "05:00", "wagon.2.arrive": "06:00" })).toEqual([]);
    const ferry = { sail: leave, land: arriveBy, bunk: false };
    expect(notes(base({}, {}, { ferry }), {}, later)).toEqual(["wagon.1 sail"]);
  });

  it("of a length that was cut, unless its end is logged; of a stand-down its window", () => {
    const cut = { shorter: new Map([["feed.start>feed.end", 20]]) };
    expect(notes(base({}), cut)).toEqual(["feed for"]);
    expect(notes(base({}, {}, {}, { kind: "standdown" }), cut)).toEqual(["feed window"]);
    expect(notes(base({ activities: { feed: { end: at("09:00") } } }), cut)).toEqual([]);
    expect(notes(base({}), { shorter: new Map([["dawn.end>feed.start", 20]]) })).toEqual([]);
  });
});

describe("what is logged and contradicts itself", () => {
  const pinned = (went: Logged, assumed: readonly string[] = []) => pinsOf(base(went), new Set(assumed));

  it("a release no later than the call, as logged or as planned", () => {
    const early = (released: string, call: string | null, logged: string | null) => {
      const went = { people: { wren: { released: at(released), call: logged === null ? null : at(logged) } } };
      return releasedEarly(base(went), "wren", call === null ? null : at(call), "lodge").map(
        ({ facts }) => facts["first"],
      );
    };
    expect(early("06:01", "06:00", null)).toEqual([]);
    expect(early("06:00", "06:00", null)).toEqual(["`wren call`, as planned,"]);
    expect(early("06:00", "06:00", "06:00")).toEqual(["`wren call`"]);
    expect(early("05:00", null, "05:30")).toEqual(["`wren call`"]);
    expect(early("05:00", null, null)).toEqual([]);
  });

  it("pins what was logged with what follows from it: a start by the length, an end by the plan", () => {
    expect(hasPast(NO_PINS)).toBe(false);
    expect(hasPast({ ...NO_PINS, now: at("05:00") })).toBe(true);
    expect(hasPast({ ...NO_PINS, done: new Set(["dawn"]) })).toBe(true);
    expect(hasPast({ ...NO_PINS, standing: new Map([["wagon.1", at("05:00")]]) })).toBe(true);
    const of = (went: Logged) => [...pinned(went).at].map(([name, pin]) => [name, pin.at]);
    expect(of({ activities: { feed: { at: at("09:00") } } })).toEqual([
      ["feed.start", at("09:00")],
      ["feed.end", at("09:30")],
    ]);
    expect(of({ activities: { feed: { end: at("09:30") } } })).toEqual([
      ["feed.start", at("09:00")],
      ["feed.end", at("09:30")],
    ]);
    expect(of({ activities: { dawn: { done: true } } })).toEqual([
      ["dawn.start", at("08:00")],
      ["dawn.end", at("08:03")],
    ]);
    expect(of({ activities: { dawn: { end: at("08:07") } } })).toEqual([
      ["dawn.start", at("08:00")],
      ["dawn.end", at("08:07")],
    ]);
    expect(of({ activities: { feed: { done: true } } })).toEqual([]);
    expect([...pinned({ activities: { feed: { done: true } } }).done]).toEqual(["feed"]);
    expect(of({ stops: { "wagon.2": { arrived: at("06:00") } } })).toEqual([["wagon.2.arrive", at("06:00")]]);
    expect(factOf("dawn", "at", at("08:00"), null)?.what).toBe("`dawn began`");
    expect(factOf("dawn", "at", null, null)).toBeNull();
  });

  it("loses the planned one of two, else both", () => {
    const went = { activities: { dawn: { at: at("08:00"), end: at("08:03") }, feed: { at: at("07:00") } } };
    const [both, one] = [pinned(went), pinned(went, ["dawn.end"])];
    const left = (pins: typeof both) =>
      [...withoutContradiction(pins, { first: "dawn.end", second: "feed.start" }).at.keys()].sort();
    expect(left(both)).toEqual(["dawn.start", "feed.end"]);
    expect(left(one)).toEqual(["dawn.start", "feed.end", "feed.start"]);
    expect([both.at.get("dawn.end")?.how, one.at.get("dawn.end")?.how]).toEqual(["as it went", "as planned"]);
  });
});
