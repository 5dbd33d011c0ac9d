/** Where people and vehicles are outside the plan's hours: evening, sleep and up before the call, at the minute, by hand. */
import { describe, expect, it } from "vitest";
import { computeDay, NOTHING_BEFORE } from "../../src/day/index.ts";
import { presenceOf } from "../../src/day/people/presence.ts";
import { at, type Description, legsOf, makePlan, text } from "./make.ts";

/** Wren is called at 06:10 and released at 09:15; in bed an hour after a release, up 90 min before a call, on camera 150. */
const base = (crew: Description["crew"]): Description => ({
  crew,
  roads: { "home pier": [30, 40] },
  hits: { dawn: { at: at("08:00"), forMinutes: 5 } },
  runs: { wagon: { driver: "wren", aboard: ["wren"], stops: ["home", "pier", "home"] } },
  rules: { bedAfter: 60, upBefore: 90, upBeforeOnCamera: 150 },
});
const WREN = { drives: ["wagon"] };

function there(releases: Readonly<Record<string, string>>, crew: Description["crew"] = { wren: WREN }) {
  const plan = makePlan(base(crew));
  const before = { ...NOTHING_BEFORE, releases: new Map(Object.entries(releases).map(([id, when]) => [id, at(when)])) };
  const { day, findings } = computeDay(plan, legsOf(plan), before);
  if (day === null) throw new Error(findings.map(({ code }) => code).join(" "));
  return presenceOf(day);
}
const of = (presence: ReturnType<typeof presenceOf>, id: string) =>
  presence.person(id).map(({ from, to, doing, awake, place }) => [text(from), text(to), doing, awake, place]);
const nights = (released: string, crew?: Description["crew"]) =>
  of(there({ wren: released }, crew), "wren").filter(([, , doing]) =>
    ["evening", "sleep", "up"].includes(String(doing)),
  );

/** From the release at 09:15 an hour up. */
const AFTER = ["09:15", "10:15", "evening", true, "home"];

describe("the night before a call at 06:10", () => {
  it("is an hour up after the release, sleep, and 90 min up before the call", () => {
    expect(nights("00:00")).toEqual([
      ["00:00", "01:00", "evening", true, "home"],
      ["01:00", "04:40", "sleep", false, "home"],
      ["04:40", "06:10", "up", true, "home"],
      AFTER,
    ]);
  });

  it("of who appears has 150 min up before it", () => {
    expect(nights("00:00", { wren: { ...WREN, roles: ["reporter"] } }).slice(1, 3)).toEqual([
      ["01:00", "03:40", "sleep", false, "home"],
      ["03:40", "06:10", "up", true, "home"],
    ]);
  });

  it("has no sleep where the hour after the release ends when they get up, or later", () => {
    expect(nights("03:39").map(([from]) => from)).toEqual(["03:39", "04:39", "04:40", "09:15"]);
    const up = ["04:40", "06:10", "up", true, "home"];
    expect(nights("03:40")).toEqual([["03:40", "04:40", "evening", true, "home"], up, AFTER]);
    expect(nights("04:00")).toEqual([["04:00", "04:40", "evening", true, "home"], up, AFTER]);
    expect(nights("05:00")).toEqual([["05:00", "06:10", "up", true, "home"], AFTER]);
  });

  it("is only known from 90 min before the call where no release is", () => {
    expect(of(there({}), "wren")[0]).toEqual(["04:40", "06:10", "up", true, "home"]);
  });
});

describe("who is not called", () => {
  const crew = { wren: WREN, odo: { slept: "home" }, kim: {} };

  it("is up for an hour after the last release, and not counted on after it; from the first release known to the last evening", () => {
    expect(of(there({ odo: "00:00" }, crew), "odo")).toEqual([
      ["00:00", "01:00", "evening", true, "home"],
      ["01:00", "10:15", "sleep", false, "home"],
    ]);
    // The day begins at the first release that is known, of whomever.
    expect(of(there({ wren: "00:00" }, crew), "odo")).toEqual([["00:00", "10:15", "off", false, "home"]]);
  });

  it("is nowhere where no bed is known", () => {
    expect(of(there({ kim: "00:00" }, crew), "kim")).toEqual([]);
  });
});

describe("a vehicle", () => {
  it("is at its first stop from the beginning on, on its moves, and at its last stop in the evening", () => {
    const presence = there({ wren: "00:00" });
    // 40 min there, on the spot by 07:05; 5 min of air, 10 to clear, 20 to strike; 30 back.
    expect(presence.vehicle("wagon").map(({ from, to, place }) => [text(from), text(to), place])).toEqual([
      ["00:00", "06:25", "home"],
      ["06:25", "07:05", null],
      ["07:05", "08:35", "pier"],
      ["08:35", "09:05", null],
      ["09:05", "10:15", "home"],
    ]);
    const where = (clock: string) => presence.vehicleAt("wagon", at(clock))?.move?.id ?? null;
    expect(["06:24", "06:25", "07:04", "07:05"].map(where)).toEqual([null, "wagon.1", "wagon.1", null]);
    expect(presence.vehicleAt("wagon", at("10:15"))).toBeNull();
    expect(presence.personAt("wren", at("06:10"))?.onDuty).toBe(true);
    expect(presence.personAt("wren", at("06:09"))?.onDuty).toBe(false);
    expect(presence.vehicle("truck")).toEqual([]);
  });
});
