/** Which stand-down is the last thing before somebody leaves. */
import { describe, expect, it } from "vitest";
import { standdownBefore } from "../../src/day/order/order.ts";
import { resolveOrder } from "../../src/day/order/resolveOrder.ts";
import type { Task } from "../../src/plan/plan.ts";
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
    const { order } = resolveOrder(made, legsOf(made), new Map());
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
