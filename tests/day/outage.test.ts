/** What is out of service, and who is away: what a day loses, and who is left where. */
import { describe, expect, it } from "vitest";
import { computeDay, type Day } from "../../src/day/index.ts";
import type { OpenInterval } from "../../src/plan/plan.ts";
import { plainWording } from "../../src/reports/shared/wording.ts";
import { at, type Description, legsOf, makePlan, times } from "./make.ts";

// The wagon: off 06:25, at the pier 07:05 for dawn at 08:00, left 08:35; the cove by 09:00, noon there at 12:00, home.
// The truck, with tomas and bea: home to the cove for noon alone, and home.
const base = (parts: {
  readonly wagon?: OpenInterval;
  readonly truck?: OpenInterval;
  readonly wren?: OpenInterval;
  readonly net?: OpenInterval;
  /** When they leave, and a hit in the wagon, of ilse alone. */
  readonly ilse?: OpenInterval;
  readonly truckLeaves?: string;
  readonly wagonLeaves?: string;
  readonly dawnWho?: readonly string[];
  readonly roll?: string;
}): Day => {
  const hit = { forMinutes: 5 };
  const description: Description = {
    crew: {
      wren: { drives: ["wagon"], away: parts.wren ?? null },
      ilse: { away: parts.ilse ?? null },
      tomas: { drives: ["truck"] },
      bea: {},
    },
    vehicles: { wagon: { broken: parts.wagon ?? null }, truck: { broken: parts.truck ?? null } },
    roads: { "home pier": [30, 40], "pier cove": [20, 25], "home cove": [45, 60] },
    paths: { net: { broken: parts.net ?? null }, cell: {} },
    hits: {
      dawn: { ...hit, at: at("08:00"), in: "pier", signalPath: "net", who: parts.dawnWho ?? null },
      noon: { ...hit, at: at("12:00"), in: "cove", signalPath: "net", spare: "cell" },
      ...(parts.roll === undefined
        ? {}
        : {
            roll: { ...hit, at: at(parts.roll), location: { kind: "onRoad", from: "pier", to: "cove" }, who: ["ilse"] },
          }),
    },
    runs: {
      wagon: {
        driver: "wren",
        aboard: ["wren", "ilse"],
        stops: [
          { place: "home", leave: parts.wagonLeaves === undefined ? null : at(parts.wagonLeaves) },
          { place: "pier", do: ["dawn"] },
          { place: "cove", do: ["noon"] },
          "home",
        ],
      },
      truck: {
        driver: "tomas",
        aboard: ["tomas", "bea"],
        stops: [
          { place: "home", leave: parts.truckLeaves === undefined ? null : at(parts.truckLeaves) },
          { place: "cove", do: ["noon"] },
          "home",
        ],
      },
    },
  };
  const made = makePlan(description);
  const { day, findings } = computeDay(made, legsOf(made));
  if (day === null) throw new Error(findings.map(({ code, facts }) => code + JSON.stringify(facts)).join("; "));
  return day;
};

const from = (clock: string, to: string | null = null): OpenInterval => ({
  from: at(clock),
  to: to === null ? null : at(to),
});

const said = (day: Day) =>
  day.findings
    .filter(({ code }) => code === "out-of-service")
    .map(({ level, facts }) => [level, facts["what"], facts["lost"], facts["stranded"], facts["where"]]);

describe("a vehicle that is out of service", () => {
  it("stays where it is, with those who came in it; the others make the hit", () => {
    const day = base({ wagon: from("08:20") });
    expect(said(day)).toEqual([["error", "wagon", [], ["wren", "ilse"], ["pier", "pier"]]]);
    expect(day.moves.map(({ id }) => id).toSorted()).toEqual(["truck.1", "truck.2", "wagon.1"]);
    const noon = day.activities.find(({ id }) => id === "noon");
    expect([noon?.state, noon?.who]).toEqual(["fixed", ["tomas", "bea"]]);
    // What was over by then stands.
    expect(times(day, "wagon.1.leave", "dawn.start")).toEqual(["06:25", "08:00"]);
    expect(day.people.find(({ id }) => id === "ilse")?.sleeps).toBe("pier");
  });

  it("on the road is left there: nothing after it is reached", () => {
    const day = base({ wagon: from("06:40") });
    expect(said(day)).toEqual([["error", "wagon", ["dawn"], ["wren", "ilse"], ["home", "home"]]]);
    expect(day.findings[0]?.sentence(plainWording)).toContain("stranded on the road from home to pier");
    expect(day.activities.find(({ id }) => id === "dawn")?.state).toBe("missed");
  });

  it("and is there again leaves when it is", () => {
    const day = base({ wagon: from("08:20", "09:00") });
    expect(times(day, "wagon.2.leave", "wagon.3.arrive", "noon.start")).toEqual(["09:00", "09:25", "12:00"]);
    expect(said(day)).toEqual([["note", "wagon", [], [], []]]);
  });

  it("after its last drive changes nothing", () => {
    const day = base({ truck: from("20:00") });
    expect(said(day)).toEqual([["note", "truck", [], [], []]]);
    expect(day.moves.length).toBe(5);
  });
});

