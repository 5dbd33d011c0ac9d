/**
 * Each kind of edit by itself: a small day for each, on which exactly this is what a crew lead would do. The first repair is
 * expected by hand, with the reason beside it.
 */
import { describe, expect, it } from "vitest";
import { isOpenError } from "../../src/repair/likeness.ts";
import { firstRepair, problemOf } from "./problem.ts";

/**
 * Lodge 06:00 (35 min at `bad` into a firm hit, 15 min of loading, 30 min of set-up, 10 of line check, 10 in position), pier
 * for dawn, dock for noon, lodge. The car stays at the lodge.
 */
const DAY = `daywright: 1
date: 2027-01-20
clock: America/Chicago
zone: America/Chicago
history: { wren: { released: 2027-01-19T17:00-06:00 }, ilse: { released: 2027-01-19T17:00-06:00 }, sam: { released: 2027-01-19T17:00-06:00 } }
crew:
  wren: { role: camera, drives: [wagon, car], slept: lodge, sleeps: lodge }
  ilse: { role: reporter, slept: lodge, sleeps: lodge }
  sam: { role: camera, drives: [wagon, car], slept: lodge, sleeps: lodge }
vehicles: { wagon: { range: 400 km, fuel: 90% }, car: {} }
places:
  lodge: { kind: lodging, mains: true, signal: good }
  pier: { shelter: true, signal: good }
  dock: { shelter: true, signal: good }
roads:
  - { link: [lodge, pier], drive: 30 min, bad: 35 min, km: 40 }
  - { link: [pier, dock], drive: 10 min, bad: 12 min, km: 8 }
  - { link: [dock, lodge], drive: 30 min, bad: 35 min, km: 40 }
hits:
  dawn: { at: "07:00", for: 3 min, place: pier, path: cell, who: [wren, ilse] }
  noon: { at: "12:00", for: 3 min, place: dock, path: cell, who: [wren, ilse] }
tasks:
  pictures: { place: pier, for: 40 min, who: [wren, ilse] }
  lunch: { kind: meal, place: dock, for: 40 min, who: [wren, ilse] }
paths: { cell: { kind: cellular } }
runs:
  wagon: { driver: wren, aboard: [wren, ilse], stops: [lodge, { place: pier, do: [dawn, pictures] }, { place: dock, do: [lunch, noon] }, lodge] }
`;

/** The day with some of its text replaced. */
const day = (...changes: readonly (readonly [from: string, to: string])[]): string =>
  changes.reduce((text, [from, to]) => {
    expect(text).toContain(from);
    return text.replace(from, to);
  }, DAY);

interface Case {
  readonly what: string;
  readonly text: string;
  /** What is wrong, each code once. */
  readonly codes: readonly string[];
  /** `path=value` of the first repair. */
  readonly edits: readonly string[];
}

