/** The moments at which packs can change place, on small days: how many there are in a wait, whose, and in whose reach. By hand. */
import { describe, expect, it } from "vitest";
import { surroundingsOf } from "../../src/power/day/surroundings.ts";
import { type HandBay, isGearInHand, touchesOf } from "../../src/power/day/touches.ts";
import { at, dayOf, text } from "../day/make.ts";

const WAGON: HandBay = { id: "wagon", within: "wagon", hands: null };

/** Wren and ilse at the pier for dawn, 08:00 to 08:05; the next hit there has them in position 10 min before it. */
function moments(second: string, bays: readonly HandBay[] = [WAGON], who: readonly string[] = ["wren", "ilse"]) {
  const hits = {
    next: { at: at(second), forMinutes: 5, who },
    dawn: { at: at("08:00"), forMinutes: 5, who },
  };
  const day = dayOf({
    crew: { wren: { drives: ["wagon"] }, ilse: {} },
    roads: { "home pier": [30, 40] },
    hits,
    runs: { wagon: { driver: "wren", stops: ["home", { place: "pier", do: ["dawn", "next"] }, "home"] } },
  });
  return touchesOf(surroundingsOf(day), bays);
}
const between = (second: string, bays?: readonly HandBay[]) =>
  moments(second, bays)
    .filter(({ at: when }) => when > at("08:05") && when <= at(second))
    .map(({ at: when }) => text(when));

describe("moments in a wait", () => {
  it("are one after the 2 min of a swap, then one in each hour, and one at its end", () => {
    // From 08:05 to 13:50. 13:07 is less than an hour before the end, which has its own.
    expect(between("14:00")).toEqual(["08:07", "09:07", "10:07", "11:07", "12:07", "13:50"]);
    // Until 13:07 an hour fits after 12:07, until 13:06 it does not.
    expect(between("13:17")).toEqual(["08:07", "09:07", "10:07", "11:07", "12:07", "13:07"]);
    expect(between("13:16")).toEqual(["08:07", "09:07", "10:07", "11:07", "13:06"]);
  });

  it("are both ends from 20 min on, one in a shorter one, and none where a swap does not fit", () => {
    expect(between("08:35")).toEqual(["08:07", "08:25"]);
    expect(between("08:34")).toEqual(["08:07"]);
    expect(between("08:17")).toEqual(["08:07"]);
    expect(between("08:16")).toEqual([]);
  });

  it("are none from the line check until the desk has let go", () => {
    // Dawn: line check 07:40, in position 07:50. After the last hit, 14:00 to 14:05, 10 min of clear.
    const all = moments("14:00").map(({ at: when }) => Number(when));
    expect(all.filter((when) => when > at("07:40") && when < at("08:07"))).toEqual([]);
    expect(all.filter((when) => when > at("13:50") && when < at("14:17"))).toEqual([]);
  });

  it("are none then of one who only stands by: between the two hits as many as anyone's", () => {
    const hers = moments("14:00", [WAGON], ["wren"]).filter(({ hands }) => hands.some(({ who }) => who === "ilse"));
    const minutes = hers.map(({ at: when }) => Number(when));
    expect(
      minutes.filter((when) => when > at("07:40") && when < at("14:35")).map((when) => when - at("08:07")),
    ).toEqual([0, 60, 120, 180, 240, 13 * 60 + 50 - (8 * 60 + 7)]);
  });
});

describe("moments with gear in hand", () => {
  it("are at the end of loading, set-up and strike", () => {
    expect(["loading", "set-up", "strike", "unload", "wait", "drive"].map(isGearInHand)).toEqual([
      ...[true, true, true, true, false, false],
    ]);
    // Up to 14:05, clear to 14:15, strike to 14:35. Set-up until the line check at 07:40.
    const all = moments("14:00").map(({ at: when }) => text(when));
    expect(all).toContain("14:35");
    expect(all).toContain("07:40");
    expect(all.filter((when) => when !== null && when > "14:15" && when < "14:35")).toEqual([]);
  });
});

describe("who and what", () => {
  it("all who wait there, in the order of the crew, each from when to when", () => {
    const [first] = moments("14:00").filter(({ at: when }) => when === at("08:07"));
    expect(first?.where).toBe("pier");
    expect(first?.hands.map(({ who, doing, from, to }) => [who, doing, text(from), text(to)])).toEqual([
      ["wren", "wait", "08:05", "13:50"],
      ["ilse", "wait", "08:05", "13:50"],
    ]);
  });

  it("reach the bays that are there and that they may touch, and are named in time order", () => {
    const own: HandBay = { id: "case", within: "wagon", hands: ["ilse"] };
    const away: HandBay = { id: "home", within: "home", hands: null };
    const others: HandBay = { id: "locked", within: "wagon", hands: ["bea"] };
    const here: HandBay = { id: "pier", within: "pier", hands: null };
    const all = moments("14:00", [WAGON, own, away, others, here]);
    const one = all.find(({ at: when }) => when === at("10:07"));
    expect(one?.reach).toEqual(["wagon", "case", "pier"]);
    expect(one?.hands.map(({ who }) => who)).toEqual(["wren", "ilse"]);
    expect(all.map(({ id }) => id)).toEqual(all.map((_, n) => `touch.${n + 1}`));
    expect(all.map(({ at: when }) => when)).toEqual(all.map(({ at: when }) => when).toSorted((a, b) => a - b));
    // Of what only ilse may touch: she alone.
    const hers = moments("14:00", [own]).find(({ at: when }) => when === at("10:07"));
    expect(hers?.hands.map(({ who }) => who)).toEqual(["ilse"]);
    expect(moments("14:00", [others])).toEqual([]);
  });
});

describe("moments on the road", () => {
  it("are of those who ride and not of who drives", () => {
    // 14:35 to 15:05: 30 min of road.
    const road = moments("14:00").filter(({ at: when }) => when > at("14:35") && when <= at("15:05"));
    expect(road.map(({ at: when, where, hands }) => [text(when), where, hands.map(({ who }) => who)])).toEqual([
      ["14:37", "wagon", ["ilse"]],
      ["15:05", "wagon", ["ilse"]],
    ]);
  });
});
