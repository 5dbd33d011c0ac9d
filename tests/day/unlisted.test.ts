/** The order of what no list says, worked out from names, times and windows; and what one day leaves to the next. */
import { describe, expect, it } from "vitest";
import { carryOver } from "../../src/day/chain.ts";
import { NOTHING_BEFORE } from "../../src/day/index.ts";
import { unlistedOrder } from "../../src/day/order/unlisted.ts";
import type { Hit, Task } from "../../src/plan/plan.ts";
import { day } from "../roads/days.ts";
import { at, text } from "./make.ts";
import { actual, byId, hit, leg, run, task } from "./parts.ts";

describe("what no list puts in order", () => {
  const one = (id: string, clock: string, more: Partial<Hit> = {}) => hit(id, "pier", { at: at(clock), ...more });
  const [dawn, noon] = [one("dawn", "07:00"), one("noon", "12:00")];
  const work = (id: string, more: Partial<Task> = {}) => task(id, "pier", more);
  const order = (...here: readonly (Hit | Task)[]) =>
    unlistedOrder(here)
      .map(({ id }) => id)
      .join(" ");
  const window = (from: string, to: string) => ({ window: { from: at(from), to: at(to) } });

  it("goes by the time of hits, then by the file", () => {
    expect(order(noon, work("a"), dawn, work("b"))).toBe("dawn noon a b");
    expect(order(work("b"), work("a"))).toBe("b a");
    expect(order()).toBe("");
  });

  it("puts a task before the hit that it names, and what leads to it before that", () => {
    expect(order(noon, dawn, work("a", { before: ["noon"] }))).toBe("dawn a noon");
    expect(order(noon, dawn, work("a", { before: ["dawn"] }))).toBe("a dawn noon");
    expect(order(one("dawn", "07:00", { after: ["a"] }), noon, work("a"))).toBe("a dawn noon");
    expect(
      order(dawn, noon, work("b"), work("a", { before: ["b"] }), work("c", { after: ["b"], before: ["noon"] })),
    ).toBe("dawn a b c noon");
    expect(order(dawn, noon, work("a", { after: ["dawn"] }))).toBe("dawn noon a");
  });

  it("goes by windows that do not meet", () => {
    expect(order(work("late", window("10:00", "11:00")), work("early", window("08:00", "10:00")))).toBe("early late");
    expect(order(work("late", window("09:59", "11:00")), work("early", window("08:00", "10:00")))).toBe("late early");
    expect(order(work("late", window("10:00", "11:00")), work("any"))).toBe("late any");
    // What is said by name goes before the windows.
    expect(
      order(work("late", { ...window("10:00", "11:00"), before: ["early"] }), work("early", window("08:00", "09:00"))),
    ).toBe("late early");
    expect(
      order(work("late", window("10:00", "11:00")), work("early", { ...window("08:00", "09:00"), after: ["late"] })),
    ).toBe("late early");
  });

  it("leaves a ring as it is in the file, a task behind a hit that it waits for as well", () => {
    expect(order(work("a", { after: ["b"] }), work("b", { after: ["a"] }))).toBe("a b");
    // Before dawn and after noon, which is later.
    expect(order(dawn, noon, work("a", { before: ["dawn"], after: ["noon"] }))).toBe("dawn noon a");
  });
});

describe("what a day leaves to the next", () => {
  const made = day(
    [
      {
        vehicle: "wagon",
        people: ["wren"],
        leave: at("06:00"),
        way: [[leg("lodge", "pier", 30, 30), "drive", { work: 60 }]],
      },
      {
        vehicle: "car",
        people: ["ilse"],
        leave: at("06:00"),
        way: [[leg("lodge", "dock", 30, 30), "drive", { work: 60 }]],
      },
    ],
    { runs: byId(run("wagon", ["lodge", "pier"]), run("car", ["lodge", "dock"])) },
  );
  const before = {
    ...NOTHING_BEFORE,
    beds: new Map([
      ["wren", "cabin"],
      ["ilse", "cabin"],
    ]),
    releases: new Map([
      ["wren", at("01:00")],
      ["joe", at("02:00")],
    ]),
    evenings: new Map([
      ["wren", at("01:30")],
      ["joe", at("02:30")],
    ]),
    vehicles: new Map([
      ["car", "yard"],
      ["boat", "quay"],
    ]),
  };
  const left = (change: Partial<(typeof made.people)[number]>) => {
    const people = made.people.map((person) => (person.id === "wren" ? { ...person, ...change } : person));
    const { beds, releases, evenings, vehicles } = carryOver({ ...made, people }, before);
    const clocks = (all: ReadonlyMap<string, ReturnType<typeof at>>) =>
      [...all].map(([id, when]) => `${id} ${text(when)}`);
    return {
      beds: [...beds].map((pair) => pair.join(" ")),
      releases: clocks(releases),
      evenings: clocks(evenings),
      vehicles: [...vehicles].map((pair) => pair.join(" ")),
    };
  };

  it("is who sleeps where, from when, and where the vehicles are", () => {
    // Both are released at 07:30, after an hour's work.
    const { beds, releases, evenings, vehicles } = left({ sleeps: "inn" });
    expect(beds).toEqual(["wren inn", "ilse cabin"]);
    expect(releases).toEqual(["wren 07:30", "joe 02:00", "ilse 07:30"]);
    // Nobody is on their way to bed after the release; joe, of whom the day says nothing, stays as he was.
    expect(evenings).toEqual(["joe 02:30"]);
    expect(vehicles).toEqual(["car dock", "boat quay", "wagon pier"]);
    expect(left({ sleeps: null }).beds).toEqual(["wren cabin", "ilse cabin"]);
  });

  it("is the end of the evening where that goes on after the release", () => {
    const [span] = made.people[0]?.spans ?? [];
    if (span === undefined) throw new Error("no span");
    const until = (clock: string) => ({ spans: [{ ...span, from: at("05:00"), to: at(clock) }] });
    expect(left(until("07:31")).evenings).toEqual(["wren 07:31", "joe 02:30"]);
    expect(left(until("07:30")).evenings).toEqual(["joe 02:30"]);
    expect(left({ ...until("08:00"), release: null, previousRelease: at("00:30") })).toMatchObject({
      releases: ["wren 00:30", "joe 02:00", "ilse 07:30"],
      evenings: ["joe 02:30"],
    });
    expect(left({ ...until("08:00"), release: null, previousRelease: null }).releases).toEqual([
      "wren 01:00",
      "joe 02:00",
      "ilse 07:30",
    ]);
    expect(left({ spans: [] }).evenings).toEqual(["joe 02:30"]);
  });

  it("is where a vehicle without a run is logged", () => {
    const plan = { ...made.plan, actual: actual({ vehicles: new Map([["boat", { place: "cove" }]]) }) };
    expect(carryOver({ ...made, plan }, before).vehicles.get("boat")).toBe("cove");
  });
});