const CASES: readonly Case[] = [
  {
    // 30 + 12 + 30 min at the wheel against one hour; one leg less is enough, and the last asks for one edit: the first would
    // need wren named again behind it.
    what: "another driver on a move",
    text: day(
      ["roads:", "rules: { wheelDay: 1 h }\nroads:"],
      ["ilse: { role: reporter,", "ilse: { role: reporter, drives: wagon,"],
    ),
    codes: ["driving-too-long"],
    edits: ["runs.wagon.stops[2].driver=ilse"],
  },
  {
    // Released 00:30, called before 06:00; sam, of the same role, has nothing to do and has rested.
    what: "a stand-in of the same role",
    text: day(["wren: { released: 2027-01-19T17:00-06:00 }", "wren: { released: 2027-01-20T00:30-06:00 }"]),
    codes: ["rest-too-short"],
    edits: [
      "runs.wagon.driver=sam",
      "runs.wagon.aboard=[sam, ilse]",
      "hits.dawn.who=[sam, ilse]",
      "hits.noon.who=[sam, ilse]",
      "tasks.pictures.who=[sam, ilse]",
      "tasks.lunch.who=[sam, ilse]",
    ],
  },
  {
    // The cafe opens at 10:00 and the wagon is there at 08:25. Pictures that begin at 09:10 end at 09:50: the drive of 12 min
    // ends at 10:02. The candidate is taken from where the wait of the dock ends less the drive; nothing named is nearer.
    what: "a later task",
    text: day(
      [
        "dock: { shelter: true, signal: good }",
        "dock: { shelter: true, signal: good }\n  cafe: { shelter: true, signal: good, open: [10:00, 15:00] }",
      ],
      [
        "roads:",
        "roads:\n  - { link: [pier, cafe], drive: 10 min, bad: 12 min, km: 8 }\n  - { link: [cafe, dock], drive: 10 min, bad: 12 min, km: 8 }",
      ],
      ["lunch: { kind: meal, place: dock,", "lunch: { kind: meal, place: cafe,"],
      ["{ place: dock, do: [lunch, noon] }", "{ place: cafe, do: [lunch] }, { place: dock, do: [noon] }"],
    ),
    codes: ["place-closed"],
    edits: ['tasks.pictures.window=["09:10", "09:50"]'],
  },
  {
    // Two firm hits 20 min apart at one place leave no ten minutes between them (in position 10).
    what: "a task dropped",
    text: day(
      ["noon: {", 'again: { at: "07:20", for: 3 min, place: pier, path: cell, who: [wren, ilse] }\n  noon: {'],
      ["pictures: { place: pier, for: 40 min,", "pictures: { place: pier, for: 10 min, after: dawn, before: again,"],
      ["do: [dawn, pictures]", "do: [dawn, pictures, again]"],
    ),
    codes: ["task-missed"],
    edits: ["runs.wagon.stops[1].do=[dawn, again]", "tasks.pictures="],
  },
  {
    // From the pier at 08:13 + 12 to the cafe at 08:25. For noon they leave it at 12:00 − 10 in position − 10 line check − 30
    // set-up − 5 parking − 12 on the road = 10:53: of 4 h stay 2 h 28 = 148 min.
    what: "a shorter stay",
    text: day(
      [
        "dock: { shelter: true, signal: good }",
        "dock: { shelter: true, signal: good }\n  cafe: { shelter: true, signal: good }",
      ],
      [
        "roads:",
        "roads:\n  - { link: [pier, cafe], drive: 10 min, bad: 12 min, km: 8 }\n  - { link: [cafe, dock], drive: 10 min, bad: 12 min, km: 8 }",
      ],
      ["{ place: dock, do: [lunch, noon] }", "{ place: cafe, stay: 4 h }, { place: dock, do: [noon, lunch] }"],
    ),
    codes: ["hit-missed"],
    edits: ["runs.wagon.stops[2].stay=148 min"],
  },
  {
    // Pictures from 08:00 on stand before dawn in `do`; behind it they fit, and lunch has a wait of three hours to give.
    what: "another order of `do`",
    text: day(
      ["do: [dawn, pictures]", "do: [pictures, dawn]"],
      ["pictures: { place: pier, for: 40 min,", 'pictures: { place: pier, for: 40 min, window: ["08:00", "10:00"],'],
    ),
    codes: ["task-missed"],
    edits: ["runs.wagon.stops[1].do=[dawn, pictures]"],
  },
  {
    // 35 + 12 min to the dock, then 90 min to the inn against 2 h at the wheel; the lodge is 30 min away. Only wren may drive.
    what: "another lodging",
    text: day(
      ["lodge: { kind: lodging,", "inn: { kind: lodging, mains: true }\n  lodge: { kind: lodging,"],
      ["roads:", "rules: { wheelDay: 2 h }\nroads:\n  - { link: [dock, inn], drive: 90 min, bad: 95 min, km: 100 }"],
      ["{ place: dock, do: [lunch, noon] }, lodge]", "{ place: dock, do: [lunch, noon] }, inn]"],
      ["slept: lodge, sleeps: lodge }\n  ilse", "slept: lodge }\n  ilse"],
      ["ilse: { role: reporter, slept: lodge, sleeps: lodge }", "ilse: { role: reporter, slept: lodge }"],
    ),
    codes: ["driving-too-long"],
    edits: ["runs.wagon.stops[3]=lodge"],
  },
  {
    // No signal at the dock, good signal at the quay a kilometre on.
    what: "another place to park",
    text: day(
      [
        "dock: { shelter: true, signal: good }",
        "dock: { shelter: true, signal: none }\n  quay: { shelter: true, signal: good }",
      ],
      [
        "roads:",
        "roads:\n  - { link: [dock, quay], drive: 3 min, bad: 4 min, km: 1 }\n  - { link: [pier, quay], drive: 10 min, bad: 12 min, km: 8 }\n  - { link: [quay, lodge], drive: 30 min, bad: 35 min, km: 40 }",
      ],
    ),
    codes: ["cellular-signal-none"],
    edits: ["hits.noon.place=quay", "tasks.lunch.place=quay", "runs.wagon.stops[2].place=quay"],
  },
  {
    // The dock has a network of its own, which the plan knows.
    what: "another path",
    text: day(
      ["dock: { shelter: true, signal: good }", "dock: { shelter: true, signal: none }"],
      ["paths: {", "paths: { net: { kind: wifi },"],
    ),
    codes: ["cellular-signal-none"],
    edits: ["hits.noon.path=net"],
  },
  {
    // As before, and the hit names the network as its spare.
    what: "the spare first",
    text: day(
      ["dock: { shelter: true, signal: good }", "dock: { shelter: true, signal: none }"],
      ["paths: {", "paths: { net: { kind: wifi },"],
      ["place: dock, path: cell,", "place: dock, path: cell, spare: net,"],
    ),
    codes: ["cellular-signal-none"],
    edits: ["hits.noon.path=net", "hits.noon.spare=cell"],
  },
  {
    // 98 Wh × 20 % is 19.6 Wh, and 25 % (24.5 Wh) stay in a pack below 0 °C: neither of the two gives anything to the camera.
    // A full pack gives more than 70 Wh, and 40 W for dawn and noon (13 min each) ask for less than 20.
    what: "a pack more",
    text: day([
      "paths:",
      "kit: { camera: { in: wagon, watts: 40, mount: wedge, during: hits } }\npacks: { brick: { count: 2, wh: 98, mount: wedge, charge: 20%, in: wagon } }\nweather: [{ temp: -5 C }]\npaths:",
    ]),
    codes: ["hit-unpowered", "hit-left-out"],
    edits: ["packs.brick.count=3", "packs.brick.charge=[20%, 20%, 100%]"],
  },
  {
    // 10 % of 400 km reach 40 km, and the day has 88: a fill-up at the first stop that helps for all of it.
    what: "a fill-up",
    text: day(["fuel: 90%", "fuel: 10%"]),
    codes: ["fuel-short"],
    edits: [
      "tasks.fuel-lodge={ kind: fuel, place: lodge, for: 15 min, who: [wren] }",
      "runs.wagon.stops[0]={ place: lodge, do: [fuel-lodge] }",
    ],
  },
  {
    // 150 km in the tank, 45 of them reserve, for 200 + 8 + 192 km: one fill-up (300 km, 255 to use) at the lodge is too little
    // for all of it, and none later is in time. The second at the pier would
    // put lunch off by 15 min; at the dock, after noon, it puts off nothing.
    what: "two fill-ups where one is too few",
    text: day(
      ["range: 400 km, fuel: 90%", "range: 300 km, fuel: 50%"],
      [
        "link: [lodge, pier], drive: 30 min, bad: 35 min, km: 40",
        "link: [lodge, pier], drive: 30 min, bad: 35 min, km: 200",
      ],
      [
        "link: [dock, lodge], drive: 30 min, bad: 35 min, km: 40",
        "link: [dock, lodge], drive: 30 min, bad: 35 min, km: 192",
      ],
    ),
    codes: ["fuel-short"],
    edits: [
      "tasks.fuel-lodge={ kind: fuel, place: lodge, for: 15 min, who: [wren] }",
      "runs.wagon.stops[0]={ place: lodge, do: [fuel-lodge] }",
      "tasks.fuel-dock={ kind: fuel, place: dock, for: 15 min, who: [wren] }",
      "runs.wagon.stops[2].do=[lunch, noon, fuel-dock]",
    ],
  },
  {
    // From the pier to the dock is 12 min, and set-up and line check take 40: nothing on the way can be shortened.
    what: "hits that need not be firm, given up last",
    text: day(
      [
        "noon: {",
        'web: { at: "07:25", for: 3 min, place: dock, path: cell, who: [wren, ilse], firm: false }\n  noon: {',
      ],
      ["do: [lunch, noon]", "do: [web, lunch, noon]"],
    ),
    codes: ["hit-missed"],
    edits: ["runs.wagon.stops[2].do=[lunch, noon]", "hits.web="],
  },
  {
    // One slot charges one of two empty packs in the night at the lodge; a second slot is one edit, packs with their charge
    // are two. 300 W for dawn, noon and their 10 min in position ask for more than one pack has.
    what: "a charger slot more",
    text: day([
      "paths:",
      "kit: { camera: { in: wagon, watts: 150, mount: wedge, during: hits } }\npacks: { brick: { count: 2, wh: 98, mount: wedge, charge: 16%, in: wagon } }\nchargers: { bench: { mount: wedge, slots: 1, watts: 15, in: wagon } }\npaths:",
    ]),
    codes: ["hit-unpowered"],
    edits: ["chargers.bench.slots=2"],
  },
  {
    // The camera and the charger have wedge: two packs with wegde are one slip.
    what: "a mount spelled as the rest has it",
    text: day([
      "paths:",
      "kit: { camera: { in: wagon, watts: 40, mount: wedge, during: hits } }\npacks: { brick: { count: 2, wh: 98, mount: wegde, charge: 90%, in: wagon } }\nchargers: { bench: { mount: wedge, slots: 1, watts: 15, in: wagon } }\npaths:",
    ]),
    codes: ["packs-fit-nothing"],
    edits: ["packs.brick.mount=wedge"],
  },
  {
    // The wagon leaves at 05:30 for its set-up of 30 min: ilse, released at 19:40, has 9 h 35 until her call. The car, which
    // sets up nothing, leaves at 06:00: called at 05:45 she has 10 h 05.
    what: "another vehicle that fetches",
    text: day(
      ["ilse: { released: 2027-01-19T17:00-06:00 }", "ilse: { released: 2027-01-19T19:40-06:00 }"],
      [
        "pictures: { place: pier, for: 40 min, who: [wren, ilse] }",
        "pictures: { place: pier, for: 40 min, who: [sam] }",
      ],
      [
        "lunch: { kind: meal, place: dock, for: 40 min, who: [wren, ilse] }",
        "strip: { place: dock, for: 40 min, who: [wren], after: noon }",
      ],
      [
        "do: [lunch, noon] }, lodge] }",
        "do: [noon, strip] }, lodge] }\n  car: { driver: sam, aboard: [sam], stops: [lodge, { place: pier, do: [pictures] }, { place: dock, do: [noon] }, lodge] }",
      ],
    ),
    codes: ["rest-too-short"],
    edits: ["runs.wagon.aboard=[wren]", "runs.car.aboard=[sam, ilse]"],
  },
  {
    // Wren, released at 20:45, may be called from 06:45 on; sam is at the pier anyway and has rested.
    what: "a later call, the hit handed to someone else",
    text: day(
      ["wren: { released: 2027-01-19T17:00-06:00 }", "wren: { released: 2027-01-19T20:45-06:00 }"],
      [
        "pictures: { place: pier, for: 40 min, who: [wren, ilse] }",
        'pictures: { place: pier, for: 40 min, who: [wren], window: ["08:00", "09:00"] }',
      ],
      [
        "wagon: { driver: wren, aboard: [wren, ilse], stops: [lodge, { place: pier, do: [dawn, pictures] }",
        "wagon: { driver: wren, aboard: [wren], stops: [lodge, { place: pier, do: [pictures] }",
      ],
      [
        "lodge] }",
        "lodge] }\n  car: { driver: sam, aboard: [sam, ilse], stops: [lodge, { place: pier, do: [dawn] }, { place: dock, do: [lunch, noon] }, lodge] }",
      ],
    ),
    codes: ["rest-too-short"],
    edits: ["hits.dawn.who=[sam, ilse]"],
  },
];

describe("each kind of edit, where it is the sensible one", () => {
  it("has nothing to do on the sound day", async () => {
    expect((await problemOf(DAY)).problem.now.findings.filter(isOpenError)).toEqual([]);
  });

  it.each(CASES)("$what", { timeout: 120_000 }, async ({ text, codes, edits }) => {
    const found = await firstRepair(text);
    expect([found.codes, found.edits]).toEqual([codes, edits]);
    expect([found.first.left, found.after]).toEqual([0, []]);
  });
});
