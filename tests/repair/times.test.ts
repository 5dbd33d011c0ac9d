/** Edits of when and in which order things are done, on a day of two vehicles: each listed by hand. */
import { describe, expect, it } from "vitest";
import type { Finding } from "../../src/findings/finding.ts";
import {
  freshId,
  leaveCandidates,
  mealCandidates,
  mealsAt,
  orderCandidates,
  placedAt,
  stayCandidates,
  taskTimeCandidates,
} from "../../src/repair/kinds/times.ts";
import { finding } from "./finding.ts";
import { type Change, clock, editsOf, made, posedWith } from "./twoRuns.ts";

const at = (text: string) => ({ at: clock(text) });

describe("a stop's own time", () => {
  it("is taken back, one at a time", async () => {
    expect(await made(leaveCandidates)).toEqual([
      "runs.wagon.stops[0].leave=",
      "runs.wagon.stops[2].arriveBy=",
      "runs.car.stops[0].leave=",
    ]);
    const both: Change = ['arriveBy: "11:00" }', 'arriveBy: "11:00", leave: "12:40" }'];
    expect((await made(leaveCandidates, [], both)).slice(1, 3)).toEqual([
      "runs.wagon.stops[2].leave=",
      "runs.wagon.stops[2].arriveBy=",
    ]);
  });
});

describe("another order", () => {
  it("changes two neighbours, but not two hits that go by time", async () => {
    const pier = "runs.wagon.stops[1].do";
    expect(await made(orderCandidates)).toEqual([
      ...[`${pier}=[pictures, dawn, again]`, `${pier}=[dawn, again, pictures]`],
      "runs.wagon.stops[2].do=[noon, lunch]",
    ]);
    const noPictures: Change = ["do: [dawn, pictures, again]", "do: [pictures, dawn, again]"];
    expect((await made(orderCandidates, [], noPictures))[0]).toBe(`${pier}=[dawn, pictures, again]`);
    expect((await made(orderCandidates, [], noPictures)).length).toBe(2);
  });

  it("is the same at every vehicle that takes part, once", async () => {
    const together = await made(
      orderCandidates,
      [],
      [
        "lunch: { kind: meal, place: dock, for: 40 min, who: [wren, ilse] }",
        "lunch: { kind: meal, place: dock, for: 40 min, who: [wren, ilse, sam, joe] }",
      ],
      [
        '{ place: lodge, leave: "09:00" }, dock,',
        '{ place: lodge, leave: "09:00" }, { place: dock, do: [lunch, noon] },',
      ],
    );
    expect(together.slice(2)).toEqual(["runs.wagon.stops[2].do=[noon, lunch]; runs.car.stops[1].do=[noon, lunch]"]);
    // The car does only lunch there: its own list has no two neighbours to change.
    const alone = await made(
      orderCandidates,
      [],
      [
        "lunch: { kind: meal, place: dock, for: 40 min, who: [wren, ilse] }",
        "lunch: { kind: meal, place: dock, for: 40 min, who: [wren, ilse, sam, joe] }",
      ],
      ['{ place: lodge, leave: "09:00" }, dock,', '{ place: lodge, leave: "09:00" }, { place: dock, do: [lunch] },'],
    );
    expect(alone.slice(2)).toEqual(["runs.wagon.stops[2].do=[noon, lunch]"]);
  });
});

