/** A network in which lengths, orders and bounds gave way to what stands. */
import { describe, expect, it } from "vitest";
import { AS_PLANNED, type Fit, pinDown, wentOtherwise } from "../../src/day/facts/fit.ts";
import { NO_PINS, type Pins } from "../../src/day/facts/pins.ts";
import { AS_IT_WENT, type Network, ORIGIN } from "../../src/day/network/network.ts";
import { label } from "../../src/day/network/nodes.ts";
import { built, edge, pinsAt, rule } from "./fitParts.ts";
import { at, text } from "./make.ts";

describe("a network with what stands", () => {
  /** dawn.start and feed.start, exactly 30 min apart, with feed after dawn; what `pinDown` makes of the edges. */
  const pinned = (pins: Pins, fit: Partial<Fit>, add: (network: Network) => void) => {
    const build = built("dawn.start", "dawn.end", "dawn.clear", "feed.start", "feed.end", "wagon.1.leave");
    add(build.network);
    pinDown(build, pins, fit === AS_PLANNED ? AS_PLANNED : { ...AS_PLANNED, ...fit });
    return build.network.edges.map((one) =>
      `${build.network.names[one.from]}>${build.network.names[one.to]} ${Math.abs(one.weight) > 10_000 ? text(at(Math.abs(one.weight) - at(0))) : one.weight} ${one.label?.name ?? ""}`.trim(),
    );
  };

  it("has a length that was shorter in both directions, and no upper end of one that was longer", () => {
    const exact = (network: Network) => network.exactly(1, 2, 3, label("hit"));
    expect(pinned(NO_PINS, AS_PLANNED, exact)).toEqual(["dawn.start>dawn.end 3 hit", "dawn.end>dawn.start -3 hit"]);
    expect(pinned(NO_PINS, { shorter: new Map([["dawn.start>dawn.end", 2]]) }, exact)).toEqual([
      ...["dawn.start>dawn.end 2 hit", "dawn.end>dawn.start -2 hit"],
    ]);
    expect(pinned(NO_PINS, { longer: new Set(["dawn.start>dawn.end"]) }, exact)).toEqual(["dawn.start>dawn.end 3 hit"]);
  });

  it("has no order that was dropped, or the other one", () => {
    const ordered = (network: Network) => network.atLeast(3, 4, 5, null, rule("do"));
    const dropped = new Map([["do dawn feed", rule("do")]]);
    expect(pinned(NO_PINS, {}, ordered)).toEqual(["dawn.clear>feed.start 5"]);
    expect(pinned(NO_PINS, { dropped }, ordered)).toEqual([]);
    // feed, which has no clear, ends before dawn, which has no line check, begins.
    expect(pinned(NO_PINS, { dropped, turned: new Set(["dawn feed"]) }, ordered)).toEqual(["feed.end>dawn.start 5"]);
  });

  it("follows the end of a hit in place of its clear where that is eased", () => {
    const eased = new Set(["dawn.clear>wagon.1.leave"]);
    expect(pinned(NO_PINS, { eased }, (network) => network.exactly(3, 6, 5, label("loading")))).toEqual([
      ...["dawn.end>wagon.1.leave 5 loading", "wagon.1.leave>dawn.end -5 loading"],
    ]);
  });

  it("keeps a bound that an instant which stands fulfils", () => {
    const bound = (network: Network) => {
      network.notBefore(1, at("07:00"), label("window"));
      network.notAfter(1, at("08:00"), label("window"), "window");
    };
    const went = (clock: string) =>
      pinned(pinsAt({ "dawn.start": at(clock) }), {}, bound).filter((one) => one.endsWith("window"));
    const both = ["origin>dawn.start 07:00 window", "dawn.start>origin 08:00 window"];
    expect([went("07:00"), went("08:00"), went("06:59"), went("08:01")]).toEqual([
      both,
      both,
      both.slice(1),
      both.slice(0, 1),
    ]);
    const unbound = new Map([["origin>dawn.start window", edge(ORIGIN, 1, at("07:00"))]]);
    expect(pinned(NO_PINS, { unbound }, bound)).toEqual(both.slice(1));
  });

  it("has nothing that is not pinned before now, nor a vehicle that stands leave before then", () => {
    const none = () => undefined;
    const standing = new Map([
      ["wagon.1", at("08:00")],
      ["wagon.9", at("08:00")],
    ]);
    expect(pinned({ ...NO_PINS, standing }, {}, none)).toEqual(["origin>wagon.1.leave 08:00 wagon.1 leaving"]);
    const left = { ...pinsAt({ "wagon.1.leave": at("07:10") }), standing };
    const fixed = [`origin>wagon.1.leave 07:10 ${AS_IT_WENT}`, `wagon.1.leave>origin 07:10 ${AS_IT_WENT}`];
    expect(pinned(left, {}, none)).toEqual(fixed);
    const now = pinned({ ...pinsAt({ "wagon.1.leave": at("07:10") }), now: at("07:30") }, {}, none);
    expect(now).toEqual([
      ...fixed,
      ...["dawn.start", "dawn.end", "dawn.clear", "feed.start", "feed.end"].map((name) => `origin>${name} 07:30 now`),
    ]);
  });
});

describe("a stretch that went otherwise", () => {
  it("was shorter or longer, or lies where there was less time than planned", () => {
    const stretch = { from: at("07:10"), to: at("07:20") };
    const went = (fit: Partial<Fit>) => wentOtherwise({ ...AS_PLANNED, ...fit }, stretch, ["a", "b"]);
    expect(went({})).toBe(false);
    expect([went({ shorter: new Map([["a>b", 0]]) }), went({ shorter: new Map([["b>a", 0]]) })]).toEqual([true, false]);
    expect([went({ longer: new Set(["a>b"]) }), went({ longer: new Set(["a>c"]) })]).toEqual([true, false]);
    const hurried = (from: string, to: string) => went({ hurried: [{ from: at(from), to: at(to) }] });
    expect([
      hurried("07:10", "07:20"),
      hurried("07:11", "07:20"),
      hurried("07:10", "07:19"),
      hurried("07:00", "08:00"),
    ]).toEqual([true, false, false, true]);
  });
});
