/** Small parts of the Day, each with the neighbours that another reading would take for the same. */
import { describe, expect, it } from "vitest";
import { releasedEarly } from "../../src/day/facts/contradictions.ts";
import { computeDay } from "../../src/day/index.ts";
import { legOfActivity } from "../../src/day/order/attendance.ts";
import type { Finding } from "../../src/findings/finding.ts";
import type { Task } from "../../src/plan/plan.ts";
import { at, dayOf, legsOf, makePlan } from "./make.ts";
import { actual, plan, stop, task } from "./parts.ts";
import { CREW, HIT, ROADS } from "./wagon.ts";

describe("the leg of what is done on the way", () => {
  const leg = (id: string, vehicle: string, from: string, to: string, aboard: readonly string[], doing?: string) => ({
    ...{
      id,
      vehicle,
      aboard,
      from: stop(id, from, { do: doing === undefined ? null : [doing] }),
      to: stop(`${id}.to`, to),
    },
  });
  const legs = [
    leg("wagon.1", "wagon", "home", "pier", ["wren", "ilse"]),
    leg("wagon.2", "wagon", "pier", "cove", ["wren"], "meal"),
    leg("truck.1", "truck", "home", "pier", ["tomas"]),
  ];
  const found = (more: Partial<Task>, from = legs) => {
    const findings: Finding[] = [];
    const leg1 = legOfActivity(from, task("meal", "pier", more), findings);
    return leg1?.id ?? findings.map(({ code, facts }) => `${code}: ${facts["legs"]}`).join();
  };
  const aboard = (vehicle: string): Partial<Task> => ({ location: { kind: "aboard", vehicle } });
  const onRoad = (from: string, to: string): Partial<Task> => ({ location: { kind: "onRoad", from, to } });

  it("is of its vehicle, with its people aboard", () => {
    expect(found(aboard("truck"))).toBe("truck.1");
    expect(found({ ...aboard("wagon"), who: ["wren", "ilse"] })).toBe("wagon.1");
    expect(found({ ...aboard("truck"), who: ["tomas", "wren"] })).toBe("leg-open: ");
    expect(found({})).toBe("");
  });

  it("is the one that starts where it is listed, if several fit", () => {
    expect(found(aboard("wagon"))).toBe("wagon.2");
    expect(found({ ...aboard("wagon"), id: "nap" })).toBe("leg-open: wagon.1,wagon.2");
  });

  it("is of its road, in its direction", () => {
    expect(found(onRoad("pier", "cove"))).toBe("wagon.2");
    expect(found(onRoad("cove", "pier"))).toBe("leg-open: ");
    expect(found(onRoad("pier", "home"))).toBe("leg-open: ");
    expect(found(onRoad("home", "cove"))).toBe("leg-open: ");
    expect(found({ ...onRoad("home", "pier"), who: ["ilse"] })).toBe("wagon.1");
    expect(found(onRoad("home", "pier"))).toBe("leg-open: wagon.1,truck.1");
  });
});

const TWO = {
  crew: { ...CREW, tomas: { drives: ["truck"] }, odo: {} },
  roads: ROADS,
};

it("a vehicle parks where it brings someone to a hit of another's visit, also if it is needed nowhere else", () => {
  const hits = {
    dawn: { ...HIT("08:00"), who: ["wren", "tomas"] },
    noon: { ...HIT("12:00", { in: "cove" }), who: ["wren"] },
  };
  const made = dayOf({
    ...TWO,
    hits,
    runs: {
      wagon: {
        driver: "wren",
        aboard: ["wren", "ilse"],
        stops: ["home", { place: "pier", do: ["dawn"] }, "cove", "home"],
      },
      truck: { driver: "tomas", aboard: ["tomas"], stops: ["home", { place: "pier", do: [] }, "home"] },
    },
  });
  const truck = made.stops.find(({ stop: own }) => own.id === "truck.2");
  expect((truck?.parked ?? 0) - (truck?.arrive ?? 0)).toBe(5);
});

it("who has nothing to do is off from the last release to the last one of the day, whoever that is", () => {
  const runs = (wagonFirst: boolean) => ({
    ...{ driver: "wren", aboard: ["wren", "ilse"] },
    stops: ["home", { place: "pier", do: ["dawn"], ...(wagonFirst ? {} : { stayMinutes: 600 }) }, "home"],
  });
  const ends = [true, false].map((wagonFirst) => {
    const made = makePlan({
      ...TWO,
      hits: { dawn: HIT("08:00"), noon: { ...HIT("12:00", { in: "cove" }), who: ["tomas"] } },
      runs: {
        wagon: runs(wagonFirst),
        truck: { driver: "tomas", aboard: ["tomas"], stops: ["home", { place: "cove", do: ["noon"] }, "home"] },
      },
    });
    const history = new Map([
      ["odo", { released: at("00:30"), asleepMinutes: null, totals: [], spans: [], path: ["history", "odo"] }],
    ]);
    const { day } = computeDay({ ...made, history }, legsOf(made));
    const releases = day?.people.map(({ release }) => release ?? 0) ?? [];
    const odo = day?.people.find(({ id }) => id === "odo");
    expect(odo?.spans.map(({ is, from }) => [is, from])).toEqual([["off", at("00:30")]]);
    expect(odo?.spans.at(-1)?.to).toBe(Math.max(...releases));
    const [wren, , tomas] = releases;
    return Math.sign((wren ?? 0) - (tomas ?? 0));
  });
  expect(ends).toEqual([-1, 1]);
});

it("a release before a logged call points at the call; before a planned one there is no line to point at", () => {
  const span = { file: "day.yaml", line: 7, column: 3, length: 8, text: "    call: 07:00" };
  const early = (call: number | null) => {
    const people = new Map([["wren", { released: at("06:00"), call: call === null ? null : at(call) }]]);
    const own = plan({
      actual: actual({ people }),
      source: { locate: (path) => (path.at(-1) === "call" ? span : null) },
    });
    return releasedEarly(own, "wren", at(420), "home").map(({ related, facts }) => [related.length, facts["first"]]);
  };
  expect(early(420)).toEqual([[1, "`wren call`"]]);
  expect(early(null)).toEqual([[0, "`wren call`, as planned,"]]);
});
