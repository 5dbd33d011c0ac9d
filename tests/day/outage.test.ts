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
}): Day => {
  const hit = { forMinutes: 5 };
  const description: Description = {
    crew: {
      wren: { drives: ["wagon"], away: parts.wren ?? null },
      ilse: {},
      tomas: { drives: ["truck"] },
      bea: {},
    },
    vehicles: { wagon: { broken: parts.wagon ?? null }, truck: { broken: parts.truck ?? null } },
    roads: { "home pier": [30, 40], "pier cove": [20, 25], "home cove": [45, 60] },
    paths: { net: { broken: parts.net ?? null }, cell: {} },
    hits: {
      dawn: { ...hit, at: at("08:00"), in: "pier", signalPath: "net" },
      noon: { ...hit, at: at("12:00"), in: "cove", signalPath: "net", spare: "cell" },
    },
    runs: {
      wagon: {
        driver: "wren",
        aboard: ["wren", "ilse"],
        stops: ["home", { place: "pier", do: ["dawn"] }, { place: "cove", do: ["noon"] }, "home"],
      },
      truck: { driver: "tomas", aboard: ["tomas", "bea"], stops: ["home", { place: "cove", do: ["noon"] }, "home"] },
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

describe("a path that is out of service", () => {
  it("is replaced by the spare that is stated; without one the hit is lost", () => {
    expect(said(base({ net: from("10:00") }))).toEqual([["note", "net", [], [], []]]);
    const day = base({ net: from("07:30") });
    expect(said(day)).toEqual([["error", "net", ["dawn"], [], []]]);
    expect(day.plan.hits.get("noon")?.signalPath).toBe("cell");
    expect(day.plan.hits.has("dawn")).toBe(true);
  });
});
