/** The demo's days and the edge days, read from their files: what must hold on all of them, and the hand-worked times of each edge. */
import { readdirSync, readFileSync } from "node:fs";
import { beforeAll, describe, expect, it } from "vitest";
import type { Day } from "../../src/day/index.ts";
import { presenceOf } from "../../src/day/people/presence.ts";
import { isoLocal } from "../../src/time/index.ts";
import { gaps } from "./gaps.ts";
import { zoneNamed } from "./parts.ts";
import { dayOfFile } from "./read.ts";

const FILES = ["fixtures/days", "fixtures/edges"].flatMap((folder) =>
  readdirSync(folder)
    .filter((name) => name.endsWith(".yaml") && name !== "assignment.yaml" && !name.startsWith("spoiled"))
    .map((name) => `${folder}/${name}`),
);

const days = new Map<string, Day>();
beforeAll(async () => {
  for (const file of FILES) days.set(file, await dayOfFile(file));
});
const dayIn = (file: string): Day => {
  const day = days.get(file);
  if (day === undefined) throw new Error(`no ${file}`);
  return day;
};

describe.each(FILES)("%s", (file) => {
  it("the chain behind every instant adds up", () => {
    const day = dayIn(file);
    for (const [id, instant] of day.instants) {
      const why = day.why(id);
      const total = why?.terms.reduce((sum, term) => sum + term.minutes, 0);
      expect([why?.at, total], id).toEqual([instant, Math.abs((why?.fixedBy.at ?? 0) - instant)]);
      expect(gaps(why?.terms ?? []), id).toEqual([]);
      const [first, last] = [why?.terms[0], why?.terms.at(-1)];
      const ends = [why?.fixedBy.at ?? 0, instant].sort((one, other) => one - other);
      if (first !== undefined && last !== undefined) expect([first.from, last.to], id).toEqual(ends);
    }
  });

  it("every minute of every person is in exactly one span, and nobody is in two places", () => {
    const day = dayIn(file);
    const presence = presenceOf(day);
    for (const person of day.people) {
      expect(gaps(person.spans), person.id).toEqual([]);
      for (const span of person.spans) {
        if (span.vehicle === null) continue;
        const where = presence.vehicleAt(span.vehicle, span.from);
        expect(
          where?.move?.driver === person.id || where?.move?.riders.includes(person.id),
          `${person.id} ${span.doing}`,
        ).toBe(true);
      }
    }
    for (const move of day.moves) expect(move.arrive - move.leave).toBeGreaterThanOrEqual(move.plannedMinutes);
  });
});

describe("edges, worked by hand", () => {
  const shown = (file: string, zone: string, ...ids: readonly string[]): readonly (string | null)[] =>
    ids.map((id) => {
      const at = dayIn(`fixtures/edges/${file}.yaml`).instants.get(id);
      return at === undefined ? null : isoLocal(at, zoneNamed(zone));
    });

  it("a hit at 23:50 for 20 minutes ends on the next day", () => {
    // 23:50 - 10 - 10 - 30 - 5 - 50 - 15 = 21:50; 00:10 + 10 + 20 + 35 + 10 = 01:25
    expect(shown("past-midnight", "America/Chicago", "wren.call", "late.end", "wren.release")).toEqual([
      "2027-01-20T21:50-06:00",
      "2027-01-21T00:10-06:00",
      "2027-01-21T01:25-06:00",
    ]);
  });

  it("two elapsed hours before 04:00 are 01:00 where the clock goes forward and 02:00 where it goes back", () => {
    expect(shown("clock-forward", "America/Chicago", "wren.call", "dawn.start")).toEqual([
      "2027-03-14T01:00-06:00",
      "2027-03-14T04:00-05:00",
    ]);
    expect(shown("clock-back", "America/Chicago", "wren.call", "dawn.start")).toEqual([
      "2027-11-07T02:00-06:00",
      "2027-11-07T04:00-06:00",
    ]);
    // released 18:00 the evening before: 13 h on the wall, 6 h and 9 h of it across the change
    const rest = (file: string): number => {
      const wren = dayIn(`fixtures/edges/${file}.yaml`).people[0];
      return (wren?.call ?? 0) - (wren?.previousRelease ?? 0);
    };
    expect([rest("clock-forward"), rest("clock-back")]).toEqual([7 * 60, 9 * 60]);
  });

  it("the control room's 07:00 on the 20th is 06:00 on the 21st where the crew is", () => {
    expect(shown("two-dates", "Pacific/Auckland", "dawn.start", "wren.call")).toEqual([
      "2027-01-21T06:00+13:00",
      "2027-01-21T04:00+13:00",
    ]);
    expect(shown("two-dates", "Pacific/Honolulu", "dawn.start")).toEqual(["2027-01-20T07:00-10:00"]);
  });

  it("one person alone raises the dish after the set-up", () => {
    // 07:00 - 10 - 10 - 25 - 30 - 5 - 50 - 15 - 15 (walk-around) = 04:20
    expect(shown("alone-with-dish", "America/Chicago", "tomas.call")).toEqual(["2027-01-20T04:20-06:00"]);
  });

  it("a dish that is only the spare is raised as well: what is not up takes over from nothing", async () => {
    const text = readFileSync("fixtures/edges/alone-with-dish.yaml", "utf8");
    const call = async (paths: string) => {
      const day = await dayOfFile(
        "day.yaml",
        text.replace("path: dish", paths).replace("paths:", "paths:\n  cell: { kind: cellular }"),
      );
      return day.instants.get("tomas.call");
    };
    const [main, spare, none] = [
      await call("path: dish"),
      await call("path: cell, spare: dish"),
      await call("path: cell"),
    ];
    // The same; without it 25 minutes later, as above.
    expect([spare, (none ?? 0) - (main ?? 0)]).toEqual([main, 25]);
  });

  it("forty people are called alike", () => {
    const day = dayIn("fixtures/edges/forty-people.yaml");
    expect(new Set(day.people.map((person) => `${person.call} ${person.release}`)).size).toBe(1);
    expect(day.people).toHaveLength(40);
  });

  it("a person with nothing to do is off from the last release to the day's last", () => {
    const odo = dayIn("fixtures/edges/nothing-to-do.yaml").people[1];
    expect(
      odo?.spans.map((span) => [
        span.is,
        isoLocal(span.from, zoneNamed("America/Chicago")),
        isoLocal(span.to, zoneNamed("America/Chicago")),
      ]),
    ).toEqual([["off", "2027-01-19T18:00-06:00", "2027-01-20T07:18-06:00"]]);
  });

  it("three days without a night are one duty", () => {
    const day = dayIn("fixtures/edges/three-days.yaml");
    expect(day.people.map((person) => person.duties.length)).toEqual([1, 1]);
    expect(day.people[0]?.spans.some((span) => span.is === "berth" && span.vehicle === "truck")).toBe(true);
  });

  it("a week later, within one offset, nothing changes but dates", async () => {
    const file = "fixtures/days/2027-01-19.yaml";
    const later = readFileSync(file, "utf8")
      .replaceAll("2027-01-19", "2027-01-26")
      .replaceAll("2027-01-18", "2027-01-25");
    const [day, moved] = [dayIn(file), await dayOfFile(file, later)];
    expect([...moved.instants].map(([id, at]) => [id, at - 7 * 1440])).toEqual([...day.instants]);
  });
});
