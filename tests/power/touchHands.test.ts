/** Whose stretch a moment for hands counts with: who minds it least, of those who mind it equally who has longest; by hand. */
import { expect, it } from "vitest";
import { modelTouch } from "../../src/power/day/build.ts";
import type { Rests } from "../../src/power/day/rests.ts";
import type { Hand } from "../../src/power/day/touches.ts";
import { instant } from "../../src/time/units.ts";

/** No one is at rest but `mae`, who is off from 0 to 1,000. */
const RESTS: Rests = {
  restAt: (who) => (who === "mae" ? { from: instant(0), to: instant(1000) } : null),
  kept: (rest, chores) => rest.to - Math.max(rest.from, ...chores.map(({ to }) => to)),
  needed: () => 0,
  neededByLaw: () => 0,
  joins: () => true,
};

const hand = (who: string, from: number, to: number, doing = "wait"): Hand => ({
  ...{ who, from: instant(from), to: instant(to), doing },
});

/** The touch at minute 1,095, for swaps of 3 minutes. */
const touch = (...hands: readonly Hand[]) =>
  modelTouch(RESTS, { id: "t", at: instant(1095), reach: ["wagon"], where: "pier", hands }, 3);

it("of two who wait it is the longer stretch, whoever is first and whenever it begins", () => {
  const [short, long] = [hand("ilse", 1000, 1100), hand("wren", 1090, 1300)];
  for (const both of [
    [short, long],
    [long, short],
  ])
    expect(touch(...both)).toEqual({
      ...{ id: "t", at: 1095, reach: ["wagon"], burden: 0 },
      free: { from: 1090, to: 1300 },
    });
});

it("is one who waits before one with gear in hand, and that before one at rest, however long", () => {
  const [waits, strikes, rests] = [hand("ilse", 1090, 1100), hand("wren", 1000, 1400, "strike"), hand("mae", 0, 2000)];
  expect(touch(rests, strikes, waits)).toMatchObject({ free: { from: 1090, to: 1100 }, burden: 0 });
  expect(touch(rests, strikes)).toMatchObject({ free: { from: 1000, to: 1400 }, burden: 1 });
  const { burden = 0 } = touch(rests);
  expect(burden).toBeGreaterThanOrEqual(2);
  expect(touch()).toEqual({ id: "t", at: 1095, reach: ["wagon"] });
});
