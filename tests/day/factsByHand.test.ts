/** What a log makes of hits and tasks, and which logs contradict themselves: each figure from the sentence above it. */
import { describe, expect, it } from "vitest";
import { asItWent } from "../../src/day/facts/asItWent.ts";
import { type Fit, givesNoMore } from "../../src/day/facts/fit.ts";
import { computeDay } from "../../src/day/index.ts";
import type { Task } from "../../src/plan/plan.ts";
import { at, type Description, legsOf, makePlan, text } from "./make.ts";
import { actual } from "./parts.ts";

type Row = Readonly<Record<string, object>>;
interface Logged {
  readonly people?: Row;
  readonly activities?: Row;
  readonly stops?: Row;
}
const mapped = (row: Row | undefined) => new Map(Object.entries(row ?? {}));
const went = ({ people, activities, stops }: Logged) =>
  actual({ people: mapped(people), activities: mapped(activities), stops: mapped(stops) });

const WINDOW = { from: at("09:00"), to: at("10:00") };
const BASE: Description = {
  crew: { wren: { drives: ["wagon"] }, ilse: {} },
  roads: { "home pier": [30, 40] },
  hits: { dawn: { at: at("08:00"), forMinutes: 5, in: "pier" } },
  runs: { wagon: { stops: ["home", { place: "pier", do: ["dawn", "extra"] }, { place: "home", do: [] }] } },
};
const withTask = (kind: Task["kind"], more: Partial<Task> = {}): Description => ({
  ...BASE,
  tasks: { extra: { kind, in: "pier", window: WINDOW, ...more } },
});
const log = (began: string | null, ended: string | null) => ({
  ...(began === null ? {} : { at: at(began) }),
  ...(ended === null ? {} : { end: at(ended) }),
});

describe("as it went", () => {
  it.each([
    ["later and longer", "08:10", "08:20", "08:10", 10],
    ["later, for as long as planned", "08:10", null, "08:10", 5],
    ["until later", null, "08:07", "08:00", 7],
    ["no longer than a moment", "08:10", "08:10", "08:10", 0],
    ["ended before it began, which says nothing", "08:10", "08:09", "08:10", 5],
  ])("a hit %s", (_, began, ended, start, minutes) => {
    const plan = { ...makePlan(BASE), actual: went({ activities: { dawn: log(began, ended) } }) };
    const hit = asItWent(plan).hits.get("dawn");
    expect([text(hit?.at ?? null), hit?.forMinutes]).toEqual([start, minutes]);
  });

  const taskOf = (description: Description, began: string | null, ended: string | null) => {
    const plan = { ...makePlan(description), actual: went({ activities: { extra: log(began, ended) } }) };
    const task = asItWent(plan).tasks.get("extra");
    return [text(task?.window?.from ?? null), text(task?.window?.to ?? null), task?.forMinutes];
  };

  it.each(["standby", "standdown"] as const)("a %s fills what it had of its window", (kind) => {
    const own = withTask(kind);
    expect(taskOf(own, null, null)).toEqual(["09:00", "10:00", null]);
    expect(taskOf(own, "09:10", null)).toEqual(["09:10", "10:00", null]);
    expect(taskOf(own, null, "09:40")).toEqual(["09:00", "09:40", null]);
    expect(taskOf(own, "09:10", "09:40")).toEqual(["09:10", "09:40", null]);
    // Begun as it was to end, or later, it lasts its hour; with a length of its own that one.
    expect(taskOf(own, "10:00", null)).toEqual(["10:00", "11:00", null]);
    expect(taskOf(own, "10:30", null)).toEqual(["10:30", "11:30", null]);
    expect(taskOf(withTask(kind, { forMinutes: 20 }), "09:10", null)).toEqual(["09:10", "09:30", null]);
    expect(taskOf(own, "09:40", "09:10")).toEqual(["09:40", "09:40", null]);
  });

  it("any other task takes the length that it had, and keeps its window", () => {
    const own = withTask("work", { forMinutes: 30 });
    expect(taskOf(own, "09:10", "09:25")).toEqual(["09:00", "10:00", 15]);
    expect(taskOf(own, "09:10", "09:10")).toEqual(["09:00", "10:00", 0]);
    expect(taskOf(own, "09:10", "09:09")).toEqual(["09:00", "10:00", 30]);
    expect(taskOf(own, "09:10", null)).toEqual(["09:00", "10:00", 30]);
  });
});

