/** "Did you mean": every key of the format is found again after each kind of slip of the fingers. */
import { describe, expect, test } from "vitest";
import { editDistance, nearest } from "../../src/findings/nearest.ts";
import { entryForms, planForm } from "../../src/plan/read/sections.ts";

// Optimal string alignment distance; the examples are those of the literature (Levenshtein 1966; Damerau 1964 for the swap).
test.each([
  ["kitten", "sitting", 3],
  ["ca", "abc", 3],
  ["form", "from", 1],
  ["", "abc", 3],
  ["same", "same", 0],
])("%s to %s", (a, b, distance) => {
  expect(editDistance(a, b)).toBe(distance);
  expect(editDistance(b, a)).toBe(distance);
});

/** A letter left out, doubled, replaced, two swapped, and the wrong case. */
const slips = (word: string): readonly string[] =>
  [...word].flatMap((letter, at) => [
    word.slice(0, at) + word.slice(at + 1),
    word.slice(0, at) + letter + word.slice(at),
    `${word.slice(0, at)}q${word.slice(at + 1)}`,
    word.slice(0, at) + word.slice(at + 1, at + 2) + letter + word.slice(at + 2),
    word.slice(0, at) + letter.toUpperCase() + word.slice(at + 1),
  ]);

const groups = [
  ["the plan", planForm.keys] as const,
  ...Object.entries(entryForms).map(([name, { keys }]) => [name, keys] as const),
];

describe.each(groups)("the keys of %s", (_, keys: readonly string[]) => {
  test("are found again", () => {
    for (const key of keys.filter((one) => one.length > 2)) {
      for (const slip of slips(key).filter((one) => !keys.includes(one))) {
        const found = nearest(slip, keys);
        // Another key may be as near; none may be nearer, and there must be one.
        expect([slip, found]).toEqual([slip, expect.any(String)]);
        expect(editDistance(slip.toLowerCase(), (found ?? "").toLowerCase())).toBeLessThanOrEqual(1);
      }
    }
  });
});

test("nothing is offered where nothing is near", () => {
  expect(nearest("xylophone", ["at", "for", "place"])).toBeNull();
  expect(nearest("", ["at"])).toBeNull();
  expect(nearest("x".repeat(200), ["at"])).toBeNull();
});

test("a beginning counts as near", () => {
  expect(nearest("loc", ["location", "at"])).toBe("location");
  expect(nearest("placename", ["at", "place"])).toBe("place");
});
