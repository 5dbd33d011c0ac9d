/**
 * Neighbours of pack-work-in-rest: a driver of a commercial vehicle is left ten hours in a row off duty (49 CFR 395.3(a)(1),
 * 395.2) whatever his packs need, wherever they are, on whatever night; who else is there takes the work.
 */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { type Judged, judge, makeReport, readPlan, solveDay } from "../../src/index.ts";
import { plainWording } from "../../src/reports/shared/wording.ts";
import { type Instant, instant } from "../../src/time/units.ts";
import { choresInSpans, choresWhereDone, movesTogether, powerOf } from "../agreement/packLaws.ts";

const CASE = readFileSync("fixtures/cases/together/pack-work-in-rest.yaml", "utf8");
type Pairs = readonly (readonly [string, string])[];
const changedIn = (plan: string, pairs: Pairs): string =>
  pairs.reduce((text, [from, to]) => {
    if (!text.includes(from)) throw new Error(`nothing says ${from}`);
    return text.replace(from, to);
  }, plan);
const changed = (...pairs: Pairs): string => changedIn(CASE, pairs);

async function judged(text: string, before: string | null = null, now: Instant | null = null): Promise<Judged> {
  const read = () =>
    before === null ? ({ kind: "missing", near: [] } as const) : ({ kind: "text", text: before } as const);
  const reading = await readPlan(text, { file: "day.yaml", files: { read } });
  if (!reading.ok) throw new Error(reading.findings.map(({ code, span }) => `${code} ${span?.line}`).join());
  const made = await solveDay(reading, { now });
  if (!made.ok) throw new Error(made.findings.map(({ code }) => code).join());
  return judge(made, { topics: ["power", "hours"] });
}

/** The longest stretch off duty of each person before a call, minutes. */
const longestOff = ({ day }: Judged, who: string): number => {
  const person = day.people.find(({ id }) => id === who);
  const off = (person?.spans ?? []).filter(({ is, to }) => is === "off" && to <= (person?.duties.at(-1)?.call ?? 0));
  return Math.max(0, ...off.map(({ from, to }) => to - from));
};

/** Central Standard Time is six hours behind UTC. */
const isoText = (at: Instant | undefined): string =>
  `${new Date(((at ?? 0) - 360) * 60_000).toISOString().slice(0, 16)}-06:00`;

const FORTY = Array.from({ length: 39 }, (_, n) => `  p${n}: { slept: lodge, sleeps: lodge }`).join("\n");
const RELEASED = "2027-01-19T17:40-06:00";
const TOMAS = "  tomas: { role: engineer, drives: [truck] }\n";
const DOWN = `tasks: { down: { kind: standdown, place: lodge, window: ["08:30", "19:30"] } }
`;

const NEIGHBOURS: readonly (readonly [string, string])[] = [
  ["the case itself, one person", CASE],
  [
    "packs in another vehicle",
    changed(
      ["drives: [truck]", "drives: [truck, van]"],
      ["places:", "  van: { inverter: 2000 W }\nplaces:"],
      ["charge: 5%, in: truck", "charge: 5%, in: van"],
      ["watts: 20, in: truck", "watts: 20, in: van"],
      ["  truck: [lodge, pier, lodge]", "  truck: { driver: tomas, stops: [lodge, pier, lodge] }"],
    ),
  ],
  // Called before midnight for a hit after it.
  ["midnight", changed([RELEASED, "2027-01-19T12:20-06:00"], ['at: "06:00"', 'at: "00:40"'])],
  [
    "the clocks going forward: an hour less than they show",
    changed(["2027-01-20", "2027-03-14"], [RELEASED, "2027-03-13T16:40-06:00"]),
  ],
  [
    "the clocks going back: an hour more than they show",
    changed(["2027-01-20", "2027-11-07"], [RELEASED, "2027-11-06T18:40-05:00"]),
  ],
  ["forty people", changed([TOMAS, `${TOMAS}${FORTY}\n`], ["truck: { gross", "truck: { seats: 41, gross"])],
  [
    "the other order of entries",
    CASE.split(/^(?=\w)/mu)
      .toReversed()
      .join(""),
  ],
  [
    "others awake, no hands stated",
    changed([TOMAS, `${TOMAS}  ilse: { slept: lodge, sleeps: lodge }\n`], [", hands: [tomas]", ""]),
  ],
  [
    "a second call",
    changed(
      [
        'dawn: { at: "06:00", for: 3 min, place: pier }',
        'dawn: { at: "06:00", for: 3 min, place: pier }\n  dusk: { at: "21:10", for: 3 min, place: pier }',
      ],
      ["kit:", `${DOWN}kit:`],
      [
        "  truck: [lodge, pier, lodge]",
        "  truck: [lodge, { place: pier, do: [dawn] }, { place: lodge, do: [down] }, { place: pier, do: [dusk] }, lodge]",
      ],
    ),
  ],
  [
    "a berth in the vehicle with the charger",
    changed(["inverter: 2000 W", "inverter: 2000 W, berth: true, inside: 15 C"]),
  ],
];

