/** Two vehicles that meet, with someone who changes between them: the Day against a search over every minute of every departure. */
import { describe, expect, it } from "vitest";
import { runs } from "../fuzz.ts";
import { at, type Description, dayOf, times } from "./make.ts";
import { random } from "./random.ts";

interface Case {
  readonly legs: { readonly a: number; readonly b: number; readonly bOn: number };
  readonly lists: { readonly a: boolean; readonly b: boolean };
  readonly setUp: { readonly a: number; readonly b: number };
  /** Whether the one who changes appears at the pier. */
  readonly appears: boolean;
  readonly second: number;
}

const HIT = 600;

function caseOf(seed: number): Case {
  const dice = random(seed);
  const a = dice(3) > 0;
  return {
    legs: { a: 5 + dice(20), b: 5 + dice(20), bOn: 5 + dice(20) },
    lists: { a, b: !a || dice(2) === 0 },
    setUp: { a: dice(20), b: dice(20) },
    appears: dice(2) === 0,
    second: HIT + 60 + dice(50),
  };
}

function describeCase(c: Case): Description {
  const who = [...(c.lists.a ? ["ann"] : []), ...(c.lists.b ? ["bob"] : []), ...(c.appears ? ["cat"] : [])];
  return {
    crew: { ann: { drives: ["alpha"] }, bob: { drives: ["bravo"] }, cat: {} },
    roads: {
      "inn pier": [c.legs.a, c.legs.a],
      "barn pier": [c.legs.b, c.legs.b],
      "pier cove": [c.legs.bOn, c.legs.bOn],
    },
    hits: {
      one: { at: at(HIT), forMinutes: 3, in: "pier", who },
      two: { at: at(c.second), forMinutes: 3, in: "cove", who: ["bob", "cat"] },
    },
    runs: {
      alpha: {
        aboard: ["ann", "cat"],
        stops: [
          "inn",
          { place: "pier", do: c.lists.a ? ["one"] : [], setUpMinutes: c.setUp.a, aboard: ["ann"] },
          "inn",
        ],
      },
      bravo: {
        aboard: ["bob"],
        stops: [
          "barn",
          { place: "pier", do: c.lists.b ? ["one"] : [], setUpMinutes: c.setUp.b, aboard: ["bob", "cat"] },
          { place: "cove", do: ["two"] },
        ],
      },
    },
    places: { pier: { shelter: true }, cove: { shelter: true } },
    rules: { roundCalls: 1 },
  };
}

/** Every constraint of such a day, in plain words. `a`, `b`: departures from the bed; `on`: bravo leaves the pier. */
function holds(c: Case, a: number, b: number, on: number): boolean {
  const [arriveA, arriveB] = [a + c.legs.a, b + c.legs.b];
  const lineCheck = HIT - 20;
  const freed = HIT + 3 + 10;
  if (c.lists.a && arriveA + 5 + c.setUp.a > lineCheck) return false;
  if (c.lists.b && arriveB + 5 + c.setUp.b > lineCheck) return false;
  if (c.appears && arriveA > lineCheck) return false;
  if (on < arriveB || on < arriveA) return false;
  if (c.lists.b && on < freed + 20) return false;
  if (c.appears && on < freed) return false;
  return on + c.legs.bOn + 5 + 30 <= c.second - 20;
}

interface Found {
  readonly a: number;
  readonly b: number;
  readonly on: number;
}

/** First departures at the latest that a solution has; bravo's second as early, or as late where nothing of its run is fixed before. */
function search(c: Case): Found | null {
  let [lateA, lateB] = [-1, -1];
  for (let a = HIT - 90; a < HIT + 90; a++) {
    for (let b = HIT - 90; b < HIT + 90; b++) {
      for (let on = HIT - 60; on < HIT + 120; on++) {
        if (!holds(c, a, b, on)) continue;
        lateA = Math.max(lateA, a);
        lateB = Math.max(lateB, b);
      }
    }
  }
  const ons = Array.from({ length: 180 }, (_, index) => HIT - 60 + index).filter((on) => holds(c, lateA, lateB, on));
  const on = c.lists.b ? ons[0] : ons.at(-1);
  return on === undefined ? null : { a: lateA, b: lateB, on };
}

describe("two vehicles, every minute tried", () => {
  it("agree on the departures", () => {
    const count = runs(15, 1500);
    let compared = 0;
    for (let seed = 1; compared < count; seed++) {
      const c = caseOf(seed);
      const found = search(c);
      if (found === null) continue;
      const day = dayOf(describeCase(c));
      const expected = times(
        {
          ...day,
          instants: new Map([
            ["a", at(found.a)],
            ["b", at(found.b)],
            ["on", at(found.on)],
          ]),
        },
        "a",
        "b",
        "on",
      );
      expect(
        times(day, "alpha.1.leave", "bravo.1.leave", "bravo.2.leave"),
        `seed ${seed} ${JSON.stringify(c)}`,
      ).toEqual(expected);
      compared++;
    }
  }, 600_000);
});
