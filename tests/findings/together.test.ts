/** One mechanism joins what people, hits or things have in common, for every code, and keeps apart what differs. */
import { expect, it } from "vitest";
import { define } from "../../src/findings/finding.ts";
import { joinAlike } from "../../src/findings/together.ts";
import { instant } from "../../src/time/units.ts";

const words = { level: "warning", title: "a title", why: "Why.", cure: "Cure.", example: "date: 1" } as const;
const meal = define<{ who: string; minutes: number }>({ ...words, code: "a-meal", sentence: (f) => `${f.who} waits` });
const dish = define<{ activity: string; path: string; at: { at: ReturnType<typeof instant> } }>({
  ...words,
  code: "a-dish",
  sentence: (f) => `${f.activity} has no ${f.path}`,
});
const shown = (findings: Parameters<typeof joinAlike>[0]) =>
  joinAlike(findings).map(({ code, facts, also }) => [code, facts["who"] ?? facts["activity"], also ?? []]);

it("joins people with the same figures, and parts those with others", () => {
  const of = (who: string, minutes: number) => meal.raise({ who, minutes }, { who });
  expect(shown([of("ana", 20), of("bo", 20), of("cy", 25), of("di", 20)])).toEqual([
    ["a-meal", "ana", ["bo", "di"]],
    ["a-meal", "cy", []],
  ]);
});

it("joins seven hourly hits on one path, whose times differ, and parts another path", () => {
  const of = (n: number, path: string) =>
    dish.raise({ activity: `web.${n}`, path, at: { at: instant(60 * n) } }, { at: instant(60 * n) });
  const hourly = [1, 2, 3, 4, 5, 6, 7].map((n) => of(n, "dish"));
  expect(shown([...hourly, of(8, "cell")])).toEqual([
    ["a-dish", "web.1", ["web.2", "web.3", "web.4", "web.5", "web.6", "web.7"]],
    ["a-dish", "web.8", []],
  ]);
});

it("joins meals whose times differ by half an hour at most, each with the first of them", () => {
  const late = define<{
    who: string;
    to: { at: ReturnType<typeof instant> };
    wait: { at: ReturnType<typeof instant> } | null;
  }>({
    ...words,
    code: "meal-late",
    sentence: (f) => `${f.who} works until ${f.to.at}`,
  });
  const of = (who: string, to: number, wait: number | null) =>
    late.raise({ who, to: { at: instant(to) }, wait: wait === null ? null : { at: instant(wait) } }, { who });
  // Cy is half an hour after ana, di a minute more; eve has no wait, and fay is within half an hour of di.
  const all = [
    of("ana", 600, 300),
    of("bo", 597, 305),
    of("cy", 630, 300),
    of("di", 631, 300),
    of("eve", 600, null),
    of("fay", 640, 300),
  ];
  expect(shown(all)).toEqual([
    ["meal-late", "ana", ["bo", "cy"]],
    ["meal-late", "di", ["fay"]],
    ["meal-late", "eve", []],
  ]);
});

it("joins waits at several places, each of its own length, and keeps apart a second one at the same place", () => {
  const wait = define<{ place: string; minutes: number; allowed: number }>({
    ...words,
    code: "a-wait",
    sentence: (f) => `${f.minutes} min at ${f.place}`,
  });
  const of = (place: string, minutes: number) => wait.raise({ place, minutes, allowed: 30 });
  const joined = joinAlike([of("pier", 45), of("dock", 40), of("pier", 35)]);
  expect(joined.map(({ facts, also }) => [facts["place"], facts["minutes"], also ?? []])).toEqual([
    ["pier", 45, ["dock"]],
    ["pier", 35, []],
  ]);
});
