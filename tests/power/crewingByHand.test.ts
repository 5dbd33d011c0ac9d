/** Who does the chores of a rotation: of those who can, the one who loses least; what stands in the way where no one can. By hand. */
import { describe, expect, it } from "vitest";
import { crewMoves } from "../../src/power/day/crewing.ts";
import type { Rests } from "../../src/power/day/rests.ts";
import type { Hand, HandMoment } from "../../src/power/day/touches.ts";
import type { PackMove } from "../../src/power/model.ts";
import { type Interval, instant } from "../../src/time/units.ts";

describe("who does a chore", () => {
  const hand = (who: string, from: number, to: number, doing = "wait"): Hand => ({
    ...{ who, doing, from: instant(from), to: instant(to) },
  });
  const moment = (id: string, at: number, hands: readonly Hand[]): HandMoment => ({
    ...{ id, at: instant(at), reach: ["van"], where: "lodge", hands },
  });
  const move = (touch: string, pack: string): PackMove => ({ touch, pack, from: "van", to: "lamp" });
  /** Rests as stated; a chore parts one in two, and what lies after it is kept; a chore at its ends joins the duty. */
  const rests = (all: Readonly<Record<string, Interval>> = {}, needed = 0): Rests => ({
    restAt: (who, { from, to }) => {
      const rest = all[who];
      return rest !== undefined && from < rest.to && rest.from < to ? rest : null;
    },
    kept: (rest, chores) => rest.to - Math.max(rest.from, ...chores.map(({ to }) => to)),
    needed: () => needed,
    neededByLaw: () => needed,
    joins: (rest, chore) => chore.from <= rest.from || chore.to >= rest.to,
  });
  const rest = (from: number, to: number): Interval => ({ from: instant(from), to: instant(to) });
  const crew = (
    touches: readonly HandMoment[],
    moves: readonly PackMove[],
    own = rests(),
    may: readonly string[] | null = null,
  ) => crewMoves({ touches, rests: own, swapMinutes: 2, mayAll: (who) => may?.includes(who) ?? true }, moves);
  const named = (...words: Parameters<typeof crew>) => {
    const crewing = crew(...words);
    return crewing.kind === "refused"
      ? crewing.touches
      : crewing.chores.map(({ touch, begins, ends, who }) => `${touch} ${begins}-${ends} ${who.join("+")}`);
  };

  it("is who waits, before one with gear in hand, before one whose rest it costs", () => {
    const all = [hand("nia", 0, 500, "night"), hand("ole", 0, 500, "strike"), hand("pia", 0, 500)];
    const asleep = rests({ nia: rest(0, 600) });
    expect(named([moment("a", 100, all)], [move("a", "p")], asleep)).toEqual(["a 98-100 pia"]);
    expect(named([moment("a", 100, all.slice(0, 2))], [move("a", "p")], asleep)).toEqual(["a 98-100 ole"]);
    expect(named([moment("a", 100, all.slice(0, 1))], [move("a", "p")], asleep)).toEqual(["a 98-100 nia"]);
  });

  it("is, of those off duty, one whose chore joins the duty, then one who keeps more of the rest", () => {
    const all = [hand("nia", 0, 500, "evening"), hand("ole", 0, 500, "evening")];
    // Ole's rest begins with the chore; nia's would be parted. Then both are parted, and nia loses 100 minutes of hers, ole 70.
    expect(named([moment("a", 100, all)], [move("a", "p")], rests({ nia: rest(0, 600), ole: rest(98, 1500) }))).toEqual(
      ["a 98-100 ole"],
    );
    expect(named([moment("a", 100, all)], [move("a", "p")], rests({ nia: rest(0, 600), ole: rest(30, 700) }))).toEqual([
      "a 98-100 ole",
    ]);
    expect(named([moment("a", 100, all)], [move("a", "p")], rests({ nia: rest(30, 600), ole: rest(0, 700) }))).toEqual([
      "a 98-100 nia",
    ]);
  });

  it("is one with time for all moves, before one who is there too short", () => {
    // Three moves take six minutes: until 100 where there is time, else after it.
    const moves = ["p", "q", "r"].map((pack) => move("a", pack));
    expect(named([moment("a", 100, [hand("nia", 96, 101), hand("ole", 96, 102)])], moves)).toEqual(["a 96-102 ole"]);
    expect(named([moment("a", 100, [hand("nia", 96, 101), hand("ole", 94, 100, "strike")])], moves)).toEqual([
      "a 94-100 ole",
    ]);
    expect(named([moment("a", 100, [hand("nia", 96, 101)])], moves)).toEqual(["a 96-101 nia"]);
  });

  it("is not one person at two places at once", () => {
    const both = [
      moment("a", 100, [hand("nia", 0, 500)]),
      moment("b", 101, [hand("nia", 0, 500), hand("ole", 0, 500, "strike")]),
    ];
    expect(named(both, [move("a", "p"), move("b", "q")])).toEqual(["a 98-100 nia", "b 99-101 ole"]);
    const after = [
      moment("a", 100, [hand("nia", 0, 500)]),
      moment("b", 102, [hand("nia", 0, 500), hand("ole", 0, 500, "strike")]),
    ];
    expect(named(after, [move("a", "p"), move("b", "q")])).toEqual(["a 98-100 nia", "b 100-102 nia"]);
    // Nia alone may do b: so ole, who is less welcome, does a.
    const tight = [
      moment("a", 100, [hand("nia", 0, 500), hand("ole", 0, 500, "strike")]),
      moment("b", 101, [hand("nia", 0, 500)]),
    ];
    expect(named(tight, [move("a", "p"), move("b", "q")])).toEqual(["a 98-100 ole", "b 99-101 nia"]);
  });

  it("is all who are there together where no one may touch everything, as long as all of them are", () => {
    const all = [hand("nia", 97, 300), hand("ole", 0, 500)];
    expect(named([moment("a", 100, all)], [move("a", "p"), move("a", "q")], rests(), [])).toEqual(["a 97-100 nia+ole"]);
    expect(named([moment("a", 100, all)], [move("a", "p")], rests(), ["ole"])).toEqual(["a 98-100 ole"]);
  });

  it("leaves the rest that binds whole, with all chores that lie in it; else the touches in the way are named", () => {
    // Nia rests from 0 to 600 and needs 500 of it before her call at 600: a chore may end at 100, not later.
    const nia = [hand("nia", 0, 600, "night")];
    const bound = rests({ nia: rest(0, 600) }, 500);
    expect(named([moment("a", 100, nia)], [move("a", "p")], bound)).toEqual(["a 98-100 nia"]);
    expect(named([moment("a", 101, nia)], [move("a", "p")], bound)).toEqual(["a"]);
    expect(named([moment("a", 50, nia), moment("b", 101, nia)], [move("a", "p"), move("b", "q")], bound)).toEqual([
      "b",
      "a",
    ]);
    // A touch without moves is no one's, and moves that no touch has are no one's either.
    expect(named([moment("a", 50, nia), moment("b", 101, nia)], [move("a", "p")], bound)).toEqual(["a 48-50 nia"]);
  });

  it("names, besides the touch that fails, chores of the same person within half an hour of it", () => {
    const nia = [hand("nia", 0, 600)];
    const late = (at: number) => [moment("a", at, nia), moment("b", 100, [hand("nia", 98, 101)])];
    // At 100 she is still at a, which ends at 101.
    const together = [moment("a", 99, nia), moment("b", 100, nia)];
    expect(named(together, [move("a", "p"), move("b", "q")])).toEqual(["b", "a"]);
    expect(named(late(98), [move("a", "p"), move("b", "q")])).toEqual(["a 96-98 nia", "b 98-100 nia"]);
  });
});
