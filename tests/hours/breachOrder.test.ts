/** The order in which what somebody breaks is listed. */
import { expect, it } from "vitest";
import { breachesOf } from "../../src/hours/index.ts";
import { at } from "../day/make.ts";

it("is by time, then by rule set and limit", () => {
  const one = (name: string, clock: string) => ({ name, from: at(clock) });
  const verdicts = [
    { breaches: [one("b", "08:00"), one("d", "09:00"), one("e", "09:00")] },
    { breaches: [one("a", "07:00"), one("c", "08:00"), one("f", "10:00")] },
  ];
  expect(breachesOf({ verdicts }).map(({ name }) => name)).toEqual(["a", "b", "c", "d", "e", "f"]);
});