describe("another time of a task", () => {
  const pictures = (from: string, to: string) => `tasks.pictures.window=["${from}", "${to}"]`;
  const lunch = (from: string, to: string) => `tasks.lunch.window=["${from}", "${to}"]`;

  it("touches a wait or what a finding measures, between the hits around it, the nearest first", async () => {
    // Waits 07:43-08:40 and 10:58-11:40; the finding says 08:10 and 10:00. Pictures, now 07:03, fit from 07:03 to 09:00; lunch,
    // now 10:18, from 09:03 to 12:00. Each moment begins or ends the task: 08:10 − 40 min = 07:30, 08:40 − 40 = 08:00,
    // 10:00 − 40 = 09:20, 11:40 − 40 = 11:00.
    const target = { who: "wren", at: clock("10:00"), facts: { from: at("08:10"), minutes: 30_007_500 } };
    const all = [
      ...[
        pictures("07:30", "08:10"),
        pictures("07:43", "08:23"),
        pictures("08:00", "08:40"),
        pictures("08:10", "08:50"),
      ],
      ...[lunch("10:00", "10:40"), lunch("10:58", "11:38"), lunch("11:00", "11:40"), lunch("09:20", "10:00")],
    ];
    expect(await made(taskTimeCandidates, [target])).toEqual(all);
    expect(await made(taskTimeCandidates, [{ ...target, who: null }])).toEqual(all);
    // Sam has nothing to do with these: the waits alone.
    expect(await made(taskTimeCandidates, [{ ...target, who: "sam" }])).toEqual([all[1], all[2], all[5], all[6]]);
  });

  it("may touch the hit before it and the one after it", async () => {
    const times = async (...moments: readonly string[]) =>
      (
        await made(taskTimeCandidates, [
          { who: "ilse", facts: Object.fromEntries(moments.map((one) => [one, at(one)])) },
        ])
      )
        .filter((one) => one.startsWith("tasks.pictures"))
        .map((one) => one.slice(-16, -11));
    // 07:43 and 08:00 are those of the wait. A task from 08:20 ends at 09:00, when again begins; one from 07:02 would begin before
    // dawn has ended.
    expect(await times("08:20")).toEqual(["07:40", "07:43", "08:00", "08:20"]);
    expect(await times("08:21", "07:02")).toEqual(["07:41", "07:43", "08:00"]);
    expect(await times("07:03")).toEqual(["07:43", "08:00"]);
    expect(await times("09:00")).toEqual(["07:43", "08:00", "08:20"]);
    // Six at most, the nearest first.
    expect(await times("07:10", "07:11", "07:12", "07:13", "07:14", "07:15", "07:16")).toEqual([
      "07:10",
      "07:11",
      "07:12",
      "07:13",
      "07:14",
      "07:15",
    ]);
  });

  it("is behind a hit at the first stop, too, and within the series around it", async () => {
    // The first hit is now at the lodge, 04:30-04:33, and nothing is before pictures at the pier: 03:50-04:30 would be.
    const early: Change[] = [
      ['dawn: { at: "07:00", for: 3 min, place: pier', 'dawn: { at: "04:30", for: 3 min, place: lodge'],
      ['{ place: lodge, leave: "05:30" }', '{ place: lodge, do: [dawn], leave: "05:30" }'],
      ["do: [dawn, pictures, again]", "do: [pictures, again]"],
    ];
    const target = { who: "wren", facts: { a: at("03:50"), b: at("04:33") } };
    const found = await made(taskTimeCandidates, [target], ...early);
    const starts = found.filter((one) => one.startsWith("tasks.pictures")).map((one) => one.slice(-16, -11));
    expect(starts).toContain("04:33");
    expect(starts.filter((one) => one < "04:33")).toEqual([]);
  });

  it("of one that is missed is measured from its window", async () => {
    // A window of 30 min before the wagon is there: pictures of 40 min cannot be made in it.
    const missed: Change = [
      "pictures: { place: pier, for: 40 min,",
      'pictures: { place: pier, for: 40 min, window: ["08:30", "08:50"],',
    ];
    const found = await made(taskTimeCandidates, [{ who: "wren", facts: { a: at("08:15"), b: at("08:19") } }], missed);
    // Begins 08:15, 08:19, or ends then: 07:35, 07:39; nearest to 08:30 first. The wait is another one now.
    expect(
      found
        .filter((one) => one.startsWith("tasks.pictures"))
        .filter((one) => /08:1[59]|07:3[59]/u.test(one.slice(0, 30))),
    ).toEqual([
      ...[
        pictures("08:19", "08:59"),
        pictures("08:15", "08:55"),
        pictures("07:39", "08:19"),
        pictures("07:35", "08:15"),
      ],
    ]);
  });
});

