/** Where a vehicle is logged as standing at a moment: which stop that is, what follows, and where the vehicle is in the end. */
import { describe, expect, it } from "vitest";
import { endsAt, stoodOf, stoodOtherwise } from "../../src/day/facts/vehiclesStood.ts";
import { day } from "../roads/days.ts";
import { at, text } from "./make.ts";
import { actual, byId, leg, plan, run, stop } from "./parts.ts";

/** Lodge until 06:00, pier 06:30-09:00, dock 09:30-12:00, pier again 12:30-15:00, home 15:30. */
const TIMES = {
  "wagon.1.arrive": "05:00",
  ...{ "wagon.1.leave": "06:00", "wagon.2.arrive": "06:30", "wagon.2.leave": "09:00", "wagon.3.arrive": "09:30" },
  ...{ "wagon.3.leave": "12:00", "wagon.4.arrive": "12:30", "wagon.4.leave": "15:00", "wagon.5.arrive": "15:30" },
  "wagon.5.leave": "16:00",
};
const MADE = day([
  { vehicle: "wagon", people: ["wren"], leave: at("06:00"), way: [[leg("lodge", "pier", 30, 30), "drive", {}]] },
]);
const PLACES = ["lodge", "pier", "dock", "pier", "home"];

function dayWith(
  vehicle: string,
  place: string | null,
  since: string | null,
  stops: Readonly<Record<string, object>> = {},
  arrives: string | null = "15:30",
) {
  const own = plan({
    runs: byId(run("wagon", [], { stops: PLACES.map((where, n) => stop(`wagon.${n + 1}`, where)) })),
    actual: actual({
      vehicles: new Map([[vehicle, { place, since: since === null ? null : at(since) }]]),
      stops: new Map(Object.entries(stops)),
    }),
  });
  const times = Object.entries(TIMES).filter(([name]) => arrives !== null || name !== "wagon.5.arrive");
  return { ...MADE, plan: own, instants: new Map(times.map(([name, clock]) => [name, at(clock)])) };
}

const stood = (
  place: string | null,
  since: string | null,
  stops: Readonly<Record<string, object>> = {},
  vehicle = "wagon",
) => {
  const { arrived, standing } = stoodOf(dayWith(vehicle, place, since, stops));
  return [
    ...[...arrived].map(([id, when]) => `${id} by ${text(when)}`),
    ...[...standing].map(([id, when]) => `${id} still ${text(when)}`),
  ];
};

describe("a vehicle that stood somewhere at a moment", () => {
  it("had arrived by then, and not left before", () => {
    // Before it was to arrive, within its stay, after it was to leave: at the dock, which it has once.
    expect(stood("dock", "09:00")).toEqual(["wagon.3 by 09:00"]);
    expect(stood("dock", "09:30")).toEqual(["wagon.3 by 09:30"]);
    expect(stood("dock", "09:31")).toEqual([]);
    expect(stood("dock", "11:59")).toEqual([]);
    expect(stood("dock", "12:00")).toEqual(["wagon.3 still 12:00"]);
    expect(stood("dock", "12:10")).toEqual(["wagon.3 still 12:10"]);
  });

  it("was on the nearer of two stays: halfway between 09:00 and 12:30 on the first", () => {
    expect(stood("pier", "10:44")).toEqual(["wagon.2 still 10:44"]);
    expect(stood("pier", "10:45")).toEqual(["wagon.2 still 10:45"]);
    expect(stood("pier", "10:46")).toEqual(["wagon.4 by 10:46"]);
    expect(stood("pier", "06:00")).toEqual(["wagon.2 by 06:00"]);
    expect(stood("pier", "15:10")).toEqual(["wagon.4 still 15:10"]);
  });

  it("has no arrival at its first stop, and no departure from its last", () => {
    expect(stood("lodge", "04:00")).toEqual([]);
    expect(stood("lodge", "06:10")).toEqual(["wagon.1 still 06:10"]);
    expect(stood("home", "15:00")).toEqual(["wagon.5 by 15:00"]);
    expect(stood("home", "20:00")).toEqual([]);
  });

  it("says nothing against what is logged of the stop, nor without a moment, a place or a run", () => {
    expect(stood("dock", "09:00", { "wagon.3": { arrived: at("09:20") } })).toEqual([]);
    expect(stood("dock", "09:00", { "wagon.3": { left: at("12:20") } })).toEqual(["wagon.3 by 09:00"]);
    expect(stood("dock", "12:10", { "wagon.3": { left: at("12:05") } })).toEqual([]);
    expect(stood("dock", "12:10", { "wagon.3": { arrived: at("09:20") } })).toEqual(["wagon.3 still 12:10"]);
    expect([
      stood("dock", null),
      stood(null, "09:00"),
      stood("dock", "09:00", {}, "car"),
      stood("cove", "09:00"),
    ]).toEqual([[], [], [], []]);
  });
});

describe("where a vehicle is after the day", () => {
  const ends = (place: string | null, since: string | null, arrives: string | null = "15:30") =>
    endsAt(dayWith("wagon", place, since, {}, arrives), "wagon");

  it("is where it is logged after its last arrival, else where its run ends", () => {
    expect([ends("cove", "15:29"), ends("cove", "15:30"), ends("cove", "15:31"), ends("cove", null)]).toEqual([
      "home",
      "cove",
      "cove",
      "cove",
    ]);
    expect([ends(null, "16:00"), ends("cove", "05:00", null)]).toEqual(["home", "cove"]);
    const parked = dayWith("car", "cove", "05:00");
    expect([endsAt(parked, "car"), endsAt(parked, "boat"), endsAt(parked, "wagon")]).toEqual(["cove", null, "home"]);
  });

  it("is told where its run does not go, or does not end", () => {
    const told = (place: string | null, since: string | null, vehicle = "wagon") =>
      stoodOtherwise(dayWith(vehicle, place, since)).map(
        ({ facts, path }) => `${facts["what"]} ${facts["rule"]} ${path?.join(".")}`,
      );
    const wagon = ["wagon stops actual.wagon.at"];
    expect([told("cove", "09:00"), told("pier", "16:00"), told("cove", "16:00")]).toEqual([wagon, wagon, wagon]);
    expect([told("pier", "09:00"), told("home", "16:00"), told(null, "16:00"), told("cove", "09:00", "car")]).toEqual([
      [],
      [],
      [],
      [],
    ]);
  });
});
