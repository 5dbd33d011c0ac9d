/** What the roads say, at the figures at which the words change. */
import { describe, expect, it } from "vitest";
import type { Facts, Finding } from "../../src/findings/finding.ts";
import { plainWording } from "../../src/reports/shared/wording.ts";
import * as roads from "../../src/roads/findings.ts";
import { instant } from "../../src/time/units.ts";

const said = <F extends Facts>(definition: { raise(facts: F): Finding }, facts: F) => {
  const made = definition.raise(facts);
  return [made.sentence(plainWording), made.hint(plainWording)];
};

describe("fuel that is short", () => {
  const short = {
    ...{ vehicle: "wagon", place: "pier", withinKm: 0, leftKm: 40, reserveKm: 60, idleKm: 0, holdsKm: 0 },
    ...{ everyKm: null, full: false, stops: 0 },
  };
  const sentence = (more: Partial<Parameters<typeof roads.fuelShort.raise>[0]>) =>
    said(roads.fuelShort, { ...short, ...more })[0];
  const hint = (more: Partial<Parameters<typeof roads.fuelShort.raise>[0]>) =>
    said(roads.fuelShort, { ...short, ...more })[1];

  it("says what is left, or where it ends, and what idling takes from 1 km on", () => {
    expect(sentence({})).toBe("wagon is down to 40 km of range; 60 km are its reserve");
    expect(sentence({ leftKm: 0 })).toBe("wagon is down to 0 km of range; 60 km are its reserve");
    expect(sentence({ leftKm: -1 })).toBe("wagon runs dry 1 km before it is filled up");
    expect(sentence({ idleKm: 1 })).toBe(
      "wagon is down to 40 km of range; 60 km are its reserve; the engine at stops takes 1 km today",
    );
    expect(sentence({ leftKm: -9, idleKm: 2 })).toBe(
      "wagon runs dry 9 km before it is filled up; the engine at stops takes 2 km today",
    );
  });

  it("says that even the best is not enough", () => {
    expect(sentence({ full: true })).toContain("range, even with a full tank at the start; 60");
    expect(sentence({ stops: 1 })).toContain("range, even with its fuel stop on the road in the best place; 60");
    expect(sentence({ stops: 2, full: true })).toContain(
      "range, even with its 2 fuel stops on the road in the best place and with a full tank at the start; 60",
    );
  });

  it("says where to fill up, from 1 km on", () => {
    const add = "add a task { kind: fuel } at pier";
    expect(hint({})).toBe(add);
    expect(hint({ holdsKm: 1 })).toBe(`${add}: the tank holds 1 km there`);
    expect(hint({ withinKm: 1, holdsKm: 5 })).toBe(`${add}, or on the road within 1 km of it`);
    expect(hint({ everyKm: 340 })).toBe(`${add}, and again after 340 km at most`);
    expect(hint({ withinKm: 7, everyKm: 340 })).toBe(
      `${add}, or on the road within 7 km of it, and again after 340 km at most`,
    );
    expect(hint({ holdsKm: 7, everyKm: 340 })).toBe(
      `${add}: the tank holds 7 km there, and again after 340 km at most`,
    );
  });
});

describe("other words of the roads", () => {
  it("a fuel stop lies within some km, or between two figures, and is planned elsewhere or not", () => {
    const stop = { vehicle: "wagon", stop: "tank", place: "pier", fromKm: 0, toKm: 90, plannedKm: null };
    expect(said(roads.fuelStopPlace, stop)).toEqual([
      "the fuel stop tank of wagon must lie within 90 km of pier",
      null,
    ]);
    expect(said(roads.fuelStopPlace, { ...stop, fromKm: 1, plannedKm: 95 })).toEqual([
      "the fuel stop tank of wagon must lie 1 to 90 km from pier; its time puts it at 95 km",
      "move its time, or give it a stop of its own",
    ]);
  });

  it("one waits, several wait, and may leave later or not", () => {
    const time = { at: instant(30_006_720) };
    const wait = { who: ["wren"], place: "pier", from: time, to: time, minutes: 45, allowed: 30, later: 0 };
    expect(said(roads.waitOutside, wait)[0]).toMatch(/^wren waits outside at pier for 45 min, /u);
    expect(said(roads.waitOutside, { ...wait, who: ["wren", "ilse"] })[0]).toMatch(/^wren, ilse wait outside /u);
    expect(said(roads.waitOutside, wait)[1]).toBe(
      "wait under a roof, or state `places.pier.shelter: true` if pier has one",
    );
    expect(said(roads.waitOutside, { ...wait, later: 1 })[1]).toMatch(/^leave 1 min later, or state /u);
  });

  it("a drive is so many km an hour for its length, stated or straight", () => {
    const drive = {
      from: "a",
      to: "b",
      key: "drive",
      minutes: 30,
      km: 100,
      straight: false,
      straightKm: 90,
      doubt: "fast",
    };
    expect(said(roads.driveImplausible, drive)).toEqual([
      "a to b: 30 min for 100 km is 200 km/h, too fast for a road",
      "correct the time or the length of { link: [a, b] }",
    ]);
    expect(said(roads.driveImplausible, { ...drive, key: "bad", straight: true })).toEqual([
      "a to b: the bad time of 30 min for a straight line of 100 km is 200 km/h, too fast for a road",
      "correct the time of { link: [a, b] }, or the coordinates of its ends",
    ]);
    expect(said(roads.driveImplausible, { ...drive, key: "km", km: 10, straightKm: 23.8, doubt: "short" })).toEqual([
      "a to b: 10 km is shorter than the straight line of 24 km",
      "correct the length of { link: [a, b] }, or the coordinates of its ends",
    ]);
    // No time at all is reckoned as a minute.
    expect(said(roads.driveImplausible, { ...drive, minutes: 0, km: 2 })[0]).toContain("is 120 km/h");
  });

  it("a server's answer is too short, or takes too long for its length or for the least that there is", () => {
    const answer = { from: "a", to: "b", minutes: 2, km: 9.6, straightKm: 20.4, doubt: "short" };
    const road = "the routing server's drive from a to b";
    expect(said(roads.answerImplausible, answer)[0]).toBe(
      `${road} has 10 km, less than the straight line of 20 km; it is estimated`,
    );
    expect(said(roads.answerImplausible, { ...answer, doubt: "fast" })[0]).toBe(
      `${road} takes 2 min for 10 km, too fast for a road; it is estimated`,
    );
    expect(said(roads.answerImplausible, { ...answer, km: null, doubt: "fast" })[0]).toBe(
      `${road} takes 2 min for at least 20 km, too fast for a road; it is estimated`,
    );
    const refused = { url: "u", why: "w", from: "a", to: "b" };
    expect(said(roads.routingRefused, refused)[0]).toBe(
      "the routing server u has no road from a to b: w; it is estimated",
    );
    for (const more of [{ from: null }, { to: null }])
      expect(said(roads.routingRefused, { ...refused, ...more })[0]).toBe(
        "the routing server u refuses: w; roads without a stated time are estimated",
      );
  });
});

describe("a routing server that refuses", () => {
  const sentence = (from: string | null, to: string | null) =>
    said(roads.routingRefused, { url: "http://map:5000", why: "no route", from, to })[0];

  it("is said of the road that it has not, or of all where it is about none", () => {
    expect(sentence("lodge", "pier")).toBe(
      "the routing server http://map:5000 has no road from lodge to pier: no route; it is estimated",
    );
    const all = "the routing server http://map:5000 refuses: no route; roads without a stated time are estimated";
    expect([sentence(null, null), sentence("lodge", null), sentence(null, "pier")]).toEqual([all, all, all]);
  });
});
