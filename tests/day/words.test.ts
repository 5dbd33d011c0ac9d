/** What the day says, at the facts at which the words change. */
import { describe, expect, it } from "vitest";
import * as basics from "../../src/day/findings/findings.ts";
import * as bookings from "../../src/day/findings/findingsBookings.ts";
import * as logs from "../../src/day/findings/findingsFacts.ts";
import * as idle from "../../src/day/findings/findingsIdle.ts";
import * as missed from "../../src/day/findings/findingsMissed.ts";
import * as orders from "../../src/day/findings/findingsOrder.ts";
import { vehicleOutOfService } from "../../src/day/findings/findingsOutage.ts";
import type { Facts, Finding } from "../../src/findings/finding.ts";
import { plainWording } from "../../src/reports/shared/wording.ts";
import { at } from "./make.ts";

const sentence = <F extends Facts>(definition: { raise(facts: F): Finding }, facts: F) =>
  definition.raise(facts).sentence(plainWording);
const hint = <F extends Facts>(definition: { raise(facts: F): Finding }, facts: F) =>
  definition.raise(facts).hint(plainWording);

describe("who drives and who rides", () => {
  it("nobody aboard: the driver is named if only one may drive, the stops if they say no more than their place", () => {
    const facts = { vehicle: "truck", may: ["tomas"], stops: ["lodge", "pier"], bare: true };
    expect(hint(basics.aboardMissing, facts)).toBe(
      "write `truck: { driver: tomas, aboard: [tomas], stops: [lodge, pier] }`, with all who ride",
    );
    expect(hint(basics.aboardMissing, { ...facts, may: [] })).toBe(
      "write `truck: { driver: …, aboard: […], stops: [lodge, pier] }`",
    );
    expect(hint(basics.aboardMissing, { ...facts, may: ["tomas", "bea"], bare: false })).toBe(
      "write `truck: { driver: …, aboard: […], stops: […] }`, the stops as they are; tomas, bea may drive it",
    );
  });

  it("no driver, or more than one", () => {
    const facts = { vehicle: "wagon", leg: "wagon.1", may: [] };
    expect([sentence(basics.driverMissing, facts), hint(basics.driverMissing, facts)]).toEqual([
      ...["no one aboard wagon may drive it", "add `drives: [wagon]` to one of the people aboard"],
    ]);
    expect(hint(basics.driverMissing, { ...facts, may: ["wren", "ilse"] })).toBe("write `driver: wren`");
  });

  it("a driver asleep: another one who is awake, or not asleep", () => {
    const facts = { who: "wren", leg: "wagon.2", awake: [], others: ["joe"] };
    expect(hint(basics.driverAsleep, facts)).toBe("write `asleep: [joe]`");
    expect(hint(basics.driverAsleep, { ...facts, awake: ["ilse"] })).toBe(
      "write `driver: ilse` at wagon.2, or `asleep: [joe]`",
    );
  });

  it("two vehicles at once, to one place or from one, for something or not, at the wheel or not", () => {
    const facts = {
      who: "ilse",
      first: "wagon",
      second: "truck",
      from: null,
      to: "pier",
      activity: null,
      drives: false,
    };
    expect(sentence(orders.twoVehiclesAtOnce, facts)).toBe(
      "ilse is in two vehicles at once: wagon and truck, both to pier",
    );
    expect(sentence(orders.twoVehiclesAtOnce, { ...facts, from: "lodge", activity: "dawn" })).toBe(
      "ilse is in two vehicles at once: wagon and truck, both from lodge to pier for dawn",
    );
    const after = "; or write `after: […]` on the stop that is left later, to ride one after the other";
    expect(hint(orders.twoVehiclesAtOnce, facts)).toBe(`take \`ilse\` out of \`aboard\` of one of the two${after}`);
    expect(hint(orders.twoVehiclesAtOnce, { ...facts, activity: "dawn", drives: true })).toBe(
      "name another driver for `truck`",
    );
  });

  it("logged at one wheel and planned elsewhere", () => {
    const facts = { who: "tomas", stop: "wagon.1", vehicle: "wagon", leg: "truck.1", planned: "truck", drives: true };
    const logged = "tomas is logged at the wheel of wagon from wagon.1";
    const said = (more: Partial<typeof facts> | { leg: null } | { planned: null }) => {
      const own = { ...facts, ...more };
      return [sentence(orders.driverElsewhere, own), hint(orders.driverElsewhere, own)];
    };
    expect(said({})).toEqual([`${logged}, but is to drive truck from truck.1`, "log who drove `truck.1`"]);
    expect(said({ drives: false })).toEqual([
      ...[`${logged}, but is to ride in truck from truck.1`, "take `tomas` out of `aboard` of `truck`"],
    ]);
    const lost = `${logged}, and the plan does not say how tomas goes on from there`;
    expect(said({ leg: null })).toEqual([lost, "write `tomas` into `aboard` of the stops after `wagon.1`"]);
    expect(said({ planned: null })[0]).toBe(lost);
  });

  it("rides in more than one order, or from more than one bed", () => {
    const facts = { who: "bea", beds: ["lodge"] };
    expect([sentence(orders.rideOrderOpen, facts), hint(orders.rideOrderOpen, facts)]).toEqual([
      ...[
        "bea's rides can follow each other in more than one order",
        "write `after: […]` on the stop that is left later",
      ],
    ]);
    const two = { who: "bea", beds: ["lodge", "inn"] };
    expect([sentence(orders.rideOrderOpen, two), hint(orders.rideOrderOpen, two)]).toEqual([
      "bea's rides could begin at lodge, inn; the plan does not say where bea slept",
      "write `slept: lodge` or `slept: inn` on `bea`",
    ]);
  });
});

