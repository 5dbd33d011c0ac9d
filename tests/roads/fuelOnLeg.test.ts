/** A fuel stop on a leg in the tank of a day, and who checks the vehicle if others drive: figures on paper. */
import { describe, expect, it } from "vitest";
import type { PersonSpan } from "../../src/day/day.ts";
import { fuelStates } from "../../src/roads/fuel.ts";
import { fuelFindings } from "../../src/roads/fuelFindings.ts";
import { dayFor } from "../../src/roads/relief/rewrite.ts";
import { drivingStretches } from "../../src/roads/relief/stretches.ts";
import { actual, byId, leg, person, task, vehicle, weather } from "../day/parts.ts";
import { at, day } from "./days.ts";

const NOTHING = { vehicle: null, activity: null, place: null };

describe("a fuel stop on a leg", () => {
  const stateOf = (km: number, fuel: number | null = 0.5) => {
    const made = day(
      [
        {
          vehicle: "wagon",
          people: ["wren"],
          leave: at(300),
          way: [[leg("lodge", "pier", 300, 300, { km }), "drive", {}]],
        },
      ],
      { vehicles: byId(vehicle("wagon", { rangeKm: 400, fuel })), tasks: byId(task("tank", "pier", { kind: "fuel" })) },
    );
    const halts = [{ activity: "tank", from: at(400), to: at(410) }];
    return fuelStates([{ ...made, moves: made.moves.map((move) => ({ ...move, halts })) }])[0];
  };

  it("is in time where a full tank keeps the reserve to the end: 400 km from 200 in the tank", () => {
    // 15 % of 400 are 60. The stop is at 400 − (400 − 60) = 60 km at the earliest and at 200 − 60 = 140 at the latest.
    const state = stateOf(400);
    expect(state?.onRoad).toEqual([
      { move: "wagon.1", from: "lodge", activity: "tank", fromKm: 60, toKm: 140, plannedKm: null },
    ]);
    // Filled up at 60 km, exactly the reserve is left at the end.
    expect(state).toMatchObject({ endKm: 60, leastKm: 60, fuelBy: null, drivenKm: 400, endKnown: true });
    expect(state?.neededShare).toBeCloseTo((60 + 60) / 400, 12);
    expect(state?.steps.map(({ leftKm }) => leftKm)).toEqual([60]);
  });

  it("is not enough for 481 km: 140 before it and 340 after it", () => {
    expect(stateOf(480)?.fuelBy).toBeNull();
    expect(stateOf(481)?.fuelBy).toEqual({
      ...{ move: "wagon.1", stop: "wagon.1", place: "lodge", withinKm: 140, holdsKm: 200, everyKm: 340, stops: 1 },
    });
    // Every stretch as long as the others: (200 + 400 − 500) / 2 are left of both tanks.
    expect(stateOf(500)).toMatchObject({ leastKm: 50, endKm: 50, onRoad: [] });
  });

  it("is a known level afterwards, whatever was known before", () => {
    expect(stateOf(400, null)).toMatchObject({ assumedFull: true, endKnown: true });
  });
});

describe("a level that is stated again", () => {
  it("is told if it differs by more than a percent of the tank: 4 km of 400", () => {
    const made = day(
      [
        {
          vehicle: "wagon",
          people: ["wren"],
          leave: at(300),
          way: [[leg("lodge", "pier", 30, 30, { km: 30 }), "drive", {}]],
        },
      ],
      {
        vehicles: byId(vehicle("wagon", { rangeKm: 400, fuel: 0.5 })),
      },
    );
    const [state] = fuelStates([made]);
    if (state === undefined) throw new Error("no tank");
    const told = (beforeKm: number) =>
      fuelFindings(made.plan, [{ ...state, restated: { beforeKm } }]).map(({ code }) => code);
    expect([told(204), told(196), told(204.1), told(195.9)]).toEqual([[], [], ["fuel-restated"], ["fuel-restated"]]);
  });
});

