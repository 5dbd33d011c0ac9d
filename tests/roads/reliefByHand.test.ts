/** Drivers proposed under rules that the test makes up, and the proposal as edits: each figure can be worked out on paper. */
import { describe, expect, it } from "vitest";
import type { Day } from "../../src/day/day.ts";
import { rangeAKilometre } from "../../src/roads/consumption.ts";
import { textEdits } from "../../src/roads/relief/edits.ts";
import type { PersonVerdict, ReliefBreach } from "../../src/roads/relief/problem.ts";
import { proposeRelief, type ReliefEdit, type ReliefProposal } from "../../src/roads/relief/propose.ts";
import { byId, leg, person, plan, run, stop, vehicle, weather } from "../day/parts.ts";
import { at, day, type Trip } from "./days.ts";

/** Tomas and bea, who may both drive, four hours to the harbour and one more to the quay. */
const trip: Trip = {
  ...{ vehicle: "truck", people: ["tomas", "bea"], leave: at(0) },
  way: [
    [leg("lodge", "harbour", 240, 240), "drive", { work: 30 }],
    [leg("harbour", "quay", 60, 60), "drive", {}],
  ],
};
const crew = byId(person("tomas", { drives: ["truck"] }), person("bea", { drives: ["truck"] }));
const made = (more: Partial<Parameters<typeof vehicle>[1]> = {}) =>
  day([trip], { crew, vehicles: byId(vehicle("truck", more)), runs: byId(run("truck", ["lodge", "harbour", "quay"])) });

const wheelOf = (own: Day, who: string): number =>
  own.moves
    .flatMap(({ wheel }) => wheel)
    .reduce((sum, { driver, from, to }) => sum + (driver === who ? to - from : 0), 0);

const verdict = (breaches: readonly ReliefBreach[]): PersonVerdict => ({
  lawMinutes: breaches.reduce((sum, { law, minutes }) => sum + (law ? minutes : 0), 0),
  houseMinutes: breaches.reduce((sum, { law, minutes }) => sum + (law ? 0 : minutes), 0),
  ...{ sleepMinutes: 0, breaches },
});

/** Nobody may drive longer than `most` by law, nor than `house` by the house. */
function proposed(
  most: number,
  house = 999,
  { now = null, every = 60, berth = false }: { now?: number | null; every?: number; berth?: boolean } = {},
) {
  const own = made({ berth });
  const broken = (who: string, law: boolean, limit: number, driven: number): readonly ReliefBreach[] =>
    driven > limit
      ? [{ who, limit: law ? "law" : "house", title: "", clause: null, minutes: driven - limit, law }]
      : [];
  return proposeRelief(own, {
    ...{ everyMinutes: every, patience: 1, now: now === null ? null : at(now) },
    judge: {
      judge: (judged, who) => {
        const driven = wheelOf(judged, who);
        return verdict([...broken(who, true, most, driven), ...broken(who, false, house, driven)]);
      },
      leastLeft: (judged, who) => most - wheelOf(judged, who),
    },
  });
}

it("is impossible where a minute of law has to be broken: five hours of two people are three of one of them", () => {
  expect(proposed(180)?.status).toBe("exact");
  expect(proposed(179)?.status).toBe("impossible");
});

const wheels = (found: ReliefProposal | null) =>
  found?.legs.map(({ wheel }) =>
    wheel.map(({ driver, from, to }) => `${driver} ${from - at(0)}-${to - at(0)}`).join(", "),
  );

describe("a proposal", () => {
  it("is one driver where nothing is broken", () => {
    const found = proposed(300);
    expect(wheels(found)).toEqual(["tomas 0-240", "tomas 270-330"]);
    expect(found).toMatchObject({
      status: "exact",
      changes: 0,
      leftMinutes: 0,
      boundMinutes: 0,
      breachMinutes: 0,
      edits: [],
    });
  });

  it("changes once where one may not drive it all, in the order of the plan", () => {
    // Five hours, three each at most: with one change tomas drives three or two of them; three come first in plan order.
    const found = proposed(180);
    expect(wheels(found)).toEqual(["tomas 0-180, bea 180-240", "bea 270-330"]);
    expect(found).toMatchObject({ status: "exact", changes: 1, leftMinutes: 0, lawMinutes: 0, breaches: [] });
    // Each leg states its own driver and its own relief: that of the first would go on.
    expect(found?.edits.map(({ path, value }) => [path.join("."), value])).toEqual([
      ["runs.truck.0.driver", "tomas"],
      ["runs.truck.0.relieve", [{ after: "180 min", driver: "bea" }]],
      ["runs.truck.1.driver", "bea"],
      ["runs.truck.1.relieve", [{ after: "0 min", driver: "bea" }]],
    ]);
  });

  it("lets whoever is not at the wheel sleep in a berth, and states that for each leg", () => {
    const found = proposed(180, 999, { berth: true });
    // Both drive a part of the first leg; bea drives the second alone.
    expect(found?.legs.map(({ asleep }) => asleep)).toEqual([["tomas", "bea"], ["tomas"]]);
    expect(found?.edits.filter(({ path }) => path.at(-1) === "asleep").map(({ value }) => value)).toEqual([
      ["tomas", "bea"],
      ["tomas"],
    ]);
  });

  it("is impossible where every choice breaks the law, and then by as little as can be", () => {
    // Two of five hours each leave an hour over: 60 min whoever takes it.
    const found = proposed(120);
    expect(found).toMatchObject({
      status: "impossible",
      lawMinutes: 60,
      houseMinutes: 0,
      breachMinutes: 60,
      leftMinutes: -60,
    });
    expect(found?.breaches.map(({ limit, minutes }) => [limit, minutes])).toEqual([["law", 60]]);
  });

  it("breaks the house before the law, and the house by as little as can be", () => {
    const found = proposed(180, 140);
    // Three and two hours: 40 min over the house's 140; four and one would break the law.
    expect(found).toMatchObject({ status: "exact", lawMinutes: 0, houseMinutes: 40, breachMinutes: 40 });
  });

  it("leaves what has begun as it is", () => {
    // At 03:01 the fourth hour, with tomas, has begun; at 03:00 it has not.
    expect(wheels(proposed(180, 999, { now: 181 }))).toEqual(["tomas 0-240", "bea 270-330"]);
    expect(wheels(proposed(180, 999, { now: 180 }))?.[0]).toBe("tomas 0-180, bea 180-240");
    expect(proposed(180, 999, { now: 999 })).toBeNull();
  });
});

