/** Small rules that each limit goes by: which rest a set asks for, what a breach is called, when an allowance is there again. By hand. */
import { describe, expect, it } from "vitest";
import { moreHome } from "../../src/hours/count/exceptions.ts";
import { differs } from "../../src/hours/count/pairing.ts";
import { driven } from "../../src/hours/judge/applicableRules.ts";
import { leastRest } from "../../src/hours/judge/bindingRests.ts";
import { breachFindingOf } from "../../src/hours/judge/limitFindings.ts";
import type { MaxLimit } from "../../src/hours/rules/rule.ts";
import type { RuleSetId } from "../../src/hours/rules/table.ts";
import { houseDefaults } from "../../src/plan/houseRules.ts";
import { instant } from "../../src/time/units.ts";
import { at, dayOf } from "../day/make.ts";
import { breachesOf, judged, rulesOf, utc } from "./records.ts";

describe("the rest that a set asks for before work", () => {
  // 49 CFR 395.3(a)(1) and 395.5(a)(1): 10 and 8 h. Reg 561/2006 Art 4(g): 9 h where it is reduced. Dir 2002/15 leaves rest to it;
  // Dir 2003/88 Art 3: 11 h. SOR/2005-313 s. 14: 8 h in one piece. UK domestic driving hours ask for none.
  // 29 U.S.C. 207 and Labor Code 510 and 512 are about pay and meals, and ask for no rest between two days.
  it.each([
    ["us-property", 10],
    ["us-passenger", 8],
    ["us-production", 8],
    ["eu", 9],
    ["eu-working-time", 11],
    ["ca-south", 8],
    ["gb-domestic", 0],
    ["us-labor", 0],
    ["california", 0],
  ] as const satisfies readonly (readonly [RuleSetId, number])[])("%s: %i h", (set, hours) => {
    expect(leastRest(rulesOf(set))).toBe(hours * 60);
  });

  it("is the turnaround of the house", () => {
    expect(leastRest(rulesOf("house", [], { ...houseDefaults(), turnaround: 690 }))).toBe(690);
  });
});

describe("a breach of a most", () => {
  const driving = rulesOf("eu").limits.find((limit): limit is MaxLimit => limit.kind === "max");
  const named = (more: Partial<MaxLimit>): string => {
    if (driving === undefined) throw new RangeError("no limit");
    return breachFindingOf({ ...driving, ...more }).entry.code;
  };
  const day = (count: number) => [{ kind: "calendar", unit: "day", count }] as const;
  const week = [{ kind: "calendar", unit: "week", count: 1 }] as const;

  it("is of a week where it counts over a week or several days, of a day else", () => {
    expect(named({ since: day(1), counts: "duty" })).toBe("duty-too-long");
    expect(named({ since: day(2), counts: "duty" })).toBe("week-too-long");
    expect(named({ since: week, counts: "duty" })).toBe("week-too-long");
    expect(named({ since: day(1), counts: "driving" })).toBe("driving-too-long");
    expect(named({ since: day(2), counts: "driving" })).toBe("week-too-long");
  });

  it("is of a break or of free days before all that it counts", () => {
    const pause = [{ kind: "break", minutes: 30, of: ["off"] }] as const;
    expect(named({ since: pause, counts: "driving" })).toBe("break-missed");
    expect(named({ since: pause, counts: "driving", leavesFree: true })).toBe("day-off-too-short");
    expect(named({ since: week, counts: "duty", leavesFree: true })).toBe("day-off-too-short");
  });

  it("of time that passes is a window where it ends driving, a rest that comes too late where it ends work", () => {
    const shift = [{ kind: "rest", minutes: 600 }] as const;
    expect(named({ since: shift, counts: "elapsed", forbids: "driving" })).toBe("window-over");
    expect(named({ since: shift, counts: "elapsed", forbids: "work" })).toBe("rest-too-late");
    expect(named({ since: shift, counts: "duty", forbids: "driving" })).toBe("duty-too-long");
    expect(named({ since: shift, counts: "busy", forbids: "work" })).toBe("duty-too-long");
  });
});

