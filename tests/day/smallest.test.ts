/** The smallest plan of the format, with the times that the format's description states for it. */
import { describe, expect, it } from "vitest";
import type { Day } from "../../src/day/index.ts";
import { at, type Description, dayOf, text } from "./make.ts";

const SMALLEST: Description = {
  crew: { wren: { roles: ["camera"], drives: ["wagon"] }, ilse: { roles: ["reporter"] } },
  roads: { "lodge pier": [35, 50] },
  // 07:00 New York is 06:00 Chicago
  hits: { dawn: { at: at("06:00"), forMinutes: 3, in: "pier" } },
  runs: { wagon: { stops: ["lodge", "pier", "lodge"] } },
};

const person = (day: Day, id: string): { call: string | null; release: string | null } => {
  const found = day.people.find((one) => one.id === id);
  return { call: text(found?.call ?? null), release: text(found?.release ?? null) };
};

describe("the smallest plan", () => {
  const day = dayOf(SMALLEST);
  const when = (id: string): string | null => text(day.instants.get(id) ?? null);

  it("gives the times that the format states", () => {
    expect(person(day, "wren")).toEqual({ call: "04:00", release: "07:18" });
    expect(person(day, "ilse")).toEqual({ call: "04:00", release: "07:18" });
    expect(when("wagon.1.leave")).toBe("04:15");
    expect(when("wagon.2.arrive")).toBe("05:05");
    expect(when("wagon.2.parked")).toBe("05:10");
    expect(when("wagon.2.ready")).toBe("05:40");
    expect(when("dawn.lineCheck")).toBe("05:40");
    expect(when("dawn.inPosition")).toBe("05:50");
    expect(when("dawn.start")).toBe("06:00");
    expect(when("dawn.end")).toBe("06:03");
    expect(when("dawn.clear")).toBe("06:13");
    expect(when("wagon.2.packed")).toBe("06:33");
    expect(when("wagon.3.arrive")).toBe("07:08");
  });

  it("puts 198 minutes on duty", () => {
    const wren = day.people.find((one) => one.id === "wren");
    expect((wren?.release ?? 0) - (wren?.call ?? 0)).toBe(198);
    expect(wren?.terms.reduce((sum, term) => sum + term.minutes, 0)).toBe(198);
  });

  it("calls the driver of a commercial vehicle 15 minutes earlier, and nobody else", () => {
    const truck = dayOf({ ...SMALLEST, vehicles: { wagon: { commercial: true, rules: ["us-property"] } } });
    expect(person(truck, "wren").call).toBe("03:45");
    expect(person(truck, "ilse").call).toBe("04:00");
  });

  it("adds up behind every instant", () => {
    for (const [id, instant] of day.instants) {
      const why = day.why(id);
      expect(why?.at, id).toBe(instant);
      const total = why?.terms.reduce((sum, term) => sum + term.minutes, 0) ?? Number.NaN;
      expect(total, id).toBe(Math.abs((why?.fixedBy.at ?? 0) - instant));
    }
  });
});

describe("slack", () => {
  it("is that of what comes before a hit, and none where that is another hit of the same stop", () => {
    const day = dayOf({
      ...SMALLEST,
      hits: {
        dawn: { at: at("06:00"), forMinutes: 3, in: "pier" },
        second: { at: at("06:30"), forMinutes: 3, in: "pier" },
        last: { at: at("08:00"), forMinutes: 3, in: "pier" },
      },
      tasks: { meal: { kind: "meal", forMinutes: 30, in: "pier" } },
      runs: { wagon: { stops: ["lodge", { place: "pier", do: ["dawn", "second", "meal", "last"] }, "lodge"] } },
    });
    // The meal, 06:33 to 07:03, may end at 07:50, when they must be in position; the run is placed as late as can be.
    expect(Object.fromEntries(day.activities.map(({ id, slackMinutes }) => [id, slackMinutes]))).toEqual({
      dawn: 0,
      second: null,
      meal: 47,
      last: 47,
    });
  });
});