describe("shorter", () => {
  const short = (...minutes: readonly number[]) => minutes.map((one): Partial<Finding> => ({ shortMinutes: one }));

  it("by what is missing, and as short as it may be", async () => {
    // 40 − 15 = 25, and 10; of the meal 25 is less than the 30 min of the house.
    expect(await made(stayCandidates, short(15, 15))).toEqual([
      ...["tasks.pictures.for=25 min", "tasks.pictures.for=10 min", "tasks.lunch.for=30 min"],
    ]);
    expect(await made(stayCandidates, [{ facts: { short: 5 } }, { facts: { short: "5" } }])).toEqual([
      ...["tasks.pictures.for=35 min", "tasks.pictures.for=10 min", "tasks.lunch.for=35 min", "tasks.lunch.for=30 min"],
    ]);
    // The three longest.
    expect((await made(stayCandidates, short(1, 2, 3, 4))).slice(0, 4)).toEqual([
      ...[
        "tasks.pictures.for=39 min",
        "tasks.pictures.for=38 min",
        "tasks.pictures.for=37 min",
        "tasks.lunch.for=39 min",
      ],
    ]);
    // Nothing is missing: only as short as may be; nor is anything made longer or cut below ten minutes.
    expect(await made(stayCandidates, short(0, -5))).toEqual(["tasks.pictures.for=10 min", "tasks.lunch.for=30 min"]);
    expect(await made(stayCandidates, short(31))).toEqual(["tasks.pictures.for=10 min", "tasks.lunch.for=30 min"]);
    expect(await made(stayCandidates, short(30))).toEqual(["tasks.pictures.for=10 min", "tasks.lunch.for=30 min"]);
  });

  it("says what the length was", async () => {
    const problem = await posedWith(short(15).map(finding));
    expect(stayCandidates(problem).map(({ length }) => length)).toEqual([
      { was: 40, minutes: 25 },
      { was: 40, minutes: 10 },
      { was: 40, minutes: 30 },
    ]);
  });

  it("no rest, a fill-up not below its 15 min, a stay at a stop to nothing", async () => {
    const tasks = (more: string): Change => ["tasks:\n", `tasks:\n  ${more}\n`];
    const atPier: Change = ["do: [dawn, pictures, again]", "do: [dawn, other, pictures, again]"];
    const other = async (kind: string) =>
      (
        await made(
          stayCandidates,
          short(4),
          tasks(`other: { kind: ${kind}, place: pier, for: 20 min, who: [wren] }`),
          atPier,
        )
      ).filter((one) => one.startsWith("tasks.other"));
    expect(await other("rest")).toEqual([]);
    expect(await other("fuel")).toEqual(["tasks.other.for=16 min", "tasks.other.for=15 min"]);
    expect(await other("work")).toEqual(["tasks.other.for=16 min", "tasks.other.for=10 min"]);
    const stay: Change = [
      '{ place: lodge, leave: "09:00" }, dock,',
      '{ place: lodge, leave: "09:00" }, { place: dock, stay: 60 min },',
    ];
    expect((await made(stayCandidates, short(25), stay)).slice(-2)).toEqual([
      ...["runs.car.stops[1].stay=35 min", "runs.car.stops[1].stay=0 min"],
    ]);
  });

  it("a stand-down, from either end of its window", async () => {
    const down: Change = [
      "tasks:\n",
      'tasks:\n  down: { kind: standdown, place: dock, window: ["10:30", "11:30"], who: [sam, joe] }\n',
    ];
    const there: Change = [
      '{ place: lodge, leave: "09:00" }, dock,',
      '{ place: lodge, leave: "09:00" }, { place: dock, do: [down] },',
    ];
    const found = (await made(stayCandidates, short(20), down, there)).filter((one) => one.startsWith("tasks.down"));
    expect(found).toEqual([
      ...['tasks.down.window=["10:30", "11:10"]', 'tasks.down.window=["10:50", "11:30"]'],
      ...['tasks.down.window=["10:30", "10:40"]', 'tasks.down.window=["11:20", "11:30"]'],
    ]);
  });
});

