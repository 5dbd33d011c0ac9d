/** Facts against the plan, and edits of a day that is under way: what stands, what gives way and what a note says. */
import { describe, expect, it } from "vitest";
import { computeDay, type Day, NOTHING_BEFORE } from "../../src/day/index.ts";
import type { Actual, Plan } from "../../src/plan/plan.ts";
import { at, type Description, legsOf, makePlan, text, times } from "./make.ts";
import { happened, stopped } from "./parts.ts";

// Called 06:10, off 06:25, at the pier 07:05 (40 at bad into a firm hit), parked 07:10, set up 07:40; on air 08:00 to 08:05.
const PIER = { place: "pier", do: ["dawn", "lunch", "work"] };
const LUNCH = { kind: "meal", in: "pier", forMinutes: 45, window: { from: at("11:00"), to: at("12:00") } } as const;
const BASE: Description = {
  crew: { wren: { drives: ["wagon"] }, ilse: {} },
  roads: { "home pier": [30, 40] },
  hits: { dawn: { at: at("08:00"), forMinutes: 5, in: "pier" } },
  tasks: {
    lunch: LUNCH,
    work: { in: "pier", forMinutes: 30 },
  },
  runs: { wagon: { stops: ["home", PIER, "home"] } },
};

type Times = readonly [began: string | null, ended: string | null];

const logged = (all: Readonly<Record<string, Times>>): Partial<Actual> => ({
  activities: new Map(
    Object.entries(all).map(([id, [began, ended]]) => [
      id,
      happened({ at: began === null ? null : at(began), end: ended === null ? null : at(ended) }),
    ]),
  ),
});

const stops = (all: Readonly<Record<string, Times>>): Partial<Actual> => ({
  stops: new Map(
    Object.entries(all).map(([id, [arrived, left]]) => [
      id,
      stopped({ arrived: arrived === null ? null : at(arrived), left: left === null ? null : at(left) }),
    ]),
  ),
});

const planWith = (actual: Partial<Actual>, description = BASE): Plan => {
  const plan = makePlan(description);
  return { ...plan, actual: { ...plan.actual, ...actual } };
};

function day(plan: Plan, now: string | null = null, before: Description | null = null): Day {
  const unedited = before === null ? null : makePlan(before);
  const result = computeDay(plan, legsOf(plan), NOTHING_BEFORE, {
    now: now === null ? null : at(now),
    unedited: unedited === null ? null : { plan: unedited, legs: legsOf(unedited) },
  });
  if (result.day === null)
    throw new Error(result.findings.map(({ code, facts }) => code + JSON.stringify(facts)).join());
  return result.day;
}

const said = ({ findings }: Day) => findings.map(({ code, facts, path }) => [code, facts["what"], path?.at(-1)]);

