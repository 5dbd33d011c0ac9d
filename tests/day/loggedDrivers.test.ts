/** Somebody logged at the wheel of a vehicle that the plan does not have them in (a fact stands; nothing else is guessed). */
import { describe, expect, it } from "vitest";
import { dayOfFile } from "./read.ts";

/** Wren drives the wagon to the pier, ilse the car to the hall; both may drive both. */
const PLAN = `daywright: 1
date: 2027-01-20
clock: America/Chicago
zone: America/Chicago
crew:
  wren: { drives: [wagon, car], slept: lodge, sleeps: lodge }
  ilse: { drives: [wagon, car], slept: lodge, sleeps: lodge }
  odo: { slept: lodge, sleeps: lodge }
vehicles: { wagon: {}, car: {} }
places: { lodge: { kind: lodging }, pier: {}, hall: {} }
roads:
  - { link: [lodge, pier], drive: 35 min, bad: 50 min }
  - { link: [lodge, hall], drive: 20 min, bad: 30 min }
hits:
  dawn: { at: "07:00", for: 3 min, place: pier }
  noon: { at: "07:30", for: 3 min, place: hall }
runs:
  wagon: { driver: wren, aboard: [wren, odo], stops: [lodge, pier, lodge] }
  car: { driver: ilse, stops: [lodge, hall, lodge] }
`;
const logged = (actual: string, plan = PLAN) => dayOfFile("day.yaml", `${plan}actual: ${actual}\n`);
const wheels = async (actual: string, plan = PLAN) =>
  (await logged(actual, plan)).moves.map(({ id, driver, riders }) => [id, driver, ...riders]).toSorted();

describe("the vehicle that somebody left for another", () => {
  it("is driven on by whoever was logged at its wheel last, if two who are in it may drive it", async () => {
    const plan = PLAN.replace(
      "  odo:",
      "  tomas: { drives: [car], slept: lodge, sleeps: lodge }\n  bea: { drives: [car], slept: lodge, sleeps: lodge }\n  odo:",
    ).replace("car: { driver: ilse,", "car: { driver: ilse, aboard: [ilse, tomas, bea],");
    const drivers = async (car: string) =>
      (await wheels(`{ wagon.1: { driver: ilse }, car.1: { driver: ${car} } }`, plan))
        .filter(([id]) => id?.startsWith("car."))
        .map(([id, driver]) => [id, driver]);
    expect(await drivers("tomas")).toEqual([
      ["car.1", "tomas"],
      ["car.2", "tomas"],
    ]);
    expect(await drivers("bea")).toEqual([
      ["car.1", "bea"],
      ["car.2", "bea"],
    ]);
  });
});

describe("somebody logged at the wheel of another vehicle", () => {
  it("rides on in it, and so does whoever is logged in theirs", async () => {
    expect(await wheels("{ wagon.1: { driver: ilse }, car.1: { driver: wren } }")).toEqual([
      ["car.1", "wren"],
      ["car.2", "wren"],
      ["wagon.1", "ilse", "odo"],
      ["wagon.2", "ilse", "odo"],
    ]);
  });

  it("who makes the hits follows from it", async () => {
    const { activities } = await logged("{ wagon.1: { driver: ilse }, car.1: { driver: wren } }");
    expect(activities.map(({ id, who }) => [id, ...who])).toEqual([
      ["dawn", "ilse", "odo"],
      ["noon", "wren"],
    ]);
  });

  it("leaves the `who` of what they do not come to, which is then for whoever does, and a note says so", async () => {
    const plan = PLAN.replace("place: pier }", "place: pier, who: [wren, odo] }").replace(
      "place: hall }",
      "place: hall, who: [ilse] }",
    );
    const planned = await dayOfFile("day.yaml", plan);
    expect(planned.activities.map(({ id, who }) => [id, ...who])).toEqual([
      ["dawn", "wren", "odo"],
      ["noon", "ilse"],
    ]);
    const { activities, findings } = await logged("{ wagon.1: { driver: ilse }, car.1: { driver: wren } }", plan);
    expect(activities.map(({ id, who }) => [id, ...who])).toEqual([
      ["dawn", "odo"],
      ["noon", "wren"],
    ]);
    const notes = findings.filter(({ code }) => code === "logged-otherwise").map(({ facts }) => Object.values(facts));
    expect(notes.filter(([, rule]) => rule === "who").map(([what]) => what)).toEqual(["dawn", "noon"]);
  });

  it("leaves the `who` alone of what they come to all the same", async () => {
    // The car goes by the pier as well.
    const plan = PLAN.replace("place: pier }", "place: pier, who: [wren] }")
      .replace("[lodge, pier, lodge] }", "[lodge, { place: pier, do: [dawn] }, lodge] }")
      .replace("[lodge, hall, lodge] }", "[lodge, pier, hall, lodge] }")
      .replace('at: "07:30"', 'at: "09:30"')
      .replace(
        "hall], drive: 20 min, bad: 30 min }",
        "hall], drive: 20 min, bad: 30 min }\n  - { link: [pier, hall], drive: 20 min, bad: 30 min }",
      );
    const { activities } = await logged("{ wagon.1: { driver: ilse }, car.1: { driver: wren } }", plan);
    expect(activities.map(({ id, who }) => [id, ...who])).toEqual([
      ["dawn", "wren"],
      ["noon", "wren"],
    ]);
  });

  it("leaves their vehicle to the only one aboard who may drive it", async () => {
    // Tomas rides the car and may drive it.
    const plan = PLAN.replace("  odo:", "  tomas: { drives: car, slept: lodge, sleeps: lodge }\n  odo:").replace(
      "car: { driver: ilse,",
      "car: { driver: ilse, aboard: [ilse, tomas],",
    );
    expect(await wheels("{ wagon.1: { driver: ilse } }", plan)).toEqual([
      ["car.1", "tomas"],
      ["car.2", "tomas"],
      ["wagon.1", "ilse", "wren", "odo"],
      ["wagon.2", "wren", "ilse", "odo"],
    ]);
  });

  it("is a mistake at the log where nobody is left to drive theirs, and nothing else is said", async () => {
    const text = `${PLAN}actual:\n  wagon.1: { driver: ilse }\n`;
    const line = text.split("\n").indexOf("  wagon.1: { driver: ilse }") + 1;
    await expect(dayOfFile("day.yaml", text)).rejects.toThrow(new Error(`driver-elsewhere line ${line}`));
  });

  it("changes nothing where the plan has them there", async () => {
    expect(await wheels("{ wagon.1: { driver: wren }, car.2: { driver: ilse } }")).toEqual(await wheels("{}"));
  });
});
