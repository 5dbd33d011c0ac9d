/** Random days that once contradicted a law, by their seeds; what broke it is mended, and they are held to every law again. */
import { expect, it } from "vitest";
import { solved } from "./days.ts";
import { LAWS } from "./laws.ts";
import { randomPlan, unlistedPlan } from "./randomPlan.ts";

it.each([
  [84_646, "a vehicle whose hit a late one made impossible left anew"],
  [202_094, "a drive that the log moved into snow lost the hit after it"],
  [
    302_929,
    "two early arrivals together lost the hit before them, since a hit that was then missed had made its drive longer",
  ],
  [6063, "the drive to a missed hit, logged as planned, was counted without it, and let the hit in"],
  [819_814, "an arrival so early that its vehicle had not left as planned lost a hit once another vehicle was early"],
  [808_958, "the departure that goes with a logged arrival lost a hit that another vehicle left sooner"],
  [1_402_330, "a late hit made the icy drives before it lead to a firm one, and one of them took no time"],
  [1_302_431, "a hit lost to a late task let go of the desk later, and work that had begun after it moved"],
  [215_241, "an arrival logged as planned lost a hit once another vehicle was early"],
])("seed %i: %s", async (seed) => {
  const entries = randomPlan(seed);
  const one = await solved(entries);
  if (one === null) expect.fail("the plan is refused");
  for (const { check } of LAWS) await check({ ...one, entries, seed, on: (date) => randomPlan(seed, date) });
});

it.each([
  [546, "a hit that went out after the time of one at the next stop, for the same people, left no day"],
  [1_601_289, "a vehicle that stood until after a hit it then lost was said to have left long before"],
  [1_601_346, "two vehicles that stood until a late arrival were said to have left before it"],
  [750, "somebody who comes with one vehicle and leaves with the other was called for a strike before they had come"],
  [1_700_056, "somebody who went on with another vehicle was still setting up where they had been"],
])("seed %i of plans that leave out what their stops do: %s", async (seed) => {
  const entries = unlistedPlan(seed);
  const one = await solved(entries);
  if (one === null) expect.fail("the plan is refused");
  for (const { check } of LAWS) await check({ ...one, entries, seed, on: (date) => unlistedPlan(seed, date) });
});