// 49 CFR 395.1(o): 16 h once in 7 days; 34 h off begin anew.
describe("16 hours once", () => {
  const window = (between: string, last = "2") => {
    const verdict = judged(
      "us-property",
      "18 00:00",
      `off 10, duty 13, driving 2, off ${between}, duty 13, driving ${last}`,
      ["sixteenHour"],
    );
    return breachesOf(verdict, "us-property.window");
  };

  it("are there again after 34 h off, and not a minute sooner", () => {
    expect(window("34")).toEqual([]);
    // From 10:00 the first shift ends on the 19th at 01:00; 33:59 later, at 10:59 on the 20th, the second begins, and 14 h later its window is over.
    expect(window("33:59")).toEqual([[utc("21 00:59"), utc("21 01:59")]]);
    expect(window("33:59", "1")).toEqual([]);
  });

  it("are there again without it on the seventh day after", () => {
    const again = (rest: string) => {
      // Short days of an hour between keep every rest below 34 h.
      const days = `duty 1, off 23, duty 1, off 23, duty 1, off 23, duty 1, off 23, duty 1, off ${rest}`;
      const text = `off 10, duty 13, driving 2, off 23, ${days}, duty 13, driving 2`;
      return breachesOf(judged("us-property", "18 00:00", text, ["sixteenHour"]), "us-property.window").length;
    };
    // The first use began on the 18th. 10 + 15 + 23 h and five times 24 h, less 23: on the 24th at 01:00 the last short day ends.
    expect([again("22"), again("23")]).toEqual([1, 0]);
  });
});

describe("the vehicles that someone drives", () => {
  // The truck at 08:00 from home to the pier, the wagon back from there at 09:00.
  const day = dayOf({
    crew: { wren: { drives: ["wagon", "truck"], slept: "home", sleeps: "home" } },
    roads: { "home pier": [30, 40] },
    hits: {},
    runs: {
      wagon: { driver: "wren", aboard: ["wren"], stops: [{ place: "pier", leave: at("09:00") }, "home"] },
      truck: { driver: "wren", aboard: ["wren"], stops: [{ place: "home", leave: at("08:00") }, "pier"] },
    },
  });
  const named = (moves: typeof day.moves) => driven({ ...day, moves }, "wren").map(({ id }) => id);

  it("are in the order in which they are first driven, whatever the order of the moves; at one minute by name", () => {
    expect(day.moves.map(({ vehicle }) => vehicle)).toEqual(["truck", "wagon"]);
    expect([named(day.moves), named(day.moves.toReversed())]).toEqual([
      ["truck", "wagon"],
      ["truck", "wagon"],
    ]);
    const [truck, wagon] = day.moves;
    if (truck === undefined || wagon === undefined) throw new RangeError("no moves");
    // The wagon again before the truck, told last.
    const again = { ...wagon, wheel: wagon.wheel.map((one) => ({ ...one, from: at("07:00") })) };
    expect(named([wagon, truck, again])).toEqual(["wagon", "truck"]);
    const atOnce = { ...wagon, wheel: truck.wheel };
    expect([named([truck, atOnce]), named([atOnce, truck])]).toEqual([
      ["truck", "wagon"],
      ["truck", "wagon"],
    ]);
    expect(driven(day, "ilse")).toEqual([]);
  });
});

describe("more hours on the way home", () => {
  it("are the most that needs no break before it, none where each does", () => {
    const home = (...more: readonly (readonly [number | null, number])[]) => {
      const [eu] = rulesOf("eu").limits.filter((limit): limit is MaxLimit => limit.kind === "max");
      if (eu === undefined) throw new RangeError("no limit");
      return moreHome({ ...eu, homeward: more.map(([after, minutes]) => ({ before: 2700, after, more: minutes })) });
    };
    expect([
      home(),
      home([null, 60]),
      home([30, 120]),
      home([null, 60], [30, 120]),
      home([null, 60], [null, 90]),
    ]).toEqual([...[0, 60, 0, 60, 90]]);
  });
});

describe("readings that differ", () => {
  const base = judged("us-property", "18 00:00", "off 10, driving 12");
  const [breach] = base.breaches;
  if (breach === undefined) throw new RangeError("no breach");
  const later = { ...breach, from: instant(breach.from + 1) };
  const longer = { ...breach, to: instant(breach.to + 1) };
  const other = { ...breach, limit: rulesOf("us-property").limits[0] ?? breach.limit };
  const told = (strict: readonly (typeof breach)[], ...others: readonly (readonly (typeof breach)[])[]) => {
    const strictest = { ...base, breaches: [...strict] };
    return differs({
      strictest,
      all: [strictest, ...others.map((breaches) => ({ ...base, breaches: [...breaches] }))],
    });
  };

  it("do so by the first breach that one of them does not have: another limit, start or end", () => {
    expect(told([breach], [breach])).toBeNull();
    expect(told([breach])).toBeNull();
    for (const one of [later, longer, other]) {
      expect(told([breach, one], [breach])).toBe(one);
      expect(told([one], [breach])).toBe(one);
    }
    expect(told([breach, later], [breach, later], [breach])).toBe(later);
  });
});