/**
 * Two loads of 60 W from 05:40 (warm-up) to 06:13 (end of clear) take 33 Wh of each of two packs that hold 4.9 Wh and keep
 * 14.7 Wh, so that each needs some 43 Wh, 2 h 9 min of the one slot of 20 W. From the call at 03:45 to 05:38 are 1 h 53 min:
 * the pack that charges then must have had 16 min in the evening, and somebody takes it out for the other one, at 17:58 at the
 * earliest. That is more than 15 min after the release at 17:40, and leaves tomas 9 h 47 min before his call at 03:45.
 */
const TWO_LOADS = changed(
  [
    "  camera: { in: truck, watts: 38, mount: wedge, during: hits }",
    "  camera: { in: truck, watts: 60, mount: wedge, during: hits }\n  lamp: { in: truck, watts: 60, mount: wedge, during: hits }",
  ],
  ["count: 3", "count: 2"],
  [", hands: [tomas]", ""],
  ["places:", "rules: { turnaround: 7 h }\nplaces:"],
);
/** Released when tomas is, so that a change in the evening costs both as much, and after him in the plan; called at 10:00. */
const WITH_ILSE = [
  [TOMAS, `${TOMAS}  ilse: { role: reporter, drives: [car], slept: lodge, sleeps: lodge }\n`],
  ["history: { ", "history: { ilse: { released: 2027-01-19T17:40-06:00 }, "],
  ["  truck: { gross", "  car: {}\n  truck: { gross"],
  ["place: pier }", 'place: pier, who: [tomas] }\n  noon: { at: "12:00", for: 3 min, place: pier, who: [ilse] }'],
  ["during: hits }\n  lamp", "during: [dawn] }\n  lamp"],
  ["during: hits }\npacks", "during: [dawn] }\npacks"],
  [
    "  truck: [lodge, pier, lodge]",
    "  truck: { driver: tomas, stops: [lodge, { place: pier, do: [dawn] }, lodge] }\n  car: { driver: ilse, stops: [lodge, { place: pier, do: [noon] }, lodge] }",
  ],
] as const;