describe("orders and places", () => {
  it("an order that the file decided names what to write, or what to give up", () => {
    const facts = { tasks: ["talk", "sound"], stop: null, order: ["talk", "dawn", "sound"], missed: null };
    expect([sentence(orders.orderUnstated, facts), hint(orders.orderUnstated, facts)]).toEqual([
      "nothing says which of talk, sound comes first; the order of the file decided",
      "write `after: [talk]` on sound, or the other way round",
    ]);
    expect(hint(orders.orderUnstated, { ...facts, stop: "wagon.2" })).toBe(
      "write `do: [talk, dawn, sound]` on wagon.2, in the order that is meant",
    );
    const lost = { ...facts, stop: "wagon.2", missed: "sound" };
    expect([sentence(orders.orderUnstated, lost), hint(orders.orderUnstated, lost)]).toEqual([
      "talk, sound do not fit together; the order of the file decided that sound is missed",
      "drop one of them, or give sound another time",
    ]);
  });

  it("one task takes, several take longer than a drive", () => {
    const drive = { tasks: ["write"], takes: 60, from: "a", to: "b", drive: 30 };
    expect(sentence(orders.driveTooShort, drive)).toBe("write takes 1 h; the drive from a to b is planned at 30 min");
    expect(sentence(orders.driveTooShort, { ...drive, tasks: ["write", "cut"] })).toMatch(/^write and cut take 1 h; /u);
  });

  it("no vehicle comes: whoever is there, or a stop more", () => {
    const facts = { activity: "dawn", place: "pier", there: [] };
    expect(hint(basics.placeNotVisited, facts)).toBe("add a stop at `pier` to a run, or say `who` is there");
    expect(hint(basics.placeNotVisited, { ...facts, there: ["odo"] })).toBe(
      "write `who: [odo]`, who are there without one, or add a stop at `pier` to a run",
    );
    const needed = { activity: "dawn", who: "ilse", place: "pier", by: [] };
    expect(hint(basics.cannotAttend, needed)).toBe(
      "bring `ilse` to `pier` with a run or a ride, or take `ilse` out of `who`",
    );
    expect(hint(basics.cannotAttend, { ...needed, by: ["wagon", "truck"] })).toBe(
      "add `ilse` to `aboard` of `wagon` or `truck`, which stops there, or take `ilse` out of `who`",
    );
    expect(sentence(basics.legOpen, { activity: "fill", legs: [] })).toBe("no leg fits fill");
    expect(sentence(basics.legOpen, { activity: "fill", legs: ["wagon.1", "wagon.2"] })).toBe(
      "fill fits the legs from wagon.1, wagon.2",
    );
  });

  it("a stop for nothing is there and back, or on the way", () => {
    const facts = { vehicle: "wagon", place: "pier", back: true };
    expect(sentence(idle.stopIdle, facts)).toBe("wagon drives to pier and back for nothing");
    expect(sentence(idle.stopIdle, { ...facts, back: false })).toBe(
      "wagon stops at pier for nothing, and a road leads past it",
    );
    const keys = { vehicle: "wagon", place: "pier", keys: ["driver"] };
    expect(sentence(idle.departureMissing, keys)).toBe("wagon does not leave pier: `driver` there has no effect");
    expect(sentence(idle.departureMissing, { ...keys, keys: ["driver", "asleep"] })).toBe(
      "wagon does not leave pier: `driver`, `asleep` there have no effect",
    );
    const setUp = { hits: ["early"], place: "inn", setUp: 30, who: ["odo"] };
    expect(sentence(idle.setUpUnplanned, setUp)).toMatch(/^early at inn has no vehicle/u);
    expect(sentence(idle.setUpUnplanned, { ...setUp, hits: ["early", "late"] })).toMatch(
      /^early, late at inn have no vehicle/u,
    );
  });

  it("a hit that is missed asks for minutes, or for the order by time", () => {
    const time = { at: at("08:00") };
    const facts = {
      what: "dawn",
      short: 12,
      start: "a",
      startAt: time,
      neededAt: time,
      bound: "dawn",
      boundAt: time,
      byTime: [],
    };
    expect([sentence(missed.hitMissed, facts), hint(missed.hitMissed, facts)]).toEqual([
      "dawn cannot be made: 12 min short",
      "find 12 min: ask the desk for a later time, begin earlier, or shorten what stands above",
    ]);
    expect(hint(missed.hitMissed, { ...facts, byTime: ["noon", "dawn"] })).toBe(
      "by their times the order of this stop is `do: [noon, dawn]`",
    );
  });
});

