/**
 * Which calendar entry is which, between crews, files and versions of a plan: RFC 5545 sections 3.8.4.7 (UID), 3.8.7.4
 * (SEQUENCE) and 3.8.1.11 (STATUS), by two readers that share no code.
 */
import { readdirSync, readFileSync } from "node:fs";
import ICAL from "ical.js";
import { describe, expect, it } from "vitest";
import { ran } from "../cli/fakeIo.ts";
import { readEvents } from "../render/rfc5545.ts";

const DAYS = new URL("../../fixtures/days/", import.meta.url);
const demo = Object.fromEntries(readdirSync(DAYS).map((name) => [name, readFileSync(new URL(name, DAYS), "utf8")]));

/** Everything that two crews of one story share, an `id` as well, which no day inherits. */
const SHARED = `daywright: 1
id: story
title: The story
clock: America/Chicago
zone: America/Chicago
crew: { wren: { drives: wagon }, ilse: {} }
vehicles: { wagon: {} }
places: { lodge: { kind: lodging }, pier: { shelter: true, at: [46.8, -90.8] }, dock: { shelter: true } }
roads:
  - { link: [lodge, pier], drive: 30 min, bad: 40 min }
  - { link: [pier, dock], drive: 10 min, bad: 12 min }
  - { link: [dock, lodge], drive: 30 min, bad: 40 min }
`;
const crew = (id: string): string => `daywright: 1
uses: shared.yaml
${id}date: 2027-01-20
history: { wren: { released: 2027-01-19T17:00-06:00 }, ilse: { released: 2027-01-19T17:00-06:00 } }
hits: { dawn: { at: "07:00", for: 3 min, place: pier }, noon: { at: "12:00", for: 3 min, place: dock } }
tasks: { lunch: { kind: meal, place: dock, for: 40 min, who: all } }
runs: { wagon: { driver: wren, aboard: [wren, ilse], stops: [lodge, { place: pier, do: [dawn] }, { place: dock, do: [noon, lunch] }, lodge] } }
`;

/** A calendar as both readers see it, which must be the same. */
async function calendar(name: string, files: Readonly<Record<string, string>>, ...more: readonly string[]) {
  const { out } = await ran(["sheet", name, "--format", "ics", ...more], { files });
  const events = readEvents(out);
  const others = new ICAL.Component(ICAL.parse(out)).getAllSubcomponents("vevent").map((component) => {
    const event = new ICAL.Event(component);
    const value = (key: string): string | null => component.getFirstPropertyValue(key)?.toString() ?? null;
    const compact = (text: string | null): string | null => text?.replace(/[-:]/gu, "") ?? null;
    return {
      uid: event.uid,
      sequence: event.sequence,
      stamp: compact(value("dtstamp")),
      modified: compact(value("last-modified")),
      start: compact(event.startDate.toString()),
      end: component.getFirstPropertyValue("dtend") === null ? null : compact(event.endDate.toString()),
      summary: event.summary,
      status: value("status"),
      category: value("categories"),
      transparent: value("transp") === "TRANSPARENT",
      position: value("geo")?.split(",").map(Number) ?? null,
    };
  });
  expect(others).toEqual(events);
  return events;
}

const uids = (events: Awaited<ReturnType<typeof calendar>>): readonly string[] => events.map(({ uid }) => uid);