describe("a driver's ten hours off duty stand before his packs", () => {
  it.each(NEIGHBOURS)("%s", async (_, text) => {
    const one = await judged(text);
    choresInSpans(one);
    choresWhereDone(one);
    movesTogether(one);
    expect(longestOff(one, "tomas")).toBeGreaterThanOrEqual(600);
    expect(one.findings.filter(({ code, law }) => law && code === "rest-too-short")).toEqual([]);
  });

  it("over two days, by the release that the first has with its chores", async () => {
    // The day before: out for a hit at 15:55 and back at the lodge; released about 17:40 as in the case.
    const before = changed(
      ["2027-01-20", "2027-01-19"],
      [RELEASED, "2027-01-18T17:40-06:00"],
      ['at: "06:00"', 'at: "15:55"'],
    );
    const after = changed(["history: { tomas: { released: 2027-01-19T17:40-06:00 } }\n", "follows: first.yaml\n"]);
    const one = await judged(after, before);
    choresInSpans(one);
    expect(longestOff(one, "tomas")).toBeGreaterThanOrEqual(600);
  });

  it("leaves a hit without power where only a change in the night would cover it", async () => {
    const one = await judged(TWO_LOADS);
    expect(longestOff(one, "tomas")).toBeGreaterThanOrEqual(600);
    const short = one.findings.filter(({ code }) => code === "hit-unpowered");
    expect(short).toHaveLength(1);
    expect(one.day.people.flatMap(({ chores }) => chores)).toEqual([]);
  });

  it("gives the change in the night to the one whose rest is long enough", async () => {
    const one = await judged(changedIn(TWO_LOADS, WITH_ILSE));
    choresInSpans(one);
    choresWhereDone(one);
    movesTogether(one);
    expect(one.findings.filter(({ code }) => code === "hit-unpowered")).toEqual([]);
    expect(longestOff(one, "tomas")).toBeGreaterThanOrEqual(600);
    const night = one.day.people.flatMap(({ chores }) => chores).filter(({ apart }) => apart);
    expect([...new Set(night.map(({ who }) => who))]).toEqual(["ilse"]);
  });

  it("has it in the table of `calls`, in nobody's call", async () => {
    const one = await judged(changedIn(TWO_LOADS, WITH_ILSE));
    const { blocks } = await makeReport("calls", one);
    const rows = blocks.flatMap((block) =>
      block.kind === "table" && block.title === "Pack moves apart from the calls" ? block.rows : [],
    );
    const [night] = one.day.people.flatMap(({ chores }) => chores).filter(({ apart }) => apart);
    expect(rows.map((row) => row.map(({ raw }) => raw))).toEqual([
      ["ilse", isoText(night?.from), isoText(night?.to), "lodge"],
    ]);
    // Without somebody who works at night there is no such table.
    const alone = (await makeReport("calls", await judged(CASE))).blocks;
    expect(alone.filter((block) => block.kind === "table" && block.title?.startsWith("Pack"))).toEqual([]);
  });

  it("asks no one for a change at a moment that is past", async () => {
    // At dawn each of two packs gives 90 W for 33 min, and one slot of 12 W must have charged both: a change in the night.
    const shared = `daywright: 1
date: 2027-01-20
clock: America/Chicago
zone: America/Chicago
history: { wren: { released: 2027-01-19T17:40-06:00 } }
crew: { wren: { role: camera, drives: wagon, slept: lodge, sleeps: lodge, inBed: ["20:00 -1d", "05:00"] } }
vehicles: { wagon: { inverter: 500 W } }
places: { lodge: { kind: lodging, mains: true, signal: good }, pier: { signal: good, shelter: true } }
roads: [{ link: [lodge, pier], drive: 30 min, bad: 40 min }]
kit:
  camera: { in: wagon, watts: 90, mount: wedge, during: hits }
  lamp: { in: wagon, watts: 90, mount: wedge, during: hits }
packs: { brick: { count: 2, wh: 98, mount: wedge, charge: 5%, in: wagon } }
chargers: { bench: { mount: wedge, slots: 1, watts: 12, in: lodge } }
hits: { dawn: { at: "07:00", for: 3 min, place: pier, path: cell } }
paths: { cell: { kind: cellular } }
runs: { wagon: [lodge, pier, lodge] }
`;
    for (const clock of ["19T18:00", "19T23:20", "20T01:00"]) {
      const now = instant(Date.parse(`2027-01-${clock}-06:00`) / 60_000);
      const cures = powerOf(await judged(shared, null, now)).missing?.cures ?? [];
      const moments = cures.flatMap(({ at }) => at ?? []);
      expect([clock, moments.length > 0]).toEqual([clock, true]);
      expect(Math.min(...moments)).toBeGreaterThanOrEqual(now);
    }
  });
});

/**
 * Two loads of 60 W from 19:40 to 20:50 take 70 Wh of each of two packs at 15 %, and the one slot of 30 W gives 70 Wh in less than
 * three hours of the eight that the truck drives: the packs change places on the road, where tomas is at the wheel.
 */
const TEAM = (asleep: string) => `daywright: 1
date: 2027-01-20
clock: America/Chicago
zone: America/Chicago
places: { lodge: { kind: lodging }, pier: { kind: lodging } }
roads: [{ link: [lodge, pier], drive: 8 h, bad: 8 h }]
crew:
  tomas: { drives: [truck], slept: lodge, sleeps: pier }
  ilse: { slept: lodge, sleeps: pier }
history: { tomas: { released: 2027-01-19T14:00-06:00 }, ilse: { released: 2027-01-19T14:00-06:00 } }
vehicles: { truck: { gross: 16000 lb, rules: us-property, week: 70/8, berth: true, inverter: 300 W, inside: 18 C } }
hits: { dusk: { at: "20:00", for: 40 min, place: pier } }
kit:
  camera: { in: truck, watts: 60, mount: wedge, during: hits }
  lamp: { in: truck, watts: 60, mount: wedge, during: hits }
packs: { brick: { count: 2, wh: 98, mount: wedge, charge: 15%, in: truck } }
chargers: { bench: { mount: wedge, slots: 1, watts: 30, in: truck } }
runs:
  truck:
    aboard: [tomas, ilse]
    stops: [{ place: lodge, driver: tomas, asleep: [${asleep}] }, { place: pier, do: [dusk] }]
`;

describe("packs that only somebody asleep aboard could change", () => {
  it("leave the hit without power, and the reason names who sleeps", async () => {
    const [short] = (await judged(TEAM("ilse"))).findings.filter(({ code }) => code === "hit-unpowered");
    expect(short?.sentence(plainWording)).toBe(
      "dusk cannot be powered (camera, lamp): only ilse, asleep aboard then, could make the swaps that it needs",
    );
  });

  it("are changed by the same who is awake", async () => {
    const one = await judged(TEAM(""));
    expect(one.findings.filter(({ code }) => code === "hit-unpowered")).toEqual([]);
    expect(new Set(one.day.people.flatMap(({ chores }) => chores.map(({ who }) => who)))).toContain("ilse");
  });
});