describe("a fact", () => {
  it("comes before what `do` lists first where it went so, and what was to come first comes after it", () => {
    // Work at 10:00, before lunch in its window: lunch is not lost.
    const went = day(planWith(logged({ work: ["10:00", null] })));
    expect(times(went, "work.start", "work.end", "lunch.start", "lunch.end")).toEqual([
      "10:00",
      "10:30",
      "11:00",
      "11:45",
    ]);
    expect(said(went)).toEqual([["logged-otherwise", "work", "do"]]);
  });

  it("of both turns `do` round with a note", () => {
    const went = day(planWith(logged({ work: ["10:00", null], lunch: ["10:40", "11:10"] })));
    expect(times(went, "work.start", "lunch.start", "lunch.end")).toEqual(["10:00", "10:40", "11:10"]);
    expect(said(went)).toEqual([
      ["logged-otherwise", "lunch", "for"],
      ["logged-otherwise", "lunch", "window"],
      ["logged-otherwise", "work", "do"],
    ]);
  });

  it("overrides `after` and `before` with a note", () => {
    const tied: Description = {
      ...BASE,
      tasks: { ...BASE.tasks, work: { in: "pier", forMinutes: 30, after: ["lunch"] } },
    };
    const went = day(planWith(logged({ work: ["09:00", null], lunch: ["11:20", null] }), tied));
    expect(times(went, "work.start", "lunch.start")).toEqual(["09:00", "11:20"]);
    expect(said(went)).toContainEqual(["logged-otherwise", "work", "after"]);
  });

  it("overrides a stop's `leave` with a note", () => {
    const fixed: Description = {
      ...BASE,
      runs: { wagon: { stops: [{ place: "home", leave: at("06:00") }, PIER, "home"] } },
    };
    const went = day(planWith(stops({ "wagon.1": [null, "06:07"] }), fixed));
    expect(times(went, "wagon.1.leave", "wagon.2.arrive")).toEqual(["06:07", "06:47"]);
    expect(said(went)).toEqual([["logged-otherwise", "wagon.1", "leave"]]);
  });

  it("that ended began as planned, and who arrived had left as planned", () => {
    expect(times(day(planWith(logged({ lunch: [null, "12:40"] }))), "lunch.start", "work.start")).toEqual([
      "11:00",
      "12:40",
    ]);
    // Seven minutes late on the road: nobody is called later for it.
    const late = day(planWith(stops({ "wagon.2": ["07:12", null] })));
    expect(times(late, "wren.call", "wagon.1.leave", "wagon.2.arrive")).toEqual(["06:10", "06:25", "07:12"]);
    // There before they were to leave: the drive lasts as planned.
    expect(times(day(planWith(stops({ "wagon.2": ["06:20", null] }))), "wagon.1.leave")).toEqual(["05:40"]);
  });

  it("of a hit that went out late moves nobody's call: people wait for it", () => {
    const late = day(planWith(logged({ dawn: ["08:07", null] })));
    expect(times(late, "wren.call", "wagon.1.leave", "wagon.2.arrive", "dawn.start")).toEqual([
      "06:10",
      "06:25",
      "07:05",
      "08:07",
    ]);
    // 08:07 + 5, then lunch in its window as planned.
    expect(times(late, "dawn.end", "lunch.start")).toEqual(["08:12", "11:00"]);
    expect(said(late)).toEqual([]);
  });

  it("of a hit that went on with less time to set up than planned leaves nothing missed", () => {
    const went = day(planWith({ ...stops({ "wagon.2": ["07:40", null] }), ...logged({ dawn: ["08:00", null] }) }));
    expect(said(went)).toEqual([]);
    expect(times(went, "wagon.2.arrive", "dawn.start")).toEqual(["07:40", "08:00"]);
  });

  it("later than now is left aside with a note", () => {
    const ahead = day(planWith(logged({ lunch: ["11:20", null] })), "11:19");
    expect(times(ahead, "lunch.start")).toEqual(["11:00"]);
    expect(said(ahead)).toEqual([["fact-ahead", "lunch", "at"]]);
    const known = day(planWith(logged({ lunch: ["11:20", null] })), "11:20");
    expect(times(known, "lunch.start")).toEqual(["11:20"]);
  });

  it("on a run that only a window starts moves nothing where it went as planned", () => {
    // Work begins with its window at 09:00; then 30 to the cove, where pictures wait from 10:00 (parked 10:05) to their window.
    const windows: Description = {
      crew: { wren: { drives: ["wagon"] } },
      roads: { "home pier": [30, null], "pier cove": [30, null], "cove home": [30, null] },
      tasks: {
        work: { in: "pier", forMinutes: 30, window: { from: at("09:00"), to: at("12:00") } },
        pictures: { in: "cove", forMinutes: 20, window: { from: at("11:00"), to: at("13:00") } },
      },
      runs: {
        wagon: { stops: ["home", { place: "pier", do: ["work"] }, { place: "cove", do: ["pictures"] }, "home"] },
      },
    };
    const asked = ["wagon.1.leave", "work.start", "wagon.2.leave", "wagon.3.arrive", "pictures.start"];
    const expected = ["08:25", "09:00", "09:30", "10:00", "11:00"];
    expect(times(day(planWith({}, windows)), ...asked)).toEqual(expected);
    for (const facts of [logged({ pictures: ["11:00", null] }), stops({ "wagon.3": ["10:00", null] })])
      expect(times(day(planWith(facts, windows)), ...asked)).toEqual(expected);
  });

  it("after a task that nothing in the plan bounds does not make the task late", () => {
    // Wren mends something at home after set-up, 07:10 to 07:40, while ilse goes on air there at 08:00; then they drive off.
    const open: Description = {
      crew: { wren: { drives: ["wagon"] }, ilse: {} },
      roads: { "home pier": [30, 40] },
      hits: { dawn: { at: at("08:00"), forMinutes: 5, in: "home", who: ["ilse"] } },
      tasks: { fix: { in: "home", forMinutes: 13, who: ["wren"] } },
      runs: { wagon: { stops: [{ place: "home", do: ["fix"] }, "pier"] } },
    };
    const planned = day(planWith({}, open));
    // 08:05 + 10 clear + 20 strike + 30 to load where they check out.
    expect(times(planned, "fix.start", "dawn.lineCheck", "wagon.1.leave")).toEqual(["07:40", "07:40", "09:05"]);
    const left = day(planWith(stops({ "wagon.1": [null, "09:05"] }), open));
    expect(times(left, "fix.start", "dawn.lineCheck", "wagon.1.leave")).toEqual(["07:40", "07:40", "09:05"]);
    expect(left.activities.map(({ id, state }) => [id, state])).toEqual(
      planned.activities.map(({ id, state }) => [id, state]),
    );
  });

  it("of who drove holds for that leg, and who was not to ride it rode it", () => {
    const shared: Description = {
      ...BASE,
      crew: { ...BASE.crew, ilse: { drives: ["wagon"] }, odo: { drives: ["wagon"] } },
      runs: { wagon: { driver: "wren", aboard: ["wren", "ilse"], stops: ["home", PIER, "home"] } },
    };
    const drove = (stop: string, driver: string): Partial<Actual> => ({
      stops: new Map([[stop, stopped({ arrived: null, left: null, driver })]]),
    });
    const out = day(planWith(drove("wagon.1", "ilse"), shared));
    expect(out.moves.map(({ driver, riders }) => [driver, riders])).toEqual([
      ["ilse", ["wren"]],
      ["wren", ["ilse"]],
    ]);
    expect(said(out)).toContainEqual(["logged-otherwise", "wagon.1", "driver"]);
    const driving = (who: string): number =>
      (out.people.find(({ id }) => id === who)?.spans ?? []).reduce(
        (sum, span) => sum + (span.is === "driving" ? span.to - span.from : 0),
        0,
      );
    // 40 out at `bad` into a firm hit, 30 back at `drive`.
    expect([driving("ilse"), driving("wren")]).toEqual([40, 30]);
    const asPlanned = day(planWith(drove("wagon.1", "wren"), shared));
    expect(said(asPlanned)).toEqual(said(day(planWith({}, shared))));
    // After now, nobody has driven yet.
    const ahead = { ...drove("wagon.1", "ilse") };
    const later = { stops: new Map([...(ahead.stops ?? [])].map(([id, one]) => [id, { ...one, left: at("06:25") }])) };
    expect(day(planWith(later, shared), "06:20").moves[0]?.driver).toBe("wren");
    expect(day(planWith(later, shared), "06:25").moves[0]?.driver).toBe("ilse");
  });

  it("of the path that a hit went out on leaves its times as they are", () => {
    const paths: Description = {
      ...BASE,
      paths: { dish: { kind: "satellite", vehicle: "wagon" }, cell: { kind: "cellular" } },
      hits: { dawn: { at: at("08:00"), forMinutes: 5, in: "pier", signalPath: "dish", spare: "cell" } },
    };
    const planned = day(planWith({}, paths));
    const went = { activities: new Map([["dawn", happened({ signalPath: "cell" })]]) };
    const spare = day(planWith(went, paths));
    expect([...spare.instants]).toEqual([...planned.instants]);
    const ways = ({ activities }: Day) =>
      activities.flatMap(({ activity }) => (activity.kind === "hit" ? [[activity.signalPath, activity.spare]] : []));
    expect([ways(planned), ways(spare)]).toEqual([[["dish", "cell"]], [["cell", "dish"]]]);
    expect(ways(spare.withChores([]))).toEqual([["cell", "dish"]]);
    expect(said(spare)).toEqual([["logged-otherwise", "dawn", "path"]]);
  });

  it("contradicts another at both lines", () => {
    const plan = planWith({ ...stops({ "wagon.2": [null, "09:00"] }), ...logged({ work: ["09:10", null] }) });
    const { findings } = computeDay(plan, legsOf(plan));
    expect(findings.map(({ code, facts }) => [code, facts["what"], facts["first"]])).toEqual([
      ["went-backwards", "`wagon.2 left`", "`work began`"],
    ]);
  });
});