describe("a meal", () => {
  const eat = (from: string, to: string, place: string, id = "meal") =>
    `tasks.${id}={ kind: meal, place: ${place}, for: 30 min, who: [wren, ilse], window: ["${from}", "${to}"] }`;
  const atPier = (from: string, to: string) =>
    `${eat(from, to, "pier")}; runs.wagon.stops[1].do=[dawn, pictures, meal, again]`;
  // Another place, another meal: both can be made.
  const atDock = (from: string, to: string) =>
    `${eat(from, to, "dock", "meal2")}; runs.wagon.stops[2].do=[lunch, meal2, noon]`;

  it("is in a wait of whoever is hungry, for all who wait there: as suggested, then at either end of each wait", async () => {
    const hungry = { code: "meal-late", who: "wren", facts: { wait: at("07:50"), waitTo: at("08:00") } };
    expect(await made(mealCandidates, [hungry])).toEqual([
      ...[atPier("07:50", "08:20"), atPier("08:00", "08:30"), atPier("07:43", "08:13"), atPier("08:10", "08:40")],
      ...[atDock("10:58", "11:28"), atDock("11:10", "11:40")],
    ]);
    // Suggested at an end of the wait: once. At a time without a wait: not at all.
    expect(
      (await made(mealCandidates, [{ ...hungry, facts: { wait: at("07:43"), waitTo: at("08:11") } }])).length,
    ).toBe(4);
    expect(
      await made(mealCandidates, [
        { ...hungry, who: null },
        { ...hungry, code: "duty-too-long" },
      ]),
    ).toEqual([]);
    // Sam waits nowhere.
    expect(await made(mealCandidates, [{ ...hungry, who: "sam" }])).toEqual([]);
  });

  it("is for all if nobody else is in the crew, and fills a wait of just its length", async () => {
    const two: Change[] = [
      ["  sam: { role: camera, drives: [wagon, car] }\n", ""],
      ["  joe: { role: [reporter, sound] }\n", ""],
      ["  kim: { role: camera }\n", ""],
      ['  car: { driver: sam, aboard: [sam, joe], stops: [{ place: lodge, leave: "09:00" }, dock, inn] }\n', ""],
    ];
    const hungry = finding({ code: "meal-late", who: "wren" });
    const { now, text } = await posedWith([], ...two);
    const said = (...moments: readonly string[]) => {
      const names = ["meal", "supper"];
      const edits = mealsAt(now.day, text, hungry, moments.map(clock), () => names.shift() ?? "");
      return edits === null ? null : editsOf({ edits });
    };
    expect(said("07:43")).toBe(
      `${eat("07:43", "08:13", "pier").replace("[wren, ilse]", "all")}; runs.wagon.stops[1].do=[dawn, pictures, meal, again]`,
    );
    // Two at once: both stand in the one list of the stop, each where it begins.
    const both = `${eat("07:43", "08:13", "pier")}; ${eat("08:10", "08:40", "pier").replace("tasks.meal", "tasks.supper")}`;
    expect(said("07:43", "08:10")).toBe(
      `${both.replaceAll("[wren, ilse]", "all")}; runs.wagon.stops[1].do=[dawn, pictures, meal, supper, again]`,
    );
    expect(said("07:43", "08:11")).toBe(null);
    expect(said("08:11")).toBe(null);
    expect(said("07:42")).toBe(null);
    // 57 min of wait: with meals of 57 min the beginning is the only moment, with 58 there is none at the pier.
    const long = (length: string): Change => ["hits:\n", `rules: { mealFor: ${length} }\nhits:\n`];
    const starts = async (length: string) =>
      (await made(mealCandidates, [hungry], long(length))).map((one) => /window: \["(.*?)"/u.exec(one)?.[1]);
    expect(await starts("57 min")).toEqual(["07:43"]);
    expect(await starts("58 min")).toEqual([]);
  });

  it("has an id of its own", async () => {
    const { now } = await posedWith([]);
    const { plan } = now.day;
    expect(freshId(plan, "meal")).toBe("meal");
    expect(freshId(plan, "meal", ["meal", "meal2"])).toBe("meal3");
    const taken = ["wren", "wagon", "pier", "dawn", "lunch", "tripod", "brick.1", "desk", "cell", "brick"];
    expect(taken.map((id) => freshId(plan, id))).toEqual(taken.map((id) => `${id}2`));
  });

  it("goes behind what begins before it; what has no time comes last", async () => {
    const { day } = (await posedWith([])).now;
    expect(placedAt(day, ["dawn", "again"], "pictures")).toEqual(["dawn", "pictures", "again"]);
    expect(placedAt(day, ["noon"], "pictures")).toEqual(["pictures", "noon"]);
    expect(placedAt(day, ["dawn"], "noon")).toEqual(["dawn", "noon"]);
    expect(placedAt(day, ["dawn", "noon"], "unknown")).toEqual(["dawn", "noon", "unknown"]);
    expect(placedAt(day, ["unknown", "noon"], "dawn")).toEqual(["unknown", "dawn", "noon"]);
  });
});