describe("what gives way to a log", () => {
  it("a stated departure stands before a logged arrival, however fast the drive was", () => {
    const left = (arrived: string) => {
      const stops = [{ place: "home", leave: at("06:25") }, { place: "pier", do: ["dawn"] }, "home"];
      const made = makePlan({ ...BASE, runs: { wagon: { stops } } });
      const plan = { ...made, actual: went({ stops: { "wagon.2": { arrived: at(arrived) } } }) };
      const { day } = computeDay(plan, legsOf(plan));
      return text(day?.moves[0]?.leave ?? null);
    };
    expect([left("06:46"), left("06:26")]).toEqual(["06:25", "06:25"]);
    expect(left("06:24")).not.toBe("06:25");
  });

  it("is no more where every length is as long and nothing else gives way", () => {
    const none: Fit = {
      ...{ shorter: new Map(), longer: new Set(), eased: new Set(), dropped: new Map(), turned: new Set() },
      ...{ hurried: [], unbound: new Map() },
    };
    const fitted = (more: Partial<Fit> = {}): Fit => ({ ...none, ...more });
    const before = fitted({ shorter: new Map([["drive", 30]]), longer: new Set(["clear"]) });
    const noMore = (more: Partial<Fit>) => givesNoMore(before, fitted(more));
    expect([noMore({}), givesNoMore(before, before)]).toEqual([true, true]);
    expect([29, 30, 31].map((minutes) => noMore({ shorter: new Map([["drive", minutes]]) }))).toEqual([
      false,
      true,
      true,
    ]);
    expect(noMore({ shorter: new Map([["park", 4]]) })).toBe(false);
    expect([noMore({ longer: new Set(["clear"]) }), noMore({ longer: new Set(["clear", "strike"]) })]).toEqual([
      true,
      false,
    ]);
  });
});

describe("a log that contradicts itself", () => {
  const told = (description: Description, logged: Logged) => {
    const plan = { ...makePlan(description), actual: went(logged) };
    const { day, findings } = computeDay(plan, legsOf(plan));
    return [...(day?.findings ?? []), ...findings].flatMap(({ code, path }) =>
      code === "went-backwards" ? [path?.join(".")] : [],
    );
  };

  it("ends before it began, as logged or, where the start is fixed, as planned", () => {
    const ends = (description: Description, id: string, began: string | null, ended: string) =>
      told(description, { activities: { [id]: log(began, ended) } });
    expect(ends(BASE, "dawn", "08:02", "08:01")).toEqual(["actual.dawn.end"]);
    expect(ends(BASE, "dawn", "08:02", "08:02")).toEqual([]);
    expect(ends(BASE, "dawn", null, "07:59")).toEqual(["actual.dawn.end"]);
    for (const kind of ["standby", "standdown"] as const) {
      expect(ends(withTask(kind), "extra", null, "08:59")).toEqual(["actual.extra.end"]);
      expect(ends(withTask(kind), "extra", null, "09:30")).toEqual([]);
    }
    expect(ends(withTask("work", { forMinutes: 10 }), "extra", null, "08:59")).toEqual([]);
  });

  it("calls someone after they left; not for the call after a stand-down", () => {
    const down: Description = {
      ...BASE,
      tasks: { down: { kind: "standdown", in: "home", who: ["wren"], window: { from: at("12:00"), to: at("16:00") } } },
      runs: { wagon: { stops: ["home", { place: "pier", do: ["dawn"] }, { place: "home", do: ["down"] }] } },
    };
    const calls = (description: Description, call: string) =>
      told(description, { stops: { "wagon.1": { left: at("06:25") } }, people: { wren: { call: at(call) } } });
    expect(calls(BASE, "06:26")).toEqual(["actual.wagon.1.left"]);
    expect(calls(BASE, "06:25")).toEqual([]);
    expect(calls(down, "06:26")).toEqual(["actual.wagon.1.left"]);
    expect(calls(down, "16:00")).toEqual([]);
  });

  it("releases someone before a ride; not for the release into a stand-down that ends after it", () => {
    const down: Description = {
      ...BASE,
      hits: { ...BASE.hits, noon: { at: at("18:00"), forMinutes: 5, in: "pier" } },
      tasks: { down: { kind: "standdown", in: "pier", who: ["wren"], window: { from: at("12:00"), to: at("16:00") } } },
      runs: { wagon: { stops: ["home", { place: "pier", do: ["dawn", "down", "noon"] }, { place: "home", do: [] }] } },
    };
    const released = (clock: string) =>
      told(down, { stops: { "wagon.3": { arrived: at("19:30") } }, people: { wren: { released: at(clock) } } });
    expect([released("15:59"), released("16:00"), released("19:29"), released("19:30")]).toEqual([
      ...[[], ["actual.wren.released"], ["actual.wren.released"], []],
    ]);
  });

  it("a drive that took a minute less is no contradiction: 06:26 to 07:05 for 40 minutes", () => {
    const plan = {
      ...makePlan(BASE),
      actual: went({ stops: { "wagon.1": { left: at("06:26") }, "wagon.2": { arrived: at("07:05") } } }),
    };
    const { day } = computeDay(plan, legsOf(plan));
    expect([text(day?.moves[0]?.leave ?? null), text(day?.moves[0]?.arrive ?? null)]).toEqual(["06:26", "07:05"]);
  });
});
