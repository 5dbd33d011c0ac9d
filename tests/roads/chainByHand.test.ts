/** The chain of a day: by when a ferry's gate closes, which drives no longer vary, and who has to arrive for a hit; times by hand. */
import { describe, expect, it } from "vitest";
import type { Day, Move } from "../../src/day/day.ts";
import { chainOf } from "../../src/roads/chance/chain.ts";
import { actual, leg } from "../day/parts.ts";
import { at, day, type Trip } from "./days.ts";

const light = () => false;
const wagon = (...way: Trip["way"]): Trip => ({ vehicle: "wagon", people: ["wren"], leave: at(300), way });
const truck = (...way: Trip["way"]): Trip => ({ vehicle: "truck", people: ["ilse"], leave: at(300), way });
const hour = (from: string, to: string) => leg(from, to, 60, 90);

describe("the last moment at which a gate opens onto a ferry", () => {
  // Wren is at the quay from 06:00 on, works ten minutes, waits ten, and the ferry sails at 06:20.
  const ferry = { sail: at(380), land: at(440), bunk: false, checkInMinutes: 0 };
  const trip = wagon([hour("lodge", "quay"), "drive", { work: 10, wait: 10 }], [hour("quay", "isle"), "drive", {}]);
  const until = (logged: number | null, arriveBy: number | null) => {
    const made = day([trip], {
      actual: actual({ stops: new Map(logged === null ? [] : [["wagon.2", { left: at(logged) }]]) }),
    });
    const aboard = (move: Move): Move => (move.id === "wagon.2" ? { ...move, leg: { ...move.leg, ferry } } : move);
    const stops = made.stops.map((own) =>
      own.stop.id === "wagon.2" && arriveBy !== null ? { ...own, stop: { ...own.stop, arriveBy: at(arriveBy) } } : own,
    );
    const chain = chainOf({ ...made, stops, moves: made.moves.map(aboard) }, light);
    return chain.departures.map(({ gates }) => gates.map((gate) => gate.until));
  };

  it("is when it sails, and of a road there is none", () => {
    expect(until(null, null)).toEqual([[], [at(380)]]);
  });

  it("is when it sailed by the log", () => {
    expect(until(395, null)).toEqual([[], [at(395)]]);
    expect(until(395, 361)).toEqual([[], [at(395)]]);
  });

  it("is the latest arrival at the stop and the work behind it, where that is sooner: 06:05 and 10 min; 06:15 and 10 min", () => {
    expect(until(null, 365)).toEqual([[], [at(375)]]);
    expect(until(null, 375)).toEqual([[], [at(380)]]);
  });
});

describe("a drive in the dark", () => {
  it("is one whose middle is dark where it begins, the half minute before it counted off; a ferry is none", () => {
    // From 05:00 to 06:00 the middle is 05:30; the second drive, from 06:00 to 07:01, has its middle at 06:30 and a half.
    const made = day([wagon([hour("lodge", "pier"), "drive", {}], [leg("pier", "cove", 61, 90), "drive", {}])]);
    const darkFrom = (minute: number, ferry = false) => {
      const moves = made.moves.map((move): Move => {
        const crossing = { sail: move.leave, land: move.arrive, bunk: false, checkInMinutes: 0 };
        return ferry ? { ...move, leg: { ...move.leg, ferry: crossing } } : move;
      });
      return chainOf({ ...made, moves }, (when) => when >= at(minute)).departures.map(({ dark }) => dark);
    };
    expect([darkFrom(330), darkFrom(331), darkFrom(390), darkFrom(391)]).toEqual([
      ...[
        [true, true],
        [false, true],
        [false, true],
        [false, false],
      ],
    ]);
    expect(darkFrom(0, true)).toEqual([false, false]);
    const places: string[] = [];
    chainOf(made, (_, place) => places.push(place) === 0);
    expect(places).toEqual(["lodge", "pier"]);
  });
});

