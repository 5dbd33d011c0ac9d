/** Chores in people's days: what joins a release or a call, what parts a rest, and what lies in a duty anyway. */
import { describe, expect, it } from "vitest";
import { computeChain, withChores } from "../../src/day/chain.ts";
import type { Chore, Day } from "../../src/day/day.ts";
import { computeDay, NOTHING_BEFORE } from "../../src/day/index.ts";
import { presenceOf } from "../../src/day/people/presence.ts";
import { at, type Description, legsOf, makePlan, text } from "./make.ts";

// Called 06:10 and off at 06:25 for dawn; 08:05 + 10 clear + 20 strike + 30 drive + 10 unload is 09:15.
const BASE: Description = {
  crew: { wren: { drives: ["wagon"] } },
  roads: { "home pier": [30, 40] },
  hits: { dawn: { at: at("08:00"), forMinutes: 5 } },
  runs: { wagon: { stops: ["home", "pier", "home"] } },
};

const RELEASED = at(0) - 360; // 18:00 the evening before

function dayWith(...chores: readonly (readonly [from: string, to: string])[]): Day {
  const plan = makePlan(BASE);
  const before = { ...NOTHING_BEFORE, releases: new Map([["wren", at(RELEASED - at(0))]]) };
  const { day } = computeDay(plan, legsOf(plan), before);
  if (day === null) throw new Error("no day");
  return day.withChores(
    chores.map(
      ([from, to]): Chore => ({ who: "wren", from: at(clock(from)), to: at(clock(to)), place: "home", vehicle: null }),
    ),
  );
}

/** `-02:10` is ten past two hours before midnight. */
const clock = (time: string): number => {
  const [hours = 0, mins = 0] = time.replace("-", "").split(":").map(Number);
  return (time.startsWith("-") ? -1 : 1) * (hours * 60 + mins);
};

const read = (day: Day) => {
  const wren = day.people[0];
  return {
    duty: [text(wren?.call ?? null), text(wren?.release ?? null)],
    previous: wren?.previousRelease == null ? null : wren.previousRelease - at(0),
    spans: wren?.spans
      .filter(({ doing, is }) => doing === "chore" || is === "off")
      .map(({ from, to, doing }) => [doing, from - at(0), to - at(0)]),
    duties: wren?.duties.length,
  };
};