describe("logs, outages and other plans", () => {
  it("a log says otherwise than one rule, or than an order of two", () => {
    const facts = { what: "feed", rule: "after", other: null };
    expect(sentence(logs.loggedOtherwise, facts)).toBe("feed went otherwise than its `after` says; the log stands");
    expect(sentence(logs.loggedOtherwise, { ...facts, other: "dawn" })).toBe(
      "feed went otherwise than `after` and dawn say; the log stands",
    );
  });

  it("out of service, with what is lost, who is stranded where, and their gear", () => {
    const facts = {
      ...{ what: "truck", kind: "vehicle" as const, at: { at: at("08:00") }, place: null, lost: [], stranded: [] },
      ...{ where: [], gear: [], road: [] },
    };
    const said = (more: Partial<Parameters<typeof vehicleOutOfService.raise>[0]>) =>
      sentence(vehicleOutOfService, { ...facts, ...more }).replace(/from .*?(?=;|$)/u, "from …");
    expect(said({})).toBe("truck is out of service from …");
    expect(said({ kind: "person" })).toBe("truck is away from …");
    expect(said({ lost: ["dawn", "noon"] })).toBe("truck is out of service from …; lost: dawn, noon");
    expect(said({ stranded: ["bea", "tomas"], where: ["pier", "pier"], gear: ["dish"] })).toBe(
      "truck is out of service from …; bea, tomas stranded at pier, with dish",
    );
    expect(said({ stranded: ["bea"], where: ["pier"], road: ["pier", "lodge"] })).toContain(
      "; bea stranded on the road from pier to lodge",
    );
    expect(said({ stranded: ["bea"], where: ["pier"], road: ["pier"] })).toContain("; bea stranded at pier");
    const hints = [{}, { lost: ["dawn"] }, { stranded: ["bea"], where: ["pier"] }].map((more) =>
      hint(vehicleOutOfService, { ...facts, ...more }),
    );
    expect(hints.map((one) => one !== null)).toEqual([false, true, true]);
  });

  it("booked elsewhere as well, in four plans by name, of more in three", () => {
    const said = (what: readonly string[], count: number) => {
      const facts = { what, others: ["a", "b", "c", "d", "e"].slice(0, count) };
      return [sentence(bookings.bookedTwice, facts), hint(bookings.bookedTwice, facts)?.split(";")[0]];
    };
    expect(said(["wren"], 1)).toEqual(["wren is also booked in a at that time", "take it out of one of the plans"]);
    expect(said(["wren", "wagon"], 4)).toEqual([
      ...["wren, wagon are also booked in a, b, c, d at that time", "take them out of one of the plans"],
    ]);
    expect(said(["wren"], 5)[0]).toBe("wren is also booked in a, b, c and 2 more plans at that time");
  });
});
