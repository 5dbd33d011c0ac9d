/** Lists: by hand. */
import { expect, it } from "vitest";
import { groupBy, leastOf, mostOf, sumOf } from "../src/lists.ts";

it("groups keep the order of the list, and each has a first", () => {
  const groups = groupBy(["pier", "cove", "point", "dock"], (word) => word[0]);
  expect([...groups]).toEqual([
    ["p", ["pier", "point"]],
    ["c", ["cove"]],
    ["d", ["dock"]],
  ]);
});

it("nothing has no least and no most, and sums to 0", () => {
  expect([leastOf([]), mostOf([]), sumOf<number>([], (one) => one)]).toEqual([null, null, 0]);
  expect([leastOf([3, -1, 2]), mostOf([3, -1, 2]), sumOf([3, -1, 2], (one) => one * 2)]).toEqual([-1, 3, 8]);
});