describe("a proposal as edits", () => {
  const own = (bare: boolean) =>
    plan({
      runs: byId(run("truck", [], { stops: [stop("truck.1", "lodge"), stop("truck.2", "no. 5")] })),
      source: {
        locate: (path) => {
          const column = !bare && path.at(-1) === "place" ? 9 : 1;
          return { file: "day.yaml", line: Number(path[2]) + 1, column, length: 1, text: "" };
        },
      },
    });
  const typed = (bare: boolean, ...edits: readonly ReliefEdit[]) => {
    const found = proposed(300);
    if (found === null) throw new Error("no proposal");
    return textEdits(own(bare), { ...found, edits }).map(({ path, value }) => `${path.join(".")}=${value}`);
  };
  const driver = (at0: number, value: ReliefEdit["value"], key = "driver"): ReliefEdit => ({
    path: ["runs", "truck", at0, key],
    value,
  });

  it("are values of the keys of a stop, or a bare place made a stop", () => {
    const edits = [
      driver(0, "bea"),
      driver(0, [{ after: "60 min", driver: "tomas" }], "relieve"),
      driver(1, ["bea", "tomas"], "asleep"),
    ];
    expect(typed(false, ...edits)).toEqual([
      ...[
        "runs.truck.0.driver=bea",
        "runs.truck.0.relieve=[{ after: 60 min, driver: tomas }]",
        "runs.truck.1.asleep=[bea, tomas]",
      ],
    ]);
    expect(typed(true, ...edits)).toEqual([
      "runs.truck.0={ place: lodge, driver: bea, relieve: [{ after: 60 min, driver: tomas }] }",
      'runs.truck.1={ place: "no. 5", asleep: [bea, tomas] }',
    ]);
    expect(typed(false)).toEqual([]);
    // Of another stop, or of something inside a key.
    expect(typed(false, driver(7, "bea"), { path: ["runs", "truck", 0, "relieve", 0], value: "bea" })).toEqual([]);
  });

  it("are in quotes where YAML would read something else than a word", () => {
    const said = (value: string) => typed(false, driver(0, value))[0]?.replace("runs.truck.0.driver=", "");
    const words = ["bea", "zoë", "_a", "a.b-c", "b1"];
    expect(words.map(said)).toEqual(words);
    const others = ["null", "True", "~", "-a", "1a", ".5", "+x", "a b", "a:", "", "a,b"];
    expect(others.map(said)).toEqual(others.map((word) => JSON.stringify(word)));
  });
});

describe("what a kilometre takes of the tank", () => {
  it("is more in the cold and in snow, at either end, while one drives", () => {
    const during = { from: at(60), to: at(120) };
    const takes = (...rows: readonly Parameters<typeof weather>[0][]) =>
      rangeAKilometre(
        rows.map((row) => weather({ from: at(0), to: at(600), ...row })),
        during,
        ["lodge", "pier"],
      );
    expect(takes()).toBe(1);
    expect([
      takes({ road: "dry" }),
      takes({ road: "wet" }),
      takes({ road: "heavy-rain" }),
      takes({ road: "fog" }),
    ]).toEqual([1, 1, 1, 1]);
    expect([takes({ road: "snow" }), takes({ road: "ice" }), takes({ road: "heavy-snow" })]).toEqual([1.1, 1.1, 1.2]);
    // 25 °C and warmer are the stated range; 20 °F take 1 / 0.85; half of the way between them half of what that is more.
    const cold = (20 - 32) / 1.8;
    expect([takes({ celsius: 25 }), takes({ celsius: 35 })]).toEqual([1, 1]);
    expect(takes({ celsius: cold })).toBeCloseTo(1 / 0.85, 9);
    expect(takes({ celsius: (25 + cold) / 2 })).toBeCloseTo((1 + 1 / 0.85) / 2, 9);
    expect(takes({ celsius: -60 })).toBeCloseTo(1 / 0.76, 9);
    expect(takes({ celsius: cold, road: "snow" })).toBeCloseTo(1.1 / 0.85, 9);
    expect(takes({ road: "snow", to: at(60) })).toBe(1);
  });
});