describe("an edit of a day that is under way", () => {
  const later = (clock: string): Description => ({
    ...BASE,
    hits: { dawn: { at: at(clock), forMinutes: 5, in: "pier" } },
  });

  it("of what is past changes nothing, with a warning", () => {
    const edited = day(makePlan(later("08:10")), "08:01", BASE);
    expect(times(edited, "dawn.start", "wagon.1.leave")).toEqual(["08:00", "06:25"]);
    expect(said(edited)).toEqual([["edit-of-past", "dawn", "dawn"]]);
  });

  it("of what has not begun moves it, and nothing before now", () => {
    const edited = day(makePlan(later("08:30")), "07:00", BASE);
    expect(times(edited, "wagon.1.leave", "wagon.2.arrive", "dawn.start")).toEqual(["06:25", "07:05", "08:30"]);
    expect(said(edited)).toEqual([]);
    // At 06:24 the wagon has not left, but loading is under way, to its end.
    expect(times(day(makePlan(later("08:30")), "06:24", BASE), "wagon.1.leave")).toEqual(["06:25"]);
    expect(times(day(makePlan(later("08:30")), "06:10", BASE), "wagon.1.leave")).toEqual(["06:55"]);
  });

  it("misses by its minutes what now comes too soon", () => {
    // Parked 07:10 and set up to 07:40, then 10 for the check and 10 in position: on air at 08:00 at the earliest.
    const edited = day(makePlan(later("07:52")), "07:00", BASE);
    expect(edited.findings.map(({ code, shortMinutes }) => [code, shortMinutes])).toEqual([["hit-missed", 8]]);
  });

  it("cuts nothing that is under way, and what follows does not begin before now", () => {
    const edited = makePlan({ ...BASE, tasks: { ...BASE.tasks, lunch: { ...LUNCH, forMinutes: 10 } } });
    const lunch = day(edited, "11:20", BASE);
    expect(times(lunch, "lunch.start", "lunch.end", "work.start")).toEqual(["11:00", "11:45", "11:45"]);
    expect(said(lunch)).toEqual([["edit-of-past", "lunch", "lunch"]]);
  });

  it("of something else leaves what was logged as a fact, no edit of the past", () => {
    const actual: Partial<Actual> = {
      ...logged({ dawn: ["08:02", "08:06"], lunch: ["11:10", null] }),
      stops: new Map([["wagon.1", stopped({ arrived: null, left: at("06:27"), driver: "wren" })]]),
    };
    const plan = planWith(actual, { ...BASE, tasks: { ...BASE.tasks, work: { in: "pier", forMinutes: 50 } } });
    const result = computeDay(plan, legsOf(plan), NOTHING_BEFORE, {
      now: at("11:30"),
      unedited: { plan: planWith(actual), legs: legsOf(plan) },
    });
    if (result.day === null) throw new Error("no day");
    expect(result.day.findings.map(({ code }) => code)).not.toContain("edit-of-past");
    expect(times(result.day, "wagon.1.leave", "dawn.start", "dawn.end", "lunch.start", "work.end")).toEqual([
      "06:27",
      "08:02",
      "08:06",
      "11:10",
      "12:45",
    ]);
  });

  it("that takes away what is past leaves it, and adds nothing to the past", () => {
    const { lunch, ...others } = BASE.tasks ?? {};
    const without = makePlan({
      ...BASE,
      tasks: others,
      runs: { wagon: { stops: ["home", { place: "pier", do: ["dawn", "work"] }, "home"] } },
    });
    expect(lunch).toBeDefined();
    expect(times(day(without, "11:20", BASE), "lunch.start", "lunch.end")).toEqual(["11:00", "11:45"]);
    expect(said(day(without, "11:20", BASE))).toEqual([["edit-of-past", "lunch", "lunch"]]);
    const more = makePlan({ ...BASE, hits: { ...BASE.hits, early: { at: at("07:55"), forMinutes: 2, in: "pier" } } });
    expect(text(day(more, "11:20", BASE).instants.get("early.start") ?? null)).toBe(null);
  });
});