describe("a drive that is over takes what it took", () => {
  // Both leave at 05:00 and arrive at 06:00, planned at likely: 60 min.
  const both = (stops: ReadonlyMap<string, { arrived: ReturnType<typeof at> }>) =>
    day([wagon([hour("lodge", "pier"), "drive", {}]), truck([hour("lodge", "pier"), "drive", {}])], {
      actual: actual({ stops }),
    });
  const sure = (made: Day, now: number | null) =>
    chainOf(made, light, now === null ? null : at(now)).departures.flatMap(({ move, time }) =>
      time.spread === 0 && time.median === 60 ? [move.vehicle] : [],
    );

  it("from the minute of its arrival on", () => {
    expect(sure(both(new Map()), null)).toEqual([]);
    expect(sure(both(new Map()), 359)).toEqual([]);
    expect(sure(both(new Map()), 360)).toEqual(["wagon", "truck"]);
  });

  it("or where its own arrival is on record, not that of another vehicle at the same minute", () => {
    expect(sure(both(new Map([["truck.2", { arrived: at(360) }]])), null)).toEqual(["truck"]);
    expect(sure(both(new Map([["wagon.2", { arrived: at(360) }]])), null)).toEqual(["wagon"]);
    expect(sure(both(new Map([["wagon.1", { arrived: at(360) }]])), null)).toEqual([]);
  });

  it("less its halts: 60 min with 20 of a halt are 40", () => {
    const made = both(new Map());
    const moves = made.moves.map((move): Move => {
      const halt = { activity: "meal", from: at(320), to: at(340) };
      return move.vehicle === "wagon" ? { ...move, halts: [halt] } : move;
    });
    const chain = chainOf({ ...made, moves }, light, at(360));
    expect(chain.departures.map(({ time, haltMinutes }) => [time.median, haltMinutes])).toEqual([
      [40, 20],
      [60, 0],
    ]);
  });
});

describe("who must have arrived for a hit", () => {
  const atPier = { hit: "dawn" };

  it("comes with a vehicle that makes the visit, if still there; not with one that stands elsewhere", () => {
    // Ilse, who is not of the hit, comes in the truck that the visit needs.
    const made = day([wagon([hour("lodge", "pier"), "drive", atPier]), truck([hour("inn", "pier"), "drive", atPier])]);
    const onlyWren = made.activities.map((one) => ({ ...one, who: ["wren"] }));
    const gates = (own: Day) => chainOf(own, light).targets[0]?.gates.map(({ departure }) => departure);
    expect(gates({ ...made, activities: onlyWren })).toEqual([0, 1]);
    const alone = onlyWren.map((one) => ({ ...one, stops: ["wagon.2"] }));
    expect(gates({ ...made, activities: alone })).toEqual([0]);
  });

  it("on the road has driven its share of the one drive in which it is a halt", () => {
    const made = day([
      wagon([hour("lodge", "pier"), "drive", {}]),
      truck([hour("lodge", "pier"), "drive", { hit: "dawn" }]),
    ]);
    const halt = { activity: "dawn", from: at(330), to: at(333) };
    const moves = made.moves.map((move): Move => (move.vehicle === "truck" ? { ...move, halts: [halt] } : move));
    const activities = made.activities.map((one) => ({ ...one, roadShare: 0.5 }));
    const index = moves.findIndex(({ vehicle }) => vehicle === "truck");
    const gate = { departure: index, workMinutes: 0, share: 0.5, until: null };
    expect(chainOf({ ...made, moves, activities }, light).targets).toMatchObject([{ hit: "dawn", gates: [gate] }]);
    // In no drive at all it is no target.
    expect(chainOf({ ...made, activities }, light).targets).toEqual([]);
  });

  it("has come by whatever they rode last: not by the wagon, where a ride brought them after it", () => {
    const made = day([wagon([hour("lodge", "pier"), "drive", { wait: 30, hit: "dawn" }])]);
    const gates = (arrive: number, who = ["wren"]) => {
      const times = { leave: at(300), arrive: at(arrive), leadMinutes: 0, by: null, bunk: false };
      const ride = { id: "taxi", path: ["rides", "taxi"], from: "inn", to: "pier", who, ...times };
      return chainOf({ ...made, rides: [{ ride, who }] }, light).targets[0]?.gates.map(({ departure }) => departure);
    };
    // The wagon is there by 06:00, and wren in position at 06:30.
    expect([gates(359), gates(360), gates(361), gates(390), gates(391)]).toEqual([[0], [0], [], [], [0]]);
    expect(gates(361, ["ilse"])).toEqual([0]);
  });
});