describe("somebody who is away", () => {
  it("drives no more, and who would have gone with them stays", () => {
    const day = base({ wren: from("08:20") });
    expect(said(day)).toEqual([["error", "wren", [], ["ilse"], ["pier"]]]);
    expect(day.moves.some(({ id }) => id === "wagon.2")).toBe(false);
  });
});

describe("a hit in the wagon on its way from the pier at 08:35 to the cove", () => {
  // The truck, which leaves home at 08:00, is on the road from there to the cove by 09:00; ilse makes the roll at 09:10.
  const lost = (parts: Parameters<typeof base>[0]) =>
    said(base({ truckLeaves: "08:00", roll: "09:10", ...parts })).map(([, what, all]) => [what, all]);

  it("is made where whoever makes it rides, whatever else is lost", () => {
    expect(lost({ net: from("10:00") })).toEqual([["net", []]]);
    expect(lost({ truck: from("08:20", "08:30") })).toEqual([["truck", []]]);
  });

  it("is lost with the drive, though they rode in the wagon before", () => {
    expect(lost({ wren: from("08:30") })).toEqual([["wren", ["roll"]]]);
    expect(lost({ ilse: from("08:30") })).toEqual([["ilse", ["roll"]]]);
    expect(lost({ ilse: from("09:10") })).toEqual([["ilse", ["roll"]]]);
    expect(lost({ ilse: from("09:11") })).toEqual([["ilse", []]]);
  });
});

describe("a hit that is missed anyway", () => {
  // Dawn at 08:00 cannot be set up by a wagon that leaves at 07:50; the roll at 08:40 cannot be in a wagon that is packed at 08:35.
  const states = (parts: Parameters<typeof base>[0]) =>
    base(parts)
      .activities.map(({ id, state }) => `${id} ${state}`)
      .toSorted();

  it("leaves the rest of a day that has an outage", () => {
    expect(states({ roll: "08:40" })).toContain("roll missed");
    expect(said(base({ roll: "08:40", net: from("10:00") }))).toEqual([["note", "net", [], [], []]]);
    expect(states({ roll: "08:40", net: from("10:00") })).toContain("roll missed");
    // Without the wagon no drive is left in which it could be.
    expect(states({ roll: "08:40", wagon: from("08:30") })).toEqual(["dawn fixed", "noon fixed", "roll missed"]);
    expect(states({ roll: "08:40", ilse: from("08:30") })).toEqual(["dawn fixed", "noon fixed", "roll missed"]);
    expect(states({ wagonLeaves: "07:50", wagon: from("06:30") })).toEqual(["dawn missed", "noon fixed"]);
    expect(states({ wagonLeaves: "07:50", wren: from("06:30") })).toEqual(["dawn missed", "noon fixed"]);
    expect(states({ wagonLeaves: "07:50", wagon: from("11:00") })).toContain("dawn missed");
    // One of the two whom it needs does not come.
    const both = { wagonLeaves: "07:50", dawnWho: ["wren", "ilse"] };
    expect(states({ ...both, ilse: from("06:30") })).toEqual(["dawn missed", "noon fixed"]);
  });
});

describe("a path that is out of service", () => {
  it("takes what begins in that minute, and not what began in the one before", () => {
    expect(said(base({ net: from("08:00") }))).toEqual([["error", "net", ["dawn"], [], []]]);
    expect(said(base({ net: from("08:01") }))).toEqual([["note", "net", [], [], []]]);
    expect(said(base({ net: from("07:00", "08:00") }))).toEqual([["note", "net", [], [], []]]);
    expect(said(base({ net: from("07:00", "08:01") }))).toEqual([["error", "net", ["dawn"], [], []]]);
  });

  it("is replaced by the spare that is stated; without one the hit is lost", () => {
    expect(said(base({ net: from("10:00") }))).toEqual([["note", "net", [], [], []]]);
    const day = base({ net: from("07:30") });
    expect(said(day)).toEqual([["error", "net", ["dawn"], [], []]]);
    expect(day.plan.hits.get("noon")?.signalPath).toBe("cell");
    expect(day.plan.hits.has("dawn")).toBe(true);
  });
});

describe("who comes at the very minute of a hit", () => {
  // Nothing is done before the air here: the wagon, which leaves at 07:20 and takes 40 min, is at the pier at 08:00.
  const rules = { inPosition: 0, lineCheck: 0, park: 0, setUp: 0 };
  const lost = (net: OpenInterval) => {
    const made = makePlan({
      crew: { wren: { drives: ["wagon"] } },
      roads: { "home pier": [30, 40] },
      paths: { net: { broken: net } },
      hits: { dawn: { at: at("08:00"), forMinutes: 5, in: "pier", signalPath: "net" } },
      runs: {
        wagon: {
          driver: "wren",
          stops: [{ place: "home", leave: at("07:20") }, { place: "pier", do: ["dawn"] }, "home"],
        },
      },
      rules,
    });
    const { day } = computeDay(made, legsOf(made));
    if (day === null) throw new Error("no day");
    return { there: times(day, "wagon.2.arrive")[0], said: said(day) };
  };

  it("makes it", () => {
    expect(lost(from("07:00", "07:30"))).toEqual({ there: "08:00", said: [["note", "net", [], [], []]] });
    expect(lost(from("07:00", "08:01")).said).toEqual([["error", "net", ["dawn"], [], []]]);
  });
});