describe("a leg in heavy snow", () => {
  it("takes 1.2 of the tank for each kilometre: 116 km leave the reserve of 60 from 200, 117 do not", () => {
    const stateOf = (km: number) => {
      const made = day(
        [
          {
            vehicle: "wagon",
            people: ["wren"],
            leave: at(300),
            way: [[leg("lodge", "pier", 90, 90, { km }), "drive", {}]],
          },
        ],
        {
          vehicles: byId(vehicle("wagon", { rangeKm: 400, fuel: 0.5 })),
          weather: [weather({ from: at(0), to: at(900), road: "heavy-snow" })],
        },
      );
      return fuelStates([made])[0];
    };
    // 116 · 1.2 = 139.2 and 117 · 1.2 = 140.4; 140 are above the reserve, which is 140 / 1.2 = 116.67 km of that road.
    expect(stateOf(116)).toMatchObject({ fuelBy: null, drivenKm: 116 });
    expect(stateOf(116)?.endKm).toBeCloseTo(60.8, 9);
    const short = stateOf(117)?.fuelBy;
    expect([short?.withinKm, short?.holdsKm, short?.everyKm]).toEqual([140 / 1.2, 200 / 1.2, null]);
  });
});

describe("the checks of a vehicle that others drive", () => {
  const made = day(
    [
      {
        vehicle: "truck",
        people: ["tomas", "bea"],
        leave: at(310),
        way: [[leg("lodge", "pier", 60, 60), "drive", {}]],
      },
    ],
    { crew: byId(person("tomas", { drives: ["truck"] }), person("bea", { drives: ["truck"] })) },
  );
  const span = (
    is: PersonSpan["is"],
    doing: PersonSpan["doing"],
    from: number,
    to: number,
    aboard = false,
  ): PersonSpan => ({
    ...{ from: at(from), to: at(to), is, doing, vehicle: aboard ? "truck" : null, activity: null, place: null },
  });
  const check = (name: string, from: number, to: number) => ({
    ...{
      name,
      from: at(from),
      to: at(to),
      minutes: to - from,
      where: null,
      place: "lodge",
      vehicle: "truck",
      activity: null,
    },
  });
  /** Tomas: walk-around 05:00, drive 05:10-06:10, post-trip to 06:25, then perhaps something else. */
  const rows = (driven: string, ...later: readonly PersonSpan[]) => {
    const spans = [
      span("duty", "walk-around", 300, 310),
      span("driving", "drive", 310, 370, true),
      span("duty", "post-trip", 370, 385),
      ...later,
    ];
    const people = made.people.map((own) =>
      own.id === "tomas"
        ? { ...own, spans, call: at(300), terms: [check("walk-around", 300, 310), check("post-trip", 370, 385)] }
        : own,
    );
    const own = { ...made, people };
    const judged = dayFor(own, "tomas", drivingStretches(own, 120, null), driven).people.find(
      ({ id }) => id === "tomas",
    );
    return {
      spans: judged?.spans.map(({ is, from, to }) => `${is} ${from - at(0)}-${to - at(0)}`),
      ends: [judged?.call, judged?.release].map((one) => (one == null ? null : one - at(0))),
    };
  };

  it("are the driver's; whoever rides begins with the drive and ends with it", () => {
    expect(rows("1")).toEqual({ spans: ["duty 300-310", "driving 310-370", "duty 370-385"], ends: [300, 385] });
    expect(rows("0")).toEqual({ spans: ["off 300-310", "riding 310-370"], ends: [310, 370] });
  });

  it("leave what comes after them", () => {
    const work = span("duty", "work", 385, 445);
    expect(rows("0", work).spans).toEqual(["off 300-310", "riding 310-370", "off 370-385", "duty 385-445"]);
    // A stand-down at the end is no check.
    const down = span("off", "off", 385, 600);
    expect(rows("0", down).spans?.at(-1)).toBe("off 385-600");
    expect(rows("1", down).ends).toEqual([300, 385]);
  });

  it("change no more than the part of a span that they cover", () => {
    const judged = (driven: string, ...spans: readonly PersonSpan[]) => {
      const people = made.people.map((own) =>
        own.id === "tomas" ? { ...own, spans } : { ...own, terms: [check("walk-around", 300, 310)] },
      );
      const own = { ...made, people };
      const found = dayFor(own, "tomas", drivingStretches(own, 120, null), driven).people.find(
        ({ id }) => id === "tomas",
      );
      return found?.spans.map(({ is, from, to }) => `${is} ${from - at(0)}-${to - at(0)}`);
    };
    // Tomas gets in at 05:40, half an hour after the drive began.
    const late = [span("duty", "work", 310, 340), span("riding", "ride", 340, 370, true)];
    expect(judged("0", ...late)).toEqual(["duty 310-340", "riding 340-370"]);
    // He is there from 05:05 on: of bea's walk-around, which would be his, five minutes.
    const early = [
      span("off", "off", 200, 280),
      span("duty", "work", 305, 310),
      span("riding", "ride", 310, 370, true),
    ];
    expect(judged("1", ...early)).toEqual(["off 200-280", "duty 305-310", "driving 310-370"]);
  });
});

