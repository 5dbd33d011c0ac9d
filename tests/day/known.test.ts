/** What is known of a log at a moment, and which path a hit went out on. */
import { describe, expect, it } from "vitest";
import { factsUntil, wentOut } from "../../src/day/facts/asItWent.ts";
import type { Plan } from "../../src/plan/plan.ts";
import { day } from "../roads/days.ts";
import { at, text } from "./make.ts";
import { actual, byId, hit, leg, plan, task, type Went } from "./parts.ts";

type Row = Readonly<Record<string, object>>;
const mapped = (row: Row | undefined) => new Map(Object.entries(row ?? {}));

describe("what is known at a moment", () => {
  const known = (now: string, went: Readonly<Partial<Record<keyof Went, Row>>>) => {
    const own = plan({
      actual: actual({
        ...{ people: mapped(went.people), activities: mapped(went.activities), stops: mapped(went.stops) },
        ...{ packs: mapped(went.packs), vehicles: mapped(went.vehicles) },
      }),
    });
    const made = factsUntil(own, at(now));
    return { ...made.actual, later: made.later.map((key) => key.join(".")) };
  };

  it("is what happened by then; the rest is named", () => {
    const people = { wren: { call: at("06:00"), released: at("18:00") } };
    const at6 = known("06:00", { people });
    expect([text(at6.people.get("wren")?.call ?? null), at6.people.get("wren")?.released, at6.later]).toEqual([
      ...["06:00", null, ["wren.released"]],
    ]);
    expect(known("05:59", { people }).later).toEqual(["wren.call", "wren.released"]);
    expect(known("18:00", { people }).later).toEqual([]);
  });

  it("a hit or task has begun, or has ended, by then; without its beginning nothing is known of it", () => {
    const went = (now: string, one: object) => {
      const { activities, later } = known(now, { activities: { dawn: one } });
      const it = activities.get("dawn");
      return [it === undefined ? null : [text(it.at), text(it.end)], later];
    };
    const both = { at: at("07:00"), end: at("07:05") };
    expect(went("06:59", both)).toEqual([null, ["dawn.at", "dawn.end"]]);
    expect(went("07:00", both)).toEqual([["07:00", null], ["dawn.end"]]);
    expect(went("07:05", both)).toEqual([["07:00", "07:05"], []]);
    expect(went("07:04", { end: at("07:05") })).toEqual([null, ["dawn.end"]]);
    expect(went("07:05", { end: at("07:05") })).toEqual([[null, "07:05"], []]);
    expect(went("05:00", { done: true })).toEqual([[null, null], []]);
  });

  it("whoever drove on is known once the vehicle has left", () => {
    const went = (now: string, one: object) => {
      const { stops, later } = known(now, { stops: { "wagon.2": { driver: "ilse", ...one } } });
      const { arrived = null, left = null, driver = null } = stops.get("wagon.2") ?? {};
      return [text(arrived), text(left), driver, later];
    };
    const both = { arrived: at("07:00"), left: at("08:00") };
    expect(went("06:59", both)).toEqual([null, null, null, ["wagon.2.arrived", "wagon.2.left"]]);
    expect(went("07:59", both)).toEqual(["07:00", null, null, ["wagon.2.left"]]);
    expect(went("08:00", both)).toEqual(["07:00", "08:00", "ilse", []]);
    expect(went("05:00", {})).toEqual([null, null, "ilse", []]);
  });

  it("packs and vehicles are known by their moment, or always without one", () => {
    const went = known("08:00", {
      packs: { late: { at: at("08:01") }, now: { at: at("08:00") }, once: {} },
      vehicles: { late: { since: at("08:01") }, now: { since: at("08:00") }, once: {} },
    });
    expect([[...went.packs.keys()], [...went.vehicles.keys()]]).toEqual([
      ["now", "once"],
      ["now", "once"],
    ]);
    expect(went.later).toEqual(["late.at", "late.since"]);
  });
});

describe("the path that a hit went out on", () => {
  const HITS = byId(
    hit("dawn", "pier", { at: at("07:00"), signalPath: "dish", spare: "cell" }),
    hit("noon", "pier", { at: at("12:00"), signalPath: "dish", spare: "cell" }),
  );
  const TASKS = byId(task("feed", "pier", { signalPath: "dish" }));
  const MADE = day(
    [
      {
        ...{ vehicle: "wagon", people: ["wren"], leave: at("06:00") },
        way: [[leg("lodge", "pier", 30, 30), "drive", { hit: "dawn" }]],
      },
    ],
    { hits: HITS, tasks: TASKS },
  );
  const gone = (paths: Readonly<Record<string, string | null>>) => {
    const activities = mapped(
      Object.fromEntries(Object.entries(paths).map(([id, signalPath]) => [id, { signalPath }])),
    );
    const own: Plan = { ...MADE.plan, actual: actual({ activities }) };
    const before = { ...MADE, plan: own };
    return { before, after: wentOut({ ...before, unedited: null }), same: wentOut(before) === before };
  };
  const ofHit = (own: Plan, id: string) => [own.hits.get(id)?.signalPath, own.hits.get(id)?.spare];

  it("is that of the hit; the spare changes places with it", () => {
    const { after } = gone({ dawn: "cell", feed: "wifi", noon: null });
    expect([ofHit(after.plan, "dawn"), ofHit(after.plan, "noon")]).toEqual([
      ["cell", "dish"],
      ["dish", "cell"],
    ]);
    expect(after.plan.tasks.get("feed")?.signalPath).toBe("wifi");
    expect(ofHit(gone({ dawn: "wifi" }).after.plan, "dawn")).toEqual(["wifi", "cell"]);
    expect(ofHit(gone({ dawn: "dish" }).after.plan, "dawn")).toEqual(["dish", "cell"]);
  });

  it("is that of the times of the day, too, and nothing changes if none is logged", () => {
    const [dawn] = gone({ dawn: "wifi" }).after.activities;
    expect(dawn?.activity.signalPath).toBe("wifi");
    expect([gone({ dawn: null }).same, gone({}).same, gone({ dawn: null, noon: "cell" }).same]).toEqual([
      true,
      true,
      false,
    ]);
  });
});