describe("a chore", () => {
  it("of someone who has nothing else to do, or apart from all that they do, is no duty", () => {
    const crew = { ...BASE.crew, bea: { slept: "home", sleeps: "home" } };
    const plan = makePlan({ ...BASE, crew, runs: { wagon: { aboard: ["wren"], stops: ["home", "pier", "home"] } } });
    const releases = new Map([["bea", at(RELEASED - at(0))]]);
    const { day } = computeDay(plan, legsOf(plan), { ...NOTHING_BEFORE, releases });
    const chore = { from: at("03:00"), to: at("03:10"), place: "home", vehicle: null };
    const bea = day?.withChores([{ ...chore, who: "bea" }]).people.find(({ id }) => id === "bea");
    expect([bea?.duties, bea?.call, bea?.release]).toEqual([[], null, null]);
    expect(bea?.spans.filter(({ doing }) => doing === "chore").map(({ from, to }) => [text(from), text(to)])).toEqual([
      ["03:00", "03:10"],
    ]);
  });

  it("on the road is done in the vehicle, and its person is there", () => {
    // The wagon leaves the pier at 08:35 and is home at 09:05.
    const plan = makePlan({ ...BASE, crew: { ...BASE.crew, ilse: {} } });
    const { day } = computeDay(plan, legsOf(plan));
    const worked = day?.withChores([
      { who: "ilse", from: at("08:40"), to: at("08:44"), place: null, vehicle: "wagon" },
    ]);
    if (worked === undefined) throw new Error("no day");
    const span = worked.people.flatMap(({ spans }) => spans.filter(({ doing }) => doing === "chore"));
    expect(span.map(({ is, place, vehicle }) => [is, place, vehicle])).toEqual([["duty", null, "wagon"]]);
    const there = presenceOf(worked).personAt("ilse", at("08:41"));
    expect([there?.place, there?.vehicle, there?.awake]).toEqual([null, "wagon", true]);
  });

  it("changes nothing where there is none", () => {
    expect(read(dayWith())).toEqual({
      duty: ["06:10", "09:15"],
      previous: -360,
      spans: [["off", -360, 370]],
      duties: 1,
    });
  });

  it("within a quarter of an hour before the call makes the call earlier, rounded as a call is", () => {
    // 05:47 to 05:55 ends 15 minutes before 06:10; 05:47 is rounded to 05:45
    const day = dayWith(["05:47", "05:55"]);
    expect(read(day)).toMatchObject({ duty: ["05:45", "09:15"], duties: 1 });
    const terms = day.people[0]?.terms.slice(0, 4).map(({ name, minutes }) => [name, minutes]);
    expect(terms).toEqual([
      ["rounding", 2],
      ["chore", 8],
      ["wait", 15],
      ["loading", 15],
    ]);
    const why = day.why("wren.call");
    expect([why?.terms[0]?.from, why?.at]).toEqual([at("05:45"), at("05:45")]);
  });

  it("a minute farther from it parts the rest and is no call", () => {
    // The reasons of the call and the release are those of the duty, not of the chore.
    const apart = dayWith(["05:46", "05:54"]);
    expect([apart.why("wren.call")?.at, apart.why("wren.release")?.at]).toEqual([at("06:10"), at("09:15")]);
    expect(read(dayWith(["05:46", "05:54"]))).toEqual({
      duty: ["06:10", "09:15"],
      previous: -360,
      spans: [
        ["off", -360, 346],
        ["chore", 346, 354],
        ["off", 354, 370],
      ],
      duties: 1,
    });
  });

  it("within a quarter of an hour after the release makes that later, of the evening before as well", () => {
    expect(read(dayWith(["09:30", "09:34"]))).toMatchObject({ duty: ["06:10", "09:34"] });
    // 15 minutes after 18:00, four minutes long
    expect(read(dayWith(["-05:45", "-05:41"]))).toMatchObject({
      previous: -341,
      spans: [
        ["chore", -360, -341],
        ["off", -341, 370],
      ],
    });
  });

  it("one after the other they are one duty, in any order", () => {
    const both: readonly (readonly [string, string])[] = [
      ["09:49", "09:53"],
      ["09:30", "09:34"],
    ];
    expect(read(dayWith(...both))).toMatchObject({ duty: ["06:10", "09:53"] });
  });

  it("in the evening apart from the release is a span after it", () => {
    const day = dayWith(["09:31", "09:35"]);
    expect(read(day)).toMatchObject({ duty: ["06:10", "09:15"] });
    expect(day.people[0]?.spans.slice(-2).map(({ doing, from, to }) => [doing, text(from), text(to)])).toEqual([
      ["off", "09:15", "09:31"],
      ["chore", "09:31", "09:35"],
    ]);
  });

  it("in the evening is where the rest before the next day's call is parted, and joined to the release it moves that", () => {
    const plan = makePlan(BASE);
    const next = makePlan({ ...BASE, hits: { dawn: { at: at("32:00"), forMinutes: 5 } } });
    const { days } = computeChain([plan, next].map((one) => ({ plan: one, legs: legsOf(one) })));
    const chore = (from: string, to: string): Chore => ({
      ...{ who: "wren", place: "home", vehicle: null },
      ...{ from: at(from), to: at(to) },
    });
    const [first, second] = withChores(days, [[chore("09:30", "09:34"), chore("20:00", "20:08")], []]);
    expect(text(first?.people[0]?.release ?? null)).toBe("09:34");
    expect(text(second?.people[0]?.previousRelease ?? null)).toBe("09:34");
    const off = second?.people[0]?.spans[0];
    expect([off?.is, text(off?.from ?? null)]).toEqual(["off", "20:08"]);
    expect(text(withChores(days, [[], []])[1]?.people[0]?.previousRelease ?? null)).toBe("09:15");
  });

  it("tiles the time of a duty and of the rest before it", () => {
    const day = dayWith(["-03:00", "-02:50"], ["03:00", "03:08"], ["07:10", "07:12"], ["09:30", "09:34"]);
    const spans = day.people[0]?.spans ?? [];
    expect(spans.slice(1).map(({ from }) => from)).toEqual(spans.slice(0, -1).map(({ to }) => to));
    expect(spans.filter(({ doing }) => doing === "chore").map(({ from, to }) => to - from)).toEqual([10, 8, 2, 4]);
  });
});
