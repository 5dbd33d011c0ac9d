/** The last shift of a record, and what of a drive lies at night: figures on paper. */
import { describe, expect, it } from "vitest";
import type { PersonSpan } from "../../src/day/day.ts";
import type { LogSpan } from "../../src/hours/count/spans.ts";
import { fitnessOf } from "../../src/hours/fitness/fitness.ts";
import { lastShift } from "../../src/hours/judge/person.ts";
import { instant } from "../../src/time/units.ts";
import { at, text } from "../day/make.ts";
import { byId, leg, place } from "../day/parts.ts";
import { day } from "../roads/days.ts";

describe("the last shift", () => {
  const row = (...parts: readonly (readonly [is: LogSpan["is"], minutes: number])[]) => {
    let clock = 1000;
    const spans = parts.map(([is, minutes]): LogSpan => {
      const from = instant(clock);
      clock += minutes;
      return { from, to: instant(clock), is, in: "commercial", pause: false };
    });
    const found = lastShift(spans);
    return found === null ? null : [found.from - 1000, found.to - 1000, found.restBefore];
  };

  it("goes on over less than six hours off, which part it from the one before", () => {
    expect(row(["duty", 100], ["off", 359], ["driving", 50])).toEqual([0, 509, null]);
    expect(row(["duty", 100], ["off", 360], ["driving", 50])).toEqual([460, 510, 360]);
    expect(row(["duty", 100], ["off", 400], ["duty", 10], ["off", 100], ["duty", 20])).toEqual([500, 630, 400]);
    expect(row(["duty", 100], ["off", 200], ["berth", 160], ["driving", 50])).toEqual([460, 510, 360]);
    expect(row()).toBeNull();
  });

  it("ends with a rest that runs for six hours or more", () => {
    expect(row(["duty", 100], ["off", 360])).toEqual([0, 100, 360]);
    expect(row(["duty", 100], ["off", 359])).toEqual([0, 459, null]);
  });
});

describe("a drive at night", () => {
  const night = (from: string, to: string) => {
    const made = day(
      [{ vehicle: "wagon", people: ["wren"], leave: at(from), way: [[leg("lodge", "pier", 30, 30), "drive", {}]] }],
      {
        places: byId(place("lodge"), place("pier")),
      },
    );
    const [wren] = made.people;
    if (wren === undefined) throw new Error("nobody");
    const span: PersonSpan = {
      from: at(from),
      to: at(to),
      is: "driving",
      vehicle: "wagon",
      activity: null,
      place: null,
      doing: "drive",
    };
    const [spell] = fitnessOf(made, { ...wren, spans: [span] }).wheel;
    return [spell?.nightMinutes, text(spell?.nightFrom ?? null)];
  };

  it("counts from midnight to 06:00 on the clock of its place", () => {
    expect(night("05:30", "06:30")).toEqual([30, "05:30"]);
    expect(night("06:00", "07:00")).toEqual([0, "06:00"]);
    expect(night("05:59", "07:00")).toEqual([1, "05:59"]);
    // From 23:30 the night before: half an hour of it is not yet night.
    const late = day(
      [{ vehicle: "wagon", people: ["wren"], leave: at(-30), way: [[leg("lodge", "pier", 30, 30), "drive", {}]] }],
      {
        places: byId(place("lodge"), place("pier")),
      },
    );
    const [wren] = late.people;
    if (wren === undefined) throw new Error("nobody");
    const span: PersonSpan = {
      from: at(-30),
      to: at(60),
      is: "driving",
      vehicle: "wagon",
      activity: null,
      place: null,
      doing: "drive",
    };
    const [spell] = fitnessOf(late, { ...wren, spans: [span] }).wheel;
    expect([spell?.nightMinutes, text(spell?.nightFrom ?? null)]).toEqual([60, "00:00"]);
  });
});
