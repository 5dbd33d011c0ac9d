/** Meals in the waits of a day: by hand, and against every pair of minutes on random waits. The house rule: 30 min every 6 h. */
import { expect, it } from "vitest";
import { mealsFor } from "../../src/hours/judge/meals.ts";
import { type Instant, instant } from "../../src/time/units.ts";
import { random } from "../day/random.ts";

const RULES = { mealFor: 30, park: 5 };
const ALLOWS = 360;
const at = (clock: string): Instant => {
  const [hours = 0, minutes = 0] = clock.split(":").map(Number);
  return instant(hours * 60 + minutes);
};
const text = (when: Instant): string =>
  `${String(Math.floor(when / 60)).padStart(2, "0")}:${String(when % 60).padStart(2, "0")}`;

/** Work from one time to another, with waits in it. */
function meals(since: string, until: string, ...waits: readonly (readonly [from: string, to: string])[]) {
  const spans = waits.map(([from, to]) => ({ doing: "wait", from: at(from), to: at(to) }));
  const gap = { since: at(since), due: instant(at(since) + ALLOWS), until: at(until), allows: ALLOWS };
  const { count, room, pair } = mealsFor(RULES, spans, gap);
  return [count, room === null ? null : [text(room.from), text(room.to)], pair === null ? null : pair.map(text)];
}

it("one is enough for 12 h 30 min: from as late as leaves 6 h after it to as late as 6 h are over", () => {
  // 05:10 and 6 h are 11:10; 6 h before 17:40 are 11:40, and the meal takes 30 min.
  expect(meals("05:10", "17:40", ["07:00", "12:00"])).toEqual([1, ["11:10", "11:10"], null]);
  expect(meals("05:10", "17:00", ["07:00", "12:00"])).toEqual([1, ["10:30", "11:10"], null]);
  expect(meals("05:10", "17:00", ["07:00", "10:59"])).toEqual([1, null, null]);
});

it("none begins before they have parked where they only stood", () => {
  const gap = { since: at("05:10"), due: at("11:10"), until: at("17:00"), allows: ALLOWS };
  const after = (doing: string) =>
    mealsFor(
      RULES,
      [
        { doing, from: at("10:00"), to: at("11:00") },
        { doing: "wait", from: at("11:00"), to: at("15:00") },
      ],
      gap,
    ).room?.from;
  expect([after("drive"), after("ride"), after("park")]).toEqual([at("11:05"), at("11:05"), at("11:00")]);
});

it("two lie in the middle of their rooms", () => {
  // Between 07:05 and 11:10, and between 12:05 and 16:20; the one as early as can be with the other, and as late.
  // The second begins at 11:45 or later, so 12:05 and 16:20: 14:10. The first then from 05:35: 07:05, to 11:10: 09:05.
  const day = [
    ["07:05", "11:50"],
    ["12:05", "16:50"],
  ] as const;
  expect(meals("05:10", "18:15", ...day)).toEqual([2, null, ["09:05", "14:10"]]);
});

it("two lie where alone they can, and are not told where they cannot", () => {
  // 05:00 to 24:00 is 19 h, the longest that two cover: at 11:00 and at 17:30.
  expect(meals("05:00", "24:00", ["06:00", "23:00"])).toEqual([2, null, ["11:00", "17:30"]]);
  expect(meals("05:00", "24:00", ["06:00", "11:29"], ["12:00", "23:00"])).toEqual([2, null, null]);
  expect(meals("05:00", "24:01", ["06:00", "23:00"])[0]).toBe(3);
});

it("two are told if any two minutes of the waits would do, and only such", () => {
  let told = 0;
  for (let seed = 1; seed <= 400; seed++) {
    const dice = random(seed);
    const waits = Array.from({ length: 1 + dice(4) }, () => {
      const from = dice(110) * 10;
      return { doing: "wait", from: instant(from), to: instant(from + dice(24) * 10) };
    });
    const until = instant(760 + dice(38) * 10);
    const gap = { since: instant(0), due: instant(ALLOWS), until, allows: ALLOWS };
    const { count, pair } = mealsFor(RULES, waits, gap);
    expect(count, `${seed}`).toBe(2);
    const begins = waits.flatMap(({ from, to }) =>
      Array.from({ length: Math.max(0, to - from - 29) }, (_, minute) => from + minute),
    );
    const holds = (first: number, second: number): boolean =>
      first <= 360 && second - (first + 30) <= 360 && until - (second + 30) <= 360;
    const any = begins.some((first) => begins.some((second) => holds(first, second)));
    expect(pair !== null, `${seed}`).toBe(any);
    if (pair === null) continue;
    told++;
    const [first, second] = pair;
    expect(holds(first, second) && begins.includes(first) && begins.includes(second), `${seed}`).toBe(true);
  }
  expect(told).toBeGreaterThan(20);
});
