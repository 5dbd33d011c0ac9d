/** Days that went wrong where people, vehicles and visits meet; each with what it should say and why. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import type { Day } from "../../src/day/index.ts";
import { presenceOf } from "../../src/day/people/presence.ts";
import { everythingLogged, figures, lastDay, lastOf, linksOf, logging } from "../agreement/days.ts";
import { plansOf } from "../agreement/fixtures.ts";
import { ran } from "../cli/fakeIo.ts";
import { dayOfFile } from "../day/read.ts";
import { clock, clocks } from "./clock.ts";

const folder = "fixtures/cases/together";

const person = (day: Day, who: string) => {
  const found = day.people.find(({ id }) => id === who);
  if (found === undefined) throw new Error(`no ${who}`);
  return found;
};

describe("who gets out of a vehicle", () => {
  it("parks it first, whichever vehicle's set-up the hit is", async () => {
    const day = await dayOfFile(`${folder}/park.yaml`);
    // 11:40 line check; 5 to park, 30 to drive and 15 to load before it, of a car that has no set-up of its own.
    expect(clocks(day, "noon.lineCheck", "car.2.parked", "car.2.arrive", "car.1.leave", "ilse.call")).toEqual([
      "11:40",
      "11:40",
      "11:35",
      "11:05",
      "10:50",
    ]);
    const park = person(day, "ilse").terms.find(({ name }) => name === "park");
    expect([park?.minutes, park?.vehicle]).toEqual([5, "car"]);
  });
});

describe("who sleeps in the berth before and after a stop", () => {
  it("sleeps through parking, fuelling and waiting of others", async () => {
    const day = await dayOfFile(`${folder}/berth.yaml`);
    const spans = person(day, "pia").spans.filter(({ is }) => is === "berth");
    // Two drives of five hours, and between them 5 to park and 20 to fuel: one rest without a minute on duty.
    const total = spans.reduce((sum, { from, to }) => sum + to - from, 0);
    expect(total).toBe(300 + 25 + 300);
    expect(spans.slice(1).map(({ from }) => from)).toEqual(spans.slice(0, -1).map(({ to }) => to));
  });

  it("and so does a team of three, each at the stops that are not theirs", async () => {
    const day = await dayOfFile(`${folder}/team.yaml`);
    for (const [who, stop] of [
      ["pia", "truck.3"],
      ["sven", "truck.4"],
      ["rolf", "truck.2"],
    ] as const) {
      const at = day.instants.get(`${stop}.arrive`);
      const span = person(day, who).spans.find(({ from, to }) => at !== undefined && from <= at && at < to);
      expect([span?.is, who], stop).toEqual(["berth", who]);
    }
  });

  it("in a seat as well: asleep, and no hand for others", async () => {
    const text = (await readCase("berth")).replace(", berth: true", "");
    const day = await dayOfFile(`${folder}/berth.yaml`, text);
    const at = day.instants.get("truck.2.parked");
    const span = person(day, "pia").spans.find(({ from, to }) => at !== undefined && from <= at && at < to);
    expect([span?.is, span?.vehicle]).toEqual(["riding", "truck"]);
    const here = at === undefined ? null : presenceOf(day).personAt("pia", at);
    expect([here?.awake, here?.onDuty]).toEqual([false, true]);
  });
});

async function readCase(name: string): Promise<string> {
  return (await import("node:fs")).readFileSync(`${folder}/${name}.yaml`, "utf8");
}

describe("a vehicle that stops twice at one place", () => {
  it("makes one visit there: nobody drives", async () => {
    const day = await dayOfFile(`${folder}/no-span.yaml`);
    expect(day.moves).toEqual([]);
    for (const move of day.moves) expect(person(day, move.driver).spans.some(({ is }) => is === "driving")).toBe(true);
    // 15:20 London less 10, 10, 30 and 5, and 15 to load.
    expect(clock(day, person(day, "eli").call ?? day.span.from)).toBe("15:10");
  });
});

describe("a task that its vehicle does not wait for", () => {
  it("ends after the vehicle has left, and that can be logged", async () => {
    const links = await linksOf(await plansOf(`${folder}/leaves-early.yaml`));
    const day = lastDay(links);
    const [left = 0, ended = 0] = [day.instants.get("rig.2.leave"), day.instants.get("task1.end")];
    expect(ended - left).toBe(15);
    const logged = lastDay(links, logging(lastOf(links.plans), everythingLogged(day)));
    expect(figures(logged)).toEqual(figures(day));
  });
});

describe("a second call in a day", () => {
  it("has loading before the vehicle rolls, and a chain of its own", async () => {
    const day = await dayOfFile("fixtures/cases/facts/now.yaml");
    // The stand-down ends at 16:00; 15 to load.
    expect(clocks(day, "wren.call.2", "wagon.3.loading", "wagon.3.leave")).toEqual(["16:00", "16:00", "16:15"]);
    expect(clocks(day, "wren.call", "wren.release.1", "wren.release")).toEqual(["04:20", "09:00", "19:13"]);
    const loading = person(day, "wren").terms.filter(({ name }) => name === "loading");
    expect(loading.map(({ minutes }) => minutes)).toEqual([15, 15]);
    const why = day.why("wren.call.2");
    expect([why?.terms.map(({ name, minutes }) => [name, minutes]), why?.fixedBy.where]).toEqual([
      [["free", 420]],
      ["tasks", "free", "window"],
    ]);
    expect(clock(day, day.why("wren.release.1")?.at ?? day.span.from)).toBe("09:00");
  });
});

describe("a line check", () => {
  it("stands before a visit's first hit alone where the path stays the same", async () => {
    const day = await dayOfFile("fixtures/cases/facts/lc.yaml");
    expect(day.activities.map(({ id, lineCheck }) => [id, lineCheck === null])).toEqual([
      ["one", false],
      ["two", true],
    ]);
  });

  it("and before the first on another path, as long as the hit before leaves", async () => {
    const text = (await import("node:fs"))
      .readFileSync("fixtures/cases/facts/lc.yaml", "utf8")
      .replace(
        'two: { at: "10:00", for: 3 min, place: pier, path: dish }',
        "two: { at: TWO, for: 3 min, place: pier, path: cell }",
      )
      .replace("paths:\n", "paths:\n  cell: { kind: cellular }\n");
    const check = async (two: string) => {
      const day = await dayOfFile("fixtures/cases/facts/lc.yaml", text.replace("TWO", two));
      const found = day.activities.find(({ id }) => id === "two");
      return [found?.state, found?.lineCheck && found.lineCheck.to - found.lineCheck.from, day.findings.length];
    };
    // On air to 06:03: ten in position and ten of check fit from 06:23 on; at 06:20 seven are left, at 06:13 none.
    expect(await check('"10:00"')).toEqual(["fixed", 10, 0]);
    expect(await check('"06:23"')).toEqual(["fixed", 10, 0]);
    expect(await check('"06:20"')).toEqual(["fixed", 7, 0]);
    expect(await check('"06:13"')).toEqual(["fixed", null, 0]);
  });
});

describe("plans of one folder", () => {
  const plan = (more: string, text = readFileSync("fixtures/smallest.yaml", "utf8")) => `${text}\n${more}`;
  const others = (who: string) =>
    plan("").replaceAll("wren", who).replaceAll("ilse", `${who}2`).replaceAll("wagon", `${who}car`);
  const check = async (files: Readonly<Record<string, string>>) => {
    const { out } = await ran(["check", ...Object.keys(files), "--json"], { files });
    const plans: readonly { plan: { file: string }; findings: readonly { code: string; message: string }[] }[] =
      JSON.parse(out).plans;
    return plans.map(({ plan: { file }, findings }) => [
      file,
      ...findings.flatMap(({ code, message }) => (/^(booked|date)-twice$/.test(code) ? [message] : [])),
    ]);
  };

  it("that use the same people at the same time say so, each of the other", async () => {
    expect(await check({ "a.yaml": plan(""), "b.yaml": plan("") })).toEqual([
      ["a.yaml", "wren, ilse, wagon are also booked in b.yaml at that time"],
      ["b.yaml", "wren, ilse, wagon are also booked in a.yaml at that time"],
    ]);
    expect(await check({ "a.yaml": plan(""), "b.yaml": others("odo") })).toEqual([["a.yaml"], ["b.yaml"]]);
  });

  // Six plans of one day were 6 · 5 = 30 findings; three of five others are named, and two are left.
  it("that are many say it once each, and name the first few others", async () => {
    const letters = [..."abcdef"];
    const said = await check(Object.fromEntries(letters.map((letter) => [`${letter}.yaml`, plan("")])));
    expect(said.map((one) => one.length)).toEqual([2, 2, 2, 2, 2, 2]);
    expect(said[0]).toEqual([
      "a.yaml",
      "wren, ilse, wagon are also booked in b.yaml, c.yaml, d.yaml and 2 more plans at that time",
    ]);
  });

  it("or on another day say nothing", async () => {
    const later = plan("").replace("2027-01-20", "2027-01-21");
    expect(await check({ "a.yaml": plan(""), "b.yaml": later })).toEqual([["a.yaml"], ["b.yaml"]]);
  });

  it("of one id are versions: one note, and no bookings compared", async () => {
    const said = await check({ "a.yaml": plan("id: storm"), "b.yaml": plan("id: storm") });
    expect(said).toEqual([
      ["a.yaml"],
      ["b.yaml", "`id: storm` is also that of a.yaml: two versions of one plan, whose bookings are not compared"],
    ]);
  });
});