describe("a leg without a length", () => {
  it("is taken at 70 km/h: 105 km for an hour and a half, and nothing more is known of it", () => {
    const made = day(
      [{ vehicle: "wagon", people: ["wren"], leave: at(300), way: [[leg("lodge", "pier", 90, 120), "bad", {}]] }],
      { vehicles: byId(vehicle("wagon", { rangeKm: 400, fuel: 0.5 })) },
    );
    expect(fuelStates([made])[0]).toMatchObject({ drivenKm: 105, endKm: 200 - 105, estimated: true });
    const stated = { ...made, moves: made.moves.map((move) => ({ ...move, leg: { ...move.leg, km: 80 } })) };
    expect(fuelStates([stated])[0]).toMatchObject({ drivenKm: 80, endKm: 120, estimated: false });
  });
});

describe("a log that says where a vehicle stood", () => {
  it("and nothing of its fuel is no reading", () => {
    const made = day(
      [
        {
          vehicle: "wagon",
          people: ["wren"],
          leave: at(300),
          way: [[leg("lodge", "pier", 60, 60, { km: 50 }), "bad", {}]],
        },
      ],
      { vehicles: byId(vehicle("wagon", { rangeKm: 400, fuel: 0.5 })) },
    );
    const logged = (more: object) =>
      fuelStates([{ ...made, plan: { ...made.plan, actual: actual({ vehicles: new Map([["wagon", more]]) }) } }])[0];
    expect(logged({ since: at(300) })?.endKm).toBe(150);
    expect(logged({ since: at(300), fuel: 0.25 })?.endKm).toBe(50);
    expect(logged({ fuelAt: at(300), fuel: 0.75 })?.endKm).toBe(250);
  });
});

describe("who may take the wheel for a stretch", () => {
  it("is whoever rides or sleeps all of it: not who has a task aboard in a part of it", () => {
    const made = day(
      [
        {
          vehicle: "wagon",
          people: ["wren", "ilse"],
          leave: at(300),
          way: [[leg("lodge", "pier", 60, 60), "bad", {}]],
        },
      ],
      { crew: byId(person("wren", { drives: ["wagon"] }), person("ilse", { drives: ["wagon"] })) },
    );
    const drivers = (from: number, to: number) => {
      const task: PersonSpan = { ...NOTHING, from: at(from), to: at(to), is: "duty", doing: "call" };
      const people = made.people.map((one) => (one.id === "ilse" ? { ...one, spans: [...one.spans, task] } : one));
      return drivingStretches({ ...made, people }, 30, null).map((one) => one.drivers);
    };
    const [both, wren] = [["wren", "ilse"], ["wren"]];
    expect(drivers(270, 300)).toEqual([both, both]);
    expect(drivers(270, 301)).toEqual([wren, both]);
    expect(drivers(329, 331)).toEqual([wren, wren]);
    expect(drivers(360, 390)).toEqual([both, both]);
  });
});

describe("a level that is read", () => {
  /** 200 km in the tank at a minute; left at 300, an hour of 100 km to the pier, an hour there with the engine on, 100 km back. */
  const left = (minute: number) => {
    const way = (from: string, to: string) => leg(from, to, 60, 60, { km: 100 });
    const made = day(
      [
        {
          ...{ vehicle: "wagon", people: ["wren"], leave: at(300) },
          way: [
            [way("lodge", "pier"), "drive", { wait: 60 }],
            [way("pier", "lodge"), "drive", {}],
          ],
        },
      ],
      {
        vehicles: byId(vehicle("wagon", { rangeKm: 400, fuel: 1, inverterWatts: 300 })),
        actual: actual({ vehicles: new Map([["wagon", { fuel: 0.5, fuelAt: at(minute) }]]) }),
      },
    );
    return fuelStates([made])[0]?.steps.map(({ leftKm }) => Math.round(leftKm * 10) / 10);
  };

  it("holds from then on: before the first drive nothing idles away", () => {
    expect(left(100)?.[0]).toBe(100);
    expect(left(300)?.[0]).toBe(100);
    // Half way to the pier 50 of the 100 km are still to go.
    expect(left(330)?.[0]).toBe(150);
  });

  it("at the stop leaves only the idling behind it, 16 km an hour (a planning default, no source)", () => {
    // Read at 390, half an hour before the wagon leaves at 420: 8 km idle away, then the road.
    expect(left(390)?.[1]).toBe(92);
    expect(left(420)?.[1]).toBe(100);
    expect(left(360)?.[1]).toBe(84);
  });
});
