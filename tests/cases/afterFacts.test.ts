/** What follows from a log: the reasons that are given for instants, and vehicles whose only hit a fact makes impossible. */
import { describe, expect, it } from "vitest";
import { dayOfFile } from "../day/read.ts";
import { clocks } from "./clock.ts";

const HEAD = `daywright: 1
date: 2027-01-20
clock: America/Chicago
zone: America/Chicago
places: { lodge: { kind: lodging }, pier: {} }
roads: [{ link: [lodge, pier], drive: 30 min, bad: 45 min }]
`;

/** Out for a hit at dawn, a stand-down at the lodge from 09:00 to 13:00, out again for a hit at 15:00. */
const TWICE = `${HEAD}crew: { wren: { drives: wagon, slept: lodge, sleeps: lodge } }
vehicles: { wagon: {} }
hits:
  dawn: { at: "07:00", for: 3 min, place: pier }
  noon: { at: "15:00", for: 3 min, place: pier }
tasks: { down: { kind: standdown, place: lodge, window: ["09:00", "13:00"] } }
runs:
  wagon:
    driver: wren
    aboard: [wren]
    stops: [lodge, { place: pier, do: [dawn] }, { place: lodge, do: [down] }, { place: pier, do: [noon] }, lodge]
`;

describe("the reason for", () => {
  const reason = async (actual: string, id: string) => {
    const why = (await dayOfFile("day.yaml", `${TWICE}${actual}`)).why(id);
    return [why?.fixedBy.by, why?.fixedBy.where, why?.terms.map(({ name, minutes }) => [name, minutes])];
  };

  it("a second call is the end of the stand-down: as planned from its start, as logged from the log", async () => {
    const planned = ["plan", ["tasks", "down", "window"], [["down", 240]]];
    expect(await reason("", "wren.call.2")).toEqual(planned);
    expect(await reason('actual: { down: { end: "12:30" } }', "wren.call.2")).toEqual([
      ...["log", ["actual", "down", "end"], []],
    ]);
    // One that began at 10:00 lasts to the end of its window all the same.
    expect(await reason('actual: { down: { at: "10:00" } }', "wren.call.2")).toEqual([
      ...["log", ["actual", "down", "at"], [["down", 180]]],
    ]);
  });

  it("the first release is the start of the stand-down", async () => {
    expect(await reason("", "wren.release.1")).toEqual(["plan", ["tasks", "down", "window"], []]);
    expect(await reason('actual: { down: { at: "10:00" } }', "wren.release.1")).toEqual([
      ...["log", ["actual", "down", "at"], []],
    ]);
  });

  it("what is logged is the log, for what follows from it the lengths between, for what was assumed the plan", async () => {
    const actual = 'actual: { dawn: { at: "07:02" }, wagon.2: { arrived: "06:00" } }';
    expect(await reason(actual, "dawn.start")).toEqual(["log", ["actual", "dawn", "at"], []]);
    expect(await reason(actual, "dawn.clear")).toEqual([
      ...["log", ["actual", "dawn", "at"]],
      [
        ["dawn", 3],
        ["clear", 10],
      ],
    ]);
    // Whoever arrived at 06:00 had left as planned: 07:00 - 10 - 10 - 30 - 5 - 45.
    expect(await reason(actual, "wagon.1.leave")).toEqual(["planned before", null, []]);
    expect(clocks(await dayOfFile("day.yaml", `${TWICE}${actual}`), "wagon.1.leave")).toEqual(["05:20"]);
  });
});

/** A car that leaves too late for the one hit that the wagon goes to. */
const TOO_LATE = (leave: string) => `${HEAD}crew:
  wren: { drives: wagon, slept: lodge, sleeps: lodge }
  ilse: { drives: car, slept: lodge, sleeps: lodge }
vehicles: { wagon: {}, car: {} }
hits: { dawn: { at: "07:00", for: 3 min, place: pier } }
runs:
  wagon: { driver: wren, aboard: [wren], stops: [lodge, { place: pier, do: [dawn] }, lodge] }
  car: { driver: ilse, aboard: [ilse], stops: [{ place: lodge, leave: "${leave}" }, { place: pier, do: [dawn] }, lodge] }
`;

describe("a vehicle whose only hit is missed because of another", () => {
  it("goes as if for that hit, and the plan is not refused", async () => {
    const day = await dayOfFile("day.yaml", TOO_LATE("06:30"));
    expect(day.activities.map(({ state }) => state)).toEqual(["missed"]);
    // 07:00 less 10 in position, 10 line check, 30 set-up, 5 to park is 06:05; no firm hit is left to hurry to: 30 of road.
    expect(clocks(day, "wagon.1.leave", "wagon.2.arrive", "car.1.leave")).toEqual(["05:35", "06:05", "06:30"]);
    // 06:30 + 45 + 5 + 30 + 10 + 10 is 08:10.
    expect(day.findings.map(({ code, shortMinutes }) => [code, shortMinutes])).toContainEqual(["hit-missed", 70]);
  });

  it("is as planned where the hit can be made", async () => {
    expect(clocks(await dayOfFile("day.yaml", TOO_LATE("05:20")), "wagon.1.leave", "dawn.start")).toEqual([
      "05:20",
      "07:00",
    ]);
  });
});
