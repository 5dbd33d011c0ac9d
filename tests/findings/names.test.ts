/** Names in a sentence, numbered ones in a row as the first to the last; and what law a finding rests on, named once. */
import { expect, it } from "vitest";
import { figureText } from "../../src/findings/figures.ts";
import { names, namesAndCount } from "../../src/findings/finding.ts";
import { sourceLabel } from "../../src/reports/shared/findingView.ts";

const say = { name: (id: string) => id };
const row = (stem: string, from: number, to: number) =>
  Array.from({ length: to - from + 1 }, (_, n) => `${stem}.${from + n}`);

it.each([
  [["dawn", "noon"], "dawn, noon"],
  [row("dawn", 1, 3), "dawn.1, dawn.2, dawn.3"],
  [row("dawn", 1, 4), "dawn.1 to dawn.4"],
  [row("dawn", 8, 12), "dawn.8 to dawn.12"],
  [[...row("dawn", 1, 4), "noon", ...row("late", 2, 5)], "dawn.1 to dawn.4, noon, late.2 to late.5"],
  [["dawn.1", "dawn.2", "dawn.4", "dawn.5"], "dawn.1, dawn.2, dawn.4, dawn.5"],
  [["a.1", "b.2", "a.3", "b.4"], "a.1, b.2, a.3, b.4"],
  [["a.01", "a.02", "a.03", "a.04"], "a.01, a.02, a.03, a.04"],
])("%j", (ids, text) => {
  expect(names(ids, say)).toBe(text);
});

it("a whole crew of nine or more is a number; of eight, or without one of them, it is names", () => {
  const crew = (size: number) => Array.from({ length: size }, (_, n) => `p${"abcdefghijkl"[n]}`);
  const whole = (size: number) => ({ ...say, isWholeCrew: (ids: readonly string[]) => ids.length === size });
  expect(names(crew(9), whole(9))).toBe("all 9 people");
  expect(namesAndCount(crew(9), whole(9))).toBe("all 9 people");
  expect(names(crew(8), whole(8))).toBe("pa, pb, pc, pd, pe, pf, pg, ph");
  expect(names(crew(9), whole(10))).toBe("pa, pb, pc, pd, pe, pf, pg, ph, pi");
  expect(namesAndCount(crew(2), whole(2))).toBe("pa, pb (2)");
});

it.each([
  ["Regulation (EC) 561/2006", "Reg 561/2006 Art 7", "Reg 561/2006 Art 7"],
  ["Directive 2003/88/EC", "Dir 2003/88/EC Art 3", "Dir 2003/88/EC Art 3"],
  ["49 CFR Part 395", "49 CFR 395.3(a)(2)", "49 CFR 395.3(a)(2)"],
  ["SOR/2005-313", "SOR/2005-313 s.14(1)", "SOR/2005-313 s.14(1)"],
  // 390.5T is in another part.
  ["49 CFR Part 395", "49 CFR 390.5T", "49 CFR Part 395, 49 CFR 390.5T"],
  ["49 CFR 175.10", "(a)(18)", "49 CFR 175.10, (a)(18)"],
  ["the house's book", "4", "the house's book, 4"],
  ["house rules", null, "house rules"],
])("%s, %s", (title, clause, label) => {
  expect(sourceLabel({ title, clause })).toBe(label);
});

it("a figure below zero has a real minus sign, zero has none", () => {
  expect([-14, -0.04, 0, 7.5, -2.46].map((value) => figureText(value, 1))).toEqual([
    "−14.0",
    "0.0",
    "0.0",
    "7.5",
    "−2.5",
  ]);
});