describe("identity of calendar entries", () => {
  const files = {
    "shared.yaml": SHARED,
    "north.yaml": crew("id: north-20\n"),
    "south.yaml": crew("id: south-20\n"),
    "renamed.yaml": crew("id: north-20\n"),
  };

  it("two crews that share a file, people and vehicle share no id", async () => {
    const [north, south] = [await calendar("north.yaml", files), await calendar("south.yaml", files)];
    // 2 calls, 2 releases, 2 hits, 1 meal, 3 drives: the very same day, of two crews.
    expect([north.length, south.length]).toEqual([10, 10]);
    expect(north.map(({ summary, start }) => [summary, start])).toEqual(
      south.map(({ summary, start }) => [summary, start]),
    );
    expect(new Set([...uids(north), ...uids(south)]).size).toBe(20);
  });

  it("a renamed file keeps its ids, with an id and without one", async () => {
    expect(uids(await calendar("renamed.yaml", files))).toEqual(uids(await calendar("north.yaml", files)));
    const plain = { "shared.yaml": SHARED, "a.yaml": crew(""), "b.yaml": crew("") };
    expect(uids(await calendar("a.yaml", plain))).toEqual(uids(await calendar("b.yaml", plain)));
    // Another day of the same title has others.
    const next = { ...plain, "b.yaml": crew("").replaceAll("2027-01-20", "2027-01-21") };
    const first = uids(await calendar("a.yaml", next));
    expect(uids(await calendar("b.yaml", next)).filter((uid) => first.includes(uid))).toEqual([]);
  });

  it("an id in the shared file is nobody's: the day falls back on title, date and clock", async () => {
    const other = { "shared.yaml": SHARED.replace("id: story\n", ""), "a.yaml": crew("") };
    const shared = { "shared.yaml": SHARED, "a.yaml": crew("") };
    expect(uids(await calendar("a.yaml", other))).toEqual(uids(await calendar("a.yaml", shared)));
  });

  it("a dropped stop cancels its drive and what was done there, and changes no other entry", async () => {
    // The pier goes: its hit, the drives to it and from it; the drive from the lodge to the dock is new.
    const text = crew("id: north-20\n")
      .replace('dawn: { at: "07:00", for: 3 min, place: pier }, ', "")
      .replace("{ place: pier, do: [dawn] }, ", "");
    const changed = { ...files, "new.yaml": `${text}revision: 1\n` };
    const [old, now] = [
      await calendar("north.yaml", changed),
      await calendar("new.yaml", changed, "--since", "north.yaml"),
    ];
    const of = (uid: string) => now.find((event) => event.uid === uid);
    expect(old.map(({ uid }) => of(uid) === undefined)).not.toContain(true);
    expect(
      now
        .filter(({ status }) => status === "CANCELLED")
        .map(({ summary }) => summary)
        .toSorted(),
    ).toEqual(["Drive: wagon, lodge to pier", "Drive: wagon, pier to dock", "Hit: dawn"]);
    expect(now.filter(({ uid }) => !uids(old).includes(uid)).map(({ summary }) => summary)).toEqual([
      "Drive: wagon, lodge to dock",
    ]);
    // Calls are later by the day's own working, which keeps their ids; noon, lunch and the way home are untouched.
    for (const summary of [
      "Hit: noon",
      "Meal: lunch",
      "Drive: wagon, dock to lodge",
      "Release: wren",
      "Release: ilse",
    ]) {
      const own = old.find((event) => event.summary === summary);
      const { sequence: _, stamp: __, modified: ___, ...same } = own ?? { sequence: 0, stamp: "", modified: "" };
      expect(of(own?.uid ?? "")).toMatchObject(same);
    }
  });

  it("counts SEQUENCE on where the revision was forgotten, and says so", async () => {
    const demoFiles = { ...demo, "old.yaml": demo["2027-01-20.yaml"] ?? "" };
    const moved = {
      ...demoFiles,
      "2027-01-20.yaml": (demo["2027-01-20.yaml"] ?? "").replace('"12:30 CT"', '"12:45 CT"'),
    };
    const { err } = await ran(["sheet", "2027-01-20.yaml", "-f", "ics", "--since", "old.yaml"], { files: moved });
    expect(err).toContain("revision not raised since the older plan: the calendar counts as revision 3");
    const events = await calendar("2027-01-20.yaml", moved, "--since", "old.yaml");
    expect(new Set(events.map(({ sequence }) => sequence))).toEqual(new Set([3]));
    const raised = { ...moved, "2027-01-20.yaml": moved["2027-01-20.yaml"].replace("revision: 2", "revision: 7") };
    expect((await calendar("2027-01-20.yaml", raised, "--since", "old.yaml"))[0]?.sequence).toBe(7);
  });

  it("each of the demo's days is read alike by both: position, kind, show in the title, releases keep nobody busy", async () => {
    for (const name of ["2027-01-19.yaml", "2027-01-20.yaml", "2027-01-21.yaml"]) {
      const events = await calendar(name, demo, "--now", `${name.slice(0, 10)}T04:00-06:00`);
      // 04:00 CT is 10:00 UTC.
      const stamp = `${name.slice(0, 10).replaceAll("-", "")}T100000Z`;
      expect(new Set(events.flatMap((event) => [event.stamp, event.modified]))).toEqual(new Set([stamp]));
      for (const event of events) {
        expect(event.transparent).toBe(event.category === "Release");
        expect(event.position).not.toBeNull();
      }
      expect(new Set(events.map(({ category }) => category))).toEqual(
        new Set([
          "Call",
          "Drive",
          "Hit",
          "Meal",
          "Release",
          ...(name === "2027-01-20.yaml" ? ["Task", "Feed"] : []),
          ...events.flatMap(({ category }) => (category === "Packs" ? ["Packs"] : [])),
        ]),
      );
    }
    const day = await calendar("2027-01-20.yaml", demo);
    expect(day.filter(({ category }) => category === "Hit").map(({ summary }) => summary)).toEqual([
      "Hit: dawn.1 (morning)",
      "Hit: dawn.2 (morning)",
      "Hit: dawn.3 (morning)",
      "Hit: dawn.4 (morning)",
      "Hit: noon (midday)",
      "Hit: evening (evening)",
    ]);
  });
});
