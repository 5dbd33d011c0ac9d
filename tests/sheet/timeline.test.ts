/** The sky along the top of a sheet's drawing. Times are on Chicago's clock; `33:00` is 09:00 on the next day. */
import { describe, expect, it } from "vitest";
import { sheetOf } from "../../src/reports/sheet/index.ts";
import type { SheetFacts } from "../../src/reports/sheet/input.ts";
import type { Instant } from "../../src/time/units.ts";
import { at, demoDay } from "./demoDay.ts";
import { demoInput } from "./demoInput.ts";

/** On duty from 19:30 to 09:30, with a hit at each end of the night. */
const NIGHT = {
  ...demoDay,
  people: demoDay.people.slice(0, 1).map((one) => ({
    ...one,
    duties: one.duties.map((duty) => ({ ...duty, call: at("19:30"), release: at("33:30") })),
  })),
  activities: [at("20:00"), at("33:00")].flatMap((start) =>
    demoDay.activities.slice(0, 1).map((one) => ({ ...one, start, end: start })),
  ),
};

type Steps = readonly (readonly [from: string, altitude: number])[];

/** A sun that stands still between steps, the same every day. */
function sun(steps: Steps): (place: string, moment: Instant) => number {
  return (_, moment) => {
    const today = (((moment - at("0:00")) % 1440) + 1440) % 1440;
    return steps.findLast(([from]) => at(from) - at("0:00") <= today)?.[1] ?? 0;
  };
}

function sky(facts: Partial<SheetFacts>) {
  const demo = demoInput();
  const sheet = sheetOf(demoInput({ day: NIGHT, facts: { ...demo.facts, ...facts } }));
  const charts = sheet.sections.flatMap(({ blocks }) => blocks.flatMap((one) => (one.kind === "chart" ? [one] : [])));
  return charts.flatMap(({ lanes }) => lanes).find(({ label }) => label === "sky")?.bars ?? null;
}

describe("the sky of a sheet's drawing", () => {
  // Half an hour before the call to half an hour after the release; dusk and dawn of two dates, to the minute.
  it("has the dusk of one day and the dawn of the next", () => {
    const steps: Steps = [
      ["0:00", -30],
      ["5:03", -4],
      ["5:36", 10],
      ["19:27", -4],
      ["20:02", -30],
    ];
    expect(sky({ sunAltitude: sun(steps) })).toEqual([
      { from: at("19:00"), to: at("19:27"), style: "day", text: "daylight" },
      { from: at("19:27"), to: at("20:02"), style: "twilight", text: "twilight" },
      { from: at("20:02"), to: at("29:03"), style: "night", text: "dark" },
      { from: at("29:03"), to: at("29:36"), style: "twilight", text: "twilight" },
      { from: at("29:36"), to: at("34:00"), style: "day", text: "daylight" },
    ]);
  });

  it("is there where it never gets dark, and where the sun never sets", () => {
    const none = { place: "pier", civilDawn: null, civilDusk: null };
    const white = { ...none, rise: at("3:31"), set: at("22:30"), word: null };
    const steps: Steps = [
      ["0:00", -5],
      ["3:31", 20],
      ["22:30", -5],
    ];
    expect(sky({ sun: [white], sunAltitude: sun(steps) })?.map(({ from, style }) => [from, style])).toEqual([
      [at("19:00"), "day"],
      [at("22:30"), "twilight"],
      [at("27:31"), "day"],
    ]);
    const polar = { ...none, rise: null, set: null, word: "polar day" };
    expect(sky({ sun: [polar], sunAltitude: () => 3 })?.map(({ from, to, style }) => [from, to, style])).toEqual([
      [at("19:00"), at("34:00"), "day"],
    ]);
  });

  it("is left out where nobody knows it", () => {
    expect(sky({ sunAltitude: null })).toBeNull();
    expect(sky({ sunAltitude: () => null })).toBeNull();
  });
});
