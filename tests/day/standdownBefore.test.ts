/** Which stand-down is the last thing before somebody leaves, and what the day says where an order is missing. */
import { describe, expect, it } from "vitest";
import * as basics from "../../src/day/findings/findings.ts";
import * as orders from "../../src/day/findings/findingsOrder.ts";
import { standdownBefore } from "../../src/day/order/order.ts";
import { settle } from "../../src/day/order/resolveOrder.ts";
import type { Facts, Finding } from "../../src/findings/finding.ts";
import type { Task } from "../../src/plan/plan.ts";
import { plainWording } from "../../src/reports/shared/wording.ts";
import { at, legsOf, makePlan } from "./make.ts";

describe("the stand-down before a departure", () => {
  const window = (from: string, to: string) => ({ window: { from: at(from), to: at(to) } });
  const lastDown = (list: readonly string[], tasks: Readonly<Record<string, Partial<Task>>>, entered = list) => {
    const made = makePlan({
      crew: { wren: { drives: ["wagon"] } },
      roads: { "home pier": [30, 30] },
      tasks: Object.fromEntries(Object.entries(tasks).map(([id, one]) => [id, { in: "pier", who: ["wren"], ...one }])),
      runs: { wagon: { stops: ["home", { place: "pier", do: list }, "home"] } },
    });
    const { order } = settle(made, legsOf(made), new Map());
    const [person] = order.people.values();
    const leg = order.legs[1];
    if (person === undefined || leg === undefined) throw new Error("no leg");
    return standdownBefore(order, person, leg, new Set(entered));
  };
  const down: Partial<Task> = { kind: "standdown", ...window("12:00", "16:00") };
  const work: Partial<Task> = { kind: "work", forMinutes: 30 };

  it("is the last of them, if nothing comes after it there", () => {
    expect(lastDown(["down"], { down })).toBe("down");
    expect(lastDown(["pack", "down"], { down, pack: work })).toBe("down");
    expect(lastDown(["down", "pack"], { down, pack: work })).toBeNull();
    expect(lastDown(["shoot", "down", "pack"], { down, shoot: work, pack: work })).toBeNull();
    expect(lastDown(["pack"], { pack: work })).toBeNull();
    const later: Partial<Task> = { kind: "standdown", ...window("17:00", "18:00") };
    expect(lastDown(["down", "later"], { down, later })).toBe("later");
    // What does not take part is not there.
    expect(lastDown(["down", "pack"], { down, pack: work }, ["down"])).toBe("down");
    expect(lastDown(["down"], { down }, [])).toBeNull();
  });
});

describe("words of the day", () => {
  const said = <F extends Facts>(definition: { raise(facts: F): Finding }, facts: F) => {
    const made = definition.raise(facts);
    return [made.sentence(plainWording), made.hint(plainWording)];
  };

  it("an order that the file decided names what to write, or what to give up", () => {
    const facts = { tasks: ["talk", "sound"], stop: null, order: ["talk", "dawn", "sound"], missed: null };
    expect(said(orders.orderUnstated, facts)).toEqual([
      "nothing says which of talk, sound comes first; the order of the file decided",
      "write `after: [talk]` on sound, or the other way round",
    ]);
    expect(said(orders.orderUnstated, { ...facts, stop: "wagon.2" })[1]).toBe(
      "write `do: [talk, dawn, sound]` on wagon.2, in the order that is meant",
    );
    expect(said(orders.orderUnstated, { ...facts, stop: "wagon.2", missed: "sound" })).toEqual([
      "talk, sound do not fit together; the order of the file decided that sound is missed",
      "drop one of them, or give sound another time",
    ]);
  });

  it("one task takes, several take longer than a drive", () => {
    const drive = { tasks: ["write"], takes: 60, from: "a", to: "b", drive: 30 };
    expect(said(orders.driveTooShort, drive)[0]).toBe("write takes 1 h; the drive from a to b is planned at 30 min");
    expect(said(orders.driveTooShort, { ...drive, tasks: ["write", "cut"] })[0]).toMatch(/^write and cut take 1 h; /u);
  });

  it("a driver is missing where nobody may drive, or several may", () => {
    const none = { vehicle: "wagon", leg: "wagon.1", may: [] };
    expect(said(basics.driverMissing, none)).toEqual([
      "nobody aboard wagon may drive it",
      "add `drives: [wagon]` to one of the people aboard",
    ]);
    expect(said(basics.driverMissing, { ...none, may: ["wren", "ilse"] })[1]).toBe("write `driver: wren`");
  });
});
